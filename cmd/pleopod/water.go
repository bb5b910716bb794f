package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/wording"
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

// tankWater is the water that a sum starts from: typed, or the last readings of a tank.
type tankWater struct {
	Water   string  `placeholder:"READINGS" help:"The water in the tank, such as 'gh 12, nitrate 40'."`
	Volume  string  `placeholder:"VOLUME" help:"How much water the tank holds, such as 38L, 10gal or '10 UK gal'."`
	Tank    string  `placeholder:"ID" help:"Start from the last readings and the volume of this tank of a journal, by its id or its name."`
	Journal string  `placeholder:"FOLDER" default:"." help:"The folder of the journal for --tank; the current one when left out."`
	AsOf    dayFlag `name:"as-of" placeholder:"DATE" help:"With --tank, the last readings up to this day."`
	JSON    bool    `name:"json" help:"Print the result as one JSON document."`
}

// bath is water with its readings. Values are in the units of the format; shown says in which to write each.
type bath struct {
	units  journal.Units
	values []journal.Reading
	days   map[journal.ReadingKind]journal.Day // of values that come from a journal
	shown  map[journal.ReadingKind]string
	litres journal.Maybe[float64]
	volume string // the unit of volumes
	basis  journal.Basis
}

// fill reads the flags, and the journal where they name a tank.
func (t *tankWater) fill(w *world) (*bath, error) {
	b := &bath{
		units: journal.MetricUnits(), days: map[journal.ReadingKind]journal.Day{},
		shown:  map[journal.ReadingKind]string{},
		volume: "L", basis: journal.BasisN,
	}
	if t.Tank != "" {
		if err := t.last(b, w); err != nil {
			return nil, err
		}
	}
	if t.Volume != "" {
		volume, err := journal.ParseAmount(t.Volume, journal.QuantityVolume, b.units)
		if err != nil {
			return nil, misuse{fmt.Errorf("--volume: %w", err)}
		}
		if volume.Value == 0 {
			return nil, misuse{fmt.Errorf("--volume is %q; a tank holds some water", t.Volume)}
		}
		b.litres, b.volume = journal.Known(volume.Value), volume.Unit
	}
	typed, err := b.read("--water", t.Water)
	for _, r := range typed {
		b.values = slices.DeleteFunc(b.values, func(old journal.Reading) bool { return old.Kind == r.Kind })
		b.values = append(b.values, r)
		delete(b.days, r.Kind)
	}
	return b, err
}

// read reads readings from a flag or an argument and notes the units they were typed in, the first ones first.
func (b *bath) read(where, text string) ([]journal.Reading, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	typed, err := journal.ParseReadings(text, b.units)
	if err != nil {
		return nil, misuse{fmt.Errorf("%s: %w", where, err)}
	}
	var readings []journal.Reading
	for _, r := range typed {
		readings = append(readings, r.Reading)
		if b.shown[r.Kind] == "" {
			b.shown[r.Kind] = r.Unit
		}
	}
	return readings, nil
}

// last takes the newest value of each reading from a journal.
func (t *tankWater) last(b *bath, w *world) error {
	where := place{Journal: t.Journal, AsOf: t.AsOf}
	root, err := where.open()
	if err != nil {
		return err
	}
	defer root.Close()
	j := where.read(root.FS())
	day, err := where.day(&j.Settings, w)
	if err != nil {
		return err
	}
	s := replayed(j, colony.Replay(j, day))
	if journal.HasErrors(s.problems) {
		return w.show(slices.DeleteFunc(s.problems, func(p journal.Problem) bool { return p.Severity != journal.Error }), root.FS())
	}
	if t.Tank, err = tankID(t.Tank, j.Settings.Tanks); err != nil {
		return err
	}
	b.units, b.basis, b.volume = j.Settings.Units, j.Settings.Ammonia, j.Settings.Units.Unit(journal.QuantityVolume)
	for _, tank := range s.colony.Tanks {
		if tank.ID == t.Tank {
			b.newest(tank)
		}
	}
	return nil
}

// newest takes the newest value of each kind, and the volume.
func (b *bath) newest(tank *colony.Tank) {
	b.litres = tank.Volume
	for _, test := range slices.Backward(tank.Tests) {
		for _, r := range test.Readings {
			if day, had := b.days[r.Kind]; had && day >= test.Day {
				continue
			}
			b.values = slices.DeleteFunc(b.values, func(old journal.Reading) bool { return old.Kind == r.Kind })
			b.values = append(b.values, r)
			b.days[r.Kind] = test.Day
		}
	}
}

// both returns the kinds that two waters have in common and that mix by rule, in the order of the manual.
func both(tank, fresh []journal.Reading) []journal.ReadingKind {
	var kinds []journal.ReadingKind
	for _, kind := range journal.ReadingKinds() {
		_, a := journal.ReadingOf(tank, kind)
		_, b := journal.ReadingOf(fresh, kind)
		if a && b && mixes(kind) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// mixes reports whether a reading of a mixture follows from its parts. pH does not, and oxygen comes and goes through
// the surface.
func mixes(kind journal.ReadingKind) bool { return kind != journal.PH && kind != journal.Oxygen }

// unmixed says which readings that both waters have were left out, or "".
func unmixed(tank, fresh []journal.Reading) []string {
	var notes []string
	for _, kind := range []journal.ReadingKind{journal.PH, journal.Oxygen} {
		_, a := journal.ReadingOf(tank, kind)
		_, b := journal.ReadingOf(fresh, kind)
		if a || b {
			notes = append(notes, readingTitle(kind)+" is left out: it does not follow from its parts; test it afterwards.")
		}
	}
	return notes
}

// unit returns the unit in which readings of a kind are written.
func (b *bath) unit(kind journal.ReadingKind) string {
	if unit := b.shown[kind]; unit != "" {
		return unit
	}
	return b.units.Unit(kind.Quantity())
}

// number returns the value of a reading in its shown unit.
func (b *bath) number(kind journal.ReadingKind, value float64) float64 {
	return kind.Quantity().InUnit(value, b.unit(kind))
}

// write writes a reading with its unit.
func (b *bath) write(r journal.Reading) string {
	unit := b.unit(r.Kind)
	text := strings.TrimSpace(wording.Number(b.number(r.Kind, r.Value), wording.Digits(r.Kind, unit)) + " " + wording.Sign(unit))
	if r.Below {
		return "below " + text
	}
	return text
}

// amount writes a volume in the unit of the tank's.
func (b *bath) amount(litres float64) string {
	return wording.Number(journal.QuantityVolume.InUnit(litres, b.volume), 1) + " " + map[bool]string{true: "US gal", false: b.volume}[b.volume == "gal"]
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

// origin says where the starting values come from, or "".
func (t *tankWater) origin(b *bath) string {
	var parts []string
	for _, kind := range journal.ReadingKinds() {
		r, ok := journal.ReadingOf(b.values, kind)
		if day, had := b.days[kind]; ok && had {
			parts = append(parts, fmt.Sprintf("%s %s on %s", readingTitle(kind), b.write(r), day))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Last readings of " + t.Tank + ": " + strings.Join(parts, "; ") + "."
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

// print writes a result.
func (r result) print(out io.Writer, asJSON bool) error {
	if asJSON {
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
