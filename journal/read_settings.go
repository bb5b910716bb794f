package journal

import (
	"fmt"
	"net/url"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
)

// ParseSettings reads journal.yaml. It touches nothing but its argument. What was left out has its default. The
// settings are nil when the file is no YAML. Whether files exist is for Read to find out; the logger files too are
// read there.
func ParseSettings(source []byte) (*Settings, []Problem) {
	p := &page{path: SettingsFile, units: MetricUnits()}
	if len(source) > maxSettingsBytes {
		p.fail(p.place(1, 1), issue{code: "too-long",
			message: fmt.Sprintf("the file has %d bytes; it may have %d", len(source), maxSettingsBytes)})
		return nil, p.sorted()
	}
	text, ok := p.cleanText(source)
	if !ok {
		return nil, p.sorted()
	}
	tree := p.parseYAML(text)
	if HasErrors(p.problems) {
		return nil, p.sorted()
	}
	settings := defaultSettings()
	reader := &settingsReader{page: p, settings: &settings}
	reader.read(tree)
	return &settings, p.sorted()
}

// defaultSettings is a journal.yaml in which nothing was written.
func defaultSettings() Settings {
	return Settings{Language: "en", Units: MetricUnits(), Species: defaultSpecies, Ammonia: BasisN, TDSFactor: 0.5}
}

// settingsReader fills the settings from journal.yaml.
type settingsReader struct {
	*page
	settings *Settings
}

func (r *settingsReader) read(tree ast.Node) {
	keys, ok := r.keysOf(tree, issue{code: "not-a-mapping", message: "journal.yaml has no keys",
		hint: "write a key, a colon, a space and the value: title: Harbour Street shrimp"})
	if !ok {
		return
	}
	r.readUnits(keys)
	found := r.readMapping(keys, settingsWords, &context{owner: SettingsFile, settings: r.settings})
	r.requireKeys(found, settingsWords, r.place(1, 1), SettingsFile)
	r.take(found)
	if tanks := found.get("tanks"); tanks != nil {
		r.readTankList(tanks)
	}
	if biology := found.get("biology"); biology != nil {
		r.readBiology(biology)
	}
	if r.settings.Address == "" && found.written("address") == nil {
		r.warn(r.place(1, 1), issue{code: "no-address",
			message: "no address; feed, calendar and sitemap are not written",
			hint:    "add: address: https://example.org/shrimp/"})
	}
}

// readUnits looks for the units first, because they decide what the numbers above them mean.
func (r *settingsReader) readUnits(keys []child) {
	quiet := &page{path: r.path, units: r.units}
	for _, c := range keys {
		if c.name != "units" {
			continue
		}
		found := quiet.readValue(find(settingsWords, "units"), c.key, c.value, &context{}).children
		for name, into := range map[string]*string{
			"temperature": &r.units.Temperature, "volume": &r.units.Volume, "length": &r.units.Length, "hardness": &r.units.Hardness,
		} {
			if unit := found.text(name); unit != "" {
				*into = unit
			}
		}
	}
	r.settings.Units = r.units
}

// take copies the single values.
func (r *settingsReader) take(found *values) {
	s := r.settings
	s.Places = found.places()
	s.Title = found.text("title")
	s.Keeper = found.text("keeper")
	s.Grades = found.names("grades")
	s.AsOf = found.day("as-of")
	s.Species = or(found.text("species"), s.Species)
	s.Ammonia = Basis(or(found.text("ammonia-as"), string(s.Ammonia)))
	s.Language = or(r.language(found), s.Language)
	s.Address = r.address(found)
	s.Look = r.inside(found, "look")
	if charts := found.get("charts"); charts != nil {
		s.ChartRuntime = r.inside(charts.children, "runtime")
	}
	if factor := found.get("tds-factor"); factor != nil {
		s.TDSFactor = factor.number
	}
}

func or(text, other string) string {
	if text != "" {
		return text
	}
	return other
}

// languageShape is the part of BCP 47 (RFC 5646) that a diary needs: language, script, region, variants.
var languageShape = regexp.MustCompile(`^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$`)

// hyphenated proposes a language tag for one with an underscore.
func hyphenated(text string) string {
	if tag := strings.ReplaceAll(text, "_", "-"); tag != text && languageShape.MatchString(tag) {
		return "write " + tag
	}
	return ""
}

func (r *settingsReader) language(found *values) string {
	language := found.get("language")
	if language == nil || languageShape.MatchString(language.text) {
		return found.text("language")
	}
	r.fail(language.at, issue{code: "not-a-language",
		message: `"language" is ` + quote(language.text) + `; it takes the short code of a language such as "en" or "pt-BR"`,
		hint:    hyphenated(language.text)})
	return ""
}

// address returns the address of the site with a final slash.
func (r *settingsReader) address(found *values) string {
	address := found.get("address")
	if address == nil {
		return ""
	}
	parsed, err := url.Parse(address.text)
	if err != nil || (parsed.Scheme != "https" && parsed.Scheme != "http") || parsed.Host == "" || parsed.RawQuery != "" || parsed.Fragment != "" || parsed.User != nil {
		r.fail(address.at, issue{code: "not-an-address",
			message: `"address" is ` + quote(address.text) + "; it takes a whole web address",
			hint:    addressHint(address.text)})
		return ""
	}
	return strings.TrimRight(parsed.String(), "/") + "/"
}

// bareHost is a web address without its beginning.
var bareHost = regexp.MustCompile(`^[a-zA-Z0-9-]+(\.[a-zA-Z0-9-]+)+(/[\w./-]*)?$`)

func addressHint(text string) string {
	if bareHost.MatchString(text) {
		return "write https://" + strings.TrimRight(text, "/") + "/"
	}
	return "for example: https://example.org/shrimp/"
}

// inside returns a path inside the journal.
func (r *settingsReader) inside(found *values, name string) string {
	written := found.get(name)
	if written == nil {
		return ""
	}
	target, problem := insidePath(".", written.text)
	if problem.code != "" {
		r.fail(written.at, problem)
		return ""
	}
	return target
}

// tankShape is the id of a tank.
var tankShape = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

func (r *settingsReader) readTankList(written *value) {
	children, ok := r.children(written.node)
	if isEmptyNode(written.node) || (ok && len(children) == 0) {
		r.fail(written.key, issue{code: "no-tanks", message: "the journal has no tank",
			hint: "add one below tanks, such as: north-shelf: {volume: 38 L}"})
		return
	}
	if !ok {
		r.fail(written.at, issue{code: "not-a-mapping", message: `"tanks" takes tank ids with their keys`,
			hint: r.tanksHint(written.node)})
		return
	}
	for i, c := range children {
		if i == maxTanks {
			r.fail(r.at(c.key), issue{code: "too-long", message: fmt.Sprintf("more than %d tanks", maxTanks)})
			return
		}
		r.readTank(c)
	}
}

// tanksHint says how to write tanks, those of a list where one stands.
func (r *settingsReader) tanksHint(node ast.Node) string {
	items, _ := r.items(node)
	var tanks []string
	for _, item := range items {
		if single, _ := scalarOf(item); tankShape.MatchString(single.text) {
			tanks = append(tanks, single.text+": {}")
		}
	}
	if len(tanks) == 0 || len(tanks) < len(items) {
		return "for example: north-shelf: {volume: 38 L}"
	}
	return "write tanks: {" + strings.Join(tanks, ", ") + "}"
}

func (r *settingsReader) readTank(c child) {
	at := r.at(c.key)
	if !tankShape.MatchString(c.name) || utf8.RuneCountInString(c.name) > maxNameLength {
		r.fail(at, issue{code: "not-a-tank",
			message: quote(c.name) + " is no tank id; ids are made of lower-case letters, digits and single hyphens", hint: tankHint(c.name)})
	}
	tank := Tank{Position: at, ID: c.name, Name: c.name, Species: r.settings.Species}
	children, ok := r.children(c.value)
	if !ok && !isEmptyNode(c.value) && !looseBrace.MatchString(c.name) {
		hint := "for example: " + c.name + ": {volume: 38 L}"
		if find(tankWords, c.name) != nil {
			hint = "if it tells of the tank above, indent it further than the name of that tank"
		}
		r.fail(r.at(startOf(c.value)), issue{code: "not-a-mapping",
			message: quote(c.name) + " takes keys with values", hint: hint})
	}
	found := r.readMapping(children, tankWords, &context{owner: "tank " + quote(c.name), settings: r.settings})
	tank.Name = or(found.text("name"), tank.Name)
	tank.Species = or(found.text("species"), tank.Species)
	tank.Volume = found.number("volume")
	tank.Capacity = found.number("capacity")
	tank.Heater = found.number("heater")
	tank.Places = found.places()
	tank.Since = found.day("since")
	tank.Fish = found.flag("fish")
	tank.LogFile = r.inside(found, "temperature-log")
	tank.Cover = r.inside(found, "cover")
	if span := found.get("water-range"); span != nil {
		tank.Range = span.ranges
	}
	r.settings.Tanks = append(r.settings.Tanks, tank)
}

// tankHint turns a name into an id.
func tankHint(name string) string {
	if m := looseBrace.FindStringSubmatch(name); m != nil {
		return "write " + m[1] + ": {, with a colon and a space before the brace"
	}
	id := strings.Trim(regexp.MustCompile(`[^a-z0-9]+`).ReplaceAllString(strings.ToLower(name), "-"), "-")
	if id == "" || id == name {
		return ""
	}
	return "write " + id + " and put the name below it: name: " + name
}
