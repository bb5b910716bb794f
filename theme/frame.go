package theme

import (
	"net/url"
	"slices"
	"strings"
)

// Frame is what every page has around its own content.
type Frame struct {
	Shared
	Title       string // of the page
	Description string
	Canonical   string    // absolute address, or "" where the journal has none
	Previews    []Preview // pictures for previews of the page, the best first; none where the journal has no address
	Type        string    // "website" or "article"
	Nav, Foot   []NavItem
	Icons       []string // drawings that the page uses
	Explore     Explore
	Wide        bool // the page has no margin
}

// Shared is what a page has in common with most of its folder, so that what follows from it is drawn once.
type Shared struct {
	Lang   string
	Site   string // title of the journal
	Keeper string
	Root   string // from the page to the top of the site
	Policy string // Content-Security-Policy
	AsOf   Moment
	Feed   bool // feed.xml and calendar.ics exist
}

// NavItem is one entry of the navigation.
type NavItem struct {
	Text, Href string
	Here       bool
}

// Explore is what the script needs to offer interactive charts; empty where a page has no figure.
type Explore struct {
	Runtime   string // address of the chart runtime
	Integrity string // its hash, where it comes from elsewhere
	Options   string // address of the script with the page's charts
}

// page is a struct with a Frame in it.
type page interface{ frame() *Frame }

func (f *Frame) frame() *Frame { return f }

// newFrame fills the frame of a page.
func (p *pen) newFrame(title, description string) Frame {
	f := Frame{
		Shared: Shared{Lang: p.set.Language, Site: p.set.Title, Keeper: p.set.Keeper, Root: p.root, AsOf: moment(p.asOf), Feed: p.set.Address != ""},
		Title:  title, Description: excerpt(description, 200), Type: "website", Previews: p.preview(),
	}
	if f.Lang == "" {
		f.Lang = "en"
	}
	if p.set.Address != "" {
		f.Canonical = p.set.Address + strings.TrimSuffix(p.path, "index.html")
	}
	f.Nav = p.nav([]NavItem{
		{Text: "Now", Href: "index.html"}, {Text: "Due", Href: "due.html"}, {Text: "Diary", Href: "diary.html"},
		{Text: "Broods", Href: "broods.html"}, {Text: "Shrimp", Href: "shrimp.html"}, {Text: "Topics", Href: "topics.html"},
	})
	f.Foot = p.nav([]NavItem{
		{Text: "Notices", Href: noticesPath}, {Text: "Track record", Href: "track-record.html"}, {Text: "Tanks", Href: "numbers.html"}, {Text: "Growth", Href: "growth.html"}, {Text: "Methods", Href: "methods.html"},
		{Text: "Data", Href: "data.html"}, {Text: "Cautions", Href: "cautions.html"},
	})
	return f
}

// nav leaves out what the record does not have yet, and marks where the page is.
func (p *pen) nav(items []NavItem) []NavItem {
	items = slices.DeleteFunc(items, func(i NavItem) bool { return !p.pages[i.Href] })
	for i := range items {
		section := strings.TrimSuffix(items[i].Href, ".html") + "/"
		items[i].Here = items[i].Href == p.path || strings.HasPrefix(p.path, section)
		items[i].Href = p.href(items[i].Href)
	}
	return items
}

// chartProgram is where the chart runtime comes from.
type chartProgram struct {
	path      string // in the site, or ""
	address   string // elsewhere
	integrity string
}

// host is the host that the program comes from, or "" where it is part of the site.
func (c chartProgram) host() string {
	if u, err := url.Parse(c.address); err == nil {
		return u.Host
	}
	return ""
}

// pinned is the chart runtime on a public network, loaded only when a reader asks for it: Apache ECharts 5.6.0.
var pinned = chartProgram{
	address:   "https://cdn.jsdelivr.net/npm/echarts@5.6.0/dist/echarts.common.min.js",
	integrity: "sha384-3BB1i9RyL6QcTzTUKkG9tAu4MkqwQcZG1wUsaGFVqEOS64SE18ARmIFlWzVBKJS4",
}

// finish completes a page's frame with what only its filling has shown: icons, figures, policy.
func (p *pen) finish(f *Frame) {
	for name := range p.icons {
		f.Icons = append(f.Icons, name)
	}
	slices.Sort(f.Icons)
	script := "'self'"
	if len(p.figures) > 0 {
		f.Explore = Explore{Runtime: p.href(p.runtime.path), Options: p.href(optionsPath(p.path))}
		if p.runtime.path == "" {
			f.Explore.Runtime, f.Explore.Integrity = p.runtime.address, p.runtime.integrity
			script += " " + p.runtime.address
		}
	}
	// Pages ask their own host for nothing, but what checks or previews them from inside may.
	f.Policy = "default-src 'none'; style-src 'self'; img-src 'self'; script-src " + script + "; connect-src 'self'; base-uri 'none'; form-action 'none'"
}

// optionsPath is the script beside a page that holds its charts.
func optionsPath(page string) string { return strings.TrimSuffix(page, ".html") + ".charts.js" }
