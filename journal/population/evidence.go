package population

import (
	"fmt"
	"math"

	"pleopod/journal/evidence"
)

// Finding is a count and what it did to the estimate.
type Finding struct {
	Order         int // of the fact
	Total         int // all that were counted
	Method        Method
	Before, After Quantiles // of the living
	// Below and Above are the probabilities, as the estimate stood before the count, of a total as small or smaller, and as
	// large or larger.
	Below, Above float64
}

// Detection is the share of the adults that counts by one method find, as the counts have taught it.
type Detection struct {
	Counts int       // by that method
	Share  Quantiles // 0 to 1
}

// found keeps what a count did.
func (t *tank) found(fact Fact, counted Counted, before Quantiles, below, above float64) {
	t.findings = append(t.findings, Finding{fact.Order, counted.known().Total(), counted.Method, before, t.spread(), below, above})
}

// askedOfCount is how many particles, drawn by weight, are asked how likely a count is.
const askedOfCount = 125

// surprise returns the probabilities of a total as small, and as large, as was counted, before the count is taken in.
func (f Counted) surprise(t *tank) (below, above float64) {
	y := f.known().Total()
	ancestors := evidence.Resample(t.cloud.weights, 0.5)
	step := max(1, len(ancestors)/askedOfCount)
	asked := 0.0
	for i := step / 2; i < len(ancestors); i += step {
		p := &t.particles[ancestors[i]]
		n, visible, _ := f.visible(t.table, p, p.stock(t.table))
		mu := p.seen(f.Method)
		if n > 0 {
			mu *= visible / n
		}
		b, a := 1.0, 1.0
		switch {
		case f.Method == Emptied && y < int(n):
			b, a = 0, 1
		case f.Method == Emptied && y > int(n):
			b, a = 1, 0
		case f.Method != Emptied:
			b, a = betaBinomialTails(y, int(n), mu, t.law.profile.Detection.Concentration)
		}
		below, above, asked = below+b, above+a, asked+1
	}
	return below / asked, above / asked
}

// betaBinomialTails returns the probabilities of at most, and of at least, y successes in n trials, as betaBinomial has
// them, by the ratio of neighbouring terms.
func betaBinomialTails(y, n int, mean, concentration float64) (atMost, atLeast float64) {
	switch {
	case y > n:
		return 1, 0
	case y <= 0:
		return math.Exp(betaBinomial(0, n, mean, concentration)), 1
	}
	mean = math.Min(0.99, math.Max(0.01, mean))
	a, b := mean*concentration, (1-mean)*concentration
	term := math.Exp(betaBinomial(0, n, mean, concentration))
	less := 0.0
	for k := range y {
		less += term
		x := float64(k)
		term *= (float64(n) - x) / (x + 1) * (x + a) / (float64(n) - x - 1 + b)
	}
	return math.Min(1, less+term), math.Max(0, 1-less)
}

// detection returns what the counts by a method have taught about it.
func (t *tank) detection(method Method) Detection {
	d := Detection{Share: t.quantiles(func(p *particle) float64 { return p.seen(method) })}
	for _, finding := range t.findings {
		if finding.Method == method {
			d.Counts++
		}
	}
	return d
}

// assumed says in sentences what was assumed because nobody said it.
func (t *tank) assumed() []string {
	var sentences []string
	if t.discovered {
		sentences = append(sentences, "Shrimp were there before the first stocking that the journal tells of: how many is guessed from the first that were seen.")
	}
	if t.record.Capacity < 0 && t.record.Litres <= 0 {
		sentences = append(sentences, fmt.Sprintf("The tank's volume is not known: %d L are assumed, which can carry about %.0f adults.",
			assumedLitres, math.Round(t.law.capacity)))
	}
	if t.law.capacity == mostAdults {
		sentences = append(sentences, fmt.Sprintf("Colonies of more than %d adults are beyond this estimate.", mostAdults))
	}
	return sentences
}
