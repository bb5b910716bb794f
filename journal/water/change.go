package water

import (
	"errors"
	"fmt"
	"math"
)

// ErrUnreachable is what ShareFor, ChangesFor, Blend and SaltFor return for a target that nothing reaches.
var ErrUnreachable = errors.New("the target does not lie between the two waters")

// ShareFor returns the share of the water, 0 to 1, to change to bring a tank from one value to a target.
//
//	s = (t − c)/(n − c)
//
// before is c, fresh is n, target is t, in the same unit. Already at the target it is 0; a target that does not lie
// between the two is ErrUnreachable. Source: Series turned round. The change may be too large to make in one day.
func ShareFor(before, fresh, target float64) (float64, error) {
	if target == before {
		return 0, nil
	}
	share := (target - before) / (fresh - before)
	if !(share >= 0 && share <= 1) {
		return 0, fmt.Errorf("%w: from %v with water of %v to %v", ErrUnreachable, before, fresh, target)
	}
	return share, nil
}

// Series returns the values after 1, 2, … changes of the same share, one by one, of anything that water carries: hardness,
// TDS, nitrate, temperature.
//
//	c[k] = (1 − s)^k·c + [1 − (1 − s)^k]·n
//
// before is c in the tank and fresh is n in the new water, in the same unit; share is s, the part of the water that is
// changed, 0 to 1, else an error; changes is at least 0. Several small changes take out less than one of their sum. Source:
// conservation of mass in well-mixed water (for temperature of heat, at equal heat capacity). It does not hold for pH, nor for
// un-ionised ammonia, which follow from the mixture by their own laws.
func Series(before, fresh, share float64, changes int) ([]float64, error) {
	if err := within("the share of water changed", share, 0, 1, ""); err != nil {
		return nil, err
	}
	var values []float64
	for k := range changes {
		left := math.Pow(1-share, float64(k+1))
		values = append(values, left*before+(1-left)*fresh)
	}
	return values, nil
}

// ChangesFor returns how many changes of the same share it takes to come to a target or past it.
//
//	k = ⌈ln[(t − n)/(c − n)]/ln(1 − s)⌉
//
// before, fresh and target are as in ShareFor, share is above 0 and up to 1. The new water's own value is only
// approached, so that a target equal to fresh is ErrUnreachable unless share is 1.
func ChangesFor(before, fresh, target, share float64) (int, error) {
	whole, err := ShareFor(before, fresh, target)
	if err != nil {
		return 0, err
	}
	if err := within("the share of water changed", share, 0, 1, ""); err != nil {
		return 0, err
	}
	switch {
	case whole == 0:
		return 0, nil
	case share == 1:
		return 1, nil
	case share == 0 || whole == 1:
		return 0, fmt.Errorf("%w: changes of %v only approach %v", ErrUnreachable, share, fresh)
	}
	// The slack keeps a target that k changes meet exactly from asking for k + 1.
	return int(math.Ceil(math.Log1p(-whole)/math.Log1p(-share) - 1e-9)), nil
}

// Part is one water of a mixture.
type Part struct {
	Litres float64 // at least 0
	Value  float64 // anything that water carries, in one unit for all parts: °C, dGH, ppm, mg/L
}

// Mix returns the value of a mixture, each part weighed by its volume. A negative volume, and no water at all, are
// errors.
//
//	Σ V·c/Σ V
//
// Source: conservation of mass, and of heat at equal density and heat capacity (within 1 % between 0 and 45 °C); heat
// taken up by glass and gravel is left out. It does not hold for pH.
func Mix(parts ...Part) (float64, error) {
	litres, carried := 0.0, 0.0
	for _, part := range parts {
		if err := within("a volume", part.Litres, 0, math.Inf(1), " L"); err != nil {
			return 0, err
		}
		litres += part.Litres
		carried += part.Litres * part.Value
	}
	if litres == 0 {
		return 0, errors.New("there is no water to mix")
	}
	return carried / litres, nil
}

// Blend returns how many litres of a second water to take for so many litres in all, so that the mixture has a target
// value; the rest is the first water. With remineralised water in a tank it is the amount to change; with tap and
// osmosis water it is the recipe.
//
//	V·(t − a)/(b − a)
//
// litres is V, at least 0; first is a, second is b, target is t, in the same unit. A target not between the two waters
// is ErrUnreachable.
func Blend(litres, first, second, target float64) (float64, error) {
	if err := within("the volume", litres, 0, math.Inf(1), " L"); err != nil {
		return 0, err
	}
	share, err := ShareFor(first, second, target)
	return litres * share, err
}

// FreshValue returns the value that the new water of a change must have so that the tank comes to a target: ShareFor
// solved for the new water.
//
//	n = c + (t − c)/s
//
// before and target are in the same unit and at least 0, share is above 0 and up to 1. A result below 0 is
// ErrTooSmall: even pure water does not take out enough.
func FreshValue(before, target, share float64) (float64, error) {
	if err := within("the share of water changed", share, 0, 1, ""); err != nil {
		return 0, err
	}
	if share == 0 {
		return 0, errors.New("no water is changed")
	}
	fresh := before + (target-before)/share
	if !(fresh >= 0) {
		return 0, fmt.Errorf("%w: from %v to %v with a share of %v", ErrTooSmall, before, target, share)
	}
	return fresh, nil
}

// ErrTooSmall is what FreshValue returns where even pure water takes out too little.
var ErrTooSmall = errors.New("the change is too small for the target")

// FreshTemperature returns the temperature in °C that the new water of a change must have so that the tank comes to a
// target: FreshValue for heat. A result outside 0 to 45 °C is an error.
func FreshTemperature(before, target, share float64) (float64, error) {
	fresh, err := FreshValue(before, target, share)
	if err != nil {
		return 0, err
	}
	if err := within("the new water", fresh, 0, 45, " °C"); err != nil {
		return 0, err
	}
	return fresh, nil
}

// SaltFor returns how many grams of a mineral salt bring so many litres from one hardness to a target.
//
//	g = p·(V/v)·(t − c)/r
//
// The packet tells the strength: grams p in litres v raise the hardness by r, all above 0. litres is V, at least 0; before
// is c and target is t, in the unit of r. A target below before is ErrUnreachable: salt only adds. Source: proportion, as
// packets state it; a salt that has drawn water weighs more.
func SaltFor(litres, before, target float64, packet Salt) (float64, error) {
	if err := within("the volume", litres, 0, math.Inf(1), " L"); err != nil {
		return 0, err
	}
	if !(packet.Grams > 0 && packet.Litres > 0 && packet.Raises > 0) {
		return 0, fmt.Errorf("the packet says that %v g in %v L raise the hardness by %v; each is above 0", packet.Grams, packet.Litres, packet.Raises)
	}
	if !(target >= before) {
		return 0, fmt.Errorf("%w: salt does not bring %v down to %v", ErrUnreachable, before, target)
	}
	return packet.Grams * litres / packet.Litres * (target - before) / packet.Raises, nil
}

// Salt is the strength of a mineral salt as its packet states it.
type Salt struct {
	Grams  float64 // g
	Litres float64 // of water that the grams are for
	Raises float64 // what they add to its hardness, in any one unit
}
