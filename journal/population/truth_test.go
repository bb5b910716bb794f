package population

import (
	"math"
	"math/rand/v2"
	"slices"
)

// The simulator below is not the model: every shrimp is an animal of its own, with her own day of death, maturity and
// moults, in water that drifts and swings with the year; crowding follows another law (Ricker's, on the eggs and the
// hatchlings, by the mass in the tank), growth another curve, broods another distribution. Its numbers differ from
// colony to colony. It serves to ask whether the model's bands hold what really lives in a tank that is not its own.

// shrimp is one animal of the hidden truth.
type shrimp struct {
	female  bool
	hatched float64 // day
	heat    float64 // °C·d above 12.5 so far
	matures float64 // °C·d
	dies    float64 // day
	size    float64 // asymptotic length, mm
	clutch  float64 // share of development done, or below 0 without eggs
	eggs    float64
	moults  float64 // day of the next moult that may bring eggs
	named   string
}

// colony is the hidden truth of one tank.
type colony struct {
	r           *rand.Rand
	day         float64
	animals     []*shrimp
	celsius     float64 // this year's mean
	swing       float64 // of the year
	weather     float64 // departure of today
	litres      float64
	carries     float64 // mass of so many grown females
	brood       float64 // eggs of a 25 mm female
	dailyYoung  float64 // hazard of the young in an empty tank
	accident    float64 // daily hazard at any age
	life, lives float64 // mean and sd of the natural lifespan, days
	moultDays   float64 // between two moults with eggs at 24 °C
	dead        int     // grown animals that died today
	hatches     []hatching
}

// hatching is a brood that came out today.
type hatching struct {
	name  string
	young int
}

// newColony draws a colony of founders on day 0.
func newColony(seed uint64) *colony {
	r := rand.New(rand.NewPCG(seed, 99))
	c := &colony{
		r: r, celsius: 20.5 + 5*r.Float64(), swing: 1.5 * r.Float64(), litres: 20 + 60*r.Float64(),
		brood: 34 * math.Exp(0.2*r.NormFloat64()), dailyYoung: 0.006 * math.Exp(0.4*r.NormFloat64()),
		accident: 0.0012 * math.Exp(0.3*r.NormFloat64()), life: 430 + 40*r.NormFloat64(), lives: 80,
		moultDays: 27 * math.Exp(0.15*r.NormFloat64()),
	}
	c.carries = c.litres * 4.5 * math.Exp(0.3*r.NormFloat64())
	for range 8 + r.IntN(10) {
		s := c.newborn()
		age := 100 + 100*r.Float64()
		s.hatched = -age
		s.heat = age * (23 - 12.5)
		s.dies = math.Max(2, s.hatched+c.life+c.lives*r.NormFloat64())
		s.moults = 20 * r.Float64()
		c.animals = append(c.animals, s)
	}
	return c
}

// newborn returns a hatchling of today.
func (c *colony) newborn() *shrimp {
	s := &shrimp{
		female: c.r.Float64() < 0.5, hatched: c.day, clutch: -1,
		matures: 1080 * math.Exp(0.15*c.r.NormFloat64()), size: 20.5 + 0.8*c.r.NormFloat64(),
	}
	if s.female {
		s.size = 26 + 1.3*c.r.NormFloat64()
	}
	s.dies = c.day + math.Max(20, c.life+c.lives*c.r.NormFloat64())
	return s
}

// length is a Gompertz curve in thermal time.
func (s *shrimp) length() float64 {
	return s.size * math.Exp(-2.4*math.Exp(-3*s.heat/s.matures))
}

func (s *shrimp) grown() bool { return s.heat >= s.matures }

// water returns today's temperature.
func (c *colony) water() float64 {
	return c.celsius + c.swing*math.Sin(c.day/365*2*math.Pi) + c.weather
}

// live lives through a day.
func (c *colony) live() {
	c.day++
	c.dead, c.hatches = 0, nil
	c.weather = 0.85*c.weather + 0.4*c.r.NormFloat64()
	celsius := c.water()
	mass, males := 0.0, false
	for _, s := range c.animals {
		mass += math.Pow(s.length()/25, 3)
		males = males || !s.female && s.grown()
	}
	crowd := mass / c.carries
	var born []*shrimp
	for _, s := range c.animals {
		s.heat += math.Max(0, celsius-12.5)
		if s.female && s.grown() {
			born = append(born, c.breed(s, celsius, crowd, males)...)
		}
	}
	c.animals = slices.DeleteFunc(c.animals, func(s *shrimp) bool { return c.gone(s, crowd) })
	c.animals = append(c.animals, born...)
}

// gone reports whether an animal dies today.
func (c *colony) gone(s *shrimp, crowd float64) bool {
	hazard := c.accident
	if age := c.day - s.hatched; age < 45 {
		hazard += c.dailyYoung * (2 - age/45) * math.Exp(0.8*crowd)
	}
	if c.day < s.dies && c.r.Float64() > hazard {
		return false
	}
	if s.heat > 0.7*s.matures {
		c.dead++
	}
	return true
}

// breed moves a grown female through her cycle and returns the young that hatch.
func (c *colony) breed(s *shrimp, celsius, crowd float64, males bool) []*shrimp {
	if s.clutch >= 0 {
		s.clutch += math.Max(0, celsius-11) / 240 * (1 + 0.1*c.r.NormFloat64())
		if s.clutch < 1 {
			return nil
		}
		left := s.eggs * (1 - 0.5*c.r.Float64()*c.r.Float64()) * math.Exp(-3.5*crowd)
		var young []*shrimp
		for range int(left + c.r.Float64()) {
			young = append(young, c.newborn())
		}
		c.hatches = append(c.hatches, hatching{s.named, len(young)})
		s.clutch, s.named = -1, ""
		return young
	}
	if c.day < s.moults || !males || celsius < 17.5 {
		return nil
	}
	s.moults = c.day + c.moultDays*13/math.Max(4, celsius-11)*(1+0.12*c.r.NormFloat64())
	keen := 0.92 - 0.7*math.Max(0, (c.day-s.hatched-330)/300)
	if c.r.Float64() < keen {
		s.clutch = 0
		s.eggs = c.brood * math.Pow(s.length()/25, 2.5) * math.Exp(0.3*c.r.NormFloat64())
	}
	return nil
}

// count returns how many animals fit.
func (c *colony) count(fits func(s *shrimp) bool) int {
	n := 0
	for _, s := range c.animals {
		if fits(s) {
			n++
		}
	}
	return n
}
