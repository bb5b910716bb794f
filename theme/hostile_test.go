package theme

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"net/url"
	"path"
	"strings"
	"testing"
	"unicode/utf8"

	"golang.org/x/net/html"
)

// Text of the keeper is only ever text: no element, attribute, script or address comes from it.
func TestHostileTextStaysText(t *testing.T) {
	s := site(t, "hostile")
	for at, p := range parsed(t, s) {
		for n := range p.root.Descendants() {
			switch n.Data {
			case "iframe", "object", "embed", "base", "style", "form":
				if n.Type == html.ElementNode {
					t.Errorf("%s: element %s", at, n.Data)
				}
			case "script":
				if n.Type == html.ElementNode && (n.FirstChild != nil || !strings.HasSuffix(attribute(n, "src"), "script.js")) {
					t.Errorf("%s: a script of somebody else", at)
				}
			}
			for _, a := range n.Attr {
				u, err := url.Parse(a.Val)
				switch {
				case strings.HasPrefix(strings.ToLower(a.Key), "on"):
					t.Errorf("%s: attribute %s", at, a.Key)
				case a.Key == "href" || a.Key == "src":
					if err != nil || u.Scheme != "" && u.Scheme != "https" && u.Scheme != "http" && u.Scheme != "mailto" {
						t.Errorf("%s: %s=%q", at, a.Key, a.Val)
					}
				}
			}
		}
	}
	entry := visible(t, s.Files["diary/2025-01-01-script-alert-pwn-script.html"])
	for _, want := range []string{"bold", "Picture: far", "deep at once", "<iframe src=javascript:alert('pwn')>"} {
		if !strings.Contains(entry, want) {
			t.Errorf("the entry lacks %q", want)
		}
	}
}

func TestHostileScripts(t *testing.T) {
	for name, text := range site(t, "hostile").Files {
		if !strings.HasSuffix(name, ".js") || name == "script.js" {
			continue
		}
		open, end := bytes.IndexByte(text, '('), bytes.LastIndexByte(text, ')')
		if !json.Valid(text[open+1 : end]) {
			t.Errorf("%s is not one call with JSON", name)
		}
		if bytes.ContainsAny(text, "<\u2028\u2029") {
			t.Errorf("%s holds an unescaped sign", name)
		}
	}
}

func TestHostileFeedAndCalendar(t *testing.T) {
	s := site(t, "hostile")
	for _, name := range []string{"feed.xml", "sitemap.xml", "icon.svg"} {
		d := xml.NewDecoder(bytes.NewReader(s.Files[name]))
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if e, ok := token.(xml.StartElement); ok && e.Name.Local == "script" {
				t.Errorf("%s holds a script", name)
			}
		}
	}
	calendar := string(s.Files["calendar.ics"])
	if n, m := strings.Count(calendar, "BEGIN:VEVENT"), strings.Count(calendar, "UID:"); n == 0 || n != m {
		t.Errorf("%d events and %d identifiers", n, m)
	}
	for _, line := range strings.Split(strings.TrimSuffix(calendar, "\r\n"), "\r\n") {
		if len(line) > 75 || strings.ContainsAny(line, "\r\n") || !utf8.ValidString(line) {
			t.Errorf("calendar line %q", line)
		}
	}
}

// A cell that a spreadsheet would run must not begin with the sign that makes it a formula.
func TestHostileCells(t *testing.T) {
	for name, text := range site(t, "hostile").Files {
		if path.Ext(name) != ".csv" {
			continue
		}
		for _, line := range strings.Split(string(text), "\r\n") {
			for _, cell := range strings.Split(line, ",") {
				if strings.ContainsAny(strings.Trim(cell, `"`)+" ", "=@") && strings.ContainsAny(strings.Trim(cell, `"`)[:1], "=@") {
					t.Errorf("%s: cell %s", name, cell)
				}
			}
		}
	}
}

func TestHostileFileNames(t *testing.T) {
	seen := map[string]string{}
	for name := range site(t, "hostile").Files {
		low := strings.ToLower(name)
		if other, ok := seen[low]; ok {
			t.Errorf("%s and %s are one file on some systems", name, other)
		}
		seen[low] = name
		for _, part := range strings.Split(name, "/") {
			stem, _, _ := strings.Cut(part, ".")
			if reserved[strings.ToLower(stem)] && part != "index.html" {
				t.Errorf("%s has a name that some system keeps for itself", name)
			}
			if strings.Trim(part, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.") != "" || len(part) > 100 {
				t.Errorf("%s is no safe file name", name)
			}
		}
	}
}
