package theme

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"
)

// TestWhatIsDrawnOnceIsDrawnTheSame holds a site against one whose pages draw every part anew.
func TestWhatIsDrawnOnceIsDrawnTheSame(t *testing.T) {
	f := foretold(t, "full")
	site := func() *Site {
		look, err := ParseLook(nil)
		if err != nil {
			t.Fatal(err)
		}
		made, err := Draw(f, folderOf(t, "full"), Options{Look: look})
		if err != nil {
			t.Fatal(err)
		}
		return made
	}
	got := site()
	defer func(all []string) { repeated = all }(repeated)
	repeated = nil
	want := site()
	for name := range want.Files {
		if !bytes.Equal(got.Files[name], want.Files[name]) {
			t.Errorf("%s is not what it is without repeats", name)
		}
	}
}

// TestAFrameOfOnesOwnReachesThePage replaces the frame by one that has no parts, and by one whose parts tell of the page.
func TestAFrameOfOnesOwnReachesThePage(t *testing.T) {
	f := foretold(t, "full")
	for _, frame := range []string{
		`<title>{{.Title}}</title>{{range .Nav}}<a href="{{.Href}}">{{.Text}}</a>{{end}}{{template "sheet" .}}`,
		`{{block "head" .}}<title>{{.Title}}</title>{{with .Heading}}{{.}}{{end}}{{end}}{{template "sheet" .}}`,
	} {
		look, err := ParseLook(fstest.MapFS{"frame.tmpl": {Data: []byte(frame)}})
		if err != nil {
			t.Fatal(err)
		}
		b := newBook(public(f), nil)
		p := b.pen(b.paths.entry[b.entries[0]])
		drawn, err := p.render(new(bytes.Buffer), b.entryJob(0), p.entryPage(0), look)
		if want := "<title>" + p.title(b.entries[0]) + "</title>"; err != nil || !strings.Contains(string(drawn.page), want) {
			t.Errorf("the page holds no %s: %v\n%.300s", want, err, drawn.page)
		}
	}
}

// TestRepeatedPartsExist holds that the built-in look has every part that is drawn once.
func TestRepeatedPartsExist(t *testing.T) {
	look, err := ParseLook(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range repeated {
		if look.once.set.Lookup(name) == nil {
			t.Errorf("the look has no %s", name)
		}
	}
	for _, data := range [][2]any{
		{[]string{"a", "b"}, []string{"a"}}, {[]NavItem{{"a", "b", true}}, []NavItem{{"a", "b", false}}},
		{[]NavItem{{Text: "ab"}}, []NavItem{{Text: "a", Href: "b"}}}, {"a", "b"}, {Link{"a", "b"}, Link{"ab", ""}},
	} {
		if given(data[0]) == given(data[1]) {
			t.Errorf("%v and %v are taken for the same", data[0], data[1])
		}
	}
	if given(&EntryPage{}) != nil || given([]Preview{{Width: 1}}) == given([]Preview{{Width: 2}}) {
		t.Error("a page is compared, or two previews are taken for the same")
	}
}
