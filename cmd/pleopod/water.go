package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"pleopod/journal"
	"pleopod/journal/colony"
)

// waterCommand is the what-if sums about water. None of them writes a file.
type waterCommand struct {
	Change       waterChange       `cmd:"" help:"What a water change makes of the water.\n\nExample: pleopod water change 25% --water 'gh 12, nitrate 40, temperature 24C' --with 'gh 4, nitrate 0, temperature 19C' --volume 38L"`
	Target       waterTarget       `cmd:"" help:"How much water to change to come to a reading.\n\nExample: pleopod water target 'gh 8' --water 'gh 12' --with 'gh 4' --volume 10gal"`
	Mix          waterMix          `cmd:"" help:"What several waters make together.\n\nExample: pleopod water mix '30 L, gh 8, temperature 24C' '8 L, gh 2, temperature 15C'"`
	Remineralise waterRemineralise `cmd:"" help:"How to make soft or osmosis water as hard as wanted, with harder water or with salt.\n\nExample: pleopod water remineralise 'gh 6' --volume 10L --with 'gh 14'"`
	TopUp        waterTopUp        `cmd:"" name:"top-up" help:"How hardness and dissolved solids creep up when evaporated water is topped up.\n\nExample: pleopod water top-up --water 'gh 7, tds 180' --with 'gh 12, tds 300' --evaporated 6%"`
	Ammonia      waterAmmonia      `cmd:"" help:"How much of the ammonia is un-ionised, the toxic form.\n\nExample: pleopod water ammonia --water 'ammonia 1, ph 8, temperature 24C'"`
}

// The cautions that go with the sums.
const (
	cautionPower  = "Before hands go in or the level falls: switch off and unplug what runs in the water, and let heaters cool."
	cautionSlowly = "Change water slowly, at the temperature of the tank. A sum is an estimate for well mixed water: test afterwards."
	cautionHarm   = "An estimate, not veterinary advice. When animals suffer, ask a veterinarian who treats aquatic animals."
)

// waterFlags name the water that a sum starts from: typed, or the last readings of a tank.
type waterFlags struct {
	Water   string  `placeholder:"READINGS" help:"The water in the tank, such as 'gh 12, nitrate 40'."`
	Volume  string  `placeholder:"VOLUME" help:"How much water the tank holds, such as 38L, 10gal or '10 UK gal'."`
	Tank    string  `placeholder:"ID" help:"Start from the last readings and the volume of this tank of a journal, by its id or its name."`
	Journal string  `placeholder:"FOLDER" default:"." help:"The folder of the journal for --tank; the current one when left out."`
	AsOf    dayFlag `name:"as-of" placeholder:"DATE" help:"With --tank, the last readings up to this day."`
	outputFlag
}

// outputFlag says in which form a result is printed.
type outputFlag struct {
	JSON bool `name:"json" help:"Print the result as one JSON document."`
}

// startingWater reads the flags, and the journal where they name a tank.
func (f *waterFlags) startingWater(env *environment) (*tankWater, error) {
	t := &tankWater{
		units: journal.MetricUnits(), days: map[journal.ReadingKind]journal.Day{},
		shownUnits: map[journal.ReadingKind]string{},
		volume:     "L", basis: journal.BasisN,
	}
	if f.Tank != "" {
		if err := f.lastReadings(t, env); err != nil {
			return nil, err
		}
	}
	if f.Volume != "" {
		volume, err := journal.ParseAmount(f.Volume, journal.QuantityVolume, t.units)
		if err != nil {
			return nil, misuse{fmt.Errorf("--volume: %w", err)}
		}
		if volume.Value == 0 {
			return nil, misuse{fmt.Errorf("--volume is %q; a tank holds some water", f.Volume)}
		}
		t.litres, t.volume = journal.Known(volume.Value), volume.Unit
	}
	typed, err := t.read("--water", f.Water)
	for _, r := range typed {
		t.set(r)
		delete(t.days, r.Kind)
	}
	return t, err
}

// lastReadings takes the newest value of each reading from a journal.
func (f *waterFlags) lastReadings(t *tankWater, env *environment) error {
	flags := journalFlags{Journal: f.Journal, AsOf: f.AsOf}
	root, err := flags.open()
	if err != nil {
		return err
	}
	defer root.Close()
	j := flags.read(root.FS())
	day, err := flags.day(&j.Settings, env)
	if err != nil {
		return err
	}
	loaded := withColony(j, colony.Replay(j, day))
	if journal.HasErrors(loaded.problems) {
		return env.printProblems(slices.DeleteFunc(loaded.problems, func(p journal.Problem) bool { return p.Severity != journal.Error }), root.FS())
	}
	if f.Tank, err = tankID(f.Tank, j.Settings.Tanks); err != nil {
		return err
	}
	t.units, t.basis, t.volume = j.Settings.Units, j.Settings.Ammonia, j.Settings.Units.Unit(journal.QuantityVolume)
	for _, tank := range loaded.colony.Tanks {
		if tank.ID == f.Tank {
			t.newest(tank)
		}
	}
	return nil
}

// readingTitle is what people call a reading.
func readingTitle(kind journal.ReadingKind) string {
	switch kind {
	case journal.PH:
		return "pH"
	case journal.GH, journal.KH, journal.TDS:
		return strings.ToUpper(string(kind))
	}
	return string(kind)
}

// originNote says where the starting values come from, or "".
func (f *waterFlags) originNote(t *tankWater) string {
	var parts []string
	for _, kind := range journal.ReadingKinds() {
		r, ok := journal.ReadingOf(t.values, kind)
		if day, had := t.days[kind]; ok && had {
			parts = append(parts, fmt.Sprintf("%s %s on %s", readingTitle(kind), t.text(r), day))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Last readings of " + f.Tank + ": " + strings.Join(parts, "; ") + "."
}

// result is what every sum prints: a sentence, a table, notes and cautions.
type result struct {
	sentence string
	head     []string
	rows     [][]string
	notes    []string
	cautions []string
	document any // for --json
}

// print writes a result in the form that was asked for.
func (o outputFlag) print(out io.Writer, r result) error {
	if o.JSON {
		return printJSON(out, r.document)
	}
	fmt.Fprintln(out, r.sentence)
	if len(r.rows) > 0 {
		fmt.Fprintln(out)
		table := tabwriter.NewWriter(out, 0, 0, 3, ' ', 0)
		for _, row := range append([][]string{r.head}, r.rows...) {
			fmt.Fprintln(table, strings.Join(row, "\t"))
		}
		table.Flush()
	}
	for i, note := range append(slices.Clone(r.notes), r.cautions...) {
		if i == 0 || i == len(r.notes) {
			fmt.Fprintln(out)
		}
		fmt.Fprintln(out, note)
	}
	return nil
}

// capitalised puts a capital at the front, except of "pH".
func capitalised(text string) string {
	if text == "" || text == "pH" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// baseUnit is the unit of values in documents, whatever was typed.
func baseUnit(kind journal.ReadingKind) string { return journal.MetricUnits().Unit(kind.Quantity()) }

// neverNil returns a list that is never nil, so that JSON shows an empty list.
func neverNil(notes []string) []string { return append([]string{}, notes...) }
