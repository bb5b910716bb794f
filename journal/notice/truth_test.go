package notice

import (
	"math"
	"math/rand/v2"
	"slices"
)

// The colony below is the hidden truth of the tests: every shrimp is an animal of its own, in water that drifts. It is not
// the model: maturing, moulting, breeding and dying follow other laws, with numbers that differ from colony to colony.

// shrimp is one animal.
type shrimp struct {
	female  bool
	born    float64 // day
	heat    float64 // °C·d above 12.5
	matures float64 // °C·d
	dies    float64 // day of old age
	moult   float64 // day of the next moult
	clutch  float64 // share of development done, below 0 without eggs
	name    string  // of the brood she carries, where the keeper noted it
	noted   bool    // the keeper has had the chance to note these eggs
}

// pond is a tank with what lives in it.
type pond struct {
	r        *rand.Rand
	day      float64
	animals  []*shrimp
	set      float64 // of the heater, °C
	room     float64 // °C
	heats    bool
	away     float64 // departure of the water from where it tends to, °C
	celsius  float64
	gh       float64 // dGH
	ph       float64
	carries  float64 // adults
	young    float64 // daily hazard of the young
	accident float64 // daily hazard at any age
	life     float64 // mean lifespan, days
	brood    float64 // young of a brood
	keen     float64 // chance that a moult of a grown female ends in eggs
	poison   float64 // daily hazard from what is in the water
	hunted   float64 // daily hazard of a grown shrimp from a hunter; the young suffer more

	dead    []death   // of today
	hatched []hatched // today
}

// death is a grown shrimp that died.
type death struct{ moult, eaten bool }

// hatched is a brood that came out.
type hatched struct {
	name  string
	young int
}

// newPond draws a tank with founders. With one sex all of them are of the same one; old ones are near the end of their
// breeding age.
func newPond(r *rand.Rand, oneSex, old bool) *pond {
	p := &pond{
		r: r, set: 22 + math.Round(3*r.Float64()), room: 17.5 + 2*r.Float64(), heats: true, gh: 5 + 4*r.Float64(), ph: 6.9 + 0.7*r.Float64(),
		carries: 120 + 120*r.Float64(), young: 0.007 * math.Exp(0.4*r.NormFloat64()), accident: 0.0014 * math.Exp(0.25*r.NormFloat64()),
		life: 450 + 40*r.NormFloat64(), brood: 26 * math.Exp(0.2*r.NormFloat64()), keen: 0.75 + 0.2*r.Float64(),
	}
	p.celsius = p.set
	n := 8 + r.IntN(9)
	female := r.Float64() < 0.5
	for i := range n {
		age := 95 + 90*r.Float64()
		if old {
			age = 330 + 80*r.Float64()
		}
		s := p.newborn()
		s.born, s.heat, s.moult = -age, age*10.5, 25*r.Float64()
		s.dies = math.Max(3+20*r.Float64(), s.born+p.life+70*r.NormFloat64())
		if oneSex {
			s.female = female
		} else if i < 2 {
			s.female = i == 0 // this colony is meant to have both
		}
		p.animals = append(p.animals, s)
	}
	return p
}

func (p *pond) newborn() *shrimp {
	return &shrimp{
		female: p.r.Float64() < 0.5, born: p.day, matures: 1050 * math.Exp(0.13*p.r.NormFloat64()), clutch: -1,
		dies: p.day + math.Max(30, p.life+70*p.r.NormFloat64()), moult: p.day + 20,
	}
}

func (s *shrimp) grown() bool { return s.heat >= s.matures }

// live lives through a day.
func (p *pond) live() {
	p.day++
	p.dead, p.hatched = nil, nil
	p.weather()
	adults, males := 0.0, false
	for _, s := range p.animals {
		if s.grown() {
			adults++
			males = males || !s.female
		}
	}
	crowd := adults / p.carries
	var born []*shrimp
	for _, s := range p.animals {
		s.heat += math.Max(0, p.celsius-12.5)
		born = append(born, p.breed(s, males, crowd)...)
	}
	p.animals = slices.DeleteFunc(p.animals, func(s *shrimp) bool { return p.dies(s, crowd) })
	p.animals = append(p.animals, born...)
}

// weather moves the water: to the heater's set-point, or to the room where it fails.
func (p *pond) weather() {
	p.away = 0.85*p.away + 0.22*p.r.NormFloat64()
	season := 1.5 * math.Sin(2*math.Pi*p.day/365)
	target := p.room + season
	if p.heats {
		target = math.Max(p.set, target)
	}
	p.celsius += 0.7 * (target + p.away - p.celsius)
	p.gh += 0.004 * p.r.NormFloat64()
}

// breed moves a shrimp through moults and eggs, and returns what hatches.
func (p *pond) breed(s *shrimp, males bool, crowd float64) []*shrimp {
	var young []*shrimp
	if s.clutch >= 0 {
		s.clutch += math.Max(0, p.celsius-11) / 245 * (1 + 0.08*p.r.NormFloat64())
		if s.clutch >= 1 {
			n := int(p.brood * math.Exp(0.35*p.r.NormFloat64()) * math.Exp(-2.2*crowd))
			for range n {
				young = append(young, p.newborn())
			}
			p.hatched = append(p.hatched, hatched{s.name, n})
			s.clutch, s.name, s.noted = -1, "", false
		}
		return young
	}
	if p.day < s.moult {
		return nil
	}
	s.moult = p.day + (26+4*p.r.NormFloat64())*12/math.Max(4, p.celsius-11)
	age := p.day - s.born
	keen := p.keen * (1 - 0.65*math.Min(1, math.Max(0, (age-350)/200)))
	if s.female && s.grown() && males && p.celsius > 18 && p.r.Float64() < keen {
		s.clutch, s.noted = 0, false
	}
	return nil
}

// dies reports whether a shrimp dies today.
func (p *pond) dies(s *shrimp, crowd float64) bool {
	age := p.day - s.born
	hazard := p.accident + p.poison
	if age < 50 {
		hazard += p.young * (1.6 - age/60) * math.Exp(0.7*crowd)
	}
	soft := 0.004 * math.Max(0, 3.8-p.gh) // a shell that does not part or harden
	eaten := p.hunted
	if !s.grown() {
		eaten *= 4
	}
	x := p.r.Float64()
	all := hazard + soft + eaten
	if p.day < s.dies && x > all {
		return false
	}
	if s.heat > 0.7*s.matures {
		moult := p.day < s.dies && (x < soft || x > all-0.04*p.accident)
		p.dead = append(p.dead, death{moult: moult, eaten: !moult && x < soft+eaten && p.day < s.dies})
	}
	return true
}

func (p *pond) count(fits func(*shrimp) bool) int {
	n := 0
	for _, s := range p.animals {
		if fits(s) {
			n++
		}
	}
	return n
}
