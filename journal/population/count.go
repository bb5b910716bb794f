package population

import "math"

// sorting is the concentration of the Dirichlet distribution of the classes among the shrimp that were told apart in one
// count: sexing by eye goes wrong, and classes sit in different places. Assumption: two classes at even odds scatter by 0.1.
const sorting = 25

// apply weighs the particles by a count. Whatever the method, nobody is counted who is not there.
func (f Counted) apply(t *tank, fact Fact) {
	t.discover(f.known().Total(), func(p *particle) float64 { return p.seen(f.Method) })
	t.youngNoted = t.youngNoted || f.known().Juveniles > 0 || f.known().Total() > t.cameOnce()
	before := t.spread()
	below, above := f.surprise(t)
	if t.short(t.lacking(f.known())) > hardlyAny {
		t.doubt(fact, "counted", f.known())
	}
	if f.Method == Emptied {
		f.exact(t)
	} else {
		t.absorb(func(p *particle) float64 { return f.likelihood(t.table, p) })
		t.ensure(f.known())
	}
	t.found(fact, f, before, below, above)
}

// cameOnce returns the most shrimp that came to the tank in any particle.
func (t *tank) cameOnce() int {
	most := int32(0)
	for i := range t.particles {
		most = max(most, t.particles[i].came)
	}
	return int(most)
}

// known returns the group with the classes that were not counted at 0.
func (f Counted) known() Group {
	g := f.Group
	if f.Known&Females == 0 {
		g.Females = 0
	}
	if f.Known&Males == 0 {
		g.Males = 0
	}
	if f.Known&Juveniles == 0 {
		g.Juveniles = 0
	}
	if f.Known&Unsexed == 0 {
		g.Unsexed = 0
	}
	return g
}

// likelihood returns the log-likelihood of the count in a particle.
//
//	ln BetaBinomial(y; n, μ, κ) + ln DirichletMultinomial(classes; shares, sorting)
//
// y is all that was counted, n all of the counted classes that the particle holds, μ the particle's own share seen by the
// method, lowered for juveniles, and κ the profile's concentration from count to count. The second term is there where
// classes were told apart. A particle that holds fewer than y has the likelihood of y animals, and pays for the missing.
func (f Counted) likelihood(t *table, p *particle) float64 {
	have, y := p.stock(t), f.known()
	kappa := t.law.profile.Detection.Concentration
	n, visible, hidden := f.visible(t, p, have)
	price := 0.0
	if missing := y.Total() - int(n); missing > 0 {
		price = shortage(missing, y.Total())
		n, visible = n+float64(missing), visible+float64(missing)
	}
	mu := p.seen(f.Method)
	if n > 0 {
		mu *= visible / n
	}
	total := betaBinomial(y.Total(), int(n), mu, kappa)
	return price + total + f.classes(have, y, hidden)
}

// visible returns how many animals of the counted classes a particle holds, and how many that is when juveniles are
// reckoned by the share of them that is seen for each adult seen, which it returns too.
func (f Counted) visible(t *table, p *particle, have Group) (n, visible, hidden float64) {
	hidden = float64(p.hidden)
	add := func(count, share float64) { n += count; visible += count * share }
	if f.Known&Unsexed != 0 || f.Known&Females != 0 {
		add(float64(have.Females), 1)
	}
	if f.Known&Unsexed != 0 || f.Known&Males != 0 {
		add(float64(have.Males), 1)
	}
	if f.Known&(Unsexed|Juveniles) != 0 && have.Juveniles > 0 {
		hidden *= p.looming(t) / float64(have.Juveniles)
		add(float64(have.Juveniles), hidden)
	}
	return n, visible, hidden
}

// looming returns the juveniles of a particle by how well they are seen for their size.
func (p *particle) looming(t *table) float64 {
	sum := 0.0
	for a := range p.sexable(t) {
		sum += float64(p.herd[girl][a]+p.herd[male][a]) * t.visible[a]
	}
	return sum
}

// classes returns the log-likelihood of how the count falls into the classes that were told apart.
func (f Counted) classes(have, y Group, hidden float64) float64 {
	var counts []int
	var sizes []float64
	add := func(class Classes, n int, size float64) {
		if f.Known&class != 0 {
			counts, sizes = append(counts, n), append(sizes, size+0.2)
		}
	}
	add(Females, y.Females, float64(have.Females))
	add(Males, y.Males, float64(have.Males))
	if f.Known&Unsexed == 0 {
		add(Juveniles, y.Juveniles, hidden*float64(have.Juveniles))
	}
	if len(counts) < 2 {
		return 0
	}
	return dirichletMultinomial(counts, sizes, sorting)
}

// exact makes every particle hold exactly what was counted when the tank was emptied. Particles that were close by
// themselves keep the greater weight; the kernel is widened until a fifth of them count.
func (f Counted) exact(t *tank) {
	y := f.known()
	logs := make([]float64, len(t.particles))
	width := 0.05
	for ; width < 100; width *= 1.5 {
		for i := range t.particles {
			logs[i] = f.distance(t.particles[i].stock(t.table), y, width)
		}
		if t.cloud.bearable(logs, 1, 0.2*t.cloud.effective()) == 1 {
			break
		}
	}
	t.cloud.weigh(logs, 1)
	t.resample()
	for i := range t.particles {
		p, s := &t.particles[i], &t.streams[i]
		f.fit(t, p, s, y)
		p.refresh(t.table)
	}
}

// distance returns the logarithm of a normal kernel of the given width between what a particle holds and the count, on
// the scale of logarithms.
func (f Counted) distance(have, y Group, width float64) float64 {
	sum := 0.0
	add := func(n, count int) {
		d := (math.Log(float64(n)+1) - math.Log(float64(count)+1)) / width
		sum -= d*d/2 + math.Log(width)
	}
	if f.Known&Unsexed != 0 {
		add(have.Unsexed, y.Total())
		return sum
	}
	if f.Known&Females != 0 {
		add(have.Females, y.Females)
	}
	if f.Known&Males != 0 {
		add(have.Males, y.Males)
	}
	if f.Known&Juveniles != 0 {
		add(have.Juveniles, y.Juveniles)
	}
	return sum
}

// fit brings a particle to the exact numbers of the classes that were counted. With unsexed shrimp among them the sum is
// that of the whole tank, and the other classes are lower bounds.
func (f Counted) fit(t *tank, p *particle, s *stream, y Group) {
	set := func(c choice, n int) {
		for p.count(c) > n {
			if _, ok := p.extract(t.table, s, c); !ok {
				p.release(s)
				continue
			}
			p.died++
		}
		p.lift(t.table, s, c, n)
	}
	if f.Known&Unsexed == 0 {
		if f.Known&Females != 0 {
			set(p.females(t.table), y.Females)
		}
		if f.Known&Males != 0 {
			set(p.grownMales(t.table), y.Males)
		}
		if f.Known&Juveniles != 0 {
			set(p.juveniles(t.table), y.Juveniles)
		}
		return
	}
	p.lift(t.table, s, p.females(t.table), y.Females)
	p.lift(t.table, s, p.grownMales(t.table), y.Males)
	p.lift(t.table, s, p.juveniles(t.table), y.Juveniles)
	for int(p.living) > y.Total() {
		p.spare(t, s, y)
	}
	if missing := y.Total() - int(p.living); missing > 0 {
		c := p.juveniles(t.table)
		p.lift(t.table, s, c, p.count(c)+missing)
	}
}

// spare takes one animal out of a class of which the particle holds more than were counted.
func (p *particle) spare(t *tank, s *stream, y Group) {
	have := p.stock(t.table)
	females, males := max(0, have.Females-y.Females), max(0, have.Males-y.Males)
	juveniles := max(0, have.Juveniles-y.Juveniles)
	c := p.juveniles(t.table)
	switch nth := s.below(females + males + juveniles); {
	case nth < females:
		c = p.females(t.table)
	case nth < females+males:
		c = p.grownMales(t.table)
	}
	if _, ok := p.extract(t.table, s, c); !ok {
		p.release(s)
		p.extract(t.table, s, c)
	}
	p.died++
}

// betaBinomial returns the logarithm of the probability of y successes in n trials, whose chance of success is Beta
// distributed with a mean and a concentration (the sum of its two parameters). It needs 0 ≤ y ≤ n.
func betaBinomial(y, n int, mean, concentration float64) float64 {
	mean = math.Min(0.99, math.Max(0.01, mean))
	a, b := mean*concentration, (1-mean)*concentration
	k, m := float64(y), float64(n-y)
	return logGamma(k+m+1) - logGamma(k+1) - logGamma(m+1) +
		logGamma(k+a) + logGamma(m+b) - logGamma(k+m+a+b) +
		logGamma(a+b) - logGamma(a) - logGamma(b)
}

// dirichletMultinomial returns the logarithm of the probability of counts whose shares are Dirichlet distributed around
// those of sizes, all above 0, with a concentration.
func dirichletMultinomial(counts []int, sizes []float64, concentration float64) float64 {
	total, sum := 0.0, 0.0
	for i, n := range counts {
		total += float64(n)
		sum += sizes[i]
	}
	result := logGamma(total+1) + logGamma(concentration) - logGamma(total+concentration)
	for i, n := range counts {
		a := concentration * sizes[i] / sum
		result += logGamma(float64(n)+a) - logGamma(a) - logGamma(float64(n)+1)
	}
	return result
}

// logGamma returns the logarithm of the gamma function for x above 0.
func logGamma(x float64) float64 {
	value, _ := math.Lgamma(x)
	return value
}
