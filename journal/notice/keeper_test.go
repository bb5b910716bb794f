package notice

import (
	"fmt"
	"math"
	"math/rand/v2"

	"pleopod/journal"
)

// keeper is somebody with one tank who writes what a keeper writes: a visit a week or so with a rough count, a temperature
// most times, a full test now and then, some of the females with eggs, some of the hatches, some of the dead.
type keeper struct {
	r       *rand.Rand
	pond    *pond
	start   journal.Day
	journal *journal.Journal
	today   []journal.Happening

	gap     float64 // days between visits
	holiday float64 // day on which she leaves for three weeks, or none
	glance  float64 // share of the grown that a glance shows
	looks   float64 // chance to note new eggs
	finds   float64 // chance to find a dead shrimp
	tellsOf float64 // chance to note the end of a brood
	next    float64 // day of the next visit
	tested  float64 // day of the last full test
	sexed   float64 // day of the next count by sex
	dead    []death // found since the last visit
	gone    []hatched
	broods  int

	firstEggs float64 // first day on which eggs were noted, or 0
	before    float64 // mean of the last glances before the trouble began
}

var begin = journal.NewDay(2024, 2, 1)

func newKeeper(r *rand.Rand, p *pond, age float64) *keeper {
	k := &keeper{
		r: r, pond: p, start: begin, gap: 4 + 4*r.Float64(), glance: 0.28 + 0.25*r.Float64(), looks: 0.35 + 0.55*r.Float64(),
		finds: 0.25 + 0.35*r.Float64(), tellsOf: 0.5 + 0.4*r.Float64(), sexed: 30 + 40*r.Float64(), next: 3, tested: -40,
	}
	if r.Float64() < 0.4 {
		k.holiday = 60 + 280*r.Float64()
	}
	tank := journal.Tank{ID: "shelf", Name: "The shelf", Heater: journal.Known(p.set), Volume: journal.Known(p.carries / 4.5)}
	if r.Float64() < 0.5 {
		low, high := math.Round(p.gh-2), math.Round(p.gh+3)
		tank.Range = []journal.WaterRange{{Kind: journal.Temperature, Low: p.set - 2.5, High: p.set + 3.5}, {Kind: journal.GH, Low: low, High: high}}
	}
	k.journal = &journal.Journal{Settings: journal.Settings{
		Title: "An invented keeper", Species: "neocaridina-davidi", Ammonia: journal.BasisN, TDSFactor: 0.5,
		Units: journal.MetricUnits(), Tanks: []journal.Tank{tank},
	}}
	stocked := &journal.Stocked{Shrimp: journal.Count{Total: len(p.animals)}}
	if age > 0 {
		stocked.Age = journal.Known(age)
	}
	k.say(stocked)
	k.write()
	return k
}

func (k *keeper) say(what ...journal.Happening) { k.today = append(k.today, what...) }

// write closes the day's entry.
func (k *keeper) write() {
	if len(k.today) == 0 {
		return
	}
	day := k.start + journal.Day(k.pond.day)
	entry := &journal.Entry{Path: fmt.Sprintf("entries/%05d.md", len(k.journal.Entries)), Date: day, Title: day.String(), Tanks: []string{"shelf"}}
	for i, what := range k.today {
		entry.Events = append(entry.Events, journal.Event{
			Position: journal.Position{File: entry.Path, Line: 4 + i, Column: 5}, Entry: entry, Day: day, Tank: "shelf", What: what,
		})
	}
	k.journal.Entries = append(k.journal.Entries, entry)
	k.today = nil
}

// follow lets a day of the pond pass through the keeper's eyes.
func (k *keeper) follow() {
	for _, d := range k.pond.dead {
		if !d.eaten && k.r.Float64() < k.finds {
			k.dead = append(k.dead, d)
		}
	}
	for _, h := range k.pond.hatched {
		if h.name != "" && k.r.Float64() < k.tellsOf {
			k.gone = append(k.gone, h)
		}
	}
	if k.holiday > 0 && k.pond.day >= k.holiday && k.pond.day < k.holiday+21 {
		k.next = k.holiday + 21
	}
	if k.pond.day >= k.next {
		k.visit()
	}
	k.write()
}

// visit is a day on which she looks and writes.
func (k *keeper) visit() {
	p := k.pond
	k.next = p.day + math.Max(1, k.gap*(0.6+0.8*k.r.Float64()))
	worried := len(k.dead) >= 2
	for _, d := range k.dead {
		if d.moult {
			k.say(&journal.Moulted{Shrimp: journal.Who{Count: journal.Count{Total: 1}}, Failed: true})
			worried = true
		}
	}
	if n := len(k.dead); n > 0 {
		k.say(&journal.Died{Shrimp: journal.Who{Count: journal.Count{Total: n}}})
	}
	k.dead = nil
	k.eggs()
	if k.r.Float64() < 0.85 {
		k.count()
	}
	if k.r.Float64() < 0.7 || worried {
		k.test(worried)
	}
	if k.r.Float64() < 0.5 {
		k.say(&journal.WaterChange{Share: journal.Known(0.1 + 0.05*float64(k.r.IntN(4)))})
	}
	if worried {
		k.next = math.Min(k.next, p.day+1+float64(k.r.IntN(2)))
	}
	if n := p.count((*shrimp).grown); n > 110 && k.r.Float64() < 0.3 {
		k.giveAway(12)
	}
}

// eggs notes new eggs while the colony can be overlooked, and the ends of broods she followed.
func (k *keeper) eggs() {
	for _, h := range k.gone {
		k.say(&journal.Hatched{Brood: h.name, Shrimplets: journal.Known(int(0.3 * k.r.Float64() * float64(h.young)))})
	}
	k.gone = nil
	noted := 0
	many := k.pond.count((*shrimp).grown) > 50
	for _, s := range k.pond.animals {
		if s.clutch < 0 || s.noted {
			continue
		}
		s.noted = true
		if k.r.Float64() > k.looks || many && noted > 0 || noted > 2 {
			continue
		}
		noted++
		k.broods++
		s.name = fmt.Sprintf("brood-%d", k.broods)
		k.say(&journal.Berried{Shrimp: journal.Who{Count: journal.Count{Total: 1}}, Broods: []string{s.name}})
		if k.firstEggs == 0 {
			k.firstEggs = k.pond.day
		}
	}
}

// count is a glance, or now and then a careful count by sex.
func (k *keeper) count() {
	careful := k.pond.day >= k.sexed
	share := k.glance
	if careful {
		share = 0.65 + 0.15*k.r.Float64()
		k.sexed = k.pond.day + 50 + 40*k.r.Float64()
	}
	share = 1 / (1 + (1-share)/share*math.Exp(-0.3*k.r.NormFloat64()))
	var females, males, juveniles int
	for _, s := range k.pond.animals {
		ripe := s.heat / s.matures
		switch {
		case k.r.Float64() > share*math.Min(1, 0.15+0.85*ripe):
		case ripe < 0.85:
			juveniles++
		case s.female != (k.r.Float64() < 0.03):
			females++
		default:
			males++
		}
	}
	c := journal.Count{Total: females + males + juveniles}
	if careful {
		c.Sorted, c.Females, c.Males, c.Juveniles = true, journal.Known(females), journal.Known(males), journal.Known(juveniles)
		k.say(&journal.Counted{Shrimp: c, Method: journal.Careful})
		return
	}
	k.say(&journal.Counted{Shrimp: c, Method: journal.Glance})
}

// test measures the temperature, and everything when it is time or she worries.
func (k *keeper) test(worried bool) {
	p := k.pond
	readings := []journal.Reading{{Kind: journal.Temperature, Value: math.Round(10*(p.celsius+0.3*k.r.NormFloat64())) / 10}}
	if p.day-k.tested > 24 || worried {
		k.tested = p.day
		ammonia := 0.0
		if k.r.Float64() < 0.02 {
			ammonia = 0.25
		}
		readings = append(readings,
			journal.Reading{Kind: journal.PH, Value: math.Round(10*(p.ph+0.12*k.r.NormFloat64())) / 10},
			journal.Reading{Kind: journal.GH, Value: math.Max(0, math.Round(p.gh+0.4*k.r.NormFloat64()))},
			journal.Reading{Kind: journal.Ammonia, Value: ammonia}, journal.Reading{Kind: journal.Nitrite}, journal.Reading{Kind: journal.Nitrate, Value: 5 * float64(k.r.IntN(5))})
	}
	for i := range readings {
		readings[i].Position = journal.Position{File: fmt.Sprintf("entries/%05d.md", len(k.journal.Entries)), Line: 100 + i, Column: 1}
	}
	k.say(&journal.WaterTest{Readings: readings})
}

// giveAway takes grown shrimp out.
func (k *keeper) giveAway(n int) {
	var left []*shrimp
	taken := 0
	for _, s := range k.pond.animals {
		if taken < n && s.grown() && s.name == "" {
			taken++
			continue
		}
		left = append(left, s)
	}
	k.pond.animals = left
	k.say(&journal.Removed{Shrimp: journal.Who{Count: journal.Count{Total: taken}}, Reason: journal.Given})
}
