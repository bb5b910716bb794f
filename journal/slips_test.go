package journal

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// goodEntry holds every kind of event and no mistake; the tests of this file spoil it.
const goodEntry = `---
date: 2026-03-14
title: First berried female
tank: north-shelf
water: {temperature: 23.4 C, ph: 7.4, gh: 8, kh: 4, tds: 210, ammonia: <0.25, nitrite: 0.1, nitrate: 10.5}
events:
  - stocked: {females: 4, males: 3}
    age: 3.5 months
    length: 18.5 mm
    source: a keeper nearby
  - saddled: [ruby]
  - moulted: 1
    failed: true
    note: under the moss
  - courting: true
  - berried: [ruby, pearl]
    brood: [amber, flint]
    eggs: 30
    last-clear: 2026-03-12
  - eyed: amber
    date: 2026-03-13
  - hatched: amber
    shrimplets: 18
    last-carried: 2026-03-13
  - dropped: flint
    eggs: 5
    reason: moulted early
  - sighted: 7
    brood: amber
  - counted: 12
    method: careful
  - measured: [21.5 mm, 22.5 mm]
    sex: female
    names: [ruby, pearl]
  - graded: {pale: 2, deep: 5}
  - died: 1
    cause: failed moult
  - removed: 2
    reason: sold
    to: a friend
  - moved: [ruby]
    to: window
  - water-change: 25.5 %
    with: {gh: 6.5}
    temperature: 22.5 C
  - dosed: 5 mL
    substance: remineraliser
  - fed: blanched nettle
visibility: public
topics: [breeding]
---
# A heading

Ordinary *Markdown*. ![Ruby and her eggs](../photos/ruby.jpg)
`

func TestGoodEntryIsGood(t *testing.T) {
	entry, problems := ParseEntry("entries/e.md", []byte(goodEntry), settingsOf(t, twoTanks))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	kinds := map[string]bool{}
	for _, event := range entry.Events {
		kinds[event.What.Kind()] = true
	}
	for _, kind := range Words().Kinds {
		if !kinds[kind.Name] {
			t.Errorf("the good entry lacks %q: add it to goodEntry above", kind.Name)
		}
	}
}

// keyShape finds the keys of the good entry.
var keyShape = regexp.MustCompile(`[a-z][a-z-]*:`)

// TestEverySlipInAKeyIsReportedAtTheKey changes one letter of one key: the reader must say so at that place.
func TestEverySlipInAKeyIsReportedAtTheKey(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	front := goodEntry[:strings.LastIndex(goodEntry, "---\n")]
	keys := keyShape.FindAllStringIndex(front, -1)
	valid := allWords()
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.SampledFrom(keys).Draw(t, "key")
		word := front[at[0] : at[1]-1]
		i := rapid.IntRange(0, len(word)-1).Draw(t, "letter")
		other := string(rune(rapid.IntRange('a', 'z').Draw(t, "other")))
		spoilt := rapid.SampledFrom([]string{word[:i] + word[i+1:], word[:i] + other + word[i:], word[:i] + other + word[i+1:]}).Draw(t, "slip")
		if spoilt == "" || slices.Contains(valid, spoilt) || strings.Trim(spoilt, "-") != spoilt {
			t.Skip("another word of the format")
		}
		source := goodEntry[:at[0]] + spoilt + goodEntry[at[1]-1:]
		_, problems := ParseEntry("entries/e.md", []byte(source), settings)
		line := 1 + strings.Count(front[:at[0]], "\n")
		column := at[0] - strings.LastIndex(front[:at[0]], "\n")
		found := slices.ContainsFunc(problems, func(p Problem) bool {
			return p.Severity == Error && p.Line == line && p.Column == column && strings.Contains(p.Message,
				quote(spoilt))
		})
		if !found {
			t.Fatalf("%q for %q at %d:%d gives %s", spoilt, word, line, column, briefs(problems))
		}
	})
}

// allWords lists every word of the vocabulary that can be a key.
func allWords() []string {
	all := slices.Concat(names(entryWords), names(eventWords), names(readingWords), names(classWords),
		names(kindWords()), []string{"pale", "even", "deep"})
	for _, kind := range Words().Kinds {
		all = append(all, names(kind.Attributes)...)
	}
	return all
}

// TestEveryDecimalCommaIsReported turns one decimal point into a comma.
func TestEveryDecimalCommaIsReported(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	points := regexp.MustCompile(`\d\.\d`).FindAllStringIndex(goodEntry, -1)
	if len(points) < 9 {
		t.Fatalf("only %d decimal numbers", len(points))
	}
	for _, at := range points {
		source := goodEntry[:at[0]+1] + "," + goodEntry[at[0]+2:]
		line := 1 + strings.Count(goodEntry[:at[0]], "\n")
		_, problems := ParseEntry("entries/e.md", []byte(source), settings)
		if !slices.ContainsFunc(problems, func(p Problem) bool { return p.Line == line && p.Code == "decimal-comma" && p.Hint != "" }) {
			t.Errorf("line %d: %s", line, briefs(problems))
		}
	}
}

// TestSpoiltEntriesAreReadOrReported spoils the entry in several places at once: whatever comes out, every place lies
// inside the file, and there is an entry or an error.
func TestSpoiltEntriesAreReadOrReported(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	pieces := []string{"\t", " ", "\n", "---\n", "- ", ": ", ", ", "{", "}", "[", "]", "\"", "'", "#", "&a ",
		"*a", "!", "|", ">", "“", "\u00a0", "３", "é", "🦐", "-", "0", "1e9", "~", "null", "\r\n", "<", "%", "@", "`"}
	rapid.Check(t, func(t *rapid.T) {
		lines := strings.SplitAfter(goodEntry, "\n")
		for range rapid.IntRange(1, 3).Draw(t, "slips") {
			i := rapid.IntRange(0, len(lines)-2).Draw(t, "line")
			runes := []rune(lines[i])
			at := rapid.IntRange(0, len(runes)).Draw(t, "column")
			switch rapid.IntRange(0, 4).Draw(t, "slip") {
			case 0:
				lines[i] = ""
			case 1:
				lines[i] += lines[i]
			case 2:
				lines[i] = string(runes[:at]) + rapid.SampledFrom(pieces).Draw(t, "piece") + string(runes[at:])
			case 3:
				lines[i] = string(runes[:max(at-1, 0)]) + string(runes[at:])
			case 4:
				lines[i], lines[i+1] = lines[i+1], lines[i]
			}
		}
		source := strings.Join(lines, "")
		entry, problems := ParseEntry("entries/e.md", []byte(source), settings)
		checkPlaces(t, []byte(source), problems)
		if entry == nil && !HasErrors(problems) {
			t.Fatalf("%q: neither an entry nor an error", source)
		}
	})
}

// TestOrderOfKeysDoesNotMatter shuffles the attributes of an event.
func TestOrderOfKeysDoesNotMatter(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	lines := []string{"berried: [ruby]", "brood: amber", "eggs: 30", "last-clear: 2026-03-12", "note: under the moss"}
	want := happening(t, twoTanks, "- "+strings.Join(lines, "\n    "))
	rapid.Check(t, func(t *rapid.T) {
		written := "- " + strings.Join(rapid.Permutation(lines).Draw(t, "lines"), "\n    ")
		entry, problems := ParseEntry("e.md", []byte(entryWith(written)), settings)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if diff := cmp.Diff(want, entry.Events[0].What); diff != "" {
			t.Fatalf("%s (-want +got):\n%s", written, diff)
		}
	})
}

// TestLineEndsAndMarksDoNotMatter holds that the same text with other line ends and a byte-order mark is the
// same entry.
func TestLineEndsAndMarksDoNotMatter(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	for _, source := range []string{goodEntry, strings.Replace(goodEntry, "berried", "bered", 1)} {
		want, problems := ParseEntry("e.md", []byte(source), settings)
		for _, other := range []string{strings.ReplaceAll(source, "\n", "\r\n"), strings.ReplaceAll(source, "\n", "\r"), "\ufeff" + source} {
			got, others := ParseEntry("e.md", []byte(other), settings)
			if diff := cmp.Diff(briefs(problems), briefs(others)); diff != "" {
				t.Error(diff)
			}
			if len(got.Events) != len(want.Events) || string(got.Source) != string(want.Source) {
				t.Error("another entry")
			}
		}
	}
}
