package main

import (
	"errors"
	"fmt"
	"math"

	"pleopod/journal"
	"pleopod/journal/water"
)

// waterTopUp is the sum "what does topping up do over the months?".
type waterTopUp struct {
	With       string `required:"" placeholder:"READINGS" help:"The water that is topped up with, such as 'gh 12, tds 300'; 'gh 0' for osmosis or rain water."`
	Evaporated string `required:"" placeholder:"SIZE" help:"How much evaporates in a week, such as 6% or 2L."`
	Change     string `placeholder:"SIZE" help:"How much is changed each week beside that, such as 10%."`
	New        string `placeholder:"READINGS" help:"The new water of that change; that of the top-up when left out."`
	waterFlags
}

// creepDocument is what water top-up --json prints.
type creepDocument struct {
	Sum      string             `json:"sum"` // "top-up"
	Readings []creepingDocument `json:"readings"`
	Notes    []string           `json:"notes"`
	Cautions []string           `json:"cautions"`
}

// creepingDocument is how one reading creeps.
type creepingDocument struct {
	Kind    string          `json:"kind"`
	Unit    string          `json:"unit"` // dGH, dKH, ppm, µS/cm or mg/L
	Tank    float64         `json:"tank"`
	After   []creptDocument `json:"after"`
	Settles *float64        `json:"settles"` // null where it never does
}

// creptDocument is a value after some weeks.
type creptDocument struct {
	Weeks int     `json:"weeks"`
	Value float64 `json:"value"`
}

// creepWeeks are the weeks that are shown: a month, a quarter, half a year, a year.
var creepWeeks = [...]int{4, 13, 26, 52}

// Run prints how the readings creep.
func (c *waterTopUp) Run(env *environment) error {
	t, err := c.startingWater(env)
	if err != nil {
		return err
	}
	with, err := t.read("--with", c.With)
	if err != nil {
		return err
	}
	fresh, err := t.read("--new", c.New)
	if err != nil {
		return err
	}
	routine, err := c.routine(t)
	if err != nil {
		return err
	}
	r := result{
		sentence: c.words(t, routine), head: []string{"", "now", "4 weeks", "13 weeks", "26 weeks", "52 weeks",
			"settles at"}, notes: unmixedNotes(t.values, with),
		cautions: []string{"Topping up with osmosis, distilled or rain water adds nothing. " + cautionSlowly},
	}
	document := creepDocument{Sum: "top-up", Readings: []creepingDocument{}, Cautions: r.cautions}
	for _, kind := range mixingKinds(t.values, with) {
		if kind == journal.Temperature {
			continue
		}
		row, one, err := t.creep(kind, routine, with, fresh)
		if err != nil {
			return err
		}
		r.rows, document.Readings = append(r.rows, row), append(document.Readings, one)
	}
	if len(r.rows) == 0 {
		return nothingInCommon(t.values, with)
	}
	if routine.Share > 0 {
		r.notes = append(r.notes, sameNew(document.Readings, fresh)...)
	}
	if origin := c.originNote(t); origin != "" {
		r.notes = append(r.notes, origin)
	}
	document.Notes = neverNil(r.notes)
	r.document = document
	return c.print(env.stdout, r)
}

// sameNew names the readings whose new water was taken for that of the top-up.
func sameNew(creeping []creepingDocument, fresh []journal.Reading) []string {
	var notes []string
	for _, one := range creeping {
		kind := journal.ReadingKind(one.Kind)
		if _, ok := journal.ReadingOf(fresh, kind); !ok {
			notes = append(notes, fmt.Sprintf("The new water's %s is taken for that of the top-up; --new '%s …' sets it.", readingTitle(kind), kind))
		}
	}
	return notes
}

// routine reads what is done every week.
func (c *waterTopUp) routine(t *tankWater) (water.Routine, error) {
	var r water.Routine
	var err error
	if r.Evaporated, err = t.share(c.Evaporated); err != nil {
		return r, err
	}
	if r.Evaporated > 0.95 {
		return r, misuse{errors.New("--evaporated is nearly all of the water; it can be up to 95 % a week")}
	}
	switch {
	case c.Change != "":
		r.Share, err = t.share(c.Change)
	case c.New != "":
		err = misuse{errors.New("--new is the water of a weekly change; add its size, such as --change 10%")}
	}
	return r, err
}

func (c *waterTopUp) words(t *tankWater, r water.Routine) string {
	if r.Share == 0 {
		return fmt.Sprintf("Topping up %s a week, without water changes:", t.sizeAlone(r.Evaporated))
	}
	return fmt.Sprintf("Topping up %s a week, and changing %s each week:", t.sizeAlone(r.Evaporated),
		t.sizeAlone(r.Share))
}

// creep follows one reading.
func (t *tankWater) creep(kind journal.ReadingKind, routine water.Routine, with, fresh []journal.Reading) ([]string, creepingDocument, error) {
	tank, _ := journal.ReadingOf(t.values, kind)
	topUp, _ := journal.ReadingOf(with, kind)
	routine.TopUp, routine.Fresh = topUp.Value, topUp.Value
	below := tank.Below || topUp.Below
	if r, ok := journal.ReadingOf(fresh, kind); ok {
		routine.Fresh, below = r.Value, below || r.Below
	}
	document := creepingDocument{Kind: string(kind), Unit: baseUnit(kind), Tank: tank.Value}
	row := []string{readingTitle(kind), t.text(tank)}
	for _, weeks := range creepWeeks {
		value, err := routine.After(tank.Value, float64(weeks))
		if err != nil {
			return nil, document, err
		}
		row = append(row, t.text(journal.Reading{Kind: kind, Value: value, Below: below}))
		document.After = append(document.After, creptDocument{weeks, value})
	}
	end, err := routine.Settles()
	if err != nil {
		return nil, document, err
	}
	switch {
	case math.IsInf(end, 1):
		row = append(row, "never")
	case math.IsNaN(end):
		row = append(row, "stays")
	default:
		row = append(row, t.text(journal.Reading{Kind: kind, Value: end, Below: below}))
		document.Settles = &end
	}
	return row, document, nil
}
