package theme

import (
	"fmt"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// TankNow is what a tank is doing on the as-of day.
type TankNow struct {
	Tank     Link
	Sentence []Link
	Picture  Aquarium
	Eggs     []EggRow // of the broods carried now
	Cover    Photo
}

// tankNow fills the present of one tank.
func (p *pen) tankNow(t *forecast.Tank) TankNow {
	now := TankNow{Tank: p.tankLink(t.Tank.ID), Sentence: p.sentence(t), Picture: p.aquarium(t),
		Cover: p.photo(t.Tank.Cover, t.Tank.Name)}
	for _, b := range p.carriedIn(t.Tank.ID) {
		now.Eggs = append(now.Eggs, p.eggRow(b))
	}
	return now
}

// carriedIn returns the broods that are carried in a tank, the one that hatches first in front.
func (b *book) carriedIn(tank string) []*forecast.Brood {
	var out []*forecast.Brood
	for i := range b.Broods {
		brood := &b.Broods[i]
		if brood.Open() && brood.Tank() == tank {
			out = append(out, brood)
		}
	}
	sortByDay(out, func(b *forecast.Brood) journal.Day { return b.Hatch.P50 })
	return out
}

// unwritten reports whether no entry tells anything of a tank.
func unwritten(t *forecast.Tank) bool { return len(t.Tank.Events) == 0 && t.Population.Now.P50 == 0 }

// sentence says in one sentence what a tank is doing now.
func (p *pen) sentence(t *forecast.Tank) []Link {
	var w phrase
	if unwritten(t) {
		w.say("Nothing is written about this tank yet.")
		return w
	}
	if whole(t.Population.Now.P95) == 0 {
		w.say("Water without shrimp, at ", p.units.temperature(t.Celsius), ".")
		return w
	}
	w.say("Home to ", sureNumbers(t.Population.Now), grownAmong(&t.Population), " at ", p.units.temperature(t.Celsius))
	if since := t.SilentSince(p.asOf); since != 0 {
		w.say(", which is a guess, because the diary tells nothing of it since ", wording.Date(since))
	}
	carried := p.carriedIn(t.Tank.ID)
	switch {
	case len(carried) == 0:
		w.say("; no eggs are carried now")
	case len(carried) == 1:
		w.say("; ")
		if _, is := unnamed(carried[0]); !is {
			w.say("the brood ")
		}
		w.link(p.broodLink(carried[0].ID))
		w.say(" is carried, ", p.hatchWords(carried[0]))
	default:
		w.say("; ", inWords(len(carried)), " broods are carried, and of these ")
		w.link(p.broodLink(carried[0].ID))
		w.say(" comes first, ", p.hatchWords(carried[0]))
	}
	if young := p.youngest(t.Tank.ID); young != nil && p.asOf-young.Hatched <= 4 {
		w.say("; the young of ")
		w.link(p.broodLink(young.ID))
		w.say(" hide for their first days")
	}
	w.say(".")
	return w
}

// grownAmong says how many of a tank's shrimp are grown, where most are young: those a count hardly sees.
func grownAmong(n *forecast.Population) string {
	grown, all := whole(n.AdultFemales.P50)+whole(n.AdultMales.P50), whole(n.Now.P50)
	switch {
	case 2*grown >= all:
		return ""
	case grown == 0:
		return ", none of them grown,"
	}
	return fmt.Sprintf(", about %d of them grown,", grown)
}

// hatchWords says when a carried brood is likely to hatch.
func (p *pen) hatchWords(b *forecast.Brood) string {
	switch {
	case b.State == forecast.Overdue:
		return "overdue since " + wording.Date(b.LateFrom)
	case !dated(b.Hatch):
		return "too far outside the known temperatures for a date"
	}
	return "likeliest to hatch on " + wording.Date(b.Hatch.P50)
}

// youngest returns the newest cohort that hatched in a tank, or nil.
func (b *book) youngest(tank string) *forecast.Cohort {
	var found *forecast.Cohort
	for i := range b.Cohorts {
		if c := &b.Cohorts[i]; c.Tank == tank && (found == nil || c.Hatched >= found.Hatched) {
			found = c
		}
	}
	return found
}

// Aquarium is a small picture of a tank: a shrimp for each so many that live there.
type Aquarium struct {
	Alt    string
	Key    string // what one shrimp of the picture stands for
	Shrimp []Swimmer
	Empty  bool
}

// Swimmer is one shrimp of the picture. Its size and direction are the Form, a name of a drawing.
type Swimmer struct {
	X, Y int    // of its middle, in the picture's 240 by 120
	Form string // "adult", "berried" or "young"
	Left bool   // looks to the left
}

// swimmers is how many shrimp a picture can hold.
const swimmers = 24

// aquarium fills the picture of a tank from the median estimates. The places come from a fixed lattice, so that
// the same numbers always give the same picture.
func (p *pen) aquarium(t *forecast.Tank) Aquarium {
	total := whole(t.Population.Now.P50)
	if total == 0 {
		return Aquarium{Alt: "An empty tank", Empty: true}
	}
	each := 1
	for _, step := range []int{2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000} {
		if (total+each-1)/each <= swimmers {
			break
		}
		each = step
	}
	adults := whole(t.Population.AdultFemales.P50 + t.Population.AdultMales.P50)
	shown, grown := max(1, (total+each/2)/each), (min(adults, total)+each/2)/each
	eggs := min(len(p.carriedIn(t.Tank.ID)), grown)
	picture := Aquarium{
		Alt: fmt.Sprintf("%s drawn as a tank with %s: %s grown, %s", p.tankName(t.Tank.ID),
			wording.Count(shown, "shrimp", "shrimp"), inWords(grown), carrying(eggs)),
		Key: "One drawn shrimp is one shrimp.",
	}
	if each > 1 {
		picture.Key = fmt.Sprintf("One drawn shrimp stands for about %d.", each)
	}
	for i := range min(shown, swimmers) {
		s := Swimmer{Form: "young", Left: (i*5+len(t.Tank.ID))%3 == 0}
		switch {
		case i < eggs:
			s.Form = "berried"
		case i < grown:
			s.Form = "adult"
		}
		s.X, s.Y = place(i, shown)
		picture.Shrimp = append(picture.Shrimp, s)
	}
	return picture
}

// carrying says how many of the drawn shrimp carry eggs.
func carrying(n int) string {
	switch n {
	case 0:
		return "none with eggs"
	case 1:
		return "one with eggs"
	}
	return inWords(n) + " with eggs"
}

// place spreads the shrimp of a picture over a lattice of six columns, lower rows first, each a little off its place.
func place(i, shown int) (x, y int) {
	columns := min(6, max(shown, 3))
	rows := (shown + columns - 1) / columns
	column, row := (i*7)%columns, i/columns
	if columns == 6 {
		column = (i*5 + row*2) % columns
	}
	dx, dy := (i*37)%15-7, (i*53)%9-4
	height := 70 / max(rows, 1)
	return 30 + column*180/max(columns-1, 1) + dx, 96 - row*height - height/4 + dy
}

// EggRow is a brood's development as a row of eggs.
type EggRow struct {
	Brood Link
	Alt   string
	Words string
	Eggs  []Egg
	EyesX int // where on the row eyes are expected; 0 where they have been seen
}

// Egg is one egg of the row.
type Egg struct {
	X    int
	Form string // "clear", "grown", "eyed"
}

// eggs is how many eggs stand for the whole of development, and eggWide the room of one.
const eggs, eggWide = 20, 14

// eggRow fills the row of eggs of a brood that is carried.
func (p *pen) eggRow(b *forecast.Brood) EggRow {
	done := whole(b.Progress * eggs)
	row := EggRow{
		Brood: p.broodLink(b.ID),
		Words: fmt.Sprintf("%s of development done", wording.Percent(b.Progress)),
	}
	if b.State == forecast.Overdue {
		row.Words = p.hatchWords(b)
	}
	row.Alt = fmt.Sprintf("%d of %d eggs filled: %s", done, eggs, row.Words)
	if b.Eyed != 0 {
		row.Words += ", eyes seen " + wording.Date(b.Eyed)
	} else {
		shown := whole(p.profile(b.Tank()).Incubation.EyedAt * eggs)
		row.EyesX = shown * eggWide
		row.Alt += fmt.Sprintf("; eyes show after %d", shown)
	}
	for i := range eggs {
		egg := Egg{X: i*eggWide + eggWide/2, Form: "clear"}
		switch {
		case i < done && b.Eyed != 0:
			egg.Form = "eyed"
		case i < done:
			egg.Form = "grown"
		}
		row.Eggs = append(row.Eggs, egg)
	}
	return row
}
