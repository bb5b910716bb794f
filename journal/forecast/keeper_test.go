package forecast

import (
	"fmt"
	"math"
	"math/rand/v2"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
)

// keeper is an invented keeper with tanks, water, shrimp and habits of its own. What is true of them is hidden from the
// predictor: it sees the diary alone. No number here is taken from the package under test.
type keeper struct {
	random *rand.Rand
	start  journal.Day
	days   int

	law         func(celsius float64) float64 // the truth of incubation in this room, per day
	broodSpread float64                       // sd of ln from brood to brood
	brood       func() float64                // how long one brood takes against the others
	looks       float64                       // probability that she looks at a female closely on a day
	notesClear  float64                       // probability to note the last day without eggs
	notesEyes   float64
	tanks       []*pond
	nursery     nurseryTruth
}

// pond is a tank's true daily means.
type pond struct {
	id      string
	heater  float64 // 0 for none
	celsius []float64
	gap     float64 // mean days between readings
	logged  bool
	swing   float64 // amplitude of the day around its mean, °C
	bias    float64 // of her readings against the daily mean, °C: the thermometer's, and that of her hour
}

func newKeeper(seed uint64, years float64) *keeper {
	random := rand.New(rand.NewPCG(seed, 42))
	k := &keeper{random: random, start: journal.NewDay(2021, 2, 3), days: int(years * 365)}
	multiplier := math.Exp(0.15 * random.NormFloat64())
	base := 11 + 0.7*random.NormFloat64()
	// the same duration at 24 °C whatever the base: that is what the multiplier is about
	degreeDays := 239 * multiplier * (24 - base) / (24 - 11)
	k.law = func(celsius float64) float64 {
		return (math.Max(0, celsius-base) - 0.5*math.Max(0, celsius-28)) / degreeDays
	}
	k.broodSpread = 0.08 + 0.04*random.Float64()
	k.brood = func() float64 { return math.Exp(k.broodSpread * random.NormFloat64()) }
	k.looks = 0.5 + 0.5*random.Float64()
	k.notesClear = 0.8 * random.Float64()
	k.notesEyes = random.Float64()
	k.nursery = newNurseryTruth(seed)
	for i := range 1 + random.IntN(3) {
		k.tanks = append(k.tanks, k.newPond(fmt.Sprintf("tank-%d", i+1)))
	}
	return k
}

// newPond draws a tank: heated or not, with weather, a season, and a keeper who measures more or less often.
func (k *keeper) newPond(id string) *pond {
	r := k.random
	w := &pond{id: id, celsius: make([]float64, k.days+120), gap: 2 + 12*r.Float64(), logged: r.Float64() < 0.2}
	mean, season, sd := 21.5+2*r.Float64(), 1.5+1.5*r.Float64(), 0.6+0.8*r.Float64()
	if r.Float64() < 0.6 {
		w.heater = 22 + math.Round(4*r.Float64())
		mean, season, sd = w.heater+0.5*r.NormFloat64(), 0.3*r.Float64(), 0.2+0.8*r.Float64()
	}
	phi := math.Exp(-1 / (3 + 9*r.Float64()))
	x := sd * r.NormFloat64()
	for day := range w.celsius {
		w.celsius[day] = mean + season*math.Cos(2*math.Pi*(float64(k.start)+float64(day)-200)/365.25) + x
		x = phi*x + math.Sqrt(1-phi*phi)*sd*r.NormFloat64()
	}
	return w
}

// rate is a law averaged over a day of a mean temperature.
func (w *pond) rate(law func(float64) float64, celsius float64) float64 {
	if w.swing == 0 {
		return law(celsius)
	}
	const hours = 8
	var sum float64
	for i := range hours {
		sum += law(celsius + w.swing*math.Sin(2*math.Pi*(float64(i)+0.5)/hours))
	}
	return sum / hours
}

// reach returns the moment at which development from a moment on reaches an amount, and false when that is after the end.
func (w *pond) reach(law func(float64) float64, from, amount float64) (float64, bool) {
	for at := from; at < float64(len(w.celsius)-1); {
		day := int(math.Floor(at + 0.5))
		end := float64(day) + 0.5
		rate := w.rate(law, w.celsius[day])
		if rate*(end-at) >= amount {
			return at + amount/rate, true
		}
		amount -= rate * (end - at)
		at = end
	}
	return 0, false
}

// write keeps the diary: readings, and broods one after another from several females in every tank.
func (k *keeper) write() *diary {
	var tanks []journal.Tank
	for _, w := range k.tanks {
		tank := unheated(w.id)
		if w.heater > 0 {
			tank = heated(w.id, w.heater)
		}
		if w.logged {
			tank.Logged = k.logger(w)
		}
		tanks = append(tanks, tank)
	}
	d := newDiary(tanks...)
	for _, w := range k.tanks {
		k.measure(d, w)
		for female := range 2 {
			k.breed(d, w, female)
		}
	}
	return d
}

func (k *keeper) logger(w *pond) []journal.LoggedDay {
	var days []journal.LoggedDay
	for day := range k.days {
		if day > 200 && day < 260 {
			continue // a flat battery
		}
		days = append(days, journal.LoggedDay{Day: k.start + journal.Day(day), Mean: w.celsius[day] + 0.08*k.random.NormFloat64(), Samples: 24})
	}
	return days
}

func (k *keeper) measure(d *diary, w *pond) {
	for at := 0.0; at < float64(k.days); at += 1 + w.gap*k.random.ExpFloat64() {
		day := int(at)
		d.on(k.start+journal.Day(day), w.id, temperature(w.celsius[day]+w.bias+0.3*k.random.NormFloat64()))
	}
}

// breed writes the broods of one female after another.
func (k *keeper) breed(d *diary, w *pond, female int) {
	r := k.random
	for n, at := 1, 20+40*r.Float64(); ; n++ {
		id := fmt.Sprintf("%s-%d-%d", w.id, female, n)
		spread := k.brood()
		hatched, ok := w.reach(k.law, at, spread)
		if !ok || hatched > float64(k.days-5) {
			return
		}
		k.note(d, w, id, at, hatched, spread)
		k.raise(d, w, id, hatched)
		at = hatched + 5 + 25*r.Float64()
	}
}

// note writes what the keeper sees of a brood.
func (k *keeper) note(d *diary, w *pond, id string, at, hatched, spread float64) {
	r := k.random
	day := func(moment float64) journal.Day { return k.start + journal.Day(math.Ceil(moment)) }
	berried, seen := berried(id), k.nextLook(day(at))
	if r.Float64() < k.notesClear {
		berried.LastClear = day(at) - 1
		for r.Float64() > k.looks {
			berried.LastClear--
		}
	}
	d.on(seen, w.id, berried)
	eyes, ok := w.reach(k.law, at, spread*(0.58+0.08*r.NormFloat64()))
	if noted := eyes + 3*r.Float64(); ok && r.Float64() < k.notesEyes && day(noted) < day(hatched) && day(noted) > seen {
		d.on(day(noted), w.id, &journal.Eyed{Brood: id})
	}
	end := &journal.Hatched{Brood: id}
	noted := hatched + 2*r.Float64()
	if r.Float64() < k.notesClear {
		end.LastCarried = day(hatched) - 1 - journal.Day(r.IntN(2))
	}
	d.on(max(day(noted), seen+1), w.id, end)
}

// nextLook returns the first day from a day on at which she looks closely.
func (k *keeper) nextLook(day journal.Day) journal.Day {
	for k.random.Float64() > k.looks {
		day++
	}
	return day
}

// seen returns the colony at the end of the diary.
func (k *keeper) seen(d *diary) *colony.Colony { return d.replay(k.start + journal.Day(k.days)) }

// oracle predicts for a keeper who knows the truth of her room: its law, as her thermometer shows it, and its spread.
func (k *keeper) oracle(d *diary) map[string]Hindcast {
	told := *d
	told.journal.Settings.Biology = []journal.Override{
		{Name: "incubation.prior-sd", Value: 0.01}, {Name: "incubation.brood-cv", Value: k.broodSpread},
	}
	r := newRecord(k.seen(&told), nil)
	for _, w := range k.tanks {
		r.knownTanks[w.id].eggs = lifecycle.Averaged(func(shown float64) float64 { return w.rate(k.law, shown-w.bias) })
	}
	r.learnEggs()
	first := map[string]Hindcast{}
	for _, h := range r.trackRecord().Hindcasts {
		if !h.Halfway {
			first[h.Brood.ID] = h
		}
	}
	return first
}
