package population

// choice is a set of animals of a particle: some kinds in a range of age classes. A mature female shows what she is, so
// the lower end does not hold for her.
type choice struct {
	girls, women, males bool
	from, to            int // age classes, without to
}

// of returns how many of each kind a choice holds in an age class.
func (c choice) of(p *particle, age int) (girls, women, males int) {
	if c.women {
		women = int(p.herd[woman][age])
	}
	if age < c.from {
		return 0, women, 0
	}
	if c.girls {
		girls = int(p.herd[girl][age])
	}
	if c.males {
		males = int(p.herd[male][age])
	}
	return girls, women, males
}

// sexable returns the first age class whose sex shows by eye.
func (p *particle) sexable(t *table) int {
	threshold := t.law.profile.Maturity.SexableAt
	for a := range t.span {
		if t.phi[a]*float64(p.speed) >= threshold {
			return a
		}
	}
	return t.span
}

// The classes of a Group as choices, and what they fall back to when a particle has none.
func (p *particle) females(t *table) choice {
	return choice{girls: true, women: true, from: p.sexable(t), to: t.span}
}

func (p *particle) grownMales(t *table) choice {
	return choice{males: true, from: p.sexable(t), to: t.span}
}

func (p *particle) juveniles(t *table) choice {
	return choice{girls: true, males: true, to: p.sexable(t)}
}

func everybody(t *table) choice {
	return choice{girls: true, women: true, males: true, to: t.span}
}

// earliest is the share of the way to maturity from which a keeper may tell the sex of an animal. Assumption.
const earliest = 0.6

// maybeFemales is everybody who could be taken for a grown female.
func (p *particle) maybeFemales(t *table) choice {
	return p.tellable(t, choice{girls: true, women: true, to: t.span})
}

// maybeMales is everybody who could be taken for a grown male.
func (p *particle) maybeMales(t *table) choice {
	return p.tellable(t, choice{males: true, to: t.span})
}

// tellable is a choice without those too young to have their sex told.
func (p *particle) tellable(t *table, c choice) choice {
	for c.from < t.span && t.phi[c.from]*float64(p.speed) < earliest {
		c.from++
	}
	return c
}

// immatures is everybody who could be taken for a juvenile.
func (p *particle) immatures(t *table) choice {
	c := choice{girls: true, males: true}
	for c.to < t.span && t.phi[c.to]*float64(p.speed) < 1 {
		c.to++
	}
	return c
}

// halfGrown is everybody large enough to be sold, moved or found: past a third of the way to maturity.
func (p *particle) halfGrown(t *table) choice {
	c := everybody(t)
	for c.from < t.span && t.phi[c.from]*float64(p.speed) < 1.0/3 {
		c.from++
	}
	return c
}

// count returns the number of animals of a choice. Mothers of followed broods count, wherever they are.
func (p *particle) count(c choice) int {
	n, from := 0, min(c.from, c.to)
	if c.women {
		n += sum(p.herd[woman][:c.to])
	}
	if c.girls {
		n += sum(p.herd[girl][from:c.to])
	}
	if c.males {
		n += sum(p.herd[male][from:c.to])
	}
	return n
}

// sum adds up numbers of animals.
func sum(classes []uint16) (n int) {
	for _, k := range classes {
		n += int(k)
	}
	return n
}

// animal is one animal by what a particle knows of it.
type animal struct {
	age  int
	kind kind
}

// nth returns the nth animal of a choice.
func (p *particle) nth(c choice, nth int) animal {
	for a := range c.to {
		girls, women, males := c.of(p, a)
		switch {
		case nth < girls:
			return animal{a, girl}
		case nth < girls+women:
			return animal{a, woman}
		case nth < girls+women+males:
			return animal{a, male}
		}
		nth -= girls + women + males
	}
	panic("population: an animal was chosen that is not there")
}

// extract takes one animal of a choice at random, out of the brood clock too, and reports whether there was one. Mothers
// of followed broods stay while there is anybody else.
func (p *particle) extract(t *table, s *stream, c choice) (animal, bool) {
	if p.grown == p.held {
		c.women = false
	}
	n := p.count(c)
	if n == 0 {
		return animal{}, false
	}
	one := p.nth(c, s.below(n))
	if one.kind == woman {
		p.unclock(s)
	}
	p.take(t, one.age, one.kind, 1)
	return one, true
}

// leave takes one animal out of the tank: of the first choice that has one, else a mother of a followed brood, else one
// that was never thought to live, and that is then booked as born.
func (p *particle) leave(t *table, s *stream, choices ...choice) animal {
	for _, c := range choices {
		if one, ok := p.extract(t, s, c); ok {
			return one
		}
	}
	if p.living > 0 {
		p.release(s)
		one, _ := p.extract(t, s, everybody(t))
		return one
	}
	one := p.conjure(t, s, choices[0])
	if one.kind == woman {
		p.unclock(s)
	}
	p.take(t, one.age, one.kind, 1)
	return one
}

// release gives the mother of a followed brood back to the brood clock, as if her eggs were gone.
func (p *particle) release(s *stream) {
	if p.held == 0 {
		return
	}
	p.held--
	p.ready++
}

// conjure adds an animal of a choice that the journal proves and the particle did not hold: born unseen. Its age is drawn
// from the younger ages of the choice.
func (p *particle) conjure(t *table, s *stream, c choice) animal {
	from := min(c.from, t.span-1)
	age := from + s.below(max(1, min(c.to-from, 8)))
	one := animal{age: age, kind: male}
	switch {
	case !c.males || (c.girls || c.women) && s.uniform() < float64(p.share):
		one.kind = girl
		if c.women && (!c.girls || s.uniform() < t.mature[p.level][age]) {
			one.kind = woman
		}
	}
	p.put(t, age, one.kind, 1)
	if one.kind == woman {
		p.settle(t, s, 0)
	}
	p.born++
	return one
}

// lift adds animals until a choice holds at least n, and returns how many were missing.
func (p *particle) lift(t *table, s *stream, c choice, n int) int {
	missing := n - p.count(c)
	for range missing {
		p.conjure(t, s, c)
	}
	return max(0, missing)
}
