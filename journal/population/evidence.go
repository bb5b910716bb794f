package population

import (
	"fmt"
	"math"
)

// Finding is a count and what it did to the estimate.
type Finding struct {
	Order         int // of the fact
	Total         int // all that were counted
	Method        Method
	Before, After Quantiles // of the living
}

// Detection is the share of the adults that counts by one method find, as the counts have taught it.
type Detection struct {
	Counts int       // by that method
	Share  Quantiles // 0 to 1
}

// found keeps what a count did.
func (t *tank) found(fact Fact, counted Counted, before Quantiles) {
	t.findings = append(t.findings, Finding{fact.Order, counted.known().Total(), counted.Method, before, t.spread()})
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
