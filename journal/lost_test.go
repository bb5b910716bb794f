package journal

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// TestWhatATextLoses holds texts, from line 4 on, with what is lost in them and with what only looks so.
func TestWhatATextLoses(t *testing.T) {
	const event = " looks like an event, and stands in the text, where it is not counted | move it above the second line of hyphens, below events:, as   - "
	const html = "html-left-out: warning: HTML is left out of the site: "
	for text, want := range map[string]string{
		"She moults.\n\n- died: 2\n- fed: nettle\n":                         `6:3 event-in-text: warning: "died: 2"` + event + "died: 2\n" + `7:3 event-in-text: warning: "fed: nettle"` + event + "fed: nettle\n",
		"died: 2\ncause: heat\n":                                            `4:1 event-in-text: warning: "died: 2"` + event + "died: 2\n",
		"died: [ruby]\n---\n":                                               `4:1 event-in-text: warning: "died: [ruby]"` + event + "died: [ruby]\n",
		"Early.\nwater: {ph: 7}\n":                                          `5:1 event-in-text: warning: "water: {ph: 7}"` + event + "water: {ph: 7}\n",
		"graded: {pale: 2}\n":                                               `4:1 event-in-text: warning: "graded: {pale: 2}"` + event + "graded: {pale: 2}\n",
		"water: it was warm\ndied: nobody, luckily\n":                       "",
		"Counted: 20. Two died: 2 of 20.\nsource: a friend":                 "",
		"`died: 2`\n\n    died: 2\n\n~~~\n- died: 2\n~~~\n":                 "",
		"She is <b>red</b> and <i>big</i>.\n\n<div>x</div>\n":               `4:8 ` + html + `"<b>"` + " | write it in Markdown, such as **bold** or *leaning*\n",
		"<IMG alt=\"Ruby\" src=\"../photos/a.jpg\" width=9>":                `4:1 ` + html + `"<IMG alt=\"Ruby\" src=\"../photos/a.jpg\" width=9>"` + " | for a picture write ![words about it](../photos/a.jpg)\n",
		"<!-- a remark -->\n\nIt is <0.25 and 3 <4, <https://example.org>.": "",
	} {
		_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\n"+text), nil)
		if diff := cmp.Diff(want, briefs(problems)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}

// TestManyLinesLikeEventsAreNotAllTried keeps a text of a megabyte from costing seconds.
func TestManyLinesLikeEventsAreNotAllTried(t *testing.T) {
	for line, want := range map[string]int{"died: 2\n": maxTried, "died: " + strings.Repeat("2", maxTriedBytes) + "\n": 0, "fed: " + strings.Repeat("x", maxTriedBytes) + "\n": 0} {
		_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\n"+strings.Repeat(line, 1000)), nil)
		if len(problems) != want {
			t.Errorf("%.20q: %d problems, want %d", line, len(problems), want)
		}
	}
}

func TestLinksToEntriesThatDoNotExist(t *testing.T) {
	fsys := showing("[a](b.md#eggs) [c](2025/c.md) [gone](2025/B.md) [out](../notes.md) [far](https://example.org/x.md) [page](x.html)")
	fsys["entries/b.md"], fsys["entries/2025/c.md"], fsys["notes.md"] = fileOf("---\ndate: 2026-03-14\n---\n"), fileOf("---\ndate: 2025-03-14\n---\n"), fileOf("Notes\n")
	want := `entries/a.md:4:31 no-such-entry: warning: there is no entry "entries/2025/B.md"; the words stay, without a link | did you mean "b.md"?` + "\n" +
		`entries/a.md:4:49 no-such-entry: warning: there is no entry "notes.md"; the words stay, without a link` + "\n"
	if diff := cmp.Diff(want, told(Read(fsys))); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestLinksToARenamedEntry holds that the day in the name of a missing file counts for more than a name that is nearly the
// same, where one entry has that day.
func TestLinksToARenamedEntry(t *testing.T) {
	of := func(day string) *fstest.MapFile { return fileOf("---\ndate: " + day + "\n---\nText.\n") }
	for _, test := range []struct{ second, link, hint string }{
		{"2026-10-07", "2026-10-05.md", `did you mean "2026/babies.md"?`},
		{"2026-10-07", "2026-10-05-young.md", `did you mean "2026/babies.md"?`},
		{"2026-10-05", "2026-10-05.md", `did you mean "2026-10-06.md"?`}, // two of the day
		{"2026-10-07", "2026-10-16.md", `did you mean "2026-10-06.md"?`}, // none
	} {
		fsys := showing("[young](" + test.link + ")")
		fsys["entries/2026/babies.md"], fsys["entries/second.md"], fsys["entries/2026-10-06.md"] = of("2026-10-05"), of(test.second), of("2026-10-06")
		problems := slices.DeleteFunc(Read(fsys).Problems, func(p Problem) bool { return p.Code != "no-such-entry" })
		checkHints(t, test.link+", "+test.second, problems, []string{test.hint})
	}
}

func TestFilesNamedAfterAnotherDay(t *testing.T) {
	for path, want := range map[string]string{
		"entries/2026-03-15-eggs.md": `2:7 name-and-date: warning: the file is named after 2026-03-15, and its date is 2026-03-14 | mend the date, or rename the file` + "\n",
		"entries/2026/03-15.md":      `2:7 name-and-date: warning: the file is named after 2026-03-15, and its date is 2026-03-14 | mend the date, or rename the file` + "\n",
		"entries/2026-03-14-eggs.md": "", "entries/2026/03-14.md": "", "entries/2025/eggs.md": "", "entries/2026-03-141.md": "", "entries/2026-99-99.md": "",
	} {
		_, problems := ParseEntry(path, []byte("---\ndate: 2026-03-14\n---\n"), nil)
		if diff := cmp.Diff(want, briefs(problems)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", path, diff)
		}
	}
}

func TestEntriesThatAreCopies(t *testing.T) {
	const keys = "---\ndate: 2026-03-14\nevents:\n  - moulted: 1\n---\n"
	fsys := showing()
	fsys["entries/b.md"], fsys["entries/c.md"] = fileOf(keys+"One.\n"), fileOf(keys+"Two.\n")
	fsys["entries/d.md"], fsys["entries/e.md"] = fileOf("---\ntitle: Again\n"+keys[4:]), fileOf("---\ndate: 2026-03-14\n---\n")
	want := `entries/c.md:2:7 same-entry: warning: the same day and the same events stand in "entries/b.md", and count twice | delete one of the two files; if both are true, give one a title of its own` + "\n"
	if diff := cmp.Diff(want, told(Read(fsys))); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
