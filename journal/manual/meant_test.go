package manual

import (
	"strings"
	"testing"
)

// TestWordsThatKeepersLookUp are none of the format, or not as a keeper writes them.
func TestWordsThatKeepersLookUp(t *testing.T) {
	for word, want := range map[string]string{
		"dead":             `For "dead" the format has: died`,
		"molt":             `For "molt" the format has: moulted`,
		"Molting":          `For "Molting" the format has: moulted`,
		"feeding":          `For "feeding" the format has: fed`,
		"babies":           "sighted: Events",
		"colour":           "graded: Events",
		"color":            "graded: Events",
		"cull":             "removed: Events",
		"give away":        `For "give away" the format has: removed`,
		"careful":          "method: Keys of counted",
		"private":          "A private entry (visibility: private) has no page",
		"photos":           "photos/**            pictures",
		"photo":            "Problems about it, each explained in the same way: photo-",
		"cloud":            "",
		"moss":             "",
		"undo":             "change or",
		"backup":           "For a backup",
		"close":            "method: emptied",
		"take a tank down": "counted: 0",
		"renamed":          "links to it are told of",
		"picture":          "![Ruby and her eggs](../photos/ruby.jpg)",
		"link":             "(2026-02-02-first.md)",
	} {
		text, _ := On(word)
		if !strings.Contains(text, want) || (want == "") != (text == "") {
			t.Errorf("on %q it says:\n%s\nwant %q", word, text, want)
		}
	}
}

func TestAPassageStandsBelowItsHeadingAndAlone(t *testing.T) {
	text := strings.Join(passages("emptied tank"), "\n")
	if !strings.HasPrefix(text, "# Events\n\n") || !strings.Contains(text, "counted: a count") || strings.Contains(text, "moulted") {
		t.Errorf("the passage about an emptied tank is:\n%s", text)
	}
	if found := passages("eye"); len(found) != 2 {
		t.Errorf("eye is found %d times, want twice, as a word of its own: %q", len(found), found)
	}
	if found := strings.Join(passages("ruby and her eggs"), ""); !strings.Contains(found, "A picture stands") {
		t.Errorf("an example stands without the sentence before it: %q", found)
	}
}
