package forecast

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"pleopod/journal"
)

// Document is a forecast as open data: what "forecast --json" prints and what the site offers for download. Keys never
// change their meaning.
//
// A pointer is null in JSON where there is nothing to say: a day that is not known or that the model may not name, a
// number that was not measured, or only as "below". Lists are never null. Days are YYYY-MM-DD.
//
// Rounding, here and nowhere else: numbers of shrimp and of days ahead to whole numbers, effective size to 0.1;
// temperatures to 0.1 °C and their sd to 0.01; lengths to 0.1 mm; shares, probabilities and multipliers to 0.001, those of notices to 0.000001;
// days of error to 0.01; readings to 0.01, un-ionised ammonia to 0.0001 mg/L.
type Document struct {
	AsOf        journal.Day         `json:"asOf"`
	Broods      []BroodDocument     `json:"broods"`  // by berried day, then id
	Cohorts     []CohortDocument    `json:"cohorts"` // by hatch day, then id
	Tanks       []TankDocument      `json:"tanks"`   // in the order of journal.yaml
	Learning    LearningDocument    `json:"learning"`
	TrackRecord TrackRecordDocument `json:"trackRecord"`
	Notices     []NoticeDocument    `json:"notices"` // that stand, by day, then kind, tank and brood
	Ended       []NoticeDocument    `json:"ended"`   // notices that stood on earlier days, in the same order
}

// BroodDocument is one brood.
type BroodDocument struct {
	ID         string         `json:"id"`
	Tank       string         `json:"tank"` // where it is, or ended
	Berried    journal.Day    `json:"berried"`
	State      BroodState     `json:"state"`
	Progress   *float64       `json:"progress"` // expected share of development done, 0 to 1
	EyedFrom   *journal.Day   `json:"eyedFrom"`
	Hatch      WindowDocument `json:"hatch"`
	Hatched    *journal.Day   `json:"hatched"`
	Shrimplets *int           `json:"shrimplets"` // seen at the hatch
}

// WindowDocument is a predicted day as quantiles, or the reason why there is none.
type WindowDocument struct {
	P05    *journal.Day `json:"p05"`
	P10    *journal.Day `json:"p10"`
	P25    *journal.Day `json:"p25"`
	P50    *journal.Day `json:"p50"`
	P75    *journal.Day `json:"p75"`
	P90    *journal.Day `json:"p90"`
	P95    *journal.Day `json:"p95"`
	Reason *string      `json:"reason"`
}

// SpanDocument is a predicted day as three quantiles.
type SpanDocument struct {
	P10 *journal.Day `json:"p10"`
	P50 *journal.Day `json:"p50"`
	P90 *journal.Day `json:"p90"`
}

// CohortDocument is the young of one hatch.
type CohortDocument struct {
	ID      string         `json:"id"`
	Tank    string         `json:"tank"`
	Hatched journal.Day    `json:"hatched"`
	Sexable SpanDocument   `json:"sexable"`
	Mature  SpanDocument   `json:"mature"`
	Length  LengthDocument `json:"length"`
}

// LengthDocument is the expected mean length by sex, mm.
type LengthDocument struct {
	Female *float64 `json:"female"`
	Male   *float64 `json:"male"`
}

// TankDocument is one tank.
type TankDocument struct {
	ID          string              `json:"id"`
	Temperature TemperatureDocument `json:"temperature"`
	Population  PopulationDocument  `json:"population"`
	Water       []WaterDocument     `json:"water"` // by day
}

// TemperatureDocument is the daily mean of the last 30 days, °C.
type TemperatureDocument struct {
	Mean *float64 `json:"mean"`
	SD   *float64 `json:"sd"`
}

// PopulationDocument is how many shrimp live in a tank, out of the egg, and how many will.
type PopulationDocument struct {
	Now               NumbersDocument `json:"now"`
	AdultFemales      BandDocument    `json:"adultFemales"`
	Ahead             []AheadDocument `json:"ahead"`  // 30, 90, 180 and 365 days after the as-of day
	Passes            []PassDocument  `json:"passes"` // by count
	MayLeavePerMonth  int             `json:"mayLeavePerMonth"`
	ExtinctWithinYear *float64        `json:"extinctWithinYear"` // probability
	EffectiveSize     *float64        `json:"effectiveSize"`
}

// NumbersDocument is quantiles of a number of shrimp.
type NumbersDocument struct {
	P05 *float64 `json:"p05"`
	P25 *float64 `json:"p25"`
	P50 *float64 `json:"p50"`
	P75 *float64 `json:"p75"`
	P95 *float64 `json:"p95"`
}

// BandDocument is three quantiles of a number of shrimp.
type BandDocument struct {
	P05 *float64 `json:"p05"`
	P50 *float64 `json:"p50"`
	P95 *float64 `json:"p95"`
}

// AheadDocument is a number of shrimp on a coming day, with nobody added or taken out.
type AheadDocument struct {
	Date journal.Day `json:"date"`
	NumbersDocument
}

// PassDocument is the day the colony passes a number.
type PassDocument struct {
	Count                 int      `json:"count"`
	ProbabilityWithinYear *float64 `json:"probabilityWithinYear"`
	SpanDocument
}

// WaterDocument is one water test with what follows from it.
type WaterDocument struct {
	Date             journal.Day `json:"date"`
	Temperature      *float64    `json:"temperature"`      // °C
	PH               *float64    `json:"ph"`               // as measured
	Ammonia          *float64    `json:"ammonia"`          // mg/L, total, on the basis of the test
	UnionisedAmmonia *float64    `json:"unionisedAmmonia"` // mg/L, on the same basis
}

// LearningDocument is what the journal's own broods and cohorts taught about the default durations.
type LearningDocument struct {
	Incubation IncubationDocument `json:"incubation"`
	Maturity   MaturityDocument   `json:"maturity"`
}

// MultiplierDocument is a multiplier on a default duration.
type MultiplierDocument struct {
	PriorSD *float64 `json:"priorSd"` // of ln multiplier
	Mean    *float64 `json:"mean"`    // posterior median
	SD      *float64 `json:"sd"`      // posterior, of ln multiplier
}

// IncubationDocument is the multiplier on the time from berried to hatched.
type IncubationDocument struct {
	MultiplierDocument
	Broods int `json:"broods"` // that it was learned from
}

// MaturityDocument is the multiplier on the time from hatched to mature.
type MaturityDocument struct {
	MultiplierDocument
	Cohorts int `json:"cohorts"` // that it was learned from
}

// TrackRecordDocument is how predictions made on the berried day did. The shares are null without any brood.
type TrackRecordDocument struct {
	Broods           int      `json:"broods"`
	Coverage50       *float64 `json:"coverage50"`
	Coverage80       *float64 `json:"coverage80"`
	Coverage90       *float64 `json:"coverage90"`
	MAEDays          *float64 `json:"maeDays"`
	CRPSDays         *float64 `json:"crpsDays"`
	FixedRuleMAEDays *float64 `json:"fixedRuleMaeDays"`
	// Maturity is how the first grown daughters of cohorts were predicted on the day of the hatch.
	Maturity MaturityRecordDocument `json:"maturity"`
}

// MaturityRecordDocument is how predictions of growing up did. All but the count is null without any cohort.
type MaturityRecordDocument struct {
	Cohorts    int      `json:"cohorts"` // with a named daughter seen grown
	Coverage50 *float64 `json:"coverage50"`
	Coverage80 *float64 `json:"coverage80"`
	Coverage90 *float64 `json:"coverage90"`
	MAEDays    *float64 `json:"maeDays"`
	CRPSDays   *float64 `json:"crpsDays"`
}

// NoticeDocument is something that the record makes unusual.
type NoticeDocument struct {
	Kind        string       `json:"kind"`
	Tank        string       `json:"tank"`
	Brood       *string      `json:"brood"`
	Since       journal.Day  `json:"since"`
	Headline    string       `json:"headline"`
	Probability *float64     `json:"probability"` // how unusual it is, as odds says
	Checks      []string     `json:"checks"`
	Reading     *string      `json:"reading"` // kind of reading that it is about
	Severity    Severity     `json:"severity"`
	Until       *journal.Day `json:"until"` // first day on which it stood no more
	Seen        string       `json:"seen"`
	Expected    string       `json:"expected"`
	Odds        string       `json:"odds"`
	Other       []string     `json:"other"` // other explanations
	Ends        string       `json:"ends"`  // when it ends by itself
}

// NewDocument writes a forecast as open data. With publicOnly it leaves out what a reader of the site may not see:
// broods and cohorts opened in a private entry, readings and shrimplets noted in one, and notices that rest on one.
// Estimates of whole tanks, what was learned and the track record count private entries too: they show none of them.
func NewDocument(f *Forecast, publicOnly bool) Document {
	w := documentWriter{f, publicOnly}
	return Document{
		AsOf:        f.Colony.AsOf,
		Broods:      w.broods(),
		Cohorts:     w.cohorts(),
		Tanks:       w.tanks(),
		Learning:    w.learning(),
		TrackRecord: w.trackRecord(),
		Notices:     w.notices(f.Notices),
		Ended:       w.notices(f.Ended),
	}
}

// documentWriter holds what every part of a document needs to know.
type documentWriter struct {
	*Forecast
	publicOnly bool
}

// hides reports whether an event must not show.
func (w documentWriter) hides(e *journal.Event) bool {
	return w.publicOnly && e != nil && e.Entry.Private
}

func (w documentWriter) broods() []BroodDocument {
	all := []BroodDocument{}
	for i := range w.Broods {
		b := &w.Broods[i]
		if w.publicOnly && !b.Public() {
			continue
		}
		d := BroodDocument{
			ID: b.ID, Tank: b.Tank(), Berried: b.Berried, State: b.State, Progress: rounded(b.Progress, 3),
			EyedFrom: date(b.EyedFrom), Hatch: window(b.Hatch), Hatched: date(b.Brood.Hatched),
		}
		if b.Shrimplets.Known && !w.hides(b.Ended) {
			d.Shrimplets = &b.Shrimplets.Value
		}
		all = append(all, d)
	}
	slices.SortStableFunc(all, func(a, b BroodDocument) int {
		return cmp.Or(cmp.Compare(a.Berried, b.Berried), strings.Compare(a.ID, b.ID))
	})
	return all
}

func (w documentWriter) cohorts() []CohortDocument {
	all := []CohortDocument{}
	for _, c := range w.Cohorts {
		if w.publicOnly && !c.Public() {
			continue
		}
		all = append(all, CohortDocument{
			ID: c.ID, Tank: c.Tank, Hatched: c.Hatched, Sexable: span(c.Sexable), Mature: span(c.Mature),
			Length: LengthDocument{Female: rounded(c.Female, 1), Male: rounded(c.Male, 1)},
		})
	}
	slices.SortStableFunc(all, func(a, b CohortDocument) int {
		return cmp.Or(cmp.Compare(a.Hatched, b.Hatched), strings.Compare(a.ID, b.ID))
	})
	return all
}

func (w documentWriter) tanks() []TankDocument {
	all := []TankDocument{}
	for i := range w.Tanks {
		t := &w.Tanks[i]
		all = append(all, TankDocument{
			ID:          t.ID,
			Temperature: TemperatureDocument{Mean: rounded(t.Celsius, 1), SD: rounded(t.CelsiusSD, 2)},
			Population:  population(&t.Population, w.Colony.AsOf),
			Water:       w.water(t.Water),
		})
	}
	return all
}

// daysAhead are the days after the as-of day for which a document gives numbers.
var daysAhead = [...]journal.Day{30, 90, 180, 365}

func population(p *Population, asOf journal.Day) PopulationDocument {
	d := PopulationDocument{
		Now:               numbers(p.Now),
		AdultFemales:      BandDocument{rounded(p.AdultFemales.P05, 0), rounded(p.AdultFemales.P50, 0), rounded(p.AdultFemales.P95, 0)},
		Ahead:             []AheadDocument{},
		Passes:            []PassDocument{},
		MayLeavePerMonth:  p.MayLeavePerMonth,
		ExtinctWithinYear: rounded(p.ExtinctWithinYear, 3),
		EffectiveSize:     rounded(p.EffectiveSize, 1),
	}
	// The present is where the line of coming weeks begins.
	line := append([]At{{Day: asOf, Quantiles: p.Now}}, p.Ahead...)
	for _, days := range daysAhead {
		if q, ok := between(line, asOf+days); ok {
			d.Ahead = append(d.Ahead, AheadDocument{asOf + days, numbers(q)})
		}
	}
	for _, pass := range p.Passes {
		d.Passes = append(d.Passes, PassDocument{
			pass.Count, rounded(pass.ProbabilityWithinYear, 3), SpanDocument{date(pass.P10), date(pass.P50), date(pass.P90)},
		})
	}
	slices.SortStableFunc(d.Passes, func(a, b PassDocument) int { return cmp.Compare(a.Count, b.Count) })
	return d
}

// between returns the numbers of a day, on the straight line between the two days around it where it has none of its
// own. The last week of the year may stand for its end.
func between(line []At, day journal.Day) (Quantiles, bool) {
	i := slices.IndexFunc(line, func(a At) bool { return a.Day >= day })
	switch {
	case i > 0 && line[i].Day > day:
		a, b := line[i-1], line[i]
		share := float64(day-a.Day) / float64(b.Day-a.Day)
		at := func(p, q float64) float64 { return p + share*(q-p) }
		return Quantiles{at(a.P05, b.P05), at(a.P25, b.P25), at(a.P50, b.P50), at(a.P75, b.P75), at(a.P95, b.P95)}, true
	case i >= 0:
		return line[i].Quantiles, true
	case day-line[len(line)-1].Day < 7:
		return line[len(line)-1].Quantiles, true
	}
	return Quantiles{}, false
}

func (w documentWriter) water(days []WaterDay) []WaterDocument {
	all := []WaterDocument{}
	for _, day := range days {
		if w.hides(day.Event) {
			continue
		}
		d := WaterDocument{
			Date:        day.Day,
			Temperature: reading(day.Readings, journal.Temperature),
			PH:          reading(day.Readings, journal.PH),
			Ammonia:     reading(day.Readings, journal.Ammonia),
		}
		if day.UnionisedAmmonia.Known {
			d.UnionisedAmmonia = rounded(day.UnionisedAmmonia.Value, 4)
		}
		all = append(all, d)
	}
	slices.SortStableFunc(all, func(a, b WaterDocument) int { return cmp.Compare(a.Date, b.Date) })
	return all
}

// reading returns one value of a water test, or nil when it was not measured or only known to be below something.
func reading(readings []journal.Reading, kind journal.ReadingKind) *float64 {
	if value, ok := journal.MeasuredOf(readings, kind); ok {
		return rounded(value, 2)
	}
	return nil
}

func (w documentWriter) learning() LearningDocument {
	write := func(l Learned) MultiplierDocument {
		return MultiplierDocument{PriorSD: rounded(l.PriorSD, 3), Mean: rounded(l.Mean, 3), SD: rounded(l.SD, 3)}
	}
	incubation, maturity := w.Learning.Incubation, w.Learning.Maturity
	return LearningDocument{
		Incubation: IncubationDocument{write(incubation), incubation.Used},
		Maturity:   MaturityDocument{write(maturity), maturity.Used},
	}
}

func (w documentWriter) trackRecord() TrackRecordDocument {
	r := w.Record
	var d TrackRecordDocument
	if m := r.Maturity; m.Count > 0 {
		d.Maturity = MaturityRecordDocument{
			Cohorts:    m.Count,
			Coverage50: rounded(m.Coverage50, 3), Coverage80: rounded(m.Coverage80, 3), Coverage90: rounded(m.Coverage90, 3),
			MAEDays: rounded(m.MAEDays, 2), CRPSDays: rounded(m.CRPSDays, 2),
		}
	}
	if r.Broods == 0 {
		return d
	}
	d.Broods = r.Broods
	d.Coverage50, d.Coverage80, d.Coverage90 = rounded(r.Coverage50, 3), rounded(r.Coverage80, 3), rounded(r.Coverage90, 3)
	d.MAEDays, d.CRPSDays, d.FixedRuleMAEDays = rounded(r.MAEDays, 2), rounded(r.CRPSDays, 2), rounded(r.FixedRuleMAEDays, 2)
	return d
}

// noticeDecimals keeps apart what is rare and what is hardly possible.
const noticeDecimals = 6

func (w documentWriter) notices(notices []Notice) []NoticeDocument {
	private := map[string]bool{}
	for _, b := range w.Broods {
		private[b.ID] = !b.Public()
	}
	all := []NoticeDocument{}
	for _, n := range notices {
		if w.publicOnly && (!n.Public || private[n.Brood]) {
			continue
		}
		all = append(all, NoticeDocument{
			Kind: n.Kind, Tank: n.Tank, Brood: text(n.Brood), Since: n.Since, Headline: n.Headline,
			Probability: rounded(n.Probability, noticeDecimals), Checks: append([]string{}, n.Checks...),
			Reading: text(string(n.Reading)), Severity: cmp.Or(n.Severity, Look), Until: date(n.Until), Seen: n.Seen, Expected: n.Expected, Odds: n.Odds,
			Other: append([]string{}, n.Other...), Ends: n.Ends,
		})
	}
	slices.SortStableFunc(all, func(a, b NoticeDocument) int {
		return cmp.Or(cmp.Compare(a.Since, b.Since), strings.Compare(a.Kind, b.Kind), strings.Compare(a.Tank, b.Tank),
			strings.Compare(*cmp.Or(a.Brood, new(string)), *cmp.Or(b.Brood, new(string))),
			strings.Compare(*cmp.Or(a.Reading, new(string)), *cmp.Or(b.Reading, new(string))))
	})
	return all
}

func window(w Window) WindowDocument {
	return WindowDocument{
		date(w.P05), date(w.P10), date(w.P25), date(w.P50), date(w.P75), date(w.P90), date(w.P95), text(w.Reason),
	}
}

func span(w Window) SpanDocument { return SpanDocument{date(w.P10), date(w.P50), date(w.P90)} }

func numbers(q Quantiles) NumbersDocument {
	return NumbersDocument{rounded(q.P05, 0), rounded(q.P25, 0), rounded(q.P50, 0), rounded(q.P75, 0), rounded(q.P95, 0)}
}

// date returns nil for no day.
func date(d journal.Day) *journal.Day {
	if d == 0 {
		return nil
	}
	return &d
}

// text returns nil for no text.
func text(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// rounded returns the number rounded half away from zero, or nil when it is not a number that JSON can hold.
func rounded(x float64, decimals int) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	scale := math.Pow10(decimals)
	x = math.Round(x*scale) / scale
	if x == 0 {
		x = 0 // no minus zero
	}
	return &x
}
