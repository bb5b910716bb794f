package forecast

import (
	"math"
	"slices"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/lifecycle"
	"pleopod/journal/water"
)

// Forecast is everything that is predicted, estimated or weighed from a colony's record on its as-of day.
type Forecast struct {
	Colony   *colony.Colony
	Profiles map[string]lifecycle.Profile // by species, with the keeper's overrides
	Broods   []Brood                      // one for each brood of the colony, in its order
	Cohorts  []Cohort                     // one for each cohort of the colony, in its order
	Tanks    []Tank                       // one for each tank of the colony, in its order
	Learning Learning
	Record   TrackRecord
	Notices  []Notice          // that stand on the as-of day; package notice fills them in
	Ended    []Notice          // that stood on earlier days, likewise
	Problems []journal.Problem // warnings found while predicting
}

// Window is a predicted day as quantiles. Days are zero where Reason says why no date is given.
type Window struct {
	P05, P10, P25, P50, P75, P90, P95 journal.Day
	Reason                            string   // why there is no date, or ""
	Doubts                            []string // what makes the date less sure than usual, as sentences
}

// By returns how likely it is over at the end of a day, read between the quantiles: 0.05 before the first and 0.95 from
// the last of them on. A window without dates gives NaN.
func (w Window) By(day journal.Day) float64 {
	days := []journal.Day{w.P05, w.P10, w.P25, w.P50, w.P75, w.P90, w.P95}
	shares := []float64{0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95}
	if slices.Contains(days, 0) {
		return math.NaN()
	}
	if day < days[0] {
		return shares[0]
	}
	for i := 1; i < len(days); i++ {
		if day < days[i] {
			along := float64(day-days[i-1]) / float64(days[i]-days[i-1])
			return shares[i-1] + along*(shares[i]-shares[i-1])
		}
	}
	return shares[len(shares)-1]
}

// BroodState is a colony.BroodState, or Overdue or Unseen.
type BroodState string

// The states of a brood in a forecast.
const (
	Carried BroodState = "carried"
	Overdue BroodState = "overdue" // past the p95 of the window without the still-carried condition
	Unseen  BroodState = "unseen"  // overdue for so long that it is taken as hatched unseen, see Forgotten; its mother may have died or left since
	Hatched BroodState = "hatched"
	Dropped BroodState = "dropped"
)

// Brood is what is predicted of one brood.
type Brood struct {
	*colony.Brood
	State     BroodState
	Progress  float64     // expected share of development done on the as-of day, or on the day it ended; 0 to 1
	EyedFrom  journal.Day // the day eyes were seen, else the likeliest day on which they show
	Eyes      Window      // when eyes show; zero once they were seen
	Hatch     Window      // conditioned on all that is known; for a finished brood the last window before it ended
	Foreseen  Window      // as predicted on the day she was berried, with what was known then
	AltP50    journal.Day // the median day by the alternative law, to show how far the two differ
	Celsius   float64     // mean temperature over the days carried and still expected
	CelsiusSD float64
	// LateFrom is the first day of the last unbroken stretch on which she still carried and the p95 of the window, without
	// the still-carried condition, was past; or zero.
	LateFrom journal.Day
	// StillCarried is the probability, as it stood on the last day of History, that such a brood is still carried then.
	StillCarried float64
	// History is how the window looked on earlier days, oldest first: at most one a day from berried to the end.
	History []Snapshot
	Change  *Change // what moved the window since the day before; nil when it is not carried, or was not yet
}

// Snapshot is a window as it was predicted on an earlier day.
type Snapshot struct {
	Day           journal.Day
	P10, P50, P90 journal.Day
	Why           string // what changed it, such as "23.4 °C measured" or "eyes seen"
}

// Cohort is what is predicted of the young of one hatch.
type Cohort struct {
	*colony.Cohort
	Sexable, Mature, FirstEggs Window
	Phi                        float64 // thermal age: expected share of the way to maturity on the as-of day
	Female, Male               float64 // expected mean length on the as-of day, mm
}

// Tank is what is predicted of one tank.
type Tank struct {
	*colony.Tank
	Profile    lifecycle.Profile
	Course     []Daily // daily water temperature from the first record to a year after the as-of day
	Celsius    float64 // mean over the 30 days up to the as-of day
	CelsiusSD  float64 // sd of a daily mean around it
	Population Population
	Growth     []Growth
	Founders   Founders
	// FoundersBefore is the founders of the colonies that ended when the tank was emptied and nobody was left, by day.
	FoundersBefore []Founders
	Water          []WaterDay
	Rates          []WaterRate  // by kind in the order of journal.ReadingKinds, then by day
	Creep          []WaterCreep // of the kinds that the record is long enough for
}

// Daily is the estimated mean temperature of one day.
type Daily struct {
	Day      journal.Day
	Mean, SD float64 // °C
}

// Quantiles of a number of shrimp.
type Quantiles struct{ P05, P25, P50, P75, P95 float64 }

// At is a number of shrimp on a day.
type At struct {
	Day journal.Day
	Quantiles
}

// Population is how many shrimp live in a tank, and how many will.
type Population struct {
	Now               Quantiles
	AdultFemales      Quantiles
	AdultMales        Quantiles
	Juveniles         Quantiles
	Past              []At // estimate of each past week, with all counts up to the as-of day's knowledge at that time
	Ahead             []At // weekly, with nobody added or taken out, for a year
	Passes            []Pass
	MayLeavePerMonth  int     // how many may leave with at most 5 % chance that the colony shrinks for it within a year; none of a small one that grows
	ExtinctWithinYear float64 // probability
	EffectiveSize     float64
	SelectFrom        Window  // when there are enough adults to begin selecting, of the paths on which there are within a year
	SelectProbability float64 // that there are within a year
	Pyramid           []AgeClass
	Generations       []Generation
	Gradings          []Grading // colour grades by generation, from public entries
	Selecting         Selecting // whether the best grade is on the rise
	Evidence          []string  // what narrowed the estimate, as sentences
	Evenings          []Evening // what the tank held at the end of each past week, with what was known then
	Counts            []Checked // every count against the estimate before it, by day
}

// Evening is what a tank held on the evening of a day, as far as was known on it: expected values, and probabilities.
type Evening struct {
	Day           journal.Day
	Females       float64 // mature
	Adults        float64 // mature, of both sexes
	Dying         float64 // deaths a day of animals past the first two months
	Clutches      float64 // clutches that begin a day, if males are there
	EffectiveSize float64 // of the mature animals
	Crowded       float64 // probability that there are more adults than the tank can carry
	CanSelect     float64 // probability that there are enough adults to begin selecting
}

// Checked is a count and how it agreed with the estimate before it.
type Checked struct {
	At           journal.Position // of the event
	Total        int
	Expected     Quantiles // the living, as estimated before the count
	Below, Above float64   // probability of a total as small, and as large, as was counted
}

// Generation is a stretch of days as long as a generation of the colony. The last one is under way.
type Generation struct {
	Number        int // 1 for the offspring of the founders
	From, To      journal.Day
	EffectiveSize float64 // of the parents, harmonic mean over the young; 0 when none were born
	Inbreeding    float64 // coefficient F after it, 0 to 1, taking shrimp from outside for unrelated; a lower bound
	Newcomers     int     // shrimp stocked during it after the first; 0 for a closed colony
	Kin           int     // shrimp that came during it from other tanks of the journal
}

// AgeClass is the animals of one span of age on the as-of day.
type AgeClass struct {
	FromDays, ToDays int
	Females, Males   float64 // expected numbers
	Mature           float64 // expected number of mature females among them
}

// Pass is the day the colony passes a number.
type Pass struct {
	Count                 int
	ProbabilityWithinYear float64
	P10, P50, P90         journal.Day // of the paths that pass within the year; zero when too few do
}

// Growth is the growth curve of one sex in one tank.
type Growth struct {
	Sex      journal.Sex // "" for lengths of unknown sex
	Curve    lifecycle.Curve
	Fitted   bool   // false: the species' default curve
	Reason   string // why it was not estimable, or ""
	Points   []GrowthPoint
	Pairs    int     // mark-recapture pairs used
	Maturity float64 // °C·d at phi 1
	cv       float64 // spread of single animals

	fit        lifecycle.CurveFit
	lengths    []lifecycle.Measured // that it was fitted to, and
	recaptures []lifecycle.Recapture
}

// GrowthPoint is a measured length against thermal age.
type GrowthPoint struct {
	Phi, MM float64
	Length  colony.Length
}

// Founders is the odds that the first shrimp of a tank, stocked or moved in, hold both sexes.
type Founders struct {
	Stocked   int
	BothSexes float64 // probability
	For90     int     // smallest number for 90 % at the same odds
	For95     int
	For99     int
	First     journal.Day // day on which the first shrimp came, or zero
	// Youngest and Oldest are the ages in days between which the oldest of them lay on First; zero when nobody was stocked.
	Youngest, Oldest float64
	Guessed          bool           // these are the usual ages, because nobody wrote them
	OldFrom          journal.Day    // day from which these may be past breeding age, or zero
	Ended            *journal.Event // the count that found nobody left of the colony, or nil
}

// WaterDay is the readings of one water test with what follows from them.
type WaterDay struct {
	Day              journal.Day
	Readings         []journal.Reading
	UnionisedAmmonia journal.Maybe[float64] // mg/L, on the basis of the ammonia test
	UnionisedAtMost  journal.Maybe[float64] // the same where the test only says "below"
	// PH and Celsius are what the un-ionised part was calculated with: of the test, else of the day.
	PH, Celsius          journal.Maybe[float64]
	InterpolatedPH       bool                   // no pH that day: PH is that of the days around
	EstimatedTemperature bool                   // no temperature that day: Celsius is that of the tank's course
	TDS                  journal.Maybe[float64] // ppm
	ConvertedTDS         bool                   // from the conductivity, by the journal's factor
	Event                *journal.Event
}

// WaterRate is how far a reading moved from one day that has it to the next.
type WaterRate struct {
	Kind          journal.ReadingKind
	From, To      journal.Day
	Before, After float64 // in the units of journal.Reading
}

// PerWeek is the rate in the unit of the reading.
func (r WaterRate) PerWeek() float64 { return 7 * (r.After - r.Before) / float64(r.To-r.From) }

// WaterCreep is how a reading creeps beside what water changes do to it, estimated from the past year.
type WaterCreep struct {
	Kind journal.ReadingKind
	water.Drift
	Taken int // water changes whose new water was taken for that of an earlier note
	// Share and Fresh are the weekly water change of the past quarter, 0 to 1, and its new water where it is known.
	Share   float64
	Fresh   journal.Maybe[float64]
	Settles journal.Maybe[float64] // where creep and changes lead, if both go on; unknown without changes
}

// Learning is what the journal's own broods and cohorts taught.
type Learning struct{ Incubation, Maturity Learned }

// Learned is a multiplier on the default duration: its prior is log-normal around 1.
type Learned struct {
	PriorSD float64  // of ln multiplier
	Mean    float64  // posterior median of the multiplier
	SD      float64  // posterior sd of ln multiplier
	Used    int      // how many broods or cohorts stand behind it
	LeftOut []string // ids that were left out, with the reason
	Tanks   []LearnedTank
}

// LearnedTank is the multiplier of one tank, which follows the journal's and has a small part of its own.
type LearnedTank struct {
	Tank string  // id
	Mean float64 // posterior median of the multiplier
	SD   float64 // posterior sd of ln multiplier
	Used int     // how many of the broods or cohorts were the tank's own
}

// TrackRecord is how earlier predictions did.
type TrackRecord struct {
	Hindcasts                          []Hindcast
	Broods                             int
	Coverage50, Coverage80, Coverage90 float64
	MAEDays, CRPSDays                  float64
	FixedRuleMAEDays                   float64         // of "21 days after berried"
	Halfway                            Score           // of the same broods predicted again half-way
	Young                              []YoungHindcast // of the cohorts with a named daughter seen grown
	Maturity                           Score           // of them, predicted on the day of the hatch
	MaturityHalfway                    Score
}

// Score sums up predictions of one kind. Windows hold whole days, so that a day on their edge counts half.
type Score struct {
	Count                              int
	Coverage50, Coverage80, Coverage90 float64 // share that came within the window of that name; 0 without any
	MAEDays                            float64 // mean distance from the median day
	CRPSDays                           float64 // mean continuous ranked probability score
}

// Hindcast is one finished brood predicted with what was known on an earlier day.
type Hindcast struct {
	Brood    *colony.Brood
	Made     journal.Day // the day of the prediction
	Halfway  bool        // made half-way instead of on the berried day
	Window   Window
	Observed journal.Day
	CRPS     float64 // days
}

// YoungHindcast is the day on which the first named daughter of a cohort is seen grown, predicted with what was known on
// an earlier day.
type YoungHindcast struct {
	Cohort   *colony.Cohort
	Made     journal.Day // the day of the prediction
	Halfway  bool        // made half-way instead of on the day of the hatch
	Eggs     bool        // the sign was eggs that she carried, not a saddle
	Window   Window      // of the day on which such a sign is seen
	Observed journal.Day
	CRPS     float64 // days
}

// Severity of a notice; calm on purpose.
type Severity string

// The severities, from the calmest.
const (
	Look Severity = "look"
	Soon Severity = "soon"
	Now  Severity = "now"
)

// Notice is something that the record makes unusual.
type Notice struct {
	Kind        string // lower-case words with hyphens, such as "overdue-brood"
	Severity    Severity
	Tank        string
	Brood       string              // or ""
	Reading     journal.ReadingKind // what kind of reading it is about, or ""
	Since       journal.Day         // the first day on which it stood
	Until       journal.Day         // the first day on which it stood no more, or zero while it stands
	Headline    string
	Seen        string           // what was seen
	Expected    string           // what was expected
	Probability float64          // how unusual that is: package notice says for each kind of what it is the probability
	Odds        string           // the same as a sentence
	Other       []string         // other explanations
	Checks      []string         // what to check, in order
	Ends        string           // when it ends by itself
	Events      []*journal.Event // what it rests on, by day
	Logged      bool             // rests on days of a logger file too, which no entry can make private
	Ending      *journal.Event   // what ended it, or nil
	Public      bool             // rests on public entries or logged days, and on no private entry, its end too
}
