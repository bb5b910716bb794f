package lifecycle

// Profile holds every number of the life of one species. Parameters lists them with unit, range and source.
type Profile struct {
	Species     string // identifier, such as "neocaridina-davidi"
	Name        string // for people, such as "cherry shrimp (Neocaridina davidi)"
	Incubation  Incubation
	Maturity    Maturity
	Growth      Growth
	Fecundity   Fecundity
	Breeding    Breeding
	Survival    Survival
	Density     Density
	Detection   Detection
	Temperature Temperature
	Stocking    Stocking
}

// Thermal is a degree-day law: nothing happens at or below Base, and a stage is done after DegreeDays above it.
type Thermal struct {
	Base       float64 // °C
	DegreeDays float64 // °C·d
}

// Incubation is the time from berried to hatched.
type Incubation struct {
	Thermal
	Break      float64 // °C above which the rate rises with SlopeAbove times the slope
	SlopeAbove float64 // share of the slope left above Break, 0 to 1
	PriorSD    float64 // sd of ln multiplier between journals
	BroodCV    float64 // spread from brood to brood
	DatingDays float64 // how many days before she was seen she may have been berried, when nobody noted last-clear
	NoticeDays float64 // how many days a hatch may go unnoticed
	EyedAt     float64 // share of development at which eyes show
	EyedSD     float64 // its spread
	// The alternative law, after Bělehrádek: days = AltScale·(T − AltZero)^(−AltPower).
	AltScale, AltZero, AltPower float64
	ValidLow, ValidHigh         float64 // °C, where the law is trusted
	LimitLow, LimitHigh         float64 // °C, outside which no date is given
}

// Maturity is the time from hatched to mature. Against the published 75 d at 27 °C the default gives 73.6 d, and 93.6 d at 24 °C
// where "within about 90 d" is published.
type Maturity struct {
	Thermal
	CV        float64 // spread from cohort to cohort and animal to animal
	PriorSD   float64 // sd of ln multiplier between journals
	SexableAt float64 // share of the way to maturity at which sexes can be told by eye
	FirstEggs float64 // days from maturity to first eggs, when she moults at once
	MoultDays float64 // days between two moults of a just-grown female; first eggs may wait up to one such interval
}

// Curve is the length of one sex against phi, the share of the way to maturity:
//
//	L(phi) = Max − (Max − Hatch)·exp(−kappa·phi),  kappa = ln((Max − Hatch)/(Max − Mature))
type Curve struct {
	Hatch  float64 // mm at phi 0
	Mature float64 // mm at phi 1
	Max    float64 // mm at phi → ∞
}

// Growth is length by sex.
type Growth struct {
	Female, Male Curve
	CV           float64 // spread of single animals around the curve
	MaxPriorSD   float64 // sd of ln Max between journals: how firmly a fit holds to the default
	KappaPriorSD float64 // sd of ln kappa between journals, likewise
	MeasureSD    float64 // mm, error of one measured length
}

// Fecundity is hatchlings per brood.
type Fecundity struct {
	Reference float64 // hatchlings of a female of Length
	Length    float64 // mm, the reference length
	Exponent  float64 // power with which hatchlings rise with length
	Min, Max  float64 // hatchlings, between which the mean is held
	CV        float64 // spread from brood to brood
	EggLoss   float64 // share of eggs lost before hatching, 0 to 1
	HeatFrom  float64 // °C above which more eggs are lost
	HeatAll   float64 // °C from which all eggs are lost
}

// Breeding is how often a grown female carries eggs.
type Breeding struct {
	Interval      float64 // days between two broods of a female, as a multiple of the incubation
	Settling      float64 // days that a newly stocked female waits longer than others for her next eggs, on average
	StopBelow     float64 // °C, no new clutches below
	FullFrom      float64 // °C, full rate from here
	DeclineFrom   float64 // days of age at which females begin to carry less often
	DeclineTo     float64 // days of age at which the rate has fallen to DeclineFactor
	DeclineFactor float64 // 0 to 1
	FemaleShare   float64 // share of females at hatching, 0 to 1
}

// Survival is daily survival without predators, and with fish, and how long grown animals live.
type Survival struct {
	Adult       float64 // per day, of accident and illness alone
	Young       float64 // per day, up to YoungDays of age
	YoungDays   float64 // days of age
	YoungFish   float64 // per day up to maturity where fish eat the young
	GrownDays   float64 // days of age from which death of old age is reckoned
	MedianLife  float64 // days, at which half of grown animals have died
	LongLife    float64 // days, which few animals pass
	FailedMoult float64 // probability that a failed moult kills
}

// Density is the brake that a full tank puts on survival of the young.
type Density struct {
	Free           float64 // adults per litre below which there is no effect
	AdultsPerLitre float64 // default capacity
}

// Detection is the share of shrimp that a census sees.
type Detection struct {
	Glance, Careful float64 // mean share, 0 to 1
	Concentration   float64 // of the Beta distribution around the mean; larger is surer
	// The share of the broods of a small tank that are noted in the journal: before the first was, and after. 0 to 1.
	FirstBerried, Berried float64
	FirstYoung            float64 // the share of the young past their first week that are noted while none of the tank was ever noted
}

// Temperature is how tank water moves between readings.
type Temperature struct {
	CorrelationDays float64 // e-folding time of a departure from the baseline
	HeatedSD        float64 // °C, daily mean around the set-point
	UnheatedSD      float64 // °C, daily mean around the baseline of an unheated tank
	ReadingSD       float64 // °C, of one reading
	Fallback        float64 // °C, baseline when the journal says nothing
	FallbackSD      float64 // °C, around Fallback
}

// Stocking is what is assumed of shrimp that were stocked without an age.
type Stocking struct {
	YoungestDays, OldestDays float64 // days of age
}
