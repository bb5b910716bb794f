package theme

import (
	"html"
	"strings"
	"testing"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

func TestMethodsListAssumptions(t *testing.T) {
	text := html.UnescapeString(string(site(t, "full").Files["methods.html"]))
	for _, a := range forecast.Assumptions() {
		if a.Meaning == "" || a.Reason == "" || a.Value == 0 {
			t.Errorf("%+v: nothing of it may be missing", a)
		}
		for _, want := range []string{"<dt>" + wording.Sentence(a.Meaning) + "</dt>", "<strong>" + quantity(a.Value, a.Unit) + "</strong>", wording.Sentence(a.Reason)} {
			if !strings.Contains(text, want) {
				t.Errorf("the methods page does not say %q", want)
			}
		}
	}
}

// What the text says of the limits is what the table below it lists, also where the keeper replaced them.
func TestMethodsTellTheLimitsInUse(t *testing.T) {
	files := newJournal(nil)
	files["journal.yaml"].Data = append(files["journal.yaml"].Data, "biology: {incubation: {limit-low: 14 C}}\n"...)
	s, err := Draw(told(t, files), files, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if text := visible(t, s.Files["methods.html"]); !strings.Contains(text, "Below 14 °C and above 32 °C no date is given.") || strings.Contains(text, "16 °C") && !strings.Contains(text, "The default is 16") {
		t.Error("the methods page tells of other limits than the keeper's")
	}
}

func TestChangeWords(t *testing.T) {
	day := func(n int) journal.Day { return journal.NewDay(2026, 3, n) }
	shot := func(low, middle, high int) forecast.Snapshot {
		return forecast.Snapshot{P10: day(low), P50: day(middle), P90: day(high)}
	}
	for _, c := range []struct {
		change forecast.Change
		words  string
		causes []string
	}{
		{
			forecast.Change{Since: day(9), From: shot(10, 12, 15), To: shot(11, 13, 15), Causes: []forecast.Cause{
				{Why: "one more day has passed", Widened: -1}, {Why: "19 °C measured", Shift: 2, Widened: 1}, {Why: "eyes seen", Shift: -1},
			}},
			"Since 9 March 2026 the likeliest day moved from 12 March 2026 to 13 March 2026, and the 80\u00a0% window went from 10 to 15 March 2026 to 11 to 15 March 2026.",
			[]string{"One more day has passed: the window 1 day narrower.",
				"19 °C measured: the likeliest day 2 days later, the window 1 day wider.", "Eyes seen: the likeliest day 1 day earlier."},
		},
		{
			forecast.Change{Since: day(9), From: shot(10, 12, 15), To: shot(10, 12, 15),
				Causes: []forecast.Cause{{Why: "one more day has passed"}}},
			"Since 9 March 2026 the likeliest day has stayed 12 March 2026, and the 80\u00a0% window 10 to 15 March 2026.",
			[]string{"One more day has passed: no change by a whole day."},
		},
	} {
		got := changePart(&c.change)
		if got.Words != c.words || strings.Join(got.Causes, "|") != strings.Join(c.causes, "|") {
			t.Errorf("changePart(%+v) = %q, %q; want %q, %q", c.change, got.Words, got.Causes, c.words, c.causes)
		}
	}
}

func TestLeftOutIsSaidOnTheBroodsPage(t *testing.T) {
	p := shelfBook(t).pen("broods/x.html")
	b := &p.Broods[0]
	p.Forecast.Learning.Incubation.LeftOut = []string{"x" + b.ID + ": another",
		b.ID + ": hatched 80 days after she was seen with eggs"}
	var said []string
	for _, f := range p.broodFacts(b) {
		if f.Name == "Left out of what was learned" {
			said = append(said, plain(f.Words))
		}
	}
	if len(said) != 1 || said[0] != "Hatched 80 days after she was seen with eggs." {
		t.Errorf("the page says %q, want the one reason", said)
	}
}

func TestGrownIsSaidPlainly(t *testing.T) {
	p := shelfBook(t).pen("track-record.html")
	fill := func(n int) *RecordPage {
		cohort := &colony.Cohort{ID: p.Broods[0].ID}
		made := journal.NewDay(2025, 3, 1)
		p.Record.Maturity = forecast.Score{Count: n, Coverage50: 0.4, Coverage80: 0.75, Coverage90: 1,
			MAEDays: 12.4, CRPSDays: 8}
		p.Record.Young = nil
		for range n {
			p.Record.Young = append(p.Record.Young,
				forecast.YoungHindcast{Cohort: cohort, Made: made,
					Window: forecast.Window{P10: made + 70, P50: made + 90, P90: made + 110}, Observed: made + 100},
				forecast.YoungHindcast{Cohort: cohort, Made: made + 50, Halfway: true})
		}
		out := &RecordPage{}
		p.fillGrown(out)
		return out
	}
	if none := fill(0); !strings.HasPrefix(none.GrownSum, "Not judged yet") || len(none.Scores) > 0 || len(none.Grown) > 0 {
		t.Errorf("without a cohort: %q, %d scores", none.GrownSum, len(none.Scores))
	}
	few := fill(3)
	if !strings.Contains(few.GrownSum, "Of three hatches") || !strings.Contains(few.GrownSum, "too few for shares") || !strings.Contains(few.GrownSum, "off by 12 days") || len(few.Scores) > 0 {
		t.Errorf("with three cohorts: %q, %d scores", few.GrownSum, len(few.Scores))
	}
	if len(few.Grown) != 3 || !few.Grown[0].Inside || few.Grown[0].Words != "with a saddle 10 days later than the middle" {
		t.Errorf("lines %+v, want three, inside, and how far off", few.Grown)
	}
	if many := fill(12); len(many.Scores) != 5 || strings.Contains(many.GrownSum, "too few") || plain(many.Scores[1].Words) != "75\u00a0%" {
		t.Errorf("with twelve cohorts: %q, scores %+v", many.GrownSum, many.Scores)
	}
}
