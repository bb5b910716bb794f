package journal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// titled is the first two lines of a journal.yaml.
const titled = "title: T\naddress: https://example.org/\n"

// TestMistakesInSettings holds mistakes in journal.yaml.
func TestMistakesInSettings(t *testing.T) {
	for _, test := range []mistake{
		{"", []string{
			`1:1 missing-key: journal.yaml has no "title" | add: title: Harbour Street shrimp`,
			`1:1 missing-key: journal.yaml has no "tanks" | add: tanks: {north-shelf: {volume: 38 L}}`,
			"1:1 no-address: warning: no address; feed, calendar and sitemap are not written | add: address: https://example.org/shrimp/"}},
		{"# only a comment", []string{
			`1:1 missing-key: journal.yaml has no "title" | add: title: Harbour Street shrimp`,
			`1:1 missing-key: journal.yaml has no "tanks" | add: tanks: {north-shelf: {volume: 38 L}}`,
			"1:1 no-address: warning: no address; feed, calendar and sitemap are not written | add: address: https://example.org/shrimp/"}},
		{"hello", []string{
			"1:1 not-a-mapping: journal.yaml has no keys | write a key, a colon, a space and the value: title: Harbour Street shrimp"}},
		{"- a", []string{
			"1:1 not-a-mapping: journal.yaml has no keys | write a key, a colon, a space and the value: title: Harbour Street shrimp"}},
		{"title: T\n", []string{
			`1:1 missing-key: journal.yaml has no "tanks" | add: tanks: {north-shelf: {volume: 38 L}}`,
			"1:1 no-address: warning: no address; feed, calendar and sitemap are not written | add: address: https://example.org/shrimp/"}},
		{titled + "", []string{
			`1:1 missing-key: journal.yaml has no "tanks" | add: tanks: {north-shelf: {volume: 38 L}}`}},
		{titled + "tanks:\n", []string{
			"3:1 no-tanks: the journal has no tank | add one below tanks, such as: north-shelf: {volume: 38 L}"}},
		{titled + "tanks: {}", []string{
			"3:1 no-tanks: the journal has no tank | add one below tanks, such as: north-shelf: {volume: 38 L}"}},
		{titled + "tanks: [a]", []string{
			`3:8 not-a-mapping: "tanks" takes tank ids with their keys | write tanks: {a: {}}`}},
		{titled + "tanks: x", []string{
			`3:8 not-a-mapping: "tanks" takes tank ids with their keys | for example: north-shelf: {volume: 38 L}`}},
		{"tanks: {a: }", []string{
			`1:1 missing-key: journal.yaml has no "title" | add: title: Harbour Street shrimp`,
			"1:1 no-address: warning: no address; feed, calendar and sitemap are not written | add: address: https://example.org/shrimp/"}},
		{"title:\ntanks: {a: }", []string{
			`1:1 no-value: "title" has no value | give it one, as in title: Harbour Street shrimp`,
			"1:1 no-address: warning: no address; feed, calendar and sitemap are not written | add: address: https://example.org/shrimp/"}},
		{"title: T\ntanks: {a: }", []string{
			"1:1 no-address: warning: no address; feed, calendar and sitemap are not written | add: address: https://example.org/shrimp/"}},
		{titled + "tanks: {North Shelf: {volume: 38 L}}", []string{
			`3:9 not-a-tank: "North Shelf" is no tank id; ids are made of lower-case letters, digits and single hyphens | write north-shelf and put the name below it: name: North Shelf`}},
		{titled + "tanks: {a: 38 L}", []string{
			`3:12 not-a-mapping: "a" takes keys with values | for example: a: {volume: 38 L}`}},
		{titled + "tanks: {a: {volum: 38}}", []string{
			`3:13 unknown-key: unknown key "volum" in tank "a"; did you mean "volume"?`}},
		{titled + "tanks: {a: {volume: 0}}", []string{
			`3:21 number-without-meaning: "volume" is "0"; it must be above zero`}},
		{titled + "tanks: {a: {volume: -3 L, heater: 60 C, since: 1.2.2025, fish: yes, capacity: many}}", []string{
			`3:21 number-without-meaning: "volume" is "-3 L"; it cannot be below zero`,
			`3:35 number-without-meaning: "heater" is "60 C"; it can be 0 to 45 C`,
			`3:48 not-a-date: "since" is "1.2.2025"; a date is written like 2026-03-14 | write it as 2025-02-01`,
			`3:64 not-a-flag: "fish" is "yes"; it takes true | write fish: true`,
			`3:79 not-a-number: "capacity" is "many"; it takes a number | for example: capacity: 180`}},
		{titled + "tanks: {a: {volume: 10 gal (US), heater: 74 F}}", []string{}},
		{titled + "tanks: {a: {heated: true}}", []string{
			`3:13 unknown-key: unknown key "heated" in tank "a"; did you mean "heater"?`}},
		{titled + "tanks: {a: {water-range: {ph: 7, gh: 10-6, temperature: 20-26 K, kh: 2-6, tds: 100-x}}}", []string{
			`3:31 not-a-range: "ph" is "7"; it takes two numbers with a hyphen | for example: temperature: 20-26 C`,
			`3:38 not-a-range: "gh" is "10-6"; the lower number stands first`,
			`3:57 unknown-unit: "temperature" is "20-26 K"; unknown unit "K"; allowed: "C" or "F"`,
			`3:80 not-a-range: "tds" is "100-x"; it takes two numbers with a hyphen | for example: temperature: 20-26 C`}},
		{titled + "tanks: {a: {cover: ../x.jpg, temperature-log: /etc/passwd}}", []string{
			`3:20 bad-path: "../x.jpg" is not inside the journal | copy the file into the journal, and write its path from the file that it stands in, such as ../photos/ruby.jpg`,
			`3:47 bad-path: "/etc/passwd" is not inside the journal | write it from the file that it stands in, such as ../photos/ruby.jpg`}},
		{titled + "tanks: {a: }\nlook: C:\\x", []string{
			`4:7 bad-path: "C:\\x" is not a path inside the journal | copy the file into the journal, and write its path from the file that it stands in, such as ../photos/ruby.jpg`}},
		{titled + "tanks: {a: }\nlook: ..\\x", []string{
			`4:7 bad-path: "..\\x" has backslashes | write it with slashes: ../x`}},
		{titled + "tanks: {a: }\ncharts: {runtime: con.js, x: y}", []string{
			`4:19 bad-path: "con.js" has "con.js", which is a device on some systems | give the file another name`,
			`4:27 unknown-key: unknown key "x" in "charts"; allowed: "runtime"`}},
		{titled + "tanks: {a: }\ncharts: yes", []string{
			`4:9 not-a-mapping: "charts" is "yes"; it takes keys with values | for example: charts: {runtime: assets/charts.js}`}},
		{titled + "tanks: {a: , a: }", []string{
			`3:14 key-twice: "a" is given twice; the first is in line 3`}},
		{titled + "tanks: {a: }\ntitle: U", []string{
			`4:1 key-twice: "title" is given twice; the first is in line 1`}},
		{titled + "tanks: {a: }\nlanguage: English", []string{
			`4:11 not-a-language: "language" is "English"; it takes the short code of a language such as "en" or "pt-BR"`}},
		{titled + "tanks: {a: }\nunits: {temperature: K, volume: litres, length: inch, hardness: ppm, mass: g}", []string{
			`4:70 unknown-key: unknown key "mass" in "units"; allowed: "temperature", "volume", "length" or "hardness"`}},
		{titled + "tanks: {a: }\nspecies: neocaridina", []string{
			`4:10 unknown-word: unknown species "neocaridina"; did you mean "neocaridina-davidi"?`}},
		{titled + "tanks: {a: {species: caridina}}", []string{
			`3:22 unknown-word: unknown species "caridina"; allowed: "neocaridina-davidi"`}},
		{titled + "tanks: {a: }\ngrades: [pale, pale]", []string{
			`4:16 word-twice: "pale" is given twice`}},
		{titled + "tanks: {a: }\ngrades: pale", []string{}},
		{titled + "tanks: {a: }\ngrades: {a: 1}", []string{
			`4:9 not-a-list: "grades" is a group of keys; it takes a list | for example: grades: [pale, even, deep]`}},
		{titled + "tanks: {a: }\nas-of: soon", []string{
			`4:8 not-a-date: "as-of" is "soon"; a date is written like 2026-03-14`}},
		{titled + "tanks: {a: }\nammonia-as: nh4", []string{}},
		{titled + "tanks: {a: }\nammonia-as: NO3", []string{
			`4:13 unknown-word: unknown ammonia-as "NO3"; did you mean "NH3"?`}},
		{titled + "tanks: {a: }\ntds-factor: 0,5", []string{
			`4:13 decimal-comma: "tds-factor" is "0,5"; it takes a number | write 0.5`}},
		{titled + "tanks: {a: }\ntds-factor: 5", []string{
			`4:13 number-without-meaning: "tds-factor" is "5"; it can be 0.4 to 1`}},
		{titled + "tanks: {a: }\ntds-factor: 0.5 ppm", []string{
			`4:13 unknown-unit: "tds-factor" is "0.5 ppm"; "ppm" after the number; it takes a number alone`}},
		{titled + "tanks: {a: }\nbiology: {incubation: {base: 25 C, degree-days: 239, becaus: x}, incubatoin: {}}", []string{
			`4:30 parameter-range: "base" is 25; it can be 0 to 15.5 C`,
			`4:54 unknown-key: unknown key "becaus" in "incubation"; did you mean "because"?`,
			`4:66 unknown-key: unknown group "incubatoin" in "biology"; did you mean "incubation"?`}},
		{titled + "tanks: {a: }\nbiology: x", []string{
			`4:10 not-a-mapping: "biology" takes groups of parameters | for example: incubation: {base: 11 C}`}},
		{titled + "tanks: {a: }\nbiology: {growth: {female-mature: 28 mm}}", []string{
			"4:20 parameters-contradict: growth.female-mature (28) must be below growth.female-max (26.5)"}},
		{titled + "tanks: {a: }\nbiology:", []string{}},
		{titled + "tanks: {a: }\nbiology: {incubation: 3}", []string{
			`4:11 not-a-mapping: "incubation" takes parameters with values`}},
		{titled + "tanks: {a: }\nbiology:\n  incubation:\n    base: 52 F\n    dating-days: 2 weeks\n  temperature: {heated-sd: 1.8 F}\n  survival: {adult: 0.99 /d, young: 0.5 per week}\n  density: {free: 3 /L}", []string{
			`9:37 unknown-unit: "young" is "0.5 per week"; unknown unit "per week"; allowed: "/d"`}},
		{"title: T\naddress: example.org\ntanks: {a: }", []string{
			`2:10 not-an-address: "address" is "example.org"; it takes a whole web address | write https://example.org/`}},
		{"title: T\naddress: ftp://example.org/\ntanks: {a: }", []string{
			`2:10 not-an-address: "address" is "ftp://example.org/"; it takes a whole web address | for example: https://example.org/shrimp/`}},
		{"title: T\naddress: https://u:p@example.org/?x#y\ntanks: {a: }", []string{
			`2:10 not-an-address: "address" is "https://u:p@example.org/?x#y"; it takes a whole web address | for example: https://example.org/shrimp/`}},
		{"titel: T\ntanks: {a: }\ntheme: x", []string{
			`1:1 unknown-key: unknown key "titel" in journal.yaml; did you mean "title"?`,
			"1:1 no-address: warning: no address; feed, calendar and sitemap are not written | add: address: https://example.org/shrimp/",
			`3:1 unknown-key: unknown key "theme" in journal.yaml; did you mean "look"?`}},
		{"---\ntitle: T\naddress: https://example.org/\ntanks: {a: }\n---\nfoo: bar\n", []string{
			"6:4 yaml-syntax: a second group of keys begins here; there may be one | remove the line of three hyphens above"}},
		{"title: &t T\nkeeper: *t\ntanks: {a: }", []string{
			`1:8 yaml-reference: "&" at the start has a meaning of its own, which a journal does not use | if it is part of a text, write it as "&t T"`,
			`2:9 yaml-reference: "*" at the start has a meaning of its own, which a journal does not use | if it is part of a text, write it as "*t"`}},
		{"title: \xff\ntanks: {a: }", []string{
			"1:8 not-utf-8: from here on the file is not saved as UTF-8 | save the file again with the encoding UTF-8"}},
		{"title: a\x00", []string{
			"1:9 not-utf-8: this is no text file"}},
		{"\ufefftitle: T\r\naddress: https://example.org/\r\ntanks: {a: }\r\nfoo: x\r\n", []string{
			`4:1 unknown-key: unknown key "foo" in journal.yaml; allowed: "title", "keeper", "address", "language", "units", "species", "grades", "as-of", "ammonia-as", "tds-factor", "charts", "look", "tanks" or "biology"`}},
		{"\xff\xfet\x00", []string{
			"1:1 not-utf-8: the file is UTF-16 text; it must be UTF-8 | save it again with the encoding UTF-8"}},
		{"tanks:\n\ta: x", []string{
			"2:1 yaml-syntax: a tab; indent with spaces"}},
		{"title: \u201cQuoted\u201d\naddress: https://example.org/\ntanks: {a: }\nkeeper\u00a0: x", []string{}},
	} {
		_, problems := ParseSettings([]byte(test.written))
		if diff := cmp.Diff(strings.Join(test.want, "\n"), strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.written, diff)
		}
	}
}

func TestSettingsAsWritten(t *testing.T) {
	settings := settingsOf(t, `title: Harbour Street shrimp
keeper: Wren Adeyemi
address: https://example.org/shrimp
language: pt-BR
units: {temperature: F, volume: gal, length: in, hardness: ppm}
grades: [pale, even, deep]
as-of: 2026-04-01
ammonia-as: nh4
tds-factor: 0.64
charts: {runtime: assets/charts.js}
look: my-look
tanks:
  north-shelf:
    name: North shelf
    volume: 10
    since: 2025-01-12
    heater: 73.4
    temperature-log: readings/north-shelf.csv
    capacity: 180
    fish: true
    cover: photos/north-shelf.jpg
    water-range: {temperature: 68-77, gh: 100-180 ppm, ph: 6.8 - 7.8}
  window:
biology:
  incubation: {base: 51.8, degree-days: 239 C·d, because: "fitted on my first year"}
  temperature: {heated-sd: 1.8 F}
`)
	want := &Settings{
		Title: "Harbour Street shrimp", Keeper: "Wren Adeyemi", Address: "https://example.org/shrimp/",
		Language: "pt-BR",
		Units:    Units{Temperature: "F", Volume: "gal", Length: "in", Hardness: "ppm"}, Species: "neocaridina-davidi",
		Grades: []string{"pale", "even", "deep"}, AsOf: NewDay(2026, 4, 1), Ammonia: BasisNH4, TDSFactor: 0.64,
		ChartRuntime: "assets/charts.js", Look: "my-look",
		Tanks: []Tank{
			{ID: "north-shelf", Name: "North shelf", Species: "neocaridina-davidi", Volume: Known(37.85411784), Since: NewDay(2025, 1, 12),
				Heater: Known(23.0), Capacity: Known(180.0), Fish: true, Cover: "photos/north-shelf.jpg",
				LogFile: "readings/north-shelf.csv",
				Range:   []WaterRange{{Temperature, 20, 25}, {GH, 5.6029, 10.0852}, {PH, 6.8, 7.8}}},
			{ID: "window", Name: "window", Species: "neocaridina-davidi"},
		},
		Biology: []Override{
			{Name: "incubation.base", Value: 11, Because: "fitted on my first year"},
			{Name: "incubation.degree-days", Value: 239, Because: "fitted on my first year"},
			{Name: "temperature.heated-sd", Value: 1},
		},
	}
	if diff := cmp.Diff(want, settings, closeNumbers, anyPlace); diff != "" {
		t.Errorf("settings (-want +got):\n%s", diff)
	}
	for place, want := range map[Position]string{
		settings.At("look"):                        "journal.yaml:11:7",
		settings.At("keeper"):                      "journal.yaml:2:9",
		settings.At("species"):                     "journal.yaml:1:1",
		settings.Tanks[0].Position:                 "journal.yaml:13:3",
		settings.Tanks[0].At("cover"):              "journal.yaml:21:12",
		settings.Tanks[1].At("cover"):              "journal.yaml:23:3",
		settings.Biology[1].Position:               "journal.yaml:25:28",
		settings.Tank("north-shelf").At("since"):   "journal.yaml:16:12",
		settings.Tank("north-shelf").At("missing"): "journal.yaml:13:3",
	} {
		if place.String() != want {
			t.Errorf("place %s, want %s", place, want)
		}
	}
}

func TestDefaultsOfSettings(t *testing.T) {
	settings := settingsOf(t, titled+"tanks: {a: }")
	want := &Settings{Title: "T", Address: "https://example.org/", Language: "en", Units: MetricUnits(),
		Species: "neocaridina-davidi",
		Ammonia: BasisN, TDSFactor: 0.5, Tanks: []Tank{{ID: "a", Name: "a", Species: "neocaridina-davidi"}}}
	if diff := cmp.Diff(want, settings, anyPlace); diff != "" {
		t.Errorf("settings (-want +got):\n%s", diff)
	}
}

// TestTankKeyBesideItsTank is a key of a tank that does not stand further in than the tank's id.
func TestTankKeyBesideItsTank(t *testing.T) {
	_, problems := ParseSettings([]byte("title: T\naddress: https://example.org/\ntanks:\n  shelf:\n  name: The shelf\n"))
	want := `5:9 not-a-mapping: "name" takes keys with values | if it tells of the tank above, indent it further than the name of that tank`
	if diff := cmp.Diff(want, strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
