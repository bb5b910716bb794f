package theme

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

func day(t testing.TB, text string) journal.Day {
	t.Helper()
	d, err := journal.ParseDay(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestSpan(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"2026-04-12", "2026-04-12", "12 April 2026"},
		{"2026-04-12", "2026-04-18", "12 to 18 April 2026"},
		{"2026-04-28", "2026-05-03", "28 April to 3 May 2026"},
		{"2025-12-28", "2026-01-03", "28 December 2025 to 3 January 2026"},
	} {
		if got := span(day(t, c.from), day(t, c.to)); got != c.want {
			t.Errorf("span(%s, %s) = %q, want %q", c.from, c.to, got, c.want)
		}
	}
}

func TestAge(t *testing.T) {
	for days, want := range map[int]string{0: "0 days", 1: "1 day", 20: "20 days", 21: "3 weeks", 69: "10 weeks", 70: "2 months", 365: "12 months", 900: "2.5 years"} {
		if got := age(days); got != want {
			t.Errorf("age(%d) = %q, want %q", days, got, want)
		}
	}
}

func TestSmallNumbersInWords(t *testing.T) {
	for n, want := range map[int]string{0: "no broods", 1: "one brood", 2: "two broods", 12: "twelve broods", 13: "13 broods"} {
		if got := several(n, "brood", "broods"); got != want {
			t.Errorf("several(%d) = %q, want %q", n, got, want)
		}
	}
}

func TestExcerpt(t *testing.T) {
	for _, c := range []struct {
		text  string
		limit int
		want  string
	}{
		{"short", 10, "short"},
		{"one  two\nthree", 20, "one two three"},
		{"one two three four", 10, "one two\u00a0…"},
		{"aaaaaaaaaaaaaaa", 5, "aaaaa\u00a0…"},
		{"虾虾虾虾", 2, "虾虾\u00a0…"},
	} {
		if got := excerpt(c.text, c.limit); got != c.want {
			t.Errorf("excerpt(%q, %d) = %q, want %q", c.text, c.limit, got, c.want)
		}
	}
}

func TestUnits(t *testing.T) {
	metric := units{wording.Units{Units: journal.Units{Temperature: "C", Volume: "L", Length: "mm", Hardness: "dGH"}}}
	american := units{wording.Units{Units: journal.Units{Temperature: "F", Volume: "gal", Length: "in",
		Hardness: "ppm"}}}
	gh := journal.Reading{Kind: journal.GH, Value: 8}
	ammonia := journal.Reading{Kind: journal.Ammonia, Value: 0.25, Below: true}
	for _, c := range []struct{ source, got, want string }{
		{"as read", metric.temperature(23.44), "23.4 °C"},
		{"32 °F is 0 °C by definition", american.temperature(0), "32 °F"},
		{"212 °F is 100 °C by definition", american.temperature(100), "212 °F"},
		{"an inch is 25.4 mm exactly (NIST SP 811)", american.length(25.4), "1 in"},
		{"as read", metric.length(23.5), "23.5 mm"},
		{"a US gallon is 3.785411784 L exactly (NIST SP 811)", american.volume(37.85411784), "10 US gal"},
		{"as read", metric.volume(38), "38 L"},
		{"as read", metric.amount(gh), "8 dGH"},
		{"1 dGH is 17.848 mg/L of calcium carbonate", american.amount(gh), "143 ppm"},
		{"a test that saw nothing", metric.amount(ammonia), "below 0.25 mg/L"},
		{"pH has no unit", metric.amount(journal.Reading{Kind: journal.PH, Value: 7.42}), "7.4"},
	} {
		if got := strings.ReplaceAll(c.got, wording.Joined, " "); got != c.want {
			t.Errorf("got %q, want %q (%s)", got, c.want, c.source)
		}
	}
	if got := american.degreeSpan(1); got != 1.8 {
		t.Errorf("a span of 1 °C is %v °F", got)
	}
}

func TestSlug(t *testing.T) {
	for words, want := range map[string]string{
		"First berried female": "first-berried-female", "Élevage d’été": "elevage-dete", "Straße & Smørrebrød": "strasse-smorrebrod",
		"  --  ": "", "虾": "", "روبيان": "", "🦐 2": "2", "A/B\\C:D": "a-b-c-d", "Ruby's eggs": "rubys-eggs",
		strings.Repeat("word ", 30): strings.TrimSuffix(strings.Repeat("word-", 12), "-"),
		strings.Repeat("x", 200):    strings.Repeat("x", slugLimit),
	} {
		if got := slug(words); got != want {
			t.Errorf("slug(%q) = %q, want %q", words, got, want)
		}
	}
}

func TestShelfGivesEachNameOnce(t *testing.T) {
	s := shelf{}
	var got []string
	for _, words := range []string{"Amber", "amber", "AMBER", "con", "虾", "虾", "index", "amber-2"} {
		got = append(got, s.name(words, "brood"))
	}
	want := []string{"amber", "amber-2", "amber-3", "brood-con", "brood", "brood-2", "brood-index", "amber-2-2"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestChanceBy(t *testing.T) {
	d := day(t, "2026-04-01")
	w := forecast.Window{P05: d, P10: d + 2, P25: d + 4, P50: d + 8, P75: d + 12, P90: d + 16, P95: d + 20}
	for after, want := range map[journal.Day]float64{-3: 0.05, 0: 0.05, 1: 0.075, 2: 0.10, 6: 0.375, 8: 0.5, 16: 0.9, 18: 0.925, 20: 0.95, 40: 0.95} {
		if got := w.By(d + after); got < want-1e-9 || got > want+1e-9 {
			t.Errorf("after %d days %v, want %v", after, got, want)
		}
	}
	same := forecast.Window{P05: d, P10: d, P25: d, P50: d, P75: d, P90: d, P95: d}
	if got := same.By(d); got != 0.95 {
		t.Errorf("a window of one day is over on that day with %v", got)
	}
}

func TestHoldsWord(t *testing.T) {
	for _, c := range []struct {
		text, name string
		want       bool
	}{
		{"Ruby and her eggs", "ruby", true}, {"Rubyfruit", "ruby", false}, {"a ruby", "ruby", true}, {"Ruby's", "ruby", true},
		{"grubby rubyx ruby", "ruby", true}, {"", "ruby", false}, {"x", "", false},
	} {
		if got := holdsWord(c.text, c.name); got != c.want {
			t.Errorf("holdsWord(%q, %q) = %v", c.text, c.name, got)
		}
	}
}

func TestSearchWords(t *testing.T) {
	got := slices.Collect(searchWords("The RUBY's eggs, the 23.4 °C 虾米 Été"))
	want := []string{"the", "ruby", "s", "eggs", "the", "23", "4", "c", "虾", "米", "été"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if got := gaps([]int32{0, 3, 40}); got != "1,3,11" {
		t.Errorf("gaps = %q", got)
	}
}

func TestTick(t *testing.T) {
	first := tick(day(t, "2026-04-01"), 5, 40, 31)
	fifth := tick(day(t, "2026-04-05"), 5, 40, 31)
	plain := tick(day(t, "2026-04-07"), 5, 40, 31)
	if first.Text != "1" || fifth.Text != "5" || plain.Text != "" || !(first.End >= fifth.End && fifth.End > plain.End) {
		t.Errorf("ticks %+v %+v %+v", first, fifth, plain)
	}
	if got := tick(day(t, "2026-04-01"), 5, 40, 60); got.Text != "Apr" || !got.Strong {
		t.Errorf("the first of a month on a long ruler is %+v", got)
	}
}

// Words of statistics stand on the page of methods, in brackets behind the plain ones, and nowhere else for readers.
func TestPlainWords(t *testing.T) {
	said := map[string]int{}
	for _, story := range []string{"full", "water"} {
		s, err := Draw(foretold(t, story), folderOf(t, story), Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range s.Pages {
			text := strings.ToLower(visible(t, s.Files[path]))
			for _, word := range []string{"effective size", "crps", "cohort", "blood closed", "0 days apart", " 1 males", " 1 females"} {
				switch n := strings.Count(text, word); {
				case path == "methods.html":
					said[word] += n
				case n > 0 && path != "data.html":
					at := strings.Index(text, word)
					t.Errorf("%s: %s says …%s…", story, path, text[max(0, at-50):min(len(text), at+50)])
				}
			}
		}
	}
	for _, word := range []string{"effective size", "crps", "cohort"} {
		if said[word] == 0 {
			t.Errorf("the methods do not explain %q", word)
		}
	}
}

// The page of notices is called what leads to it, and says in one closed place what is watched.
func TestNoticesHaveOneName(t *testing.T) {
	s := site(t, "empty")
	p := parsed(t, s)["notices.html"]
	open := 0
	for n := range p.root.Descendants() {
		switch {
		case n.Data == "h1" && n.FirstChild.Data != "Notices", n.Data == "a" && attribute(n, "aria-current") == "page" && n.FirstChild.Data != "Notices":
			t.Errorf("it is called %q", n.FirstChild.Data)
		case n.Data == "dt":
			open++
			for up := n.Parent; up != nil; up = up.Parent {
				if up.Data == "details" && attribute(up, "open") == "" {
					open--
				}
			}
		}
	}
	if text := visible(t, s.Files["notices.html"]); open > 0 || strings.Contains(text, "probability:") || strings.Contains(text, "Worth a look") {
		t.Errorf("%d kinds stand open: %s", open, text)
	}
}
