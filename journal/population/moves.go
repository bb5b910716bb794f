package population

// parcel is what every particle of one tank packed for another.
type parcel struct {
	animals [][]mover
	broods  map[string]brood // whose mothers are among them
}

// mover is one animal on its way.
type mover struct {
	days   int16 // of age
	kind   kind
	mother bool // of a followed brood
}

// apply packs the shrimp of every particle.
func (f MovedOut) apply(t *tank, fact Fact) {
	t.demand(f.Group, fact, "moved out", t.lacking(f.Group))
	if t.cloud.effective() < 0.999*float64(len(t.particles)) {
		t.resample() // the other tank takes all particles for equal
	}
	packed := &parcel{animals: make([][]mover, len(t.particles)), broods: map[string]brood{}}
	t.parcels[f.Parcel] = packed
	for _, id := range f.Broods {
		if b, ok := t.broods[id]; ok {
			packed.broods[id] = b
			delete(t.broods, id)
		}
	}
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		packed.animals[i] = t.pack(p, s, f.Group, len(packed.broods))
	}
	t.refresh()
}

// pack takes a group out of one particle.
func (t *tank) pack(p *particle, s *stream, g Group, mothers int) []mover {
	var out []mover
	orders := t.order(p)
	add := func(one animal, mother bool) {
		out = append(out, mover{int16(one.age * t.law.width), one.kind, mother})
		p.left++
	}
	counts := g.counts()
	for range min(mothers, g.Total()) {
		class := 0
		if counts[0] == 0 {
			class = 3
		}
		counts[class] = max(0, counts[class]-1)
		add(p.part(t.table, s), true)
	}
	for class, n := range counts {
		for range n {
			add(p.leave(t.table, s, orders[class]...), false)
		}
	}
	return out
}

// part takes the mother of a followed brood out of a particle.
func (p *particle) part(t *table, s *stream) animal {
	if p.held == 0 {
		p.claim(t, s)
	}
	c := choice{women: true, to: t.span}
	one := p.nth(c, s.below(p.count(c)))
	p.take(t, one.age, one.kind, 1)
	p.held--
	return one
}

// apply unpacks what the other tank packed.
func (f MovedIn) apply(t *tank, _ Fact) {
	packed := t.parcels[f.Parcel]
	if packed == nil {
		return
	}
	t.begun, t.youngNoted = true, true
	oldest := 0
	for _, animals := range packed.animals {
		for _, one := range animals {
			oldest = max(oldest, int(one.days))
		}
	}
	t.reserve(t.classOf(float64(oldest)))
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		for _, one := range packed.animals[i%len(packed.animals)] {
			t.unpack(p, s, one)
		}
	}
	for id, b := range packed.broods {
		t.broods[id], t.noted = b, true
	}
	t.refresh()
}

// unpack adds one mover to a particle.
func (t *tank) unpack(p *particle, s *stream, one mover) {
	p.put(t.table, t.classOf(float64(one.days)), one.kind, 1)
	p.came++
	if one.kind != woman {
		return
	}
	if one.mother {
		p.held++
		return
	}
	p.settle(t.table, s, 0)
}
