package journal

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTextPointsIntoSource(t *testing.T) {
	source := "---\r\ndate: 2026-03-14\r\n---\r\n\r\n# Ruby *is* berried\r\n\r\nText[^1] of `code`.\r\n\r\n[^1]: A note.\r\n"
	entry, problems := ParseEntry("e.md", []byte(source), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if entry.Title != "Ruby is berried" {
		t.Errorf("title %q", entry.Title)
	}
	if got := string(entry.Source[entry.BodyOffset:]); !strings.HasPrefix(got, "\n# Ruby") || strings.Contains(got, "\r") {
		t.Errorf("body %q", got)
	}
	var out bytes.Buffer
	if err := Markdown().Renderer().Render(&out, entry.Source, entry.Tree()); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"<h1>Ruby <em>is</em> berried</h1>", "<code>code</code>", "A note."} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in %s", want, out.String())
		}
	}
}

func TestMarkdownOfTheDiary(t *testing.T) {
	for written, want := range map[string]string{
		"| a | b |\n|---|---|\n| 1 | 2 |": "<td>1</td>",
		"~~gone~~":                        "<del>gone</del>",
		"- [x] done":                      `type="checkbox"`,
		"https://example.org/x":           `<a href="https://example.org/x">`,
		"<script>alert(1)</script>":       "<!-- raw HTML omitted -->",
		"[x](javascript:alert(1))":        `<a href="">x</a>`,
		"x <b>y</b>":                      "<!-- raw HTML omitted -->y",
	} {
		var out bytes.Buffer
		if err := Markdown().Convert([]byte(written), &out); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(out.String(), want) || strings.Contains(out.String(), "<script") {
			t.Errorf("%q gives %q, want %q", written, out.String(), want)
		}
	}
}

func TestFootnoteIdsDifferBetweenEntries(t *testing.T) {
	render := func(path string) string {
		entry, _ := ParseEntry(path, []byte("---\ndate: 2026-03-14\n---\nA[^1]\n\n[^1]: note\n"), nil)
		var out bytes.Buffer
		if err := Markdown().Renderer().Render(&out, entry.Source, entry.Tree()); err != nil {
			t.Fatal(err)
		}
		return out.String()
	}
	first, second := render("entries/a.md"), render("entries/b.md")
	if first == second || render("entries/a.md") != first {
		t.Errorf("footnotes of two entries:\n%s\n%s", first, second)
	}
	entry, _ := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\nA[^1]\n\n[^1]: note\n"), nil)
	tree := entry.Tree()
	tree.OwnerDocument().AddMeta(FootnotePrefix, "mine-")
	var out bytes.Buffer
	_ = Markdown().Renderer().Render(&out, entry.Source, tree)
	if !strings.Contains(out.String(), `id="mine-fn:1"`) {
		t.Errorf("own prefix: %s", out.String())
	}
}

func TestTitleWithoutKey(t *testing.T) {
	for body, want := range map[string]string{
		"no heading": "2026-03-14", "# One\n\n# Two": "One", "## *Two* `words`": "Two words", "Set\n===\n": "Set", "text\n\n> # quoted": "quoted", "": "2026-03-14", "# Ruby &amp; Co \\*": "Ruby & Co *",
	} {
		entry, _ := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\n"+body), nil)
		if entry.Title != want {
			t.Errorf("%q has the title %q, want %q", body, entry.Title, want)
		}
	}
}

func TestWordsLeaveOutTheTitle(t *testing.T) {
	for _, test := range []struct {
		title, body, words string
		headed             bool
	}{
		{"", "# Ruby *is*  berried\n\nAt `last`,\nsaid <b>I</b>.\n\n- one\n- two", "At last, said I. one two", true},
		{"Ruby is berried", "# Ruby *is*  berried\n\nAt last.", "At last.", true},
		{"Berried", "# Ruby is berried\n\nAt last.", "Ruby is berried At last.", false},
		{"", "At last.\n\n# Ruby", "At last. Ruby", false},
		{"", "[a &amp; b](https://example.org) ![c](c.png) <https://example.com>[^1]\n\n[^1]: d", "a & b c https://example.com d", false},
		{"", "Counted:\n\n| | strokes |\n| --- | ---: |\n| females | 17 |\n| males | 14 |\n\nThen home.", "Counted: strokes; females 17; males 14 Then home.", false},
		{"", "", "", false},
	} {
		front := "---\ndate: 2026-03-14\n"
		if test.title != "" {
			front += "title: " + test.title + "\n"
		}
		entry, _ := ParseEntry("e.md", []byte(front+"---\n"+test.body), nil)
		if entry.Words != test.words || entry.Headed != test.headed {
			t.Errorf("%q with the title %q has the words %q, headed %v", test.body, test.title, entry.Words, entry.Headed)
		}
	}
}

// Texts of every kind are parsed to the same, with and without the search for automatic links that they do not need.
func TestTextsWithoutAddressesNeedNoSearchForLinks(t *testing.T) {
	for _, text := range []string{
		"(https://example.org/a) *www.example.org* keeper@example.org ftp://example.org", "www example org, http:/ and a_b *c* ~d~ (e) ~~f~~ [g](h.md) <i>",
		"| a | b |\n|---|---|\n| (c) | *d* |", "- [x] _done_\n- (not) yet[^1]\n\n[^1]: *A* note",
	} {
		entry, _ := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\n"+text), nil)
		var got, want bytes.Buffer
		_ = Markdown().Renderer().Render(&got, entry.Source, entry.Tree())
		if err := Markdown().Convert([]byte(text), &want); err != nil {
			t.Fatal(err)
		}
		if mark := pathMark("e.md") + "-"; strings.ReplaceAll(got.String(), mark, "") != want.String() {
			t.Errorf("%q:\n%s\nis not\n%s", text, &got, &want)
		}
	}
}

func TestTextThatIsRefusedHasNoTree(t *testing.T) {
	entry, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\n"+strings.Repeat("[", maxMarksPerBlock+1)), nil)
	if len(problems) == 0 || entry.Tree().HasChildren() {
		t.Errorf("%v, and a tree", problems)
	}
}

func TestPlacesOfPictures(t *testing.T) {
	body := "é ![one](a.png) *![two](b.png)*\n\n- item\n  ![three\n  lines](c.png)\n\n> quote ![four][ref]\n\n[ref]: d.png\n\n| a |\n|---|\n| ![five](e.png) |\n\n[![six](f.png)](https://example.org)\n\n`![none](x.png)` \\![none](x.png)\n"
	entry, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\n---\n"+body), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var got []string
	for _, image := range entry.Images {
		got = append(got, strings.TrimPrefix(image.Position.String(), "e.md:")+" "+image.Path+" "+image.Alt)
	}
	want := []string{"4:3 a.png one", "4:18 b.png two", "7:3 c.png three lines", "10:9 d.png four",
		"16:3 e.png five", "18:2 f.png six"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("pictures (-want +got):\n%s", diff)
	}
}
