package journal

// Settings is what journal.yaml says, with every quantity in the units of this package: °C, litres, mm, dGH, mg/L.
type Settings struct {
	Title    string
	Keeper   string
	Address  string // absolute address of the site with a final slash, or "" when none was given
	Language string // BCP 47 tag; "en" when left out
	Units    Units
	Species  string   // species profile of the journal, such as "neocaridina-davidi"
	Grades   []string // colour scale, worst first
	AsOf     Day      // zero unless the journal is finished or a sample
	Ammonia  Basis    // what the ammonia test reports
	// TDSFactor turns conductivity at 25 °C (µS/cm) into TDS (ppm); a convention between 0.5 and 0.7.
	TDSFactor    float64
	ChartRuntime string // path of the chart runtime inside the journal, or ""
	Look         string // folder of replaced templates and styles inside the journal, or ""
	Tanks        []Tank // in the order of the file
	Biology      []Override
	Places       []Place // where each value was written, in the order of the file
}

// At returns where the value of one key of journal.yaml stands, and the first place of the file when the key
// was not written.
func (s *Settings) At(key string) Position {
	return placeOf(s.Places, key, Position{File: SettingsFile, Line: 1, Column: 1})
}

// Tank returns the settings of one tank, or nil.
func (s *Settings) Tank(id string) *Tank {
	for i := range s.Tanks {
		if s.Tanks[i].ID == id {
			return &s.Tanks[i]
		}
	}
	return nil
}

// Basis is what a number from an ammonia test counts: nitrogen, or the whole molecule.
type Basis string

// The bases of ammonia tests.
const (
	BasisN   Basis = "N"
	BasisNH3 Basis = "NH3"
	BasisNH4 Basis = "NH4"
)

// Units says how pages show values and what a bare number means in the keeper's files.
type Units struct {
	Temperature string // "C" or "F"
	Volume      string // "L" or "gal" (US)
	Length      string // "mm" or "in"
	Hardness    string // "dGH" or "ppm"
}

// Tank is one tank as journal.yaml describes it.
type Tank struct {
	Position
	ID       string
	Name     string
	Species  string         // the journal's when left out
	Volume   Maybe[float64] // L
	Since    Day            // zero when left out
	Heater   Maybe[float64] // set-point, °C; not known for an unheated tank
	Capacity Maybe[float64] // adults the tank can carry
	Fish     bool           // young are eaten
	Cover    string         // path of a picture, or ""
	LogFile  string         // path of the logger file, or ""
	Logged   []LoggedDay    // the logger file, averaged per day, by day
	Range    []WaterRange   // the keeper's own limits
	Places   []Place        // where each value was written, in the order of the file
}

// At returns where the value of one key of the tank stands, and the place of its id when the key was not written.
func (t *Tank) At(key string) Position {
	return placeOf(t.Places, key, t.Position)
}

// LoggedDay is one day of a temperature logger.
type LoggedDay struct {
	Position
	Day            Day
	Mean, Min, Max float64 // °C
	Samples        int
}

// WaterRange is the span the keeper wants one reading to stay in.
type WaterRange struct {
	Kind      ReadingKind
	Low, High float64 // in the units of Reading.Value
}

// Override replaces one parameter of the species profile.
type Override struct {
	Position
	Name    string  // as the methods page lists it, such as "incubation.base"
	Value   float64 // in the parameter's own unit
	Because string  // the keeper's reason
}
