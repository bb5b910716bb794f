package theme

import (
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// glanceDue and glanceTanks are how many things due and tanks the glance names.
const (
	glanceDue   = 2
	glanceTanks = 6
)

// glance answers what a keeper wants to know before anything else: what comes next, whether silence means trouble
// or patience, how many shrimp there are and how sure that is.
func (p *pen) glance(due []DueItem, notices []NoticeItem) []Fact {
	var next phrase
	named := 0
	for _, item := range due {
		if item.Past || item.chore || named == glanceDue {
			continue
		}
		if named++; named > 1 {
			next.say(" ")
		}
		next.link(item.What...)
		next.say(": ", item.When, ".")
	}
	if named == 0 {
		next.say("Nothing yet: the first note of eggs brings the first date.")
	}
	return []Fact{{"Due next", next}, {"Anything wrong?", p.alarm(notices)}, {"How many", p.heads()}}
}

// alarm says whether something presses; the most pressing notice stands in front.
func (p *pen) alarm(notices []NoticeItem) phrase {
	var w phrase
	n, late := len(notices), p.overdue()
	switch {
	case n == 0 && len(late) > 0:
		w.say("Nothing presses. The eggs of ")
		w.list(late)
		w.say(" are late, though not enough for a notice.")
	case n == 0:
		w.say("Nothing in the record is unusual.")
	case notices[0].Grade == string(forecast.Look):
		w.say("Nothing presses. ")
		w.link(Link{Text: wording.Sentence(several(n, "notice", "notices")), Href: "#notices"})
		w.say(" may be worth a look.")
	default:
		w.say(notices[0].Severity, ": ")
		w.link(Link{Text: notices[0].Headline, Href: notices[0].Href})
		if n > 1 {
			w.say("; and ", inWords(n-1), " more")
		}
		w.say(".")
	}
	return w
}

// overdue names the broods that are past their window.
func (p *pen) overdue() []Link {
	var out []Link
	for i := range p.Broods {
		if p.Broods[i].State == forecast.Overdue {
			out = append(out, p.broodLink(p.Broods[i].ID))
		}
	}
	return out
}

// heads says how many shrimp live in each tank where any live, with the band that holds 9 in 10.
func (p *pen) heads() phrase {
	var w phrase
	lived, came, sure := 0, false, true
	for i := range p.Tanks {
		now := p.Tanks[i].Population.Now
		came = came || len(p.Tanks[i].Ledger) > 0
		if whole(now.P95) == 0 {
			continue
		}
		if lived++; lived > glanceTanks {
			continue
		}
		if lived > 1 {
			w.say(", ")
		}
		w.link(p.tankLink(p.Tanks[i].Tank.ID))
		w.say(" ", numbers(now))
		if p.Tanks[i].SilentSince(p.asOf) != 0 {
			w.say(", a guess")
		}
		sure = sure && whole(now.P05) == whole(now.P95)
	}
	switch {
	case lived > 0:
	case came:
		w.say("None now")
	default:
		w.say("None yet: the first note of stocking begins the count")
	}
	if more := lived - glanceTanks; more > 0 {
		w.say(" and ", several(more, "more tank", "more tanks"))
	}
	if !sure {
		w.say("; 9 times in 10 the truth lies in the range")
	}
	w.say(".")
	return w
}
