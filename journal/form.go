package journal

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

// A YAML parser tells what it expected and where it gave up, which is often a line or two below the slip, in words that
// no keeper knows. When it gives up, these look at the lines themselves for the slips that hands make.

// badForm reports the slips of form in YAML that could not be parsed, and whether there were any.
func (p *page) badForm(source []byte) bool {
	before := len(p.problems)
	lines := strings.Split(string(source), "\n")
	for i, line := range lines {
		p.badLine(line, i+1+p.before)
	}
	if len(p.problems) == before && p.path != SettingsFile {
		p.badIndents(lines)
	}
	return len(p.problems) > before
}

var (
	// looseFence is a line that was meant to end the front matter.
	looseFence = regexp.MustCompile(`^\s*(?:-{2}|-{4,}|[–—-]*[–—][–—-]*|-+ [- ]*-)\s*$`)
	// looseHyphen is a list mark that YAML does not take for one.
	looseHyphen = regexp.MustCompile(`^( *)([–—−•‣·*+] *|-)([a-z][a-z-]*) ?:`)
	// noColon is a key and a value with nothing but a space between: an event, or a single word.
	noColon = regexp.MustCompile(`^ *(?:- +[a-z-]+ [^:]+|[a-z-]+ [^ :]+)$`)
	// looseColon is a key whose colon is missing, another mark, or without its space.
	looseColon = regexp.MustCompile(`^( *(?:- +)?)([a-z][a-z-]*)( *[：=] *|:| *)([\[{]|.)`)
)

// badLine reports what is wrong with a line by itself.
func (p *page) badLine(line string, number int) {
	if m := looseHyphen.FindStringSubmatch(line); m != nil && formWord(m[3]) {
		p.fail(p.place(number, 1+len(m[1])),
			issue{code: "yaml-syntax", message: "an event begins with a hyphen and a space; here stands " + quote(strings.TrimSpace(m[2])+m[3]),
				hint: "write - " + m[3] + ":"})
		return
	}
	if m := looseColon.FindStringSubmatch(line); m != nil && formWord(m[2]) && (isLooseColon(m[3], m[4]) || noColon.MatchString(line)) {
		p.fail(p.place(number, 1+len(m[1])),
			issue{code: "yaml-syntax", message: "behind " + quote(m[2]) + " stands no colon with a space",
				hint: "write " + m[2] + ": and the value"})
		return
	}
	if looseFence.MatchString(line) {
		p.fail(p.place(number, 1), issue{code: "front-matter",
			message: quote(strings.TrimSpace(line)) + " does not end the keys",
			hint:    "write exactly three hyphens, at the start of the line: ---"})
		return
	}
	p.badBrackets(line, number)
}

// keyStart is a key with what the form needs before and behind it.
var keyStart = regexp.MustCompile(`^ *(?:- +)?([a-z][a-z-]*):(?: |$)`)

// noBreakSpaces reports no-break spaces where the form needs plain ones: before a key, behind its hyphen or its colon.
func (p *page) noBreakSpaces(source []byte) (found bool) {
	if !bytes.ContainsAny(source, noBreak) {
		return false
	}
	plain := strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2007", " ")
	for i, line := range strings.Split(string(source), "\n") {
		m := keyStart.FindStringSubmatch(plain.Replace(line))
		if m == nil || !formWord(m[1]) {
			continue
		}
		start := []rune(line)[:utf8.RuneCountInString(m[0])]
		if at := strings.IndexAny(string(start), noBreak); at >= 0 {
			found = true
			p.fail(p.place(i+1+p.before, 1+utf8.RuneCountInString(line[:at])),
				issue{code: "yaml-syntax", message: "a no-break space stands here, which looks like a space", hint: "type a plain space in its place"})
		}
	}
	return found
}

// isLooseColon reports whether the mark between a key and its value is not the colon and the space that YAML needs.
func isLooseColon(mark, next string) bool {
	if strings.ContainsAny(mark, "：=") {
		return true
	}
	return next == "{" || next == "[" || (mark == ":" && next != " ")
}

// formWord reports whether a word is a key of the front matter, a kind, or what goes with one.
func formWord(word string) bool {
	return find(entryWords, word) != nil || find(settingsWords, word) != nil || find(tankWords, word) != nil || kindOf(word) != nil || knownAttribute(word)
}

// badBrackets reports brackets and braces that do not close each other within a line. A line that ends in a
// comma goes on in the next.
func (p *page) badBrackets(line string, number int) {
	var open []int // places of open brackets, in bytes
	quoted := byte(0)
	for i := 0; i < len(line); i++ {
		c := line[i]
		switch {
		case quoted != 0:
			if c == quoted {
				quoted = 0
			}
		case (c == '"' || c == '\'') && i > 0 && strings.IndexByte(" [{,", line[i-1]) >= 0:
			quoted = c
		case c == '#' && i > 0 && line[i-1] == ' ':
			line = line[:i]
		case c == '[' || c == '{':
			open = append(open, i)
		case c == ']' || c == '}':
			if len(open) == 0 {
				p.neverOpened(line, number, c)
				return
			}
			if want := closing(line[open[len(open)-1]]); want != c {
				p.badBracket(line, number, i, "closes a "+string(line[open[len(open)-1]]), "write "+string(want))
				return
			}
			open = open[:len(open)-1]
		}
	}
	if quoted != 0 && len(open) > 0 {
		return // the quote is the slip, and the parser says so
	}
	if len(open) > 0 && !strings.HasSuffix(strings.TrimSpace(line), ",") && strings.IndexByte(":- ,[{", before(line, open[0])) >= 0 {
		p.badBracket(line, number, open[0], "is opened and not closed in this line",
			"write "+string(closing(line[open[0]]))+" at the end of it")
	}
}

// neverOpened reports a closing bracket without its opening one, at the value where that is missing.
func (p *page) neverOpened(line string, number int, c byte) {
	at, opener := 0, map[byte]string{']': "[", '}': "{"}[c]
	if m := keyLine.FindStringSubmatch(line); m != nil {
		at = len(line) - len(strings.TrimLeft(m[4], " "))
	}
	p.fail(p.place(number, 1+utf8.RuneCountInString(line[:at])),
		issue{code: "yaml-syntax", message: quote(string(c)) + " is never opened in this line",
			hint: "write " + opener + " before " + quote(line[at:])})
}

// before returns the byte before a place, and a space at the start.
func before(line string, at int) byte {
	if at == 0 {
		return ' '
	}
	return line[at-1]
}

func closing(open byte) byte {
	if open == '[' {
		return ']'
	}
	return '}'
}

func (p *page) badBracket(line string, number, at int, what, hint string) {
	p.fail(p.place(number, 1+utf8.RuneCountInString(line[:at])),
		issue{code: "yaml-syntax", message: quote(string(line[at])) + " " + what, hint: hint})
}

// keyLine is a line of front matter that begins with a key.
var keyLine = regexp.MustCompile(`^( *)(- +)?([a-z][a-z-]*):(.*)$`)

// indented is one such line.
type indented struct {
	number, indent int
	item           bool
	key            string
	open           bool // nothing follows the colon
}

// badIndents reports lines of an entry that are further in or out than the others of their kind.
func (p *page) badIndents(lines []string) {
	var top, items, attributes []indented
	events := false
	for i, line := range lines {
		m := keyLine.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		found := indented{i + 1 + p.before, len(m[1]), m[2] != "", m[3], strings.TrimSpace(m[4]) == ""}
		switch {
		case found.key == "events" && found.open:
			events = true
			top = append(top, found)
		case !events || (found.indent <= 1 && !found.item && find(entryWords, found.key) != nil && find(eventWords, found.key) == nil):
			top = append(top, found)
		case found.item:
			items = append(items, found)
		case kindOf(found.key) != nil || knownAttribute(found.key):
			attributes = append(attributes, found)
		}
	}
	p.badTop(top)
	p.badEvents(items, attributes)
}

// badTop reports a key of the entry that does not begin its line.
func (p *page) badTop(top []indented) {
	for i, line := range top {
		inside := i > 0 && top[i-1].open && top[i-1].key != "events"
		if line.indent > 0 && !inside && find(entryWords, line.key) != nil {
			p.fail(p.place(line.number, 1+line.indent),
				issue{code: "yaml-syntax",
					message: quote(line.key) + " is indented, so it counts as part of the line above",
					hint:    "begin it at the start of the line"})
		}
	}
}

// badEvents reports events, and what goes with them, that do not stand below each other.
func (p *page) badEvents(items, attributes []indented) {
	if len(items) == 0 && len(attributes) == 0 {
		return
	}
	usual := usualIndent(items, attributes)
	for _, item := range items {
		if item.indent != usual {
			p.fail(p.place(item.number, 1+item.indent),
				issue{code: "yaml-syntax",
					message: "the hyphen of " + quote(item.key) + " does not stand below the other hyphens",
					hint:    "begin the line with " + plural(usual, "space")})
		}
	}
	for _, line := range attributes {
		switch {
		case len(items) == 0 || (line.number < items[0].number && kindOf(line.key) != nil):
			p.fail(p.place(line.number, 1+line.indent),
				issue{code: "yaml-syntax",
					message: "an event begins with a hyphen and a space; " + quote(line.key) + " has none",
					hint:    "write - " + line.key + ":"})
			return
		case line.indent != usual+2:
			p.fail(p.place(line.number, 1+line.indent),
				issue{code: "yaml-syntax",
					message: quote(line.key) + " does not stand below the other keys of its event",
					hint:    "begin the line with " + plural(usual+2, "space")})
		}
	}
}

// usualIndent returns the indent of the hyphens that most lines agree with; the keys of an event stand two further in.
// Among equals two spaces count, as in the manual.
func usualIndent(items, attributes []indented) int {
	votes := map[int]int{}
	for _, line := range items {
		votes[line.indent]++
	}
	for _, line := range attributes {
		votes[line.indent-2]++
	}
	best := 2
	for _, line := range slices.Concat(items, attributes) {
		for _, indent := range []int{line.indent, line.indent - 2} {
			if votes[indent] > votes[best] {
				best = indent
			}
		}
	}
	return best
}
