package journal

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pleopod/journal/lifecycle"
)

// The default of every parameter, written with the unit that the methods page shows, is read as that number. A unit that is
// new in the table of lifecycle must be known to the reader too.
func TestEveryParameterIsReadInItsUnit(t *testing.T) {
	for _, p := range lifecycle.Parameters() {
		if parameterQuantity(p) == NoQuantity {
			t.Errorf("%s: nothing is measured in %q", p.Name, p.Unit)
		}
		group, name, _ := strings.Cut(p.Name, ".")
		unit := strings.Replace(p.Unit, "1/L", "/L", 1)
		source := fmt.Sprintf("title: A\ntanks: {a: }\nbiology: {%s: {%s: %v %s}}\n", group, name, p.Default, unit)
		settings, problems := ParseSettings([]byte(source))
		if HasErrors(problems) || len(settings.Biology) != 1 || math.Abs(settings.Biology[0].Value-p.Default) > 1e-9*math.Abs(p.Default) {
			t.Errorf("%s: %v %s is read as %v, %v", p.Name, p.Default, unit, settings.Biology, problems)
		}
	}
}

// A share has no span of its own, because parameters are pure numbers too: an event's word must give one, or 250 % of a
// tank's plants could be trimmed.
func TestSharesOfEventsHaveASpan(t *testing.T) {
	for _, kind := range vocabulary.Kinds {
		for _, word := range append([]Word{kind.Word}, kind.Attributes...) {
			if word.Quantity == QuantityShare && word.High == 0 {
				t.Errorf("%s of %s is a share without Low and High", word.Name, kind.Name)
			}
		}
	}
}
