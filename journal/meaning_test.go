package journal

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// slip is one way in which a hand, a phone or a word processor spoils an entry: it changes the first group of a shape.
type slip struct {
	name  string
	shape *regexp.Regexp
	write func(found string) string
}

// to is a slip that writes the same text everywhere.
func to(text string) func(string) string { return func(string) string { return text } }

// swap replaces one text inside what was found.
func swap(from, to string) func(string) string {
	return func(found string) string { return strings.Replace(found, from, to, 1) }
}

// wide writes digits as a keyboard for East Asian scripts does.
func wide(found string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r - '0' + '０'
		}
		return r
	}, found)
}

var (
	aDate   = regexp.MustCompile(`(?m)(?:date|last-clear|last-carried|hatched-on): (\d{4}-\d{2}-\d{2})$`)
	aPoint  = regexp.MustCompile(`\d(\.)\d`)
	aNumber = regexp.MustCompile(`(?:age|length|eggs|water-change|temperature|tds|ph|gh|kh|nitrite|nitrate|ammonia|counted|moulted|died|removed|measured): (?:\[|<)?(\d+(?:\.\d+)?)`)
	aCount  = regexp.MustCompile(`(?m)(?:moulted|counted|sighted|died|removed|stocked|saddled|berried|eggs|shrimplets): (\d+)$`)
	aKey    = regexp.MustCompile(`(?m)(?:^| {4}|- |[{,] ?)([a-z][a-z-]+):`)
	anEvent = regexp.MustCompile(`(?m)^  - ([a-z-]+):`)
	aColon  = regexp.MustCompile(`(?m)^ *(?:- )?[a-z-]+(:) `)
	aHyphen = regexp.MustCompile(`(?m)^  (-) [a-z-]+:`)
	aUnit   = regexp.MustCompile(`\d( C| mm| %)`)
	aFlag   = regexp.MustCompile(`(?:failed|courting): (true)`)
	aChoice = regexp.MustCompile(`(?m)(?:method|sex|reason|visibility): ([a-z-]+)$`)
	aComma  = regexp.MustCompile(`\{[^\]}\n]*(,) `)
	anEnd   = regexp.MustCompile(`(?m)([\]}])$`)
	aStart  = regexp.MustCompile(`[^s]: ([\[{])`)
	aFence  = regexp.MustCompile(`(?m)\A(?:.*\n)+?(---)\n`)
	aLine   = regexp.MustCompile(`(?m)^( *)(?:- )?[a-z-]+: `)
	anInner = regexp.MustCompile(`(?m)^(    )[a-z-]+: `)
)

// slipKinds is the ways, each met in real hands (common practice, no source).
var slipKinds = []slip{
	{"the day first, with dots", aDate, func(d string) string { return d[8:] + "." + d[5:7] + "." + d[:4] }},
	{"the day first, with slashes", aDate, func(d string) string { return d[8:] + "/" + d[5:7] + "/" + d[:4] }},
	{"slashes in a date", aDate, func(d string) string { return strings.ReplaceAll(d, "-", "/") }},
	{"a date without zeros", aDate, func(d string) string { return strings.ReplaceAll(d, "-0", "-") }},
	{"the day number of a spreadsheet", aDate, to("46095")},
	{"a date with long dashes", aDate, func(d string) string { return strings.ReplaceAll(d, "-", "–") }},
	{"a date in wide digits", aDate, wide},
	{"a date in smart quotes", aDate, func(d string) string { return "“" + d + "”" }},
	{"a day that does not exist", aDate, func(d string) string { return d[:8] + "32" }},
	{"a date in words", aDate, to("yesterday")},
	{"a date with a time", aDate, func(d string) string { return d + " 18:30" }},
	{"a short year", aDate, func(d string) string { return d[2:] }},
	{"a decimal comma", aPoint, to(",")},
	{"a decimal point of another script", aPoint, to("·")},
	{"two points", aPoint, to("..")},
	{"a space for the point", aPoint, to(" ")},
	{"wide digits", aNumber, wide},
	{"a number in smart quotes", aNumber, func(n string) string { return "“" + n + "”" }},
	{"a letter O for a zero", aNumber, func(n string) string { return n + "O" }},
	{"about", aNumber, func(n string) string { return "~ " + n }},
	{"about, in a word", aNumber, func(n string) string { return "ca. " + n }},
	{"a span", aNumber, func(n string) string { return n + "-" + n + "0" }},
	{"more than", aNumber, func(n string) string { return n + "+" }},
	{"a question mark", aNumber, func(n string) string { return n + "?" }},
	{"a minus sign", aNumber, func(n string) string { return "-" + n }},
	{"a typesetter's minus", aNumber, func(n string) string { return "−" + n }},
	{"an exponent", aNumber, func(n string) string { return n + "e3" }},
	{"a hexadecimal number", aCount, to("0x17")},
	{"thousands", aCount, func(n string) string { return n + ",000" }},
	{"thousands with an underscore", aCount, func(n string) string { return n + "_000" }},
	{"a number word", aCount, to("two")},
	{"half a shrimp", aCount, func(n string) string { return n + ".5" }},
	{"a noun behind the count", aCount, func(n string) string { return n + " shrimp" }},
	{"nothing", aCount, to("")},
	{"a capital key", aKey, func(k string) string { return strings.ToUpper(k[:1]) + k[1:] }},
	{"a key in capitals", aKey, strings.ToUpper},
	{"a letter left out of a key", aKey, func(k string) string { return k[:1] + k[2:] }},
	{"two letters swapped in a key", aKey, func(k string) string { return string([]byte{k[1], k[0]}) + k[2:] }},
	{"an underscore in a key", aKey, func(k string) string { return strings.ReplaceAll(k, "-", "_") }},
	{"a letter of another script in a key", aKey, func(k string) string {
		return strings.NewReplacer("a", "а", "e", "е", "o", "о", "p", "р").Replace(k)
	}},
	{"an invisible character in a key", aKey, func(k string) string { return k[:1] + "\u200b" + k[1:] }},
	{"smart quotes around a key", aKey, func(k string) string { return "“" + k + "”" }},
	{"an American spelling", anEvent, swap("moulted", "molted")},
	{"another word for an event", anEvent, to("spotted")},
	{"a colon of another script", aColon, to("：")},
	{"no colon", aColon, to("")},
	{"an equals sign", aColon, to(" =")},
	{"a space that does not break before the colon", aColon, to("\u00a0:")},
	{"no space after the colon", regexp.MustCompile(`(?m)^ *(?:- )?[a-z-]+:( )`), to("")},
	{"a space that does not break after the colon", regexp.MustCompile(`(?m)^ *(?:- )?[a-z-]+:( )`), to("\u00a0")},
	{"a long dash for the hyphen", aHyphen, to("–")},
	{"a bullet for the hyphen", aHyphen, to("•")},
	{"an asterisk for the hyphen", aHyphen, to("*")},
	{"no hyphen", aHyphen, to(" ")},
	{"no space after the hyphen", regexp.MustCompile(`(?m)^  -( )[a-z-]+:`), to("")},
	{"the unit without a space", aUnit, strings.TrimSpace},
	{"the unit after a space that does not break", aUnit, swap(" ", "\u00a0")},
	{"another spelling of the unit", aUnit, func(u string) string {
		return strings.NewReplacer("C", "°C", "mm", "millimetres", "%", "percent").Replace(u)
	}},
	{"a unit of something else", aUnit, to(" kg")},
	{"two units", aUnit, func(u string) string { return u + u }},
	{"yes for true", aFlag, to("yes")},
	{"true in capitals", aFlag, to("TRUE")},
	{"a slip in true", aFlag, to("ture")},
	{"a choice in capitals", aChoice, strings.ToUpper},
	{"a slip in a choice", aChoice, func(c string) string { return c[:len(c)-1] }},
	{"a semicolon in a list", aComma, to(";")},
	{"no comma in a list", aComma, to("")},
	{"a bracket is not closed", anEnd, to("")},
	{"a bracket is not opened", aStart, to("")},
	{"the wrong bracket", anEnd, func(b string) string { return map[string]string{"]": "}", "}": "]"}[b] }},
	{"a longer fence", aFence, to("----")},
	{"a fence of long dashes", aFence, to("———")},
	{"an indented fence", aFence, to(" ---")},
	{"a tab for the indent", anInner, to("\t")},
	{"an indent too little", anInner, to("   ")},
	{"an indent too much", anInner, to("     ")},
	{"no indent", anInner, to("")},
	{"a stray indent", aLine, func(s string) string { return s + " " }},
	{"spaces at the end", regexp.MustCompile(`(?m)[a-z0-9]()$`), to("   ")},
	{"a comment", regexp.MustCompile(`(?m)[a-z0-9]()$`), to(" # to be sure")},
	{"a hash in a text", regexp.MustCompile(`(?m)(?:title|note|cause|reason|source|to|fed|substance): [A-Za-z ]+()$`), to(" #2")},
	{"a colon in a text", regexp.MustCompile(`(?m)(?:title|note|cause|source|fed|substance): [A-Za-z ]+()$`), to(": again")},
	{"a line twice", regexp.MustCompile(`(?m)^((?:    |)[a-z-]+: .*\n)`), func(l string) string { return l + l }},
}

// spoilt is an entry with one slip.
type spoilt struct {
	slip     string
	source   string
	line     int // of the slip
	from, to int // the columns in which a report may point at it
}

// spoil writes every slip at every place of an entry's front matter.
func spoil(source string) []spoilt {
	end := strings.LastIndex(source, "\n---\n") + 5
	var all []spoilt
	for _, s := range slipKinds {
		for _, m := range s.shape.FindAllStringSubmatchIndex(source[:end], -1) {
			found := source[m[2]:m[3]]
			changed := s.write(found)
			if changed == found {
				continue
			}
			start := strings.LastIndexByte(source[:m[2]], '\n') + 1
			before := source[start:m[2]]
			pair := max(strings.LastIndex(before, ", ")+2, strings.LastIndexAny(before, "{[")+1,
				len(before)-len(strings.TrimLeft(before, " -")))
			if strings.LastIndex(before, ", ") < 0 {
				pair = max(strings.LastIndexAny(before, "{[")+1, 0)
			}
			line := 1 + strings.Count(source[:m[2]], "\n")
			if s.name == "a line twice" { // the second one is reported
				line++
			}
			if opener := strings.LastIndexAny(before, "{["); s.shape == anEnd && opener >= 0 {
				pair = opener
			}
			all = append(all, spoilt{s.name, source[:m[2]] + changed + source[m[3]:], line,
				utf8.RuneCountInString(before[:min(pair, len(before))]) + 1,
				utf8.RuneCountInString(before) + max(utf8.RuneCountInString(found), utf8.RuneCountInString(changed)) + 2})
		}
	}
	return all
}

// sameMeaning compares what two entries say, wherever it stands.
var sameMeaning = cmp.Options{
	cmpopts.IgnoreTypes(Position{}, []Place{}), cmpopts.IgnoreFields(Event{}, "Entry"),
	cmpopts.IgnoreFields(Entry{}, "Source", "BodyOffset", "Nodes", "Images"), cmpopts.EquateApprox(0, 1e-9),
}

// checkSlip holds that a spoilt entry says the same as before, or that the slip is reported where it is.
func checkSlip(t reporter, want *Entry, s spoilt, settings *Settings) (reported bool) {
	t.Helper()
	got, problems := ParseEntry(want.Path, []byte(s.source), settings)
	checkPlaces(t, []byte(s.source), problems)
	if len(problems) == 0 {
		if diff := cmp.Diff(want, got, sameMeaning); diff != "" {
			t.Errorf("%s, line %d, is read in silence as something else:\n%s\n(-want +got)\n%s", s.slip, s.line,
				lineOf(s.source, s.line), diff)
		}
		return false
	}
	if !slices.ContainsFunc(problems, func(p Problem) bool { return p.Line == s.line && p.Column >= s.from && p.Column <= s.to }) {
		t.Errorf("%s, line %d, columns %d to %d, is reported elsewhere:\n%s\n%s", s.slip, s.line, s.from, s.to,
			lineOf(s.source, s.line), briefs(problems))
	}
	return true
}

// lineOf returns one line of a text.
func lineOf(source string, line int) string { return strings.Split(source, "\n")[line-1] }

// TestNoSlipIsReadAsSomethingElse writes every slip at every place of the good entry.
func TestNoSlipIsReadAsSomethingElse(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	want, _ := ParseEntry("entries/e.md", []byte(goodEntry), settings)
	all := spoil(goodEntry)
	seen := map[string]bool{}
	reported := 0
	for _, s := range all {
		seen[s.slip] = true
		if checkSlip(t, want, s, settings) {
			reported++
		}
	}
	t.Logf("%d slips of %d kinds, %d of them reported", len(all), len(seen), reported)
	if len(seen) != len(slipKinds) || len(all) < 500 {
		t.Errorf("only %d of %d kinds of slips, %d places", len(seen), len(slipKinds), len(all))
	}
}

// TestNoSlipInTheSampleIsReadAsSomethingElse draws an entry of the sample journal and a slip.
func TestNoSlipInTheSampleIsReadAsSomethingElse(t *testing.T) {
	source, err := os.ReadFile("../sample-journal/journal.yaml")
	if err != nil {
		t.Fatal(err)
	}
	settings, _ := ParseSettings(source)
	files, err := filepath.Glob("../sample-journal/entries/*/*.md")
	if err != nil || len(files) < 80 {
		t.Fatalf("%d entries: %v", len(files), err)
	}
	rapid.Check(t, func(t *rapid.T) {
		file := rapid.SampledFrom(files).Draw(t, "file")
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, problems := ParseEntry("entries/e.md", text, settings)
		all := spoil(string(text))
		if len(all) == 0 || len(problems) > 0 {
			t.Skip("an entry with an odd reading")
		}
		checkSlip(t, want, rapid.SampledFrom(all).Draw(t, "slip"), settings)
	})
}
