package theme

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"net/url"
	"slices"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"pleopod/journal"
	"pleopod/journal/forecast"
)

// extra is a file of the site that is no page.
type extra struct {
	path  string
	write func() ([]byte, error)
}

// putInto writes the file and hands it over.
func (e extra) putInto(put Put) error {
	written, err := e.write()
	if err != nil {
		return err
	}
	return put(e.path, written)
}

// standards lists what other programs read: data files, the search index and, where the journal has an address, the
// feed, the calendar and the site map of the pages.
func (b *book) standards(pages []string, look *Look) []extra {
	extras := []extra{
		{searchPath, b.searchIndex},
		{"robots.txt", func() ([]byte, error) { return b.robots(), nil }},
		{forecastPath, b.document},
	}
	for _, table := range dataTables {
		extras = append(extras, extra{table.path, func() ([]byte, error) { return table.write(b) }})
	}
	if b.set.Address == "" {
		return extras
	}
	return append(extras,
		extra{"feed.xml", func() ([]byte, error) { return b.feed(look) }},
		extra{"calendar.ics", func() ([]byte, error) { return b.calendar(), nil }},
		extra{"sitemap.xml", func() ([]byte, error) { return b.siteMap(pages) }},
	)
}

// forecastPath is the forecast as one document.
const forecastPath = "data/forecast.json"

// document writes the public forecast. A brood whose end is private has no state that the document knows.
func (b *book) document() ([]byte, error) {
	shown := *b.Forecast
	shown.Broods = slices.DeleteFunc(slices.Clone(shown.Broods),
		func(x forecast.Brood) bool { return x.State == closed })
	text, err := json.MarshalIndent(forecast.NewDocument(&shown, true), "", " ")
	return append(text, '\n'), err
}

// robots lets every program read the site (RFC 9309), and names the site map where there is one.
func (b *book) robots() []byte {
	text := "User-agent: *\nAllow: /\n"
	if b.set.Address != "" {
		text += "Sitemap: " + b.set.Address + "sitemap.xml\n"
	}
	return []byte(text)
}

// host is the host of the journal's address, which makes identifiers unique in the world.
func (b *book) host() string {
	if u, err := url.Parse(b.set.Address); err == nil && u.Hostname() != "" {
		return u.Hostname()
	}
	return "localhost"
}

// feedLength is how many entries the feed holds.
const feedLength = 30

// The elements of an Atom feed (RFC 4287). The feed library in wide use has room for one link only, and a feed
// needs two.
type atomFeed struct {
	XMLName  xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	Lang     string      `xml:"xml:lang,attr,omitempty"`
	ID       string      `xml:"id"`
	Title    string      `xml:"title"`
	Subtitle string      `xml:"subtitle,omitempty"`
	Updated  string      `xml:"updated"`
	Author   atomAuthor  `xml:"author"`
	Links    []atomLink  `xml:"link"`
	Icon     string      `xml:"icon,omitempty"`
	Entries  []atomEntry `xml:"entry"`
}

type atomAuthor struct {
	Name string `xml:"name"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr"`
	Href string `xml:"href,attr"`
}

type atomEntry struct {
	ID         string         `xml:"id"`
	Title      string         `xml:"title"`
	Published  string         `xml:"published"`
	Updated    string         `xml:"updated"`
	Link       atomLink       `xml:"link"`
	Categories []atomCategory `xml:"category"`
	Content    atomContent    `xml:"content"`
}

type atomCategory struct {
	Term string `xml:"term,attr"`
}

type atomContent struct {
	Type string `xml:"type,attr"`
	Base string `xml:"xml:base,attr"`
	Text string `xml:",chardata"`
}

// FeedText is an entry as the feed holds it in full.
type FeedText struct {
	Events []EventLine
	Text   any // template.HTML
}

// feed writes the newest entries in full as Atom. An entry's id rests on its file, so a new title keeps it.
func (b *book) feed(look *Look) ([]byte, error) {
	updated := b.asOf
	if n := len(b.entries); n > 0 {
		updated = b.entries[n-1].Date
	}
	author := b.set.Keeper
	if author == "" {
		author = b.set.Title
	}
	feed := atomFeed{
		Lang: b.set.Language, ID: b.set.Address, Title: b.set.Title, Subtitle: "A diary of shrimp tanks",
		Updated: atomTime(updated), Author: atomAuthor{author},
		Links: []atomLink{{"self", "application/atom+xml", b.set.Address + "feed.xml"},
			{"alternate", "text/html", b.set.Address}},
		Icon: b.set.Address + "icon.svg",
	}
	for i := len(b.entries) - 1; i >= 0 && len(feed.Entries) < feedLength; i-- {
		entry, err := b.feedEntry(b.entries[i], look)
		if err != nil {
			return nil, err
		}
		feed.Entries = append(feed.Entries, entry)
	}
	text, err := xml.MarshalIndent(feed, "", " ")
	return append([]byte(xml.Header), append(text, '\n')...), err
}

// atomTime is the first moment of a day, the only time that a diary day has.
func atomTime(d journal.Day) string { return d.Time().Format(time.RFC3339) }

func (b *book) feedEntry(e *journal.Entry, look *Look) (atomEntry, error) {
	p := b.pen("feed.xml")
	p.root = b.set.Address
	address := b.set.Address + b.paths.entry[e]
	text, err := b.html(e, p.root)
	if err != nil {
		return atomEntry{}, err
	}
	var content bytes.Buffer
	if err := look.feed.Execute(&content, FeedText{p.lines(e), text}); err != nil {
		return atomEntry{}, err
	}
	out := atomEntry{
		ID:    "tag:" + b.host() + "," + e.Date.String() + ":entry/" + fingerprint([]byte(e.Path)),
		Title: p.title(e), Published: atomTime(e.Date), Updated: atomTime(e.Date),
		Link: atomLink{"alternate", "text/html", address}, Content: atomContent{"html", address, content.String()},
	}
	for _, name := range e.Topics {
		if name := strings.TrimSpace(name); name != "" {
			out.Categories = append(out.Categories, atomCategory{name})
		}
	}
	return out, nil
}

// calendar writes what is due in the coming year as all-day events (RFC 5545). The identifiers stay the same from
// one publishing to the next, so that a subscribed calendar moves an event instead of doubling it.
func (b *book) calendar() []byte {
	p := b.pen("calendar.ics")
	p.root = b.set.Address
	cal := ics.NewCalendar()
	cal.SetProductId("-//pleopod//colony diary//EN")
	cal.SetVersion("2.0")

	cal.SetName(b.set.Title)
	cal.SetXWRCalName(b.set.Title)
	for _, item := range p.due(366) {
		event := cal.AddEvent(fingerprint([]byte(item.key)) + "-" + slug(item.Label) + "@" + b.host())
		event.SetDtStampTime(b.asOf.Time())
		event.SetAllDayStartAt(item.from.Time())
		event.SetAllDayEndAt((max(item.to, item.from) + 1).Time())
		event.SetSummary(oneLine(plain(item.What)))
		event.SetDescription(oneLine(item.Tank.Text + ": " + item.days() + "; " + item.Odds))
		if link := firstHref(item.What); link != "" {
			event.SetURL(link)
		}
		event.SetTimeTransparency(ics.TransparencyTransparent)
	}
	b.pressing(cal, p)
	if len(cal.Components) == 0 { // a calendar must hold something; a zone shows nowhere
		zone := cal.AddTimezone("Etc/UTC").AddStandard()
		zone.AddProperty(ics.ComponentPropertyDtStart, "19700101T000000")
		zone.AddProperty("TZOFFSETFROM", "+0000")
		zone.AddProperty("TZOFFSETTO", "+0000")
	}
	return []byte(cal.Serialize(ics.WithNewLine("\r\n")))
}

// pressing adds the notices that should not wait, on the day they came up.
func (b *book) pressing(cal *ics.Calendar, p *pen) {
	for _, n := range p.notices(func(n forecast.Notice) bool { return n.Severity != forecast.Look }) {
		event := cal.AddEvent(fingerprint([]byte("notice "+n.ID)) + "-notice@" + b.host())
		event.SetDtStampTime(b.asOf.Time())
		event.SetAllDayStartAt(n.day.Time())
		event.SetAllDayEndAt((n.day + 1).Time())
		event.SetSummary(oneLine(n.Severity + ": " + n.Headline))
		event.SetDescription(oneLine(n.Tank.Text + ": " + n.Seen + " " + n.Expected + " Check first: " + strings.Join(n.Checks, " ")))
		event.SetURL(n.Href)
		event.SetTimeTransparency(ics.TransparencyTransparent)
	}
}

// oneLine leaves out line breaks and other control characters, which a calendar cannot hold.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, text)
}

func firstHref(links []Link) string {
	for _, l := range links {
		if l.Href != "" {
			return l.Href
		}
	}
	return ""
}

type siteMap struct {
	XMLName xml.Name `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 urlset"`
	URLs    []mapURL `xml:"url"`
}

type mapURL struct {
	Loc     string `xml:"loc"`
	LastMod string `xml:"lastmod,omitempty"`
}

// mapLimit is how many addresses a site map may hold.
const mapLimit = 50000

// siteMap lists the pages (sitemaps.org protocol 0.9); a page of an entry with its day.
func (b *book) siteMap(pages []string) ([]byte, error) {
	days := map[string]string{}
	for e, path := range b.paths.entry {
		days[path] = e.Date.String()
	}
	var out siteMap
	for _, path := range pages {
		if path == "404.html" || len(out.URLs) == mapLimit {
			continue
		}
		out.URLs = append(out.URLs, mapURL{b.set.Address + strings.TrimSuffix(path, "index.html"), days[path]})
	}
	text, err := xml.MarshalIndent(out, "", " ")
	return append([]byte(xml.Header), append(text, '\n')...), err
}

// charts returns the script with the interactive charts of a page, or nil where it has none.
func (p *pen) charts() ([]byte, error) {
	if len(p.figures) == 0 {
		return nil, nil
	}
	options := map[string]json.RawMessage{}
	for _, f := range p.figures {
		option, err := f.Option()
		if err != nil {
			return nil, err
		}
		options[f.ID] = option
	}
	text, err := json.Marshal(options) // keys in order, every < escaped
	return slices.Concat([]byte("pleopodCharts("), text, []byte(");\n")), err
}
