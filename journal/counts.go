package journal

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// classWords is the classes of a count.
var classWords = []Word{
	{Name: "females", Form: FormWhole, Example: "4", About: "grown females", Also: []string{"female", "f"}},
	{Name: "males", Form: FormWhole, Example: "3", About: "grown males", Also: []string{"male", "m"}},
	{Name: "juveniles", Form: FormWhole, Example: "2", About: "young that cannot be sexed yet", Also: []string{"juvenile", "young", "shrimplets", "shrimplet", "babies", "baby", "fry"}},
	{Name: "unsexed", Form: FormWhole, Example: "1", About: "grown, but not sexed", Also: []string{"unknown", "adults", "adult", "grown", "others"}},
}

// readWho reads a count: a whole number, a mapping of classes, or a list of names where the form allows it.
func (c *cell) readWho() bool {
	word := c.found.word
	if _, isList := c.items(c.node); isList {
		if word.Form != FormWho {
			return c.wrong("not-a-count", "it takes a number of shrimp", word.forExample())
		}
		good := c.readNameList()
		c.found.count = Count{Total: len(c.found.words)}
		return good
	}
	if children, ok := c.children(c.node); ok {
		return c.readClasses(children)
	}
	if !c.isSingle {
		return c.wrong("not-a-count", "it takes a number of shrimp", word.forExample())
	}
	number, problem := c.wholeOf(c.single.text)
	if problem.code != "" {
		c.fail(c.found.at, c.countProblem(problem).of(word, c.single.text))
		return false
	}
	c.found.count = Count{Total: number}
	return true
}

// countProblem adds what a count may be.
func (c *cell) countProblem(problem issue) issue {
	text := strings.TrimSpace(c.single.text)
	if problem.code != "not-a-whole-number" {
		return problem
	}
	word := c.found.word
	problem.hint = or(classesHint(word.Name, text), problem.hint)
	problem.code = "not-a-count"
	problem.message = "it takes a number of shrimp, or classes in braces"
	if word.Form == FormWho {
		problem.message = "it takes a number of shrimp, classes in braces, or a list of names"
		if slices.Contains([]string{"yes", "true", "one", "a"}, strings.ToLower(text)) {
			problem.hint = "write " + word.Name + ": 1"
		}
		if problem.hint == "" || several(text) != nil {
			problem.hint = or(namesHint(word.Name, text), problem.hint)
		}
		problem.hint = or(problem.hint, "for example: "+word.Name+": 1, or with names "+word.Name+": [ruby, pearl]")
	}
	problem.hint = or(problem.hint, word.forExample())
	return problem
}

// digitsOnly finds the digits in a text.
var digitsOnly = regexp.MustCompile(`\d+`)

// readClasses reads the mapping form of a count.
func (c *cell) readClasses(children []child) bool {
	before := len(c.problems)
	inner := *c.context
	inner.owner, inner.kind = quote(c.found.word.Name), nil
	found := c.readMapping(children, classWords, &inner)
	count := Count{
		Sorted:    true,
		Females:   found.whole("females"),
		Males:     found.whole("males"),
		Juveniles: found.whole("juveniles"),
		Unsexed:   found.whole("unsexed"),
	}
	count.Total = count.Females.Value + count.Males.Value + count.Juveniles.Value + count.Unsexed.Value
	c.found.count = count
	if len(found.list) == 0 && len(c.problems) == before {
		return c.wrong("not-a-count", "it names no class", "for example: "+c.found.word.Name+": {females: 4, males: 3}")
	}
	return len(c.problems) == before
}

// readGrades reads counts on the journal's own scale.
func (c *cell) readGrades() bool {
	children, ok := c.children(c.node)
	if !ok {
		return c.wrong("not-a-mapping", "it takes grades with counts",
			c.found.word.forExample())
	}
	if c.context.settings == nil {
		return false
	}
	grades := c.context.settings.Grades
	if len(grades) == 0 {
		c.fail(c.found.key, issue{code: "no-grades",
			message: `"graded" needs the journal's own scale; journal.yaml has no "grades"`,
			hint:    "add to journal.yaml, worst first: grades: [" + strings.Join(namesOf(children), ", ") + "]"})
		return false
	}
	before := len(c.problems)
	c.found.counts = make([]int, len(grades))
	for _, child := range children {
		if child.torn != "" {
			c.tornApart(child, numberHint(child.torn))
			continue
		}
		c.readGrade(grades, child)
	}
	return len(c.problems) == before
}

func (c *cell) readGrade(grades []string, written child) {
	single, ok := scalarOf(written.value)
	for i, grade := range grades {
		if grade != written.name {
			continue
		}
		at := c.at(startOf(written.value))
		number, problem := c.wholeOf(single.text)
		if !ok || problem.code != "" {
			c.fail(at, issue{code: "not-a-whole-number",
				message: fmt.Sprintf("%s is %s; it takes a whole number", quote(grade), quote(single.text)),
				hint:    problem.hint})
			return
		}
		c.found.counts[i] = number
		return
	}
	c.fail(c.at(written.key), unknown{code: "unknown-grade", what: "grade", written: written.name, nearest: equallyNear(written.name, grades), known: grades}.issue())
}

// namesOf lists the keys of a mapping.
func namesOf(children []child) []string {
	var all []string
	for _, c := range children {
		all = append(all, c.name)
	}
	return all
}
