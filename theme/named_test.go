package theme

import (
	"strings"
	"testing"
)

// A brood without a name is called by its mother and day wherever it is spoken of; its id stays in addresses, in the
// data, and once on its page.
func TestBroodsWithoutNames(t *testing.T) {
	files := newJournal(map[string]string{
		"1.md": "---\ndate: 2026-01-10\nevents:\n  - stocked: 20\nwater: {temperature: 23 C}\n---\n",
		"2.md": "---\ndate: 2026-03-20\nevents:\n  - berried: [ruby]\n---\n",
		"3.md": "---\ndate: 2026-03-21\nevents:\n  - berried: 2\n---\n",
		"4.md": "---\ndate: 2025-12-30\nevents:\n  - berried: 1\n    brood: amber\n---\n",
	})
	f := told(t, files)
	s, err := Draw(f, files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		"broods/desk-2026-03-20.html":   "Ruby’s eggs of 20 March",
		"broods/desk-2026-03-21.html":   "Eggs of 21 March, desk",
		"broods/desk-2026-03-21-2.html": "Eggs of 21 March (2), desk",
		"broods/amber.html":             "Amber",
	} {
		if page := string(s.Files[path]); !strings.Contains(page, `<h1 dir="auto">`+want+`</h1>`) {
			t.Errorf("%s is not headed %q", path, want)
		}
	}
	for _, path := range s.Pages {
		text := visible(t, s.Files[path])
		allowed := 0
		if strings.HasPrefix(path, "broods/desk-") {
			allowed = 1
		}
		if n := strings.Count(text, "desk-2026"); n > allowed {
			at := strings.Index(text, "desk-2026")
			t.Errorf("%s says the id %d times: …%s…", path, n, text[max(0, at-60):min(len(text), at+60)])
		}
		for _, twice := range []string{"the brood the brood", "brood Ruby’s", ". the brood"} {
			if strings.Contains(text, twice) {
				t.Errorf("%s says %q", path, twice)
			}
		}
	}
	if first := visible(t, s.Files["index.html"]); !strings.Contains(first, "Eggs of Ruby’s brood of 20 March") {
		t.Errorf("the first page does not call the brood by its mother: %s", first)
	}
	if !strings.Contains(string(s.Files["data/broods.csv"]), "desk-2026-03-21-2") {
		t.Error("the data lack the id")
	}
	later := newBook(public(f), nil)
	if got := later.broodName(later.broods["amber"]); got != "amber" {
		t.Errorf("a name became %q", got)
	}
	later.asOf += 365
	if got := later.broodTitle(later.broods["desk-2026-03-20"]); got != "Ruby’s eggs of 20 March 2026" {
		t.Errorf("in another year it is headed %q", got)
	}
}
