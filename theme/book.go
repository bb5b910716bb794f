package theme

import (
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/care"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// book is the public record with everything that pages look up in it. It is made once and only read afterwards,
// so pages can be filled side by side.
type book struct {
	*forecast.Forecast
	press   *Press // may be nil
	set     *journal.Settings
	asOf    journal.Day
	units   units
	entries []*journal.Entry // by date, then path
	tanks   map[string]*forecast.Tank
	broods  map[string]*forecast.Brood
	cohorts map[string]*forecast.Cohort
	shrimp  map[string]*colony.Shrimp
	// opened and concerned are the broods that an event opened, and those it is about.
	opened, concerned map[*journal.Event][]string
	noticed           map[string][]*forecast.Notice // by the path of each entry that they rest on
	tasks             []care.Item                   // what to look for, from the public record
	topics            []topic
	jobs              []job           // every page
	pages             map[string]bool // the same by path
	years             []int           // with entries, newest first
	paths             paths
	photos            gallery
	previews          map[string]Preview // by the id of the tank that each shows
	runtime           chartProgram
}

// topic is a word that entries are grouped by, with its entries, oldest first.
type topic struct {
	name    string
	entries []*journal.Entry
}

// paths holds the site path of every page that something in the record has.
type paths struct {
	tank, brood, shrimp, topic map[string]string
	entry                      map[*journal.Entry]string
	source                     map[string]string // from an entry's path in the journal
}

func newBook(f *forecast.Forecast, press *Press) *book {
	b := &book{
		press: press, Forecast: f, set: f.Colony.Settings, asOf: f.Colony.AsOf, units: units{wording.Units{Units: f.Colony.Settings.Units}},
		entries: f.Colony.Entries,
		tanks:   map[string]*forecast.Tank{}, broods: map[string]*forecast.Brood{},
		cohorts: map[string]*forecast.Cohort{}, shrimp: map[string]*colony.Shrimp{},
		tasks: care.Calendar(f), noticed: noticesByEntry(f),
		opened: map[*journal.Event][]string{}, concerned: map[*journal.Event][]string{},
	}
	for i := range f.Tanks {
		b.tanks[f.Tanks[i].Tank.ID] = &f.Tanks[i]
	}
	for i := range f.Broods {
		b.broods[f.Broods[i].ID] = &f.Broods[i]
		b.index(f.Broods[i].Brood)
	}
	for i := range f.Cohorts {
		b.cohorts[f.Cohorts[i].ID] = &f.Cohorts[i]
	}
	for _, s := range f.Colony.Shrimp {
		b.shrimp[s.Name] = s
	}
	b.topics = topics(b.entries)
	for _, e := range b.entries {
		if year := e.Date.Time().Year(); len(b.years) == 0 || year != b.years[0] { // they are by date
			b.years = append([]int{year}, b.years...)
		}
	}
	b.paths = newPaths(b)
	b.jobs, b.pages = b.allJobs(), map[string]bool{}
	for _, job := range b.jobs {
		b.pages[job.path] = true
	}
	return b
}

// index notes which events opened a brood and which are about it.
func (b *book) index(brood *colony.Brood) {
	b.opened[brood.Opened] = append(b.opened[brood.Opened], brood.ID)
	for _, e := range brood.Events {
		b.concerned[e] = append(b.concerned[e], brood.ID)
	}
}

// topics groups entries by their topics, without regard to case, in the order of the alphabet.
func topics(entries []*journal.Entry) []topic {
	var all []topic
	at := map[string]int{}
	for _, e := range entries {
		for _, name := range e.Topics {
			key := strings.ToLower(strings.TrimSpace(name))
			if key == "" {
				continue
			}
			i, known := at[key]
			if !known {
				i = len(all)
				at[key] = i
				all = append(all, topic{name: strings.TrimSpace(name)})
			}
			if had := all[i].entries; len(had) == 0 || had[len(had)-1] != e {
				all[i].entries = append(had, e)
			}
		}
	}
	slices.SortFunc(all, func(a, b topic) int {
		return strings.Compare(strings.ToLower(a.name), strings.ToLower(b.name))
	})
	return all
}

func newPaths(b *book) paths {
	p := paths{
		tank: map[string]string{}, brood: map[string]string{}, shrimp: map[string]string{}, topic: map[string]string{},
		entry: make(map[*journal.Entry]string, len(b.entries)), source: make(map[string]string, len(b.entries)),
	}
	names := shelf{}
	for i := range b.set.Tanks {
		id := b.set.Tanks[i].ID
		p.tank[id] = "tanks/" + names.name(id, "tank") + ".html"
	}
	names = shelf{}
	for _, brood := range b.Broods {
		p.brood[brood.ID] = "broods/" + names.name(brood.ID, brood.Berried.String()) + ".html"
	}
	names = shelf{}
	for _, s := range b.Colony.Shrimp {
		p.shrimp[s.Name] = "shrimp/" + names.name(s.Name, s.First.Day.String()) + ".html"
	}
	names = shelf{}
	for _, t := range b.topics {
		p.topic[strings.ToLower(t.name)] = "topics/" + names.name(t.name, "topic") + ".html"
	}
	names = make(shelf, len(b.entries))
	for _, e := range b.entries {
		title, day := e.Title, e.Date.String()
		if title == day {
			title = ""
		}
		path := "diary/" + names.name(day+" "+title, "entry") + ".html"
		p.entry[e], p.source[e.Path] = path, path
	}
	return p
}

// Link is words that may lead somewhere; without Href they are plain.
type Link struct{ Text, Href string }

// pen writes one page: it knows where the page lies, so that what it links to is reached from there.
type pen struct {
	*book
	path  string // of the page
	tank  string // id of the tank that the page is about, or ""
	root  string // "" or "../"
	icons map[string]bool
	// figures are those of the page, in order, for their interactive charts.
	figures []figure.Figure
	err     error // the first figure that could not be drawn
}

func (b *book) pen(path string) *pen {
	return &pen{book: b, path: path, root: strings.Repeat("../", strings.Count(path, "/")), icons: map[string]bool{}}
}

// href returns the address of a site path as seen from the page, and "" for no path.
func (p *pen) href(path string) string {
	if path == "" {
		return ""
	}
	return p.root + path
}

// icon notes that the page uses an icon, so that its drawing goes along, and returns its name.
func (p *pen) icon(name string) string {
	p.icons[name] = true
	return name
}

// tankName is what the keeper calls a tank.
func (b *book) tankName(id string) string {
	if t := b.set.Tank(id); t != nil && t.Name != "" {
		return t.Name
	}
	return id
}

func (p *pen) tankLink(id string) Link {
	return Link{p.tankName(id), p.href(p.paths.tank[id])}
}

// shrimpLink names an animal with a capital, however the keeper wrote it.
func (p *pen) shrimpLink(name string) Link {
	return Link{wording.Sentence(name), p.href(p.paths.shrimp[name])}
}

func (p *pen) entryLink(e *journal.Entry) Link {
	return Link{p.title(e), p.href(p.paths.entry[e])}
}

// Moment is a day for people and for machines.
type Moment struct{ ISO, Long, Short string }

// moment returns a day in its three forms; the zero day gives an empty Moment.
func moment(d journal.Day) Moment {
	if d == 0 {
		return Moment{}
	}
	return Moment{d.String(), wording.Date(d), shortDay(d)}
}
