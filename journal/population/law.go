package population

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"pleopod/journal/lifecycle"
)

const (
	ages          = 96  // age classes; the last holds everything older
	bins          = 64  // places of the brood clock's ring
	perIncubation = 16  // bins that eggs pass from berried to hatched
	speedLevels   = 15  // rows of the maturing tables
	speedReach    = 2.8 // of the standard normal z that the rows span on both sides
	ladderSteps   = 512
)

// reference is the water in which the colony's growth is reckoned for the density brake, °C. It is one temperature for all
// tanks, so that a cold winter does not change what the tank can carry.
const reference = 23

// law is what follows from a record's profile and settings alone, for every particle and day.
type law struct {
	profile   lifecycle.Profile
	late      lifecycle.Late
	width     int     // days of one age class
	capacity  float64 // adults
	roomSD    float64 // sd of the logarithm of the capacity
	freeShare float64 // of the capacity, below which crowding does nothing
	perFemale float64 // daughters that mature per female in an empty tank at the reference temperature
	fish      bool
	slow      float64 // factor on incubation
	interval  float64 // between two broods, in incubations
	share     float64 // of females at hatching
	glance    float64
	careful   float64
	maturing  Multiplier // of the time to maturity
	ladder    [ladderSteps]float32
	keepLuck  float64 // share of the young's luck that lasts through an age period
	newLuck   float64 // sd of what comes in its place
}

// assumedLitres stands in for a volume that the keeper did not give.
const assumedLitres = 40

// mostAdults is the greatest capacity that is simulated: larger colonies take longer to reckon than to count.
const mostAdults = 5000

// newLaw derives the law of a record.
func newLaw(r *Record) *law {
	l := &law{
		profile: r.Profile, late: r.Profile.Survival.Late(), fish: r.Fish,
		slow: 1, interval: r.Profile.Breeding.Interval, share: r.Profile.Breeding.FemaleShare,
		glance: r.Profile.Detection.Glance, careful: r.Profile.Detection.Careful,
		maturing: r.Maturity,
	}
	if r.Incubation.Median > 0 {
		l.slow = r.Incubation.Median
	}
	if l.maturing.Median <= 0 {
		l.maturing = Multiplier{Median: 1, SD: r.Profile.Maturity.PriorSD}
	}

	weeks := math.Ceil(l.profile.Survival.LongLife * 1.05 / ages / 7)
	l.width = 7 * int(math.Max(1, weeks))
	l.keepLuck = math.Exp(-float64(l.width) / luckDays)
	l.newLuck = luckSD * math.Sqrt(1-l.keepLuck*l.keepLuck)

	l.capacity, l.roomSD = r.Capacity, sdOwnRoom
	if r.Capacity < 0 {
		litres := r.Litres
		if litres <= 0 {
			litres = assumedLitres
		}
		l.capacity, l.roomSD = l.profile.Density.Capacity(litres), sdRoom
	}
	l.capacity = math.Min(l.capacity, mostAdults)
	l.perFemale = l.profile.LifeTable(reference, 2*l.profile.Survival.LongLife, l.fish).Daughters()
	l.freeShare = math.Min(0.99, l.profile.Density.Free/l.profile.Density.AdultsPerLitre)
	l.fillLadder()
	return l
}

// fillLadder lays out the sizes of broods around their mean: quantiles of a gamma distribution with mean 1 and the
// profile's coefficient of variation.
func (l *law) fillLadder() {
	shape := 1 / (l.profile.Fecundity.CV * l.profile.Fecundity.CV)
	gamma := distuv.Gamma{Alpha: shape, Beta: shape}
	sum := 0.0
	for i := range l.ladder {
		q := gamma.Quantile((float64(i) + 0.5) / ladderSteps)
		l.ladder[i] = float32(q)
		sum += q
	}
	for i := range l.ladder {
		l.ladder[i] *= float32(ladderSteps / sum)
	}
}

// speed returns the row of the maturing tables and the factor on thermal age for a standard normal number.
func (l *law) speed(z float64) (level uint8, factor float32) {
	row := math.Round((z/speedReach + 1) / 2 * (speedLevels - 1))
	return uint8(math.Min(speedLevels-1, math.Max(0, row))), float32(l.factor(z))
}

// factor returns the factor on thermal age for a standard normal number.
func (l *law) factor(z float64) float64 {
	return math.Exp(-l.maturing.SD*z) / l.maturing.Median
}

// levelFactor returns the factor of a row of the maturing tables.
func (l *law) levelFactor(level int) float64 {
	return l.factor(speedReach * (2*float64(level)/(speedLevels-1) - 1))
}

// mature returns the share of animals that are mature at a thermal age.
func (l *law) mature(phi float64) float64 {
	if phi > 1+6*l.profile.Maturity.CV {
		return 1
	}
	return 0.5 * math.Erfc((1-phi)/l.profile.Maturity.CV/math.Sqrt2)
}

// hazard returns the daily hazard of death, without crowding, at an age in days.
func (l *law) hazard(ageDays float64) float64 {
	return -math.Log(l.profile.Survival.Adult) + l.late.Cumulative(ageDays+1) - l.late.Cumulative(ageDays)
}
