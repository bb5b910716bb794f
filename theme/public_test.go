package theme

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// twoSides is a diary whose private entries change what public ones opened.
const twoSides = `
2025-01-01 public  {stocked: 20}; {berried: [opal], brood: onyx, eggs: 30}; {berried: 1, brood: plume}
2025-01-05 private {dropped: onyx, eggs: 7}; {moved: [opal], to: bench}; {moulted: [shy]}; {counted: 21}
2025-01-10 private {eyed: plume}; {eyed: onyx, tank: bench}
2025-01-11 public  {eyed: plume}
2025-01-20 private {hatched: onyx, tank: bench}; {berried: 1, brood: hushed}
2025-01-25 public  {hatched: plume}; {hatched: hushed}
2025-01-25 private {fed: moss}
2025-05-01 public  {measured: [18, 19], brood: plume, names: [pearl, coral]}; {measured: [20], brood: hushed}
2025-05-10 private {saddled: [pearl]}; {berried: [coral]}
2025-05-20 public  {berried: [pearl]}; {saddled: [coral]}; {died: [shy]}
2025-05-22 private {died: [pearl]}
`

// twoSided predicts it, without numbers of shrimp.
func twoSided(t *testing.T) *forecast.Forecast {
	files := fstest.MapFS{"journal.yaml": &fstest.MapFile{Data: []byte("title: A\nas-of: 2025-06-01\ntanks: {shelf: {heater: 23 C}, bench: {heater: 23 C}}\n")}}
	for _, line := range strings.Split(strings.TrimSpace(twoSides), "\n") {
		day, visibility, events := line[:10], strings.Fields(line)[1], line[19:]
		text := "---\ndate: " + day + "\ntank: shelf\nvisibility: " + visibility + "\nevents:\n  - " + strings.ReplaceAll(events, "; ", "\n  - ") + "\n---\n"
		files["entries/"+day+visibility+".md"] = &fstest.MapFile{Data: []byte(text)}
	}
	j := journal.Read(files)
	c := colony.Replay(j, j.Settings.AsOf)
	for _, p := range append(j.Problems, c.Problems...) {
		if p.Severity == journal.Error {
			t.Fatal(p)
		}
	}
	return forecast.Days(c)
}

// What private entries say of a public brood, cohort or shrimp is as if it had not been written.
func TestThePublicRecord(t *testing.T) {
	f := twoSided(t)
	b := newBook(public(f), nil)
	onyx, plume := b.broods["onyx"], b.broods["plume"]
	if len(b.broods) != 3 || onyx == nil || plume == nil || b.broods["hushed"] != nil {
		t.Fatalf("broods %v", b.broods)
	}
	if onyx.State != closed || onyx.EggsLost != 0 || onyx.Eyed != 0 || onyx.Brood.Hatched != 0 || len(onyx.Stays) != 1 || onyx.Tank() != "shelf" {
		t.Errorf("onyx is %+v", onyx.Brood)
	}
	if want := day(t, "2025-01-11"); plume.Eyed != want {
		t.Errorf("plume has eyes on %s, want %s", plume.Eyed, want)
	}
	young := b.cohorts["plume"]
	if len(b.cohorts) != 1 || young.FirstSaddled != day(t, "2025-05-20") || young.FirstBerried != day(t, "2025-05-20") {
		t.Errorf("%d cohorts; saddled %s, berried %s", len(b.cohorts), young.FirstSaddled, young.FirstBerried)
	}
	if pearl := b.shrimp["pearl"]; pearl.Gone != 0 || b.shrimp["shy"] != nil || b.shrimp["opal"].Tank != "shelf" {
		t.Errorf("pearl is %+v, opal %+v", pearl, b.shrimp["opal"])
	}
	shelf := b.tanks["shelf"].Tank
	for _, length := range shelf.Lengths {
		if ofPlume := length.MM != 20; (length.Hatched != 0) != ofPlume || (length.Cohort != nil) != ofPlume {
			t.Errorf("length %+v", length)
		}
	}
	var lines []string
	for _, line := range shelf.Ledger {
		lines = append(lines, string(line.Why)+strings.Join(line.Names, " "))
	}
	if diff := cmp.Diff([]string{"stocked", "hatched", "hatched", "died"}, lines); diff != "" {
		t.Errorf("ledger (-want +got):\n%s", diff)
	}
	if len(shelf.Censuses) > 0 {
		t.Errorf("censuses %v", shelf.Censuses)
	}
}

// What a forecast says beside the record: by hand, so that it is there.
func TestThePublicForecast(t *testing.T) {
	f := twoSided(t)
	at := func(text string) journal.Day { return day(t, text) }
	of := func(id string) *forecast.Brood {
		return &f.Broods[slices.IndexFunc(f.Broods, func(b forecast.Brood) bool { return b.ID == id })]
	}
	plume := of("plume")
	plume.History = []forecast.Snapshot{{Day: at("2025-01-01"), Why: "open"}, {Day: at("2025-01-05"), Why: "private"}, {Day: at("2025-01-25"), Why: "either"}}
	plume.Change = &forecast.Change{Since: at("2025-01-04")}
	f.Record.Hindcasts = []forecast.Hindcast{{Brood: plume.Brood}, {Brood: of("onyx").Brood}, {Brood: of("hushed").Brood}}
	cohort := plume.Brood.Cohort
	f.Record.Young = []forecast.YoungHindcast{{Cohort: cohort, Observed: at("2025-05-10")}, {Cohort: cohort, Observed: at("2025-05-20")}}
	f.Learning.Incubation.LeftOut = []string{"plume was cold", "hushed was cold"}
	for i := range f.Tanks {
		f.Tanks[i].Population.Evidence = []string{"a count"}
	}
	b := newBook(public(f), nil)
	got := b.broods["plume"]
	if want := []forecast.Snapshot{{Day: at("2025-01-01"), Why: "open"}, {Day: at("2025-01-25")}}; !slices.Equal(got.History, want) || got.Change != nil {
		t.Errorf("history %v, change %v", got.History, got.Change)
	}
	if n := b.Record.Hindcasts; len(n) != 1 || n[0].Brood.ID != "plume" {
		t.Errorf("hindcasts %v", n)
	}
	if n := b.Record.Young; len(n) != 1 || n[0].Observed != at("2025-05-20") {
		t.Errorf("young %v", n)
	}
	if left := b.Learning.Incubation.LeftOut; !slices.Equal(left, []string{"plume was cold"}) {
		t.Errorf("left out %q", left)
	}
	if shelf, bench := b.tanks["shelf"].Population.Evidence, b.tanks["bench"].Population.Evidence; shelf != nil || bench == nil {
		t.Errorf("evidence of the tank with a private count %q, of the other %q", shelf, bench)
	}
}
