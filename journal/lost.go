package journal

import (
	"bytes"
	"fmt"
	"net/url"
	"path"
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
)

// What stands in the text of an entry and is lost there: events in the wrong place, HTML, links to entries that do not
// exist; and what a whole file tells twice.

// lostParts warns of what one node of a text loses. Code is passed over.
func (p *page) lostParts(entry *Entry, node ast.Node, places *counter) {
	switch node := node.(type) {
	case *ast.Paragraph, *ast.TextBlock, *ast.Heading:
		p.lostEvents(entry, node.Lines(), places)
	case *ast.HTMLBlock:
		p.lostHTML(entry, node.Lines(), places)
	case *ast.RawHTML:
		p.lostHTML(entry, node.Segments, places)
	case *ast.Text:
		p.lostImage(entry.Source, node, places)
	case *ast.Link:
		p.readLink(entry, node, places)
	}
}

// eventLine is a line that looks like an event.
var eventLine = regexp.MustCompile(`^([A-Za-z-]+): +\S`)

// lostEvents warns of lines that would be read as events in the list of events.
func (p *page) lostEvents(entry *Entry, lines *text.Segments, places *counter) {
	for i := range lines.Len() {
		segment := lines.At(i)
		written := bytes.TrimSpace(segment.Value(entry.Source))
		if !bytes.Contains(written, []byte(": ")) {
			continue // nearly every line
		}
		m := eventLine.FindSubmatch(written)
		if m == nil || len(written) > maxTriedBytes {
			continue
		}
		kind := kindOf(strings.ToLower(string(m[1])))
		if kind == nil {
			continue
		}
		if p.tried++; p.tried > maxTried {
			return
		}
		line := kind.Name + string(written[len(m[1]):])
		if !p.wouldRead(kind, line) {
			continue
		}
		at, column := places.at(segment.Start)
		p.warn(p.place(at, column), issue{code: "event-in-text", message: quote(string(written)) + " looks like an event, and stands in the text, where it is not counted",
			hint: "move it above the second line of hyphens, below events:, as   - " + line})
	}
}

// wouldRead reports whether a line can be read as an event of a kind. Which tanks and grades there are does not matter.
func (p *page) wouldRead(kind *EventKind, line string) bool {
	quiet := &page{path: p.path, units: p.units}
	children, ok := quiet.children(quiet.parseYAML([]byte(line)))
	if !ok || len(children) != 1 {
		return false
	}
	if kind.Form == FormGrades {
		_, ok := quiet.children(children[0].value)
		return ok
	}
	return quiet.readValue(&kind.Word, children[0].key, children[0].value, &context{kind: kind}).good
}

// pictureHTML is the HTML of a picture.
var pictureHTML = regexp.MustCompile(`(?i)<img\s[^>]*?src\s*=\s*["']?([^"'\s>]+)`)

// lostHTML warns once in a text that HTML is left out. Comments are meant to be.
func (p *page) lostHTML(entry *Entry, lines *text.Segments, places *counter) {
	if lines.Len() == 0 {
		return
	}
	first := lines.At(0)
	line := strings.TrimSpace(string(first.Value(entry.Source)))
	if p.html || strings.HasPrefix(line, "<!--") {
		return
	}
	p.html = true
	found := issue{code: "html-left-out", message: "HTML is left out of the site: " + quote(line), hint: "write it in Markdown, such as **bold** or *leaning*"}
	if m := pictureHTML.FindStringSubmatch(line); m != nil {
		found.hint = "for a picture write ![words about it](" + m[1] + ")"
	}
	at, column := places.at(first.Start + bytes.IndexByte(first.Value(entry.Source), '<'))
	p.warn(p.place(at, column), found)
}

// readLink notes a link to another entry. Whether there is one is looked for later.
func (p *page) readLink(entry *Entry, node *ast.Link, places *counter) {
	if target := string(node.Destination); isPictureName(target) && !strings.Contains(target, "://") && !bytes.HasSuffix(entry.Source[:max(node.Pos(), 0)], []byte("!")) {
		line, column := places.at(max(node.Pos(), 0))
		p.warn(p.place(line, column), issue{code: "not-shown", message: "a link to a picture shows none, and does not publish it",
			hint: "put ! before the bracket: ![" + PlainText(node, entry.Source) + "](" + target + ")"})
		return
	}
	if !bytes.Contains(node.Destination, []byte(".")) || bytes.Contains(node.Destination, []byte("://")) {
		return
	}
	address, err := url.Parse(string(node.Destination))
	if err != nil || address.IsAbs() || address.Host != "" || !strings.EqualFold(path.Ext(address.Path), ".md") {
		return
	}
	if target, problem := insidePath(path.Dir(entry.Path), address.Path); problem.code == "" {
		line, column := places.at(max(node.Pos(), 0))
		entry.Links = append(entry.Links, Link{Position: p.place(line, column), Path: target})
	}
}

// checkLinks warns of links to entries that do not exist.
func checkLinks(files *folder, journal *Journal) {
	reported := 0
	for _, entry := range journal.Entries {
		for _, link := range entry.Links {
			if files.has(link.Path) && strings.HasPrefix(link.Path, "entries/") {
				continue
			}
			problem := Problem{Position: link.Position, Severity: Warning, Code: "no-such-entry",
				Message: "there is no entry " + quote(link.Path) + "; the words stay, without a link"}
			if reported++; reported <= maxReportedInFile { // as for pictures
				from := path.Dir(entry.Path)
				problem.Hint = or(meant(from, onlyEntry(journal.Entries, dayOfName(link.Path))), files.nearestHint(link.Path, from, issue{code: "missing-file"}))
			}
			journal.Problems = append(journal.Problems, problem)
		}
	}
}

// onlyEntry returns the path of the one entry of a day, as when its file was renamed, or "" where there is none or several.
func onlyEntry(entries []*Entry, day Day) string {
	only := ""
	for _, entry := range entries {
		if day == 0 || entry.Date != day {
			continue
		}
		if only != "" {
			return ""
		}
		only = entry.Path
	}
	return only
}

// checkCopies warns of entries whose keys are those of an earlier one, so that every event counts twice.
func checkCopies(journal *Journal) {
	first := map[string]*Entry{}
	for i, entry := range journal.Entries {
		if len(entry.Events) == 0 {
			continue
		}
		if copied.MatchString(path.Base(entry.Path)) && journal.sharesDay(i) {
			journal.Problems = append(journal.Problems, Problem{Position: entry.At("date"), Severity: Warning, Code: "same-entry",
				Message: "by its name the file is a copy, and its events count beside those of the other entry of this day",
				Hint:    "keep the one that is right and delete the other; if both are true, rename this one"})
			continue
		}
		keys := string(entry.Source[:entry.BodyOffset])
		if other := first[keys]; other != nil {
			journal.Problems = append(journal.Problems, Problem{Position: entry.At("date"), Severity: Warning, Code: "same-entry",
				Message: fmt.Sprintf("the same day and the same events stand in %s, and count twice", quote(other.Path)),
				Hint:    "delete one of the two files; if both are true, give one a title of its own"})
			continue
		}
		first[keys] = entry
	}
}

// copied is the name of a file that a folder in the cloud, an editor or a file manager made of another.
var copied = regexp.MustCompile(`(?i)\b(?:copy|copie|copia|kopie)\b|conflict|konflikt| ?\(\d{1,2}\)\.md$`)

// sharesDay reports whether another entry with events has the day of the i-th, where all stand in the order of days.
func (j *Journal) sharesDay(i int) bool {
	for _, k := range []int{i - 1, i + 1} {
		if k >= 0 && k < len(j.Entries) && j.Entries[k].Date == j.Entries[i].Date && len(j.Entries[k].Events) > 0 {
			return true
		}
	}
	return false
}

// checkName warns of an entry whose file is named after another day.
func (r *entryReader) checkName(named Day) {
	if named == 0 || r.entry.Date == 0 || named == r.entry.Date {
		return
	}
	r.warn(r.entry.At("date"), issue{code: "name-and-date", message: fmt.Sprintf("the file is named after %s, and its date is %s", named, r.entry.Date),
		hint: "mend the date, or rename the file"})
}
