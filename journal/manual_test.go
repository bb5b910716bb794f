package journal

import (
	"fmt"
	"go/doc/comment"
	"go/parser"
	"go/token"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
)

// manual is the comment of the package, parsed.
func manual(t *testing.T) (text string, examples []string) {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "doc.go", nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	text = file.Doc.Text()
	for _, block := range new(comment.Parser).Parse(text).Content {
		if code, ok := block.(*comment.Code); ok {
			examples = append(examples, code.Text)
		}
	}
	return text, examples
}

// starting returns the one example that begins with a line.
func starting(t *testing.T, examples []string, line string) string {
	t.Helper()
	for _, example := range examples {
		if strings.HasPrefix(example, line) {
			return example
		}
	}
	t.Fatalf("the manual has no example that begins with %q", line)
	return ""
}

func TestTheManualNamesEveryWord(t *testing.T) {
	text, _ := manual(t)
	check := func(of string, words []Word) {
		for _, word := range words {
			for _, name := range append([]string{word.Name}, word.Allowed...) {
				if !regexp.MustCompile(`(^|[^\w-])` + regexp.QuoteMeta(name) + `($|[^\w-])`).MatchString(text) {
					t.Errorf("the manual does not name %q of %s", name, of)
				}
			}
		}
	}
	words := Words()
	check("journal.yaml", words.Settings)
	check("a tank", words.Tank)
	check("an entry", words.Entry)
	check("every event", words.Event)
	check("a water test", words.Readings)
	_, text, _ = strings.Cut(text, "# Events")
	for _, kind := range words.Kinds {
		begin := strings.Index(text, "  - "+kind.Name+": ")
		if begin < 0 {
			t.Errorf("the manual does not explain the event %q", kind.Name)
			continue
		}
		line, _, _ := strings.Cut(text[begin+4:], "\n  - ")
		for _, attribute := range kind.Attributes {
			if !strings.Contains(line, attribute.Name) {
				t.Errorf("the manual does not name %q of %q", attribute.Name, kind.Name)
			}
		}
	}
}

func TestTheManualListsTheUsualRanges(t *testing.T) {
	_, examples := manual(t)
	listed := starting(t, examples, "temperature   ")
	for _, span := range UsualRanges() {
		want := fmt.Sprintf("%-14s%s to %s", span.Kind, decimal(span.Low), decimal(span.High))
		if !strings.Contains(listed, want) {
			t.Errorf("the manual lacks the usual range %q", want)
		}
	}
}

func TestTheManualNamesTheLimits(t *testing.T) {
	text, _ := manual(t)
	_, limits, _ := strings.Cut(strings.Join(strings.Fields(text), " "), "# Limits ")
	for _, want := range []string{
		fmt.Sprintf("%d MB for an entry and %d kB for its keys, %d kB for journal.yaml, %d MB for a logger file",
			maxEntryBytes>>20, maxFrontMatterBytes>>10, maxSettingsBytes>>10, maxLogBytes>>20),
		fmt.Sprintf("%d MB and %d megapixels for a picture, %d MB for all entries together; 1,000 events of an entry",
			maxPhotoBytes>>20, maxPhotoPixels/1_000_000, maxJournalBytes>>20),
		fmt.Sprintf("%d tanks", maxTanks), fmt.Sprintf("at most %d brackets", maxYAMLDepth),
	} {
		if !strings.Contains(limits, want) {
			t.Errorf("the manual does not say %q", want)
		}
	}
}

// TestEveryExampleOfTheManualIsRun holds that no example stands there that no test runs.
func TestEveryExampleOfTheManualIsRun(t *testing.T) {
	run := map[string]string{
		"my-colony/": "TestTheFolderOfTheManual", "title: ": "TestTheExamplesOfTheManualAreRead", "---\n": "TestTheExamplesOfTheManualAreRead", "time,": "TestTheExamplesOfTheManualAreRead", "![": "TestTheExamplesOfTheManualAreRead",
		"temperature   ": "TestTheManualListsTheUsualRanges", "{\n": "TestTheManualShowsTheDocumentOfCheck of cmd/pleopod",
	}
	_, examples := manual(t)
	for _, example := range examples {
		known := false
		for beginning := range run {
			known = known || strings.HasPrefix(example, beginning)
		}
		if !known {
			t.Errorf("no test runs the example %.40q", example)
		}
	}
	if len(examples) != len(run) {
		t.Errorf("%d examples, %d of them are known", len(examples), len(run))
	}
}

// TestTheFolderOfTheManual makes the folder that the manual shows, and looks at what the reader makes of each part.
func TestTheFolderOfTheManual(t *testing.T) {
	_, examples := manual(t)
	for _, part := range []string{"journal.yaml", "entries/", "photos/", "readings/", "published/"} {
		if !strings.Contains(starting(t, examples, "my-colony/"), "\n  "+part) {
			t.Errorf("the folder of the manual lacks %s", part)
		}
	}
	j := Read(fstest.MapFS{
		"journal.yaml":             fileOf("title: T\naddress: https://example.org/\ntanks: {shelf: {temperature-log: readings/shelf.csv}}\n"),
		"entries/2026/spring/a.md": fileOf("---\ndate: 2026-03-14\n---\n![a](../../../photos/deep/b.png)\n"),
		"photos/deep/b.png":        {Data: picture(t, 4, 4)},
		"readings/shelf.csv":       fileOf("time,temperature\n2026-03-14,23\n"),
		"published/entries/b.md":   fileOf("never read"),
		"notes.txt":                fileOf("ignored"),
	})
	if len(j.Problems) > 0 || len(j.Entries) != 1 || len(j.Photos) != 1 || len(j.Settings.Tanks[0].Logged) != 1 {
		t.Errorf("problems %v, %d entries, %d photos", j.Problems, len(j.Entries), len(j.Photos))
	}
}

func TestTheExamplesOfTheManualAreRead(t *testing.T) {
	text, examples := manual(t)
	link := regexp.MustCompile(`\[her first brood\]\([^)]*\)`).FindString(strings.Join(strings.Fields(text), " "))
	settings := strings.Replace(starting(t, examples, "title: "), "    name: North shelf\n",
		"    name: North shelf\n    temperature-log: readings/log.csv\n", 1)
	j := Read(fstest.MapFS{
		"journal.yaml":                {Data: []byte(settings)},
		"entries/first.md":            {Data: []byte(starting(t, examples, "---\n") + "\n" + starting(t, examples, "![") + "\n" + link)},
		"entries/2026-02-02-first.md": {Data: []byte("---\ndate: 2026-02-02\n---\nSaddled.\n")},
		"photos/ruby.jpg":             {Data: picture(t, 4, 4)},
		"readings/log.csv":            {Data: []byte(starting(t, examples, "time,"))},
	})
	for _, problem := range j.Problems {
		t.Errorf("an example of the manual: %v", problem)
	}
	if len(j.Entries) != 2 || len(j.Photos) != 1 || len(j.Entries[1].Events) != 3 || len(j.Settings.Tanks[0].Logged) != 1 {
		t.Errorf("the examples gave %d entries, want two, the second with three events and a picture, and a logged day", len(j.Entries))
	}
}
