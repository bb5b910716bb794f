package manual

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
)

var update = flag.Bool("update", false, "write the page of the manual")

// page is the manual as people read it where the code is kept.
const page = "../MANUAL.md"

func TestThePageIsTheManual(t *testing.T) {
	if *update {
		if err := os.WriteFile(page, []byte(markdown()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	written, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(markdown(), string(written)); diff != "" {
		t.Errorf("the page differs from the manual; run: go test ./journal/manual -update\n%s", diff)
	}
}

// TestEveryWordAndEveryProblemIsExplained asks for each.
func TestEveryWordAndEveryProblemIsExplained(t *testing.T) {
	topics := Topics()
	if len(topics) < 150 {
		t.Errorf("only %d topics", len(topics))
	}
	whole := Text()
	for _, topic := range topics {
		text, near := On(topic)
		if text == "" || near != "" {
			t.Errorf("nothing is said about %q", topic)
		}
		if !strings.Contains(strings.ToLower(whole), topic) {
			t.Errorf("the whole manual does not name %q", topic)
		}
	}
	for _, kind := range journal.Words().Kinds {
		text, _ := On(strings.ToUpper(kind.Name))
		for _, word := range kind.Attributes {
			if !strings.Contains(text, word.Name) {
				t.Errorf("on %q nothing is said of %q", kind.Name, word.Name)
			}
		}
	}
	if text, near := On("beried"); text != "" || near != "berried" {
		t.Errorf("beried gives %q, near %q", text, near)
	}
}

func TestSections(t *testing.T) {
	for title, want := range map[string]string{
		"the folder": "published/", "journal.yaml": "worst first", "entry": "Only the date is required", "Logger files": "decimal comma", "problems": "An error stops publishing",
	} {
		text, _ := On(title)
		if !strings.Contains(text, want) {
			t.Errorf("the section %q lacks %q:\n%s", title, want, text)
		}
	}
}

// TestTheTextIsTheComment holds that nothing of the comment is lost on the way.
func TestTheTextIsTheComment(t *testing.T) {
	manual := journal.Manual()
	if !strings.HasPrefix(manual, "Package journal reads") || !strings.HasSuffix(strings.TrimSpace(manual), "Nothing you wrote is ever changed.") {
		t.Errorf("the manual begins %.40q and ends %q", manual, manual[len(manual)-60:])
	}
	words := strings.Fields(Text())
	all := strings.Join(words, " ")
	_, manual, _ = strings.Cut(manual, "\n\n") // the first paragraph is for programmers
	for _, line := range strings.Split(manual, "\n") {
		text := strings.Join(strings.Fields(strings.TrimLeft(line, "# -\t")), " ")
		if text != "" && !strings.Contains(all, text) {
			t.Errorf("the text lacks %q", text)
		}
	}
}
