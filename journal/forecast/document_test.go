package forecast

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"pleopod/journal"
	"pleopod/journal/colony"
)

// schema compiles the schema of the document, with dates checked as dates.
func schema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	compiler := jsonschema.NewCompiler()
	compiler.AssertFormat()
	s, err := compiler.Compile("testdata/forecast.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// write returns the document's JSON, and the same read into plain values.
func write(t testing.TB, d Document) (string, any) {
	t.Helper()
	text, err := json.Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return string(text), value
}

// diaryForDocument tells of a tank with every kind of brood, one of them private, and a private reading.
func diaryForDocument(t testing.TB) *diary {
	d := newDiary(heated("north", 23), unheated("south"))
	d.on(day(t, "2026-01-01"), "north", &journal.Stocked{Shrimp: journal.Count{Total: 12}}, temperature(23.14))
	d.on(day(t, "2026-01-05"), "north", berried("amber"))
	d.on(day(t, "2026-01-06"), "north", berried("secret"))
	d.journal.Entries[2].Private = true
	d.on(day(t, "2026-01-12"), "north", berried("flint"))
	d.on(day(t, "2026-01-15"), "north", &journal.Dropped{Brood: "flint"})
	d.on(day(t, "2026-01-25"), "north", &journal.Hatched{Brood: "amber", Shrimplets: journal.Known(9)})
	d.on(day(t, "2026-01-26"), "north", &journal.Hatched{Brood: "secret", Shrimplets: journal.Known(8)}, temperature(22.9))
	d.journal.Entries[6].Private = true
	d.on(day(t, "2026-02-01"), "north", berried("jade"))
	d.on(day(t, "2026-02-10"), "south", berried("slate"))
	return d
}

func TestDocumentFitsItsSchema(t *testing.T) {
	full := Make(diaryForDocument(t).replay(day(t, "2026-02-14")))
	cold := newDiary(heated("north", 12))
	cold.on(day(t, "2026-02-01"), "north", berried("amber"), temperature(12))
	documents := map[string]Document{
		"a full journal":   NewDocument(full, false),
		"its public part":  NewDocument(full, true),
		"an empty journal": NewDocument(Make(newDiary(heated("north", 23)).replay(day(t, "2026-02-14"))), false),
		"too cold":         NewDocument(Make(cold.replay(day(t, "2026-02-14"))), false),
		"made by hand":     NewDocument(handmade(), false),
	}
	s := schema(t)
	for name, document := range documents {
		text, value := write(t, document)
		if err := s.Validate(value); err != nil {
			t.Errorf("%s: %v\n%s", name, err, text)
		}
		var back Document
		if err := json.Unmarshal([]byte(text), &back); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if diff := cmp.Diff(document, back); diff != "" {
			t.Errorf("%s: written (-) and read back (+):\n%s", name, diff)
		}
	}
}

// TestSchemaRefuses spoils a good document in one place at a time.
func TestSchemaRefuses(t *testing.T) {
	good, _ := write(t, NewDocument(handmade(), false))
	s := schema(t)
	spoilt := map[string][2]string{
		"a day that does not exist":   {`"asOf":"2026-05-01"`, `"asOf":"2026-02-30"`},
		"no as-of day":                {`"asOf":"2026-05-01",`, ``},
		"a key that nobody knows":     {`"progress":`, `"advance":1,"progress":`},
		"a state that nobody knows":   {`"state":"overdue"`, `"state":"late"`},
		"progress beyond the end":     {`"progress":0.988`, `"progress":1.2`},
		"half a window":               {`"p05":"2026-04-25"`, `"p05":null`},
		"a window with a reason":      {`"reason":null`, `"reason":"too cold"`},
		"hatched while still carried": {`"hatched":null`, `"hatched":"2026-04-30"`},
		"a list that is null":         {`"checks":["count the eggs"]`, `"checks":null`},
		"half a shrimp":               {`"p05":41`, `"p05":41.5`},
		"a chance above one":          {`"extinctWithinYear":0.011`, `"extinctWithinYear":1.1`},
	}
	for name, change := range spoilt {
		bad := strings.Replace(good, change[0], change[1], 1)
		if bad == good {
			t.Errorf("%s: the document does not hold %s\n%s", name, change[0], good)
			continue
		}
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(bad))
		if err != nil {
			t.Fatal(err)
		}
		if s.Validate(value) == nil {
			t.Errorf("the schema accepts %s", name)
		}
	}
}

// handmade is a small forecast whose numbers have more digits than a document shows.
func handmade() *Forecast {
	at := func(d int) journal.Day { return journal.NewDay(2026, 4, d) }
	berried := &journal.Event{Entry: &journal.Entry{}, Day: at(5), Tank: "north"}
	brood := &colony.Brood{ID: "amber", State: colony.Carried, Stays: []colony.Stay{{Tank: "north", From: at(5)}}, Berried: at(5), Opened: berried}
	asOf := journal.NewDay(2026, 5, 1)
	tank := &colony.Tank{Tank: &journal.Tank{ID: "north"}}
	week := func(n int, x float64) At { return At{asOf + journal.Day(7*n), Quantiles{x, x, x, x, x}} }
	return &Forecast{
		Colony: &colony.Colony{AsOf: asOf},
		Broods: []Brood{{Brood: brood, State: Overdue, Progress: 0.98765, EyedFrom: at(16),
			Hatch: Window{P05: at(25), P10: at(26), P25: at(27), P50: at(28), P75: at(29), P90: at(30), P95: asOf}}},
		Tanks: []Tank{{Tank: tank, Celsius: 22.849, CelsiusSD: math.NaN(), Population: Population{
			Now: Quantiles{41.4, 50.5, 56, 63, 74}, AdultFemales: Quantiles{P05: 8, P50: 11, P95: 15},
			Ahead:            []At{week(4, 70), week(5, 77), week(12, 100), week(13, 100)},
			Passes:           []Pass{{Count: 100, ProbabilityWithinYear: 0.5}, {Count: 50, ProbabilityWithinYear: 0.91919, P10: at(25), P50: at(26), P90: at(27)}},
			MayLeavePerMonth: 6, ExtinctWithinYear: 0.01149, EffectiveSize: math.Inf(1),
		}, Water: []WaterDay{{Day: at(30), Readings: []journal.Reading{
			{Kind: journal.Temperature, Value: 23.111}, {Kind: journal.Ammonia, Value: 0.25, Below: true}, {Kind: journal.PH, Value: 7.6},
		}, UnionisedAmmonia: journal.Known(0.00481)}}}},
		Learning: Learning{Incubation: Learned{PriorSD: 0.15, Mean: 1.0404, SD: 0.0606, Used: 3}},
		Notices: []Notice{
			{Kind: "overdue-brood", Tank: "north", Brood: "amber", Since: at(30), Headline: "Amber is late", Probability: 0.0312, Checks: []string{"count the eggs"}, Public: true},
			{Kind: "copper", Tank: "north", Since: at(12), Headline: "Copper was measured", Probability: -0.0000001},
		},
	}
}

func TestDocumentRoundsAndLeavesOut(t *testing.T) {
	text, _ := write(t, NewDocument(handmade(), false))
	for _, want := range []string{
		`"progress":0.988`,
		`"shrimplets":null`,
		`"temperature":{"mean":22.8,"sd":null}`,
		`"now":{"p05":41,"p25":51,"p50":56,"p75":63,"p95":74}`,
		`"ahead":[{"date":"2026-05-31","p05":72,"p25":72,"p50":72,"p75":72,"p95":72},{"date":"2026-07-30","p05":100,`,
		`"passes":[{"count":50,"probabilityWithinYear":0.919,"p10":"2026-04-25","p50":"2026-04-26","p90":"2026-04-27"},{"count":100,"probabilityWithinYear":0.5,"p10":null,`,
		`"extinctWithinYear":0.011,"effectiveSize":null`,
		`"water":[{"date":"2026-04-30","temperature":23.11,"ph":7.6,"ammonia":null,"unionisedAmmonia":0.0048}]`,
		`"incubation":{"priorSd":0.15,"mean":1.04,"sd":0.061,"broods":3}`,
		`"trackRecord":{"broods":0,"coverage50":null,`,
		`"notices":[{"kind":"copper","tank":"north","brood":null,"since":"2026-04-12","headline":"Copper was measured","probability":0,"checks":[],"reading":null,"severity":"look","until":null,"seen":"","expected":"","odds":"","other":[],"ends":""},{"kind":"overdue-brood"`,
		`"cohorts":[]`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
}

func TestDocumentOfAColony(t *testing.T) {
	d := NewDocument(Make(diaryForDocument(t).replay(day(t, "2026-02-14"))), false)
	states := map[string]BroodState{}
	for _, b := range d.Broods {
		states[b.ID] = b.State
	}
	want := map[string]BroodState{"amber": Hatched, "secret": Hatched, "flint": Dropped, "jade": Carried, "slate": Carried}
	if diff := cmp.Diff(want, states); diff != "" {
		t.Errorf("states (-want +got):\n%s", diff)
	}
	if n := d.Broods[0].Shrimplets; n == nil || *n != 9 {
		t.Errorf("shrimplets of amber are %v", n)
	}
}

func TestPublicDocument(t *testing.T) {
	f := Make(diaryForDocument(t).replay(day(t, "2026-02-14")))
	f.Broods[0].Ended.Entry.Private = true // amber hatched in a private entry
	f.Notices = []Notice{
		{Kind: "seen-by-all", Public: true, Since: f.Colony.AsOf},
		{Kind: "rests-on-private", Since: f.Colony.AsOf},
		{Kind: "about-a-private-brood", Brood: "secret", Public: true, Since: f.Colony.AsOf},
	}
	public := NewDocument(f, true)
	text, _ := write(t, public)
	for _, word := range []string{"secret", "22.9", "rests-on-private", "about-a-private-brood"} {
		if strings.Contains(text, word) {
			t.Errorf("the public document holds %q:\n%s", word, text)
		}
	}
	if b := public.Broods[0]; b.ID != "amber" || b.Hatched == nil || b.Shrimplets != nil {
		t.Errorf("a public brood shows its hatch but not the shrimplets of a private entry: %+v", b)
	}
	all, _ := write(t, NewDocument(f, false))
	for _, word := range []string{"secret", "22.9", "rests-on-private", "seen-by-all"} {
		if !strings.Contains(all, word) {
			t.Errorf("the whole document lacks %q", word)
		}
	}
}
