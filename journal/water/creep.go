package water

import "math"

// Routine is what a keeper does to a tank every week. The zero Routine does nothing.
type Routine struct {
	Evaporated float64 // share of the water that evaporates in the week and is topped up, 0 to below 1
	TopUp      float64 // value of the water it is topped up with, in any one unit that water carries (dGH, ppm)
	Share      float64 // share of the water that is then changed, 0 to 1
	Fresh      float64 // value of the new water, in the same unit
}

// After returns the value in the tank after so many weeks of the routine.
//
//	c[k+1] = (1 − s)·(c[k] + e·h) + s·n
//	c[k]   = (1 − s)^k·c + [(1 − s)·e·h + s·n]·[1 − (1 − s)^k]/s      with s above 0
//	c[k]   = c + k·e·h                                                with s = 0
//
// before is c, at least 0, weeks is k, at least 0 and whole or not; e is Evaporated, h is TopUp, s is Share, n is
// Fresh. Evaporation takes pure water and leaves what was dissolved behind: topping up with hard water adds to it each
// time. Shares outside their range are errors. Source: conservation of mass, solved as a linear recurrence.
func (r Routine) After(before, weeks float64) (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	if err := within("the number of weeks", weeks, 0, math.Inf(1), ""); err != nil {
		return 0, err
	}
	weekly := (1-r.Share)*r.Evaporated*r.TopUp + r.Share*r.Fresh
	if r.Share == 0 || weeks == 0 {
		return before + weeks*weekly, nil
	}
	kept := weeks * math.Log1p(-r.Share)
	// The sum of the powers of 1 − s, in a form that stays exact for a tiny s.
	return before*math.Exp(kept) + weekly*-math.Expm1(kept)/r.Share, nil
}

// Settles returns the value that the tank comes to when the routine goes on for ever.
//
//	(1 − s)·e·h/s + n      in the symbols of After
//
// Without water changes and with minerals in the top-up it is +Inf: the value creeps up without end. Without either it
// is NaN: any value stays.
func (r Routine) Settles() (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	added := r.Evaporated * r.TopUp
	if r.Share == 0 {
		return added / r.Share, nil // 0/0 is NaN, more is +Inf
	}
	return (1-r.Share)*added/r.Share + r.Fresh, nil
}

// check reports shares that cannot be.
func (r Routine) check() error {
	if err := within("the share of water changed", r.Share, 0, 1, ""); err != nil {
		return err
	}
	return within("the share of water evaporated", r.Evaporated, 0, 0.95, "")
}
