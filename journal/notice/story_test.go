package notice

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// oneTank is the usual journal.yaml of a story.
const oneTank = `title: A story
tanks:
  shelf: {volume: 40 L, heater: 23 C}
`

// told reads a journal whose entries stand in lines: a day, "private" where one is, and the events in the format's own
// words, such as
//
//	2026-03-14 {berried: 1, brood: amber} {water: {ph: 7.4}}
//
// A day may come with more days it is repeated on: "2026-03-14+7x4" is that day and three more, a week apart.
func told(t testing.TB, settings, lines string) *journal.Journal {
	t.Helper()
	files := fstest.MapFS{"journal.yaml": &fstest.MapFile{Data: []byte(settings)}}
	for _, line := range strings.Split(lines, "\n") {
		when, events, ok := strings.Cut(strings.TrimSpace(line), " ")
		if !ok {
			continue
		}
		for _, day := range daysOf(t, when) {
			name := fmt.Sprintf("entries/%s-%03d.md", day, len(files))
			files[name] = &fstest.MapFile{Data: []byte(page(day, events))}
		}
	}
	j := journal.Read(files)
	for _, p := range j.Problems {
		if p.Severity == journal.Error {
			t.Fatalf("%v\n%s", p, files[p.File].Data)
		}
	}
	return j
}

func daysOf(t testing.TB, when string) []journal.Day {
	t.Helper()
	first, repeat, repeated := strings.Cut(when, "+")
	day, err := journal.ParseDay(first)
	if err != nil {
		t.Fatal(err)
	}
	step, times := 0, 1
	if repeated {
		if _, err := fmt.Sscanf(repeat, "%dx%d", &step, &times); err != nil {
			t.Fatalf("%q: %v", when, err)
		}
	}
	var days []journal.Day
	for i := range times {
		days = append(days, day+journal.Day(i*step))
	}
	return days
}

func page(day journal.Day, events string) string {
	text := "---\ndate: " + day.String() + "\n"
	if rest, private := strings.CutPrefix(events, "private"); private {
		events, text = rest, text+"visibility: private\n"
	}
	text += "events:\n"
	for _, e := range strings.Split(strings.TrimSpace(events), "} {") {
		text += "  - {" + strings.Trim(e, " ") + "}\n"
	}
	// the outermost braces were doubled or cut by the split
	text = strings.ReplaceAll(text, "- {{", "- {")
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if extra := strings.Count(line, "}") - strings.Count(line, "{"); extra > 0 {
			lines[i] = line[:len(line)-extra]
		}
	}
	return strings.Join(lines, "\n") + "---\n"
}

// weighed returns all notices of a journal as of a day, standing and ended. predict is forecast.Make, or the far cheaper
// forecast.Days for kinds that ask for no numbers of shrimp.
func weighed(t testing.TB, j *journal.Journal, asOf journal.Day, predict func(*colony.Colony) *forecast.Forecast) (standing, ended []forecast.Notice) {
	t.Helper()
	c := colony.Replay(j, asOf)
	for _, p := range c.Problems {
		if p.Severity == journal.Error {
			t.Fatal(p)
		}
	}
	return Weigh(predict(c))
}

// story is a journal in which a notice must come up on a day, or must not.
type story struct {
	name     string
	settings string // oneTank when left out
	lines    string
	asOf     string
	want     string  // "kind since..until severity", until left out while it stands; "" for no notice of the kind
	p, tol   float64 // probability; tol 0 for a thousandth
	source   string  // of the probability
}

// tell runs stories about one kind of notice that asks for no numbers of shrimp.
func tell(t *testing.T, kind string, stories []story) {
	t.Helper()
	tellWith(t, forecast.Days, kind, stories)
}

// tellWith runs stories about one kind of notice.
func tellWith(t *testing.T, predict func(*colony.Colony) *forecast.Forecast, kind string, stories []story) {
	t.Helper()
	for _, s := range stories {
		t.Run(s.name, func(t *testing.T) {
			settings := s.settings
			if settings == "" {
				settings = oneTank
			}
			asOf, err := journal.ParseDay(s.asOf)
			if err != nil {
				t.Fatal(err)
			}
			standing, ended := weighed(t, told(t, settings, s.lines), asOf, predict)
			var got []string
			p := 0.0
			for _, n := range append(ended, standing...) {
				if n.Kind != kind {
					continue
				}
				if len(got) == 0 {
					p = n.Probability
				}
				until := ""
				if n.Until != 0 {
					until = n.Until.String()
				}
				got = append(got, fmt.Sprintf("%s..%s %s", n.Since, until, n.Severity))
				complete(t, n)
			}
			if text := strings.Join(got, "; "); text != s.want {
				t.Errorf("got %q, want %q; standing %v, ended %v", text, s.want, brief(standing), brief(ended))
			}
			tol := s.tol
			if tol == 0 {
				tol = 0.001
			}
			if s.want != "" && (p < s.p-tol || p > s.p+tol) {
				t.Errorf("probability %.4f, want %.4f ± %g (%s)", p, s.p, tol, s.source)
			}
		})
	}
}

// complete checks that a notice says all that a keeper needs.
func complete(t *testing.T, n forecast.Notice) {
	t.Helper()
	for what, text := range map[string]string{
		"headline": n.Headline, "seen": n.Seen, "expected": n.Expected, "odds": n.Odds, "ends": n.Ends,
	} {
		if text == "" || strings.Contains(text, "%!") || strings.Contains(text, "NaN") {
			t.Errorf("%s since %v: %s is %q", n.Kind, n.Since, what, text)
		}
	}
	if len(n.Other) < 2 || len(n.Checks) < 2 {
		t.Errorf("%s since %v: %d other explanations, %d checks", n.Kind, n.Since, len(n.Other), len(n.Checks))
	}
	if n.Probability < 0 || n.Probability > 1 {
		t.Errorf("%s since %v: probability %v", n.Kind, n.Since, n.Probability)
	}
}

// brief writes notices as "kind since..until severity p".
func brief(all []forecast.Notice) []string {
	var out []string
	for _, n := range all {
		out = append(out, fmt.Sprintf("%s %s..%s %s %.4f", n.Kind, n.Since, n.Until, n.Severity, n.Probability))
	}
	return out
}
