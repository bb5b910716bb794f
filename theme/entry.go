package theme

import (
	"html/template"
	"slices"
	"strings"
	"time"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// EntryPage is one page of the diary.
type EntryPage struct {
	Frame
	Heading  string
	Day      Moment
	Weekday  string
	Year     Link
	Tanks    []Link
	Topics   []Link
	Events   []EventLine
	Text     template.HTML
	Cautions []string
	Notices  []NoticeItem // that rest on this entry
	Prev     EntryStep
	Next     EntryStep
}

// EntryStep leads to the entry before or after.
type EntryStep struct {
	Link
	Day Moment
}

// title is what an entry is called: its title, or where it has none, what it tells of.
func (p *pen) title(e *journal.Entry) string {
	if len(e.Title) != len(time.DateOnly) || e.Title != e.Date.String() { // the length first: it is asked of every link
		return e.Title
	}
	var kinds []string
	for i := range e.Events {
		if label := strings.ToLower(labels[e.Events[i].What.Kind()]); e.Events[i].Day <= p.asOf && !slices.Contains(kinds, label) {
			kinds = append(kinds, label)
		}
	}
	switch {
	case len(kinds) == 0:
		return wording.Date(e.Date)
	case len(kinds) > 3:
		return wording.Sentence(strings.Join(kinds[:3], ", ")) + " and more"
	}
	return wording.Sentence(wording.List(kinds))
}

// topicLink names a topic as its first entry wrote it.
func (p *pen) topicLink(name string) Link {
	key := strings.ToLower(strings.TrimSpace(name))
	for _, t := range p.topics {
		if strings.ToLower(t.name) == key {
			name = t.name
		}
	}
	return Link{name, p.href(p.paths.topic[key])}
}

func (p *pen) entryPage(at int) page {
	e := p.entries[at]
	out := &EntryPage{Heading: p.title(e), Day: moment(e.Date), Weekday: e.Date.Time().Weekday().String(),
		Events: p.lines(e), Cautions: cautionsFor(eventsOf(e)), Notices: p.noticesOf(e)}
	year := e.Date.Time().Year()
	out.Year = Link{e.Date.Time().Format("January 2006"), p.href(yearPath(year)) + "#" + monthID(e.Date.Time().Month())}
	for _, id := range tanksOf(e) {
		out.Tanks = append(out.Tanks, p.tankLink(id))
	}
	var seen []string
	for _, name := range e.Topics {
		key := strings.ToLower(strings.TrimSpace(name))
		if key != "" && !slices.Contains(seen, key) {
			seen = append(seen, key)
			out.Topics = append(out.Topics, p.topicLink(name))
		}
	}
	text, err := p.html(e, p.root)
	if err != nil && p.err == nil {
		p.err = err
	}
	out.Text = text
	if at > 0 {
		out.Prev = EntryStep{p.entryLink(p.entries[at-1]), moment(p.entries[at-1].Date)}
	}
	if at+1 < len(p.entries) {
		out.Next = EntryStep{p.entryLink(p.entries[at+1]), moment(p.entries[at+1].Date)}
	}
	if tanks := tanksOf(e); len(tanks) > 0 {
		p.tank = tanks[0]
	}
	out.Frame = p.newFrame(out.Heading, p.describe(e))
	out.Type = "article"
	out.Previews = append(p.photoPreview(e), out.Previews...)
	return out
}

// photoPreview is the first photo of an entry for its preview, where the journal has an address.
func (p *pen) photoPreview(e *journal.Entry) []Preview {
	for _, image := range e.Images {
		found, ok := p.photos[image.Path]
		if ok && p.set.Address != "" {
			large := found.sizes[len(found.sizes)-1]
			return []Preview{{p.set.Address + large.path, image.Alt, large.width, large.height}}
		}
	}
	return nil
}

// describe sums an entry up for previews: its text, else its events.
func (p *pen) describe(e *journal.Entry) string {
	if text := e.Words; text != "" {
		return text
	}
	var parts []string
	for _, line := range p.lines(e) {
		parts = append(parts, line.Label+": "+plain(line.Words))
	}
	if len(parts) == 0 {
		return "Diary entry of " + wording.Date(e.Date)
	}
	return strings.Join(parts, "; ")
}
