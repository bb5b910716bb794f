package population

import (
	"fmt"
	"math"
)

// evidence says in sentences what the estimate of today rests on.
func (t *tank) evidence() []string {
	if len(t.record.Facts) == 0 {
		return []string{"Nothing is known of this tank yet."}
	}
	if len(t.notes) == 0 {
		return append([]string{"Nobody has been counted yet: the numbers follow from what was stocked, the broods that were seen, and typical survival. A count would narrow them."}, t.assumed()...)
	}
	var sentences []string
	for _, n := range t.notes[max(0, len(t.notes)-3):] {
		sentences = append(sentences, n.sentence())
	}
	sentences = append(sentences, t.learned()...)
	return append(sentences, t.assumed()...)
}

// sentence says what a count did to the estimate.
func (n note) sentence() string {
	how := map[Method]string{Glance: "at a glance", Careful: "with care", Emptied: "with the tank emptied"}[n.counted.Method]
	return fmt.Sprintf("%d counted %s: the likely range went from %.0f-%.0f to %.0f-%.0f.",
		n.counted.known().Total(), how, n.before.P05, n.before.P95, n.after.P05, n.after.P95)
}

// learned says what the counts have taught about detection.
func (t *tank) learned() []string {
	var sentences []string
	for _, method := range []Method{Glance, Careful} {
		n := 0
		for _, note := range t.notes {
			if note.counted.Method == method {
				n++
			}
		}
		if n < 2 {
			continue
		}
		q := t.quantiles(func(p *particle) float64 { return p.seen(method) })
		how := map[Method]string{Glance: "glance", Careful: "careful count"}[method]
		sentences = append(sentences, fmt.Sprintf("By %d counts, a %s finds about %.0f %% of the adults (%.0f-%.0f %%).",
			n, how, 100*q.P50, 100*q.P05, 100*q.P95))
	}
	return sentences
}

// assumed says what was assumed because the keeper did not say it.
func (t *tank) assumed() []string {
	if t.record.Capacity < 0 && t.record.Litres <= 0 {
		return []string{fmt.Sprintf("The tank's volume is not known: %d L are assumed, which can carry about %.0f adults.",
			assumedLitres, math.Round(t.law.capacity))}
	}
	return nil
}
