package journal

import (
	"fmt"
	"net/url"
	"regexp"
	"slices"
	"strings"
)

// ParseSettings reads journal.yaml. It looks at nothing but its argument: whether the files it names exist is checked
// by Read. The settings are nil when nothing could be read; problems are sorted.
func ParseSettings(source []byte) (*Settings, []Problem) {
	p := &page{path: SettingsFile, units: MetricUnits()}
	settings := p.settings(source)
	return settings, p.sorted()
}

func (p *page) settings(source []byte) *Settings {
	source, ok := p.clean(source, maxSettingsBytes)
	if !ok {
		return nil
	}
	node := p.parseYAML(source)
	if node == nil {
		if len(p.problems) == 0 {
			p.fail(p.place(1, 1), issue{code: "missing-key", message: `journal.yaml is empty; it needs "title" and "tanks"`, hint: "for example: title: My shrimp"})
		}
		return nil
	}
	children, ok := p.children(node)
	if !ok {
		p.fail(p.at(startOf(node)), issue{code: "not-a-mapping", message: "journal.yaml is no list of keys; each line is a key, a colon, a space and a value", hint: "for example: title: My shrimp"})
		return nil
	}
	p.readUnitsFirst(children)
	found := p.readMapping(children, settingsWords, &context{})
	p.requireKeys(found, settingsWords, p.place(1, 1), "journal.yaml")
	settings := &Settings{
		Title:     found.text("title"),
		Keeper:    found.text("keeper"),
		Address:   p.address(found.get("address")),
		Language:  p.language(found.get("language")),
		Units:     p.units,
		Species:   found.text("species"),
		Grades:    found.names("grades"),
		AsOf:      found.day("as-of"),
		Ammonia:   Basis(found.text("ammonia-as")),
		TDSFactor: p.tdsFactor(found.get("tds-factor")),
		Look:      p.pathOf(found.get("look")),
	}
	settings.setDefaults()
	if charts := found.get("charts"); charts != nil {
		settings.ChartRuntime = p.pathOf(charts.children.get("runtime"))
	}
	p.readTankList(settings, found.written("tanks"))
	p.readBiology(settings, found.get("biology"))
	return settings
}

func (s *Settings) setDefaults() {
	if s.Species == "" {
		s.Species = defaultSpecies
	}
	if s.Ammonia == "" {
		s.Ammonia = BasisN
	}
}

// readUnitsFirst applies the journal's units before any number without a unit is read, wherever the key stands. What is
// wrong with them is reported when the key is read in its turn.
func (p *page) readUnitsFirst(children []child) {
	quiet := &page{path: p.path, units: p.units}
	for _, c := range children {
		if c.name != "units" {
			continue
		}
		units := quiet.readValue(find(settingsWords, "units"), c.key, c.value, &context{}).children
		for _, set := range []struct {
			name string
			into *string
		}{{"temperature", &p.units.Temperature}, {"volume", &p.units.Volume}, {"length", &p.units.Length}, {"hardness", &p.units.Hardness}} {
			if word := units.text(set.name); word != "" {
				*set.into = word
			}
		}
	}
}

// address returns the site's address with a final slash.
func (p *page) address(found *value) string {
	if found == nil {
		return ""
	}
	u, err := url.Parse(found.text)
	if err != nil || (u.Scheme != "https" && u.Scheme != "http") || u.Host == "" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		p.fail(found.at, issue{code: "not-an-address", message: quote("address") + " is " + quote(found.text) + "; it takes a web address that begins with https://", hint: "for example: address: https://example.org/shrimp/"})
		return ""
	}
	if !strings.HasSuffix(u.Path, "/") {
		u.Path += "/"
	}
	return u.String()
}

// languageShape is a BCP 47 tag as far as a page needs it: a language and what narrows it.
var languageShape = regexp.MustCompile(`^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$`)

func (p *page) language(found *value) string {
	if found == nil {
		return "en"
	}
	if !languageShape.MatchString(found.text) {
		p.fail(found.at, issue{code: "not-a-language", message: quote("language") + " is " + quote(found.text) + "; it takes a language tag such as en, de or pt-BR"})
		return "en"
	}
	return found.text
}

// The span of factors that meters and handbooks use to turn conductivity into TDS, and the one in the middle of use.
const (
	lowTDSFactor, highTDSFactor = 0.4, 1.0
	defaultTDSFactor            = 0.5
)

func (p *page) tdsFactor(found *value) float64 {
	if found == nil {
		return defaultTDSFactor
	}
	if found.number < lowTDSFactor || found.number > highTDSFactor {
		p.fail(found.at, issue{code: "number-without-meaning", message: fmt.Sprintf("%q is %s; it can be %s to %s", "tds-factor", decimal(found.number), decimal(lowTDSFactor), decimal(highTDSFactor))})
		return defaultTDSFactor
	}
	return found.number
}

// pathOf returns a path that stays inside the journal, or "" when it does not.
func (p *page) pathOf(found *value) string {
	if found == nil {
		return ""
	}
	clean, problem := insideJournal(".", found.text)
	if problem.code != "" {
		p.fail(found.at, problem.of(found.word, found.text))
		return ""
	}
	return clean
}

// tankID is what entries call a tank.
var tankID = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

func (p *page) readTankList(settings *Settings, list *value) {
	if list == nil || !list.good {
		return
	}
	children, ok := p.children(list.node)
	if list.node == nil || isImplicitNull(list.node) || (ok && len(children) == 0) {
		p.fail(list.key, issue{code: "no-tank", message: "the journal has no tank; it needs one at least", hint: "add below tanks: my-tank: {volume: 38 L}"})
		return
	}
	if !ok {
		p.fail(list.at, issue{code: "not-a-mapping", message: `"tanks" takes the id of each tank with what is known of it`, hint: "for example: tanks: {north-shelf: {volume: 38 L}}"})
		return
	}
	for i, c := range children {
		if i == maxTanks {
			p.fail(p.at(c.key), issue{code: "too-long", message: fmt.Sprintf("more than %d tanks", maxTanks)})
			return
		}
		p.readTank(settings, c)
	}
}

func (p *page) readTank(settings *Settings, c child) {
	at := p.at(c.key)
	if !tankID.MatchString(c.name) || len(c.name) > maxNameLength {
		p.fail(at, issue{code: "not-a-tank", message: quote(c.name) + " is no tank id; it is made of small letters, digits and hyphens", hint: idHint(c.name)})
		return
	}
	tank := Tank{Position: at, ID: c.name, Name: c.name, Species: settings.Species}
	defer func() { settings.Tanks = append(settings.Tanks, tank) }()
	if c.value == nil || isImplicitNull(c.value) {
		return
	}
	children, ok := p.children(c.value)
	if !ok {
		p.fail(p.at(startOf(c.value)), issue{code: "not-a-mapping", message: quote(c.name) + " takes keys with values", hint: "for example: " + c.name + ": {volume: 38 L}"})
		return
	}
	found := p.readMapping(children, tankWords, &context{owner: "the tank " + quote(c.name)})
	if name := found.text("name"); name != "" {
		tank.Name = name
	}
	if species := found.text("species"); species != "" {
		tank.Species = species
	}
	tank.Volume = found.number("volume")
	tank.Since = found.day("since")
	tank.Heater = found.number("heater")
	tank.Capacity = found.number("capacity")
	tank.Fish = found.flag("fish")
	tank.Cover = p.pathOf(found.get("cover"))
	tank.LogFile = p.pathOf(found.get("temperature-log"))
	if ranges := found.get("water-range"); ranges != nil {
		tank.Range = ranges.ranges
	}
	p.checkVolume(found.get("volume"))
}

// checkVolume reports a tank of no water.
func (p *page) checkVolume(found *value) {
	if found != nil && found.number <= 0 {
		p.fail(found.at, issue{code: "number-without-meaning", message: `"volume" is 0; a tank holds some water`})
	}
}

// idHint makes a tank id of what was written instead.
func idHint(written string) string {
	id := strings.Trim(regexp.MustCompile(`[^a-z0-9]+`).ReplaceAllString(strings.ToLower(written), "-"), "-")
	if id == "" {
		return ""
	}
	return "write " + id + ", and the name for people below it: name: " + written
}

// readBiology reads the parameters that the keeper replaces: groups of keys, each group with her reason.
func (p *page) readBiology(settings *Settings, found *value) {
	if found == nil || found.node == nil || isImplicitNull(found.node) {
		return
	}
	groups, members := parameterGroups()
	children, ok := p.children(found.node)
	if !ok {
		p.fail(found.at, issue{code: "not-a-mapping", message: `"biology" takes groups of parameters`, hint: "for example: biology: {incubation: {base: 11 C}}"})
		return
	}
	for _, group := range children {
		if !slices.Contains(groups, group.name) {
			p.fail(p.at(group.key), unknown{code: "unknown-key", what: "key", written: group.name, owner: quote("biology"), nearest: Nearest(group.name, groups), known: groups}.issue())
			continue
		}
		p.readGroup(settings, group, members[group.name])
	}
}

func (p *page) readGroup(settings *Settings, group child, members []parameter) {
	children, ok := p.children(group.value)
	if !ok {
		p.fail(p.at(group.key), issue{code: "not-a-mapping", message: quote(group.name) + " takes parameters with values"})
		return
	}
	words := []Word{{Name: "because", Form: FormText, Example: `"fitted on my first year"`, About: "the keeper's reason"}}
	for i := range members {
		words = append(words, members[i].Word)
	}
	found := p.readMapping(children, words, &context{owner: quote(group.name)})
	for i := range members {
		v := found.get(members[i].Name)
		if v == nil {
			continue
		}
		if v.number < members[i].low || v.number > members[i].high {
			p.fail(v.at, issue{code: "number-without-meaning", message: fmt.Sprintf("%q is %s; it can be %s to %s", members[i].Name, decimal(round(v.number)), decimal(members[i].low), decimal(members[i].high))})
			continue
		}
		settings.Biology = append(settings.Biology, Override{Position: v.key, Name: group.name + "." + members[i].Name, Value: v.number, Because: found.text("because")})
	}
}
