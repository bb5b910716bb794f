package population

import (
	"math"
	"slices"

	"pleopod/journal/parallel"
)

// tank is the cloud of particles of one record, up to a day.
type tank struct {
	clockwork
	next       int // index of the first fact that was not applied
	cloud      cloud
	particles  []particle
	spare      []particle // room for the next resampling
	streams    []stream
	common     stream // for draws that all particles share
	parcels    map[int]*parcel
	broods     map[string]brood
	history    []At
	begun      bool // somebody has come, or was found
	discovered bool // the first were there before the journal
	looked     look // when the keeper last wrote
	looks      int  // that weighed the particles
	noted      bool // a female with eggs was noted before
	youngNoted bool // young were noted before, or came from elsewhere
	sizes      []size
	evenings   []Evening
	findings   []Finding
	doubts     []Doubt
}

// newTank returns the empty tank on the day before its first fact. Parcels are shared by the tanks of a colony.
func newTank(r *Record, seed uint64, particles int, parcels map[int]*parcel) *tank {
	t := &tank{
		clockwork: newClockwork(r), cloud: newCloud(particles),
		particles: make([]particle, particles), streams: make([]stream, particles),
		common: newStream(seed, 1<<32), parcels: parcels, broods: map[string]brood{},
	}
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		*s = newStream(seed, uint64(i))
		p.draw(t.law, s)
		p.clock = s.exponential()
		p.refresh(t.table)
	}
	return t
}

// live runs the tank up to and with a day, and applies the facts of all days before it. The facts of the day itself wait
// for settle, so that tanks can exchange shrimp in the order of the journal.
func (t *tank) live(to Day) {
	for t.day < to {
		t.settle()
		end := min(to, t.periodEnd(t.day+1))
		if t.next < len(t.record.Facts) {
			end = min(end, max(t.record.Facts[t.next].Day, t.day+1))
		}
		if t.periodEnd(t.day) == t.day {
			t.turn()
		}
		t.stretch(end)
	}
}

// settle applies the facts up to and with the current day.
func (t *tank) settle() {
	for t.next < len(t.record.Facts) && t.record.Facts[t.next].Day <= t.day {
		t.step()
	}
}

// step applies the next fact.
func (t *tank) step() {
	fact := t.record.Facts[t.next]
	t.next++
	limited(fact.What).apply(t, fact)
}

// turn begins a new age period on the day after t.day.
func (t *tank) turn() {
	t.history = append(t.history, t.at())
	t.evenings = append(t.evenings, t.evening())
	t.measure()
	t.clockwork.turn()
	t.each(func(p *particle, s *stream) { p.turn(t.table, s) })
}

// stretch lives through the days after t.day up to end. No fact and no turn lies between them.
func (t *tank) stretch(end Day) {
	var week [ages]pace
	days := week[:0]
	for t.day < end {
		t.day++
		days = append(days, t.pass(t.day))
	}
	t.each(func(p *particle, s *stream) { p.run(t.table, s, days) })
	t.table.bin = days[len(days)-1].to
}

// each calls f for every particle, several blocks at a time.
func (t *tank) each(f func(p *particle, s *stream)) {
	blocks(len(t.particles), func(from, to int) {
		for i := from; i < to; i++ {
			f(&t.particles[i], &t.streams[i])
		}
	})
}

// numbers returns what f gives for every particle, several blocks at a time.
func (t *tank) numbers(f func(p *particle) float64) []float64 {
	all := make([]float64, len(t.particles))
	blocks(len(all), func(from, to int) {
		for i := from; i < to; i++ {
			all[i] = f(&t.particles[i])
		}
	})
	return all
}

// block is how many particles are moved together on one core.
const block = 64

// blocks calls do for the blocks of n particles, from one up to but without another, as many at a time as there are cores.
func blocks(n int, do func(from, to int)) {
	parallel.Each((n+block-1)/block, func(b int) { do(b*block, min(n, (b+1)*block)) })
}

// refresh works out the sums of every particle after facts have changed its animals.
func (t *tank) refresh() {
	t.each(func(p *particle, _ *stream) { p.refresh(t.table) })
}

// classOf returns the age class, today, of an animal of so many days.
func (t *tank) classOf(days float64) int {
	born := t.day - Day(max(0, days))
	return int(min(max(0, t.periodOf(t.day)-t.periodOf(born)), ages-1))
}

// reserve makes sure that the tables reach an age class that is about to be used.
func (t *tank) reserve(age int) {
	if age < t.table.span {
		return
	}
	t.table.span = age + 1
	t.table.fill(&t.phi, &t.began)
}

// resample draws the particles anew by weight, and lets the traits of the copies drift apart.
func (t *tank) resample() {
	from := t.cloud.ancestors(t.common.uniform())
	old := t.particles
	t.particles = slices.Grow(t.spare[:0], len(old))[:len(old)]
	for place, ancestor := range from {
		t.particles[place] = old[ancestor]
	}
	t.spare = old
	t.drift()
	t.each(func(p *particle, s *stream) {
		p.clock = s.exponential() // hazards have no memory, and copies must not die at the same moment
		p.express(t.law)
		p.refresh(t.table)
	})
}

// drift moves each trait towards the mean and adds noise, so that mean and spread over the cloud stay the same.
func (t *tank) drift() {
	n := float64(len(t.particles))
	keep := math.Sqrt(1 - shrink*shrink)
	for z := range traitCount {
		var sum, squares float64
		for i := range t.particles {
			v := float64(t.particles[i].z[z])
			sum += v
			squares += v * v
		}
		mean := sum / n
		sd := math.Sqrt(max(0, squares/n-mean*mean))
		for i := range t.particles {
			v := &t.particles[i].z[z]
			*v = float32(mean + keep*(float64(*v)-mean) + shrink*sd*t.streams[i].normal())
		}
	}
}
