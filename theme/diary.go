package theme

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"pleopod/journal"
	"pleopod/journal/wording"
)

// EntryLine is one entry in a list: its day stands in the margin.
type EntryLine struct {
	Day     Moment
	Title   Link
	Tanks   []Link
	Excerpt string
	Signs   []Sign
	Photo   Photo
}

// Sign is an icon with the word for it.
type Sign struct{ Icon, Label string }

// entryLine fills one line of a list of entries.
func (p *pen) entryLine(e *journal.Entry) EntryLine {
	line := EntryLine{Day: moment(e.Date), Title: p.entryLink(e), Excerpt: excerpt(e.Words, 180)}
	for _, id := range tanksOf(e) {
		line.Tanks = append(line.Tanks, p.tankLink(id))
	}
	var seen []string
	for i := range e.Events {
		kind := e.Events[i].What.Kind()
		if e.Events[i].Day <= p.asOf && !slices.Contains(seen, kind) {
			seen = append(seen, kind)
			line.Signs = append(line.Signs, Sign{p.icon(kind), labels[kind]})
		}
	}
	for _, image := range e.Images {
		if found, ok := p.photos[image.Path]; ok {
			line.Photo = found.thumb(p.root)
			break
		}
	}
	return line
}

// newest returns up to n entries, newest first.
func (p *pen) newest(entries []*journal.Entry, n int) []EntryLine {
	var out []EntryLine
	for i := len(entries) - 1; i >= 0 && len(out) < n; i-- {
		out = append(out, p.entryLine(entries[i]))
	}
	return out
}

// YearSum is one year of the diary in the list of years.
type YearSum struct {
	Year   Link
	Words  string
	Months []Link
	Ruler  Ruler
}

// DiaryPage lists the years of the diary.
type DiaryPage struct {
	Frame
	Years []YearSum
}

// YearPage is one year of the diary, month by month.
type YearPage struct {
	Frame
	Year        int
	Months      []MonthPart
	Older, Next Link
	Words       string
}

// MonthPart is one month of a year: its ruler and its entries.
type MonthPart struct {
	ID, Name string
	Ruler    Ruler
	Entries  []EntryLine
}

func yearPath(year int) string { return "diary/" + strconv.Itoa(year) + ".html" }

func monthID(m time.Month) string { return fmt.Sprintf("month-%02d", int(m)) }

// inYear returns the entries of one year.
func (b *book) inYear(year int) []*journal.Entry {
	var out []*journal.Entry
	for _, e := range b.entries {
		if e.Date.Time().Year() == year {
			out = append(out, e)
		}
	}
	return out
}

func (p *pen) diaryPage() page {
	out := &DiaryPage{}
	for _, year := range p.years {
		entries := p.inYear(year)
		sum := YearSum{Year: Link{strconv.Itoa(year), p.href(yearPath(year))},
			Words: wording.Count(len(entries), "entry", "entries")}
		for _, month := range months(entries) {
			sum.Months = append(sum.Months, Link{month.String(), p.href(yearPath(year)) + "#" + monthID(month)})
		}
		out.Years = append(out.Years, sum)
	}
	words := wording.Sentence(several(len(p.entries), "entry", "entries"))
	if n := len(p.years); n > 1 {
		words += " in " + several(n, "year", "years")
	}
	out.Frame = p.newFrame("Diary", words+".")
	return out
}

// months returns the months that have entries, in order.
func months(entries []*journal.Entry) []time.Month {
	var out []time.Month
	for _, e := range entries {
		if m := e.Date.Time().Month(); !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out
}

func (p *pen) yearPage(year int) page {
	entries := p.inYear(year)
	out := &YearPage{Year: year, Words: wording.Count(len(entries), "entry", "entries")}
	for _, month := range months(entries) {
		part := MonthPart{ID: monthID(month), Name: month.String()}
		var within []*journal.Entry
		for _, e := range entries {
			if e.Date.Time().Month() == month {
				within = append(within, e)
				part.Entries = append(part.Entries, p.entryLine(e))
			}
		}
		part.Ruler = p.monthRuler(year, month, within)
		out.Months = append(out.Months, part)
	}
	at := slices.Index(p.years, year)
	if at+1 < len(p.years) {
		out.Older = Link{strconv.Itoa(p.years[at+1]), p.href(yearPath(p.years[at+1]))}
	}
	if at > 0 {
		out.Next = Link{strconv.Itoa(p.years[at-1]), p.href(yearPath(p.years[at-1]))}
	}
	out.Frame = p.newFrame("Diary "+strconv.Itoa(year), fmt.Sprintf("The diary of %d: %s.", year, out.Words))
	return out
}

// TopicsPage lists the topics.
type TopicsPage struct {
	Frame
	Topics []TopicSum
}

// TopicSum is one topic in the list.
type TopicSum struct {
	Topic Link
	Words string
}

// TopicPage is the entries of one topic, newest first.
type TopicPage struct {
	Frame
	Entries []EntryLine
	Words   string
}

func (p *pen) topicsPage() page {
	out := &TopicsPage{}
	for _, t := range p.topics {
		out.Topics = append(out.Topics, TopicSum{p.topicLink(t.name),
			wording.Count(len(t.entries), "entry", "entries")})
	}
	out.Frame = p.newFrame("Topics", "What the diary writes about, by topic.")
	return out
}

func (p *pen) topicPage(t topic) page {
	out := &TopicPage{Entries: p.newest(t.entries, len(t.entries)),
		Words: wording.Count(len(t.entries), "entry", "entries")}
	out.Frame = p.newFrame(t.name, fmt.Sprintf("%s on %s.", wording.Sentence(out.Words), t.name))
	return out
}
