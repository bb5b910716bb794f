package theme

import (
	"pleopod/journal/forecast"
)

// NoticeItem is something that the record makes unusual.
type NoticeItem struct {
	Icon     string
	Severity string // "Have a look", "Soon", "Now"
	Tank     Link
	Since    Moment
	Headline string
	Seen     string
	Expected string
	Odds     string
	Other    []string
	Checks   []string
	Ends     string
	Entries  []Link
}

// severityWords are what each severity is called.
var severityWords = map[forecast.Severity]string{forecast.Look: "Have a look", forecast.Soon: "Soon", forecast.Now: "Now"}

// notices fills the notices that which lets through, the most pressing first.
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

func (p *pen) notice(n forecast.Notice) NoticeItem {
	item := NoticeItem{
		Icon: p.icon("notice"), Severity: severityWords[n.Severity], Tank: p.tankLink(n.Tank), Since: moment(n.Since), Headline: n.Headline,
		Seen: n.Seen, Expected: n.Expected, Other: n.Other, Checks: n.Checks, Ends: n.Ends,
	}
	if n.Probability > 0 {
		item.Odds = percent(n.Probability)
	}
	for _, e := range n.Events {
		link := p.entryLink(e.Entry)
		link.Text = longDay(e.Day)
		if len(item.Entries) == 0 || item.Entries[len(item.Entries)-1] != link {
			item.Entries = append(item.Entries, link)
		}
	}
	return item
}
