package theme

import (
	"cmp"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/notice"
	"pleopod/journal/wording"
)

// NoticeItem is something that the record makes unusual.
type NoticeItem struct {
	Icon     string
	ID       string // of its place on the page of notices
	Href     string // of that place, from this page
	Kind     string
	Severity string // "Have a look", "Soon", "Now"
	Grade    string // the same as a class of the style
	Tank     Link
	Since    Moment
	Days     string // when it stood
	Ended    bool
	Headline string
	Seen     string
	Expected string
	Odds     string
	Other    []string
	Checks   []string
	Ends     string
	Entries  []Link
	day      journal.Day // on which it came up
}

// NoticesPage is every notice, those that stand and those that ended.
type NoticesPage struct {
	Frame
	Standing []NoticeItem
	Ended    []NoticeItem
	Watched  string       // how many kinds there are
	Kinds    []NoticeKind // what each watches
}

// NoticeKind is what one kind of notice is about.
type NoticeKind struct{ Name, Watches string }

// noticesPath is the page of all notices.
const noticesPath = "notices.html"

// severityWords are what each severity is called.
var severityWords = map[forecast.Severity]string{forecast.Look: "Have a look", forecast.Soon: "Soon",
	forecast.Now: "Now"}

// kindNames returns what each kind of notice is called.
func kindNames() map[string]string {
	names := map[string]string{}
	for _, kind := range notice.Kinds() {
		names[kind.Word] = kind.Name
	}
	return names
}

// notices fills the notices that stand and that which lets through, the most pressing first.
func (p *pen) notices(which func(forecast.Notice) bool) []NoticeItem {
	var out []NoticeItem
	for _, severity := range []forecast.Severity{forecast.Now, forecast.Soon, forecast.Look} {
		for _, n := range p.Notices {
			if n.Severity == severity && which(n) {
				out = append(out, p.notice(n))
			}
		}
	}
	return out
}

// endedNotices fills the notices of earlier days that which lets through, those that ended last first.
func (p *pen) endedNotices(which func(forecast.Notice) bool) []NoticeItem {
	ended := slices.Clone(p.Ended)
	slices.SortStableFunc(ended, func(a, b forecast.Notice) int { return cmp.Compare(b.Until, a.Until) })
	var out []NoticeItem
	for _, n := range ended {
		if which(n) {
			out = append(out, p.notice(n))
		}
	}
	return out
}

func (p *pen) notice(n forecast.Notice) NoticeItem {
	item := NoticeItem{
		Icon: p.icon("notice"), ID: noticeID(n), Severity: severityWords[n.Severity], Grade: string(n.Severity),
		Kind: kindNames()[n.Kind],
		Tank: p.tankLink(n.Tank), Since: moment(n.Since), Days: "since " + wording.Date(n.Since),
		Ended: n.Until != 0, Headline: n.Headline,
		Seen: n.Seen, Expected: n.Expected, Odds: n.Odds, Other: n.Other, Checks: n.Checks, Ends: n.Ends, day: n.Since,
	}
	if b := p.broods[n.Brood]; b != nil {
		item.Headline = strings.ReplaceAll(item.Headline, b.ID, p.broodName(b))
	}
	item.Href = p.href(noticesPath) + "#" + item.ID
	if item.Ended {
		item.Days = span(n.Since, n.Until-1)
	}
	for _, e := range n.Events {
		link := p.entryLink(e.Entry)
		link.Text = wording.Date(e.Day)
		if !slices.Contains(item.Entries, link) {
			item.Entries = append(item.Entries, link)
		}
	}
	return item
}

// noticeID names a notice within the page of all of them: no two of one kind begin on one day in one tank for
// one brood or kind of reading.
func noticeID(n forecast.Notice) string {
	id := n.Kind + "-" + n.Tank + "-" + n.Since.String()
	if n.Brood != "" {
		id += "-" + slug(n.Brood)
	}
	if n.Reading != "" {
		id += "-" + string(n.Reading)
	}
	return id
}

// noticesOf returns the notices, standing or ended, that rest on an event of an entry, by the day they came up.
func (p *pen) noticesOf(e *journal.Entry) []NoticeItem {
	var out []NoticeItem
	for _, n := range p.noticed[e.Path] {
		out = append(out, p.notice(*n))
	}
	return out
}

// noticesByEntry returns the notices, standing or ended, that rest on an event of each entry, by the day they came up.
func noticesByEntry(f *forecast.Forecast) map[string][]*forecast.Notice {
	by := map[string][]*forecast.Notice{}
	add := func(n *forecast.Notice) {
		for _, event := range n.Events {
			path := event.Entry.Path
			if so := by[path]; len(so) == 0 || so[len(so)-1] != n {
				by[path] = append(so, n)
			}
		}
	}
	for _, all := range [][]forecast.Notice{f.Ended, f.Notices} {
		for i := range all {
			add(&all[i])
		}
	}
	for _, all := range by {
		slices.SortStableFunc(all, func(a, b *forecast.Notice) int { return cmp.Compare(a.Since, b.Since) })
	}
	return by
}

func (p *pen) noticesPage() page {
	all := func(forecast.Notice) bool { return true }
	out := &NoticesPage{Standing: p.notices(all), Ended: p.endedNotices(all)}
	for _, kind := range notice.Kinds() {
		out.Kinds = append(out.Kinds, NoticeKind{kind.Name, kind.Watches})
	}
	out.Watched = wording.Sentence(several(len(out.Kinds), "thing", "things")) + " that are looked at on every day"
	words := "Nothing in the record is unusual on " + wording.Date(p.asOf) + "."
	if n := len(out.Standing); n > 0 {
		words = wording.Sentence(several(n, "thing", "things")) + " in the record " + map[bool]string{true: "is", false: "are"}[n == 1] + " unusual on " + wording.Date(p.asOf) + "."
	}
	out.Frame = p.newFrame("Notices", words)
	return out
}
