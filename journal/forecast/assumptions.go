package forecast

import (
	"pleopod/journal/lifecycle"
	"pleopod/journal/water"
)

// Assumption is a number that predictions rest on and that no parameter of a species names. None has a source.
type Assumption struct {
	Meaning string // one plain line
	Value   float64
	Unit    string // "C", "d", or "" for a pure number
	Reason  string
}

// Assumptions lists them for the methods page, from the constants that the predictions use.
func Assumptions() []Assumption {
	return []Assumption{
		{"how much one tank differs from the others of its journal (sd of ln multiplier)", tankSD, "", "a third of what journals differ by: food and water differ between tanks, the keeper does not"},
		{"how far the mean of a heated tank may be from the heater's set-point (sd)", setPointSD, "C", "dials and thermometers of small heaters are coarse"},
		{"error of a logger's daily mean (sd)", loggerSD, "C", "many samples a day leave the sensor's own error"},
		{"swing of an unheated tank over the year (sd of each of its two coefficients)", yearlySD, "C", "rooms between 2 and 5 °C warmer in summer than in winter are usual"},
		{"days of record from which such a tank begins to get a yearly course", water.YearlyFrom, "d", "half a year shows both ends of the swing"},
		{"days of record from which that course counts in full", water.YearlyFull, "d", "two months in which it fades in, so that no day makes a leap"},
		{"how freely a record may change the assumed spread of a tank's water (sd of ln)", water.PriorLogSD, "", "twice or half as much is easily learned, five times as much is not"},
		{"how freely it may change the days over which a departure fades (sd of ln)", water.PriorLogTau, "", "the same"},
		{"days for which eyes in the eggs may go unseen", eyesUnseen, "d", "a berried female is looked at closely every few days"},
		{"share of eyes that are noted later than that", lifecycle.LateLook, "", "one keeper in five notes them when she happens to see them"},
		{"days for which a saddle may go unseen", noticeSaddle, "d", "about a moult: the saddle fills between two"},
		{"most days before she was seen with eggs that last-clear may reach back", longestDoubt, "d", "a longer gap than any brood lasts says nothing more"},
		{"probability in each tail beyond which a hatch or a first saddle is taken as misdated and teaches nothing", improbable, "", "one brood in five hundred is lost to the rule when all is well"},
		{"days between a test of ammonia and a pH that is still used for it", NearbyPH, "d", "a buffered tank drifts slowly; farther off, the un-ionised part is not given"},
		{"scatter of a hardness test in degrees (sd), for the creep", hardnessNoise, "", "a test that counts drops counts whole degrees"},
		{"scatter of dissolved solids in ppm (sd), for the creep", solidsNoise, "", "a meter holds to a few ppm"},
		{"scatter of the conductivity in µS/cm (sd), for the creep", conductivityNoise, "", "twice that of the dissolved solids"},
		{"days of record that the creep is taken from", creepBack, "d", "a year holds both seasons and forgets an older routine"},
		{"fewest readings that a creep rests on", creepTests, "", "with fewer, one slip of a test makes it"},
		{"how far the age of stocked shrimp may be from the age that was written (share)", agedWithin, "", "ages are remembered in months"},
		{"how far it may be from the age that a length says (share)", sizedWithin, "", "siblings of one age differ in length by a few millimetres"},
		{"age beyond which a length says nothing more, in times of the age of maturity", sizedAtMost, "", "grown shrimp hardly grow"},
		{"how much warmer than a room stocked shrimp are taken to have grown up", grownAbove, "C", "most are bred in tanks that are heated a little"},
		{"days of the rule that predictions are held against", fixedRule, "d", "\"about three weeks\", common practice"},
	}
}
