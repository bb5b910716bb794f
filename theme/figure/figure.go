package figure

// Figure is one picture of numbers. The same value is drawn as static SVG, as a table, and as the option of an
// interactive chart, so that the numbers are the same in all three.
type Figure struct {
	ID          string // unique on its page: lower case, digits, hyphens
	Title       string
	Description string // one or two sentences for those who cannot see it
	X, Y        Axis
	Bands       []Band   // drawn first, in order
	Lines       []Line   // over the bands
	Points      []Points // over the lines
	Lanes       []Lane   // rows of spans, above the Y axis where the figure has lines, bands or points too
	Strips      []Strip  // shaded stretches of X behind everything, such as the days ahead
	Rules       []Rule   // single upright or level lines with a label
	Keys        []Key    // what the tones and shapes of the lanes mean; those that no lane uses are left out
	Wordless    bool     // what spans are labelled is read out and in the table, and not written on them
	Empty       string   // what to say where there is nothing to draw; "" says "No data yet"
	Height      int      // CSS pixels of the part with the Y axis at a width of 720; 0 picks one
	// Inset is the least room to the left of the axes at a width of 720, so that figures beneath each other share their
	// days; 0 takes what the labels need.
	Inset int
}

// AxisKind says how values are placed and labelled.
type AxisKind int

// The kinds of axes.
const (
	Numeric  AxisKind = iota
	Calendar          // values are days, where 1 is 0001-01-01 (Rata Die)
)

// Axis is one direction of a figure.
type Axis struct {
	Kind  AxisKind
	Label string // such as "Body length"
	Unit  string // such as "mm", or ""
	// Min and Max fix the range where Min < Max; otherwise the data give it.
	Min, Max float64
	FromZero bool // the range must hold 0
	Whole    bool // values are counts, so that no tick stands between two whole numbers
	Mirrored bool // labels without their sign, for two groups that grow to the left and right of 0
}

// Tone names a colour of the theme, never a colour itself; the style sheet gives it for light, dark and print.
type Tone string

// The tones. Each also has its own dash or mark, so that colour never stands alone.
const (
	Water  Tone = "water"
	Moss   Tone = "moss"
	Shrimp Tone = "shrimp"
	Eggs   Tone = "eggs"
	Sand   Tone = "sand"
	Stone  Tone = "stone"
)

// XY is one point. A NaN Y is a gap.
type XY struct{ X, Y float64 }

// Line is a run of points.
type Line struct {
	Name   string
	Tone   Tone
	Dashed bool
	Joins  bool // joins marks that the figure has too, so that the table has no column for it
	Points []XY
}

// Edge is the lower and upper edge of a band at X.
type Edge struct{ X, Low, High float64 }

// Band is the area between two lines, such as the middle 90 %.
type Band struct {
	Name  string
	Tone  Tone
	Faint bool // the wider of two bands
	Edges []Edge
}

// Points is a cloud of marks.
type Points struct {
	Name  string
	Tone  Tone
	Shape Shape
	Marks []Mark
}

// Shape is how a mark is drawn.
type Shape string

// The shapes.
const (
	Dot     Shape = "dot"
	Ring    Shape = "ring"
	Diamond Shape = "diamond"
	Bar     Shape = "bar"   // a short upright stroke
	Wedge   Shape = "wedge" // a triangle that points down
	Peak    Shape = "peak"  // a triangle that points up
	Plus    Shape = "plus"
	Cross   Shape = "cross"
	Square  Shape = "square"
)

// Mark is one labelled point.
type Mark struct {
	X, Y  float64
	Label string // for the readout and the table
	Link  string // page it leads to, or ""
}

// Key is one entry of the legend that explains the spans or marks of lanes.
type Key struct {
	Name  string
	Tone  Tone
	Soft  bool  // the hatched form
	Shape Shape // a mark's shape; "" for a span
}

// Lane is one row of a timeline.
type Lane struct {
	Label string
	Link  string // page it leads to, or ""
	Spans []Span
	Marks []LaneMark
}

// Span is a stretch of a lane.
type Span struct {
	From, To float64
	Tone     Tone
	Soft     bool // uncertain: drawn hatched and lighter
	Label    string
	Link     string
}

// LaneMark is one moment on a lane.
type LaneMark struct {
	X     float64
	Tone  Tone
	Shape Shape
	Label string
	Link  string
}

// Strip is a shaded stretch of the X axis.
type Strip struct {
	From, To float64
	Label    string
}

// Rule is a line across the figure, upright at X where Level is false, level at Value where it is true. An upright one
// without a label is one of many and stays behind the data.
type Rule struct {
	Value float64
	Level bool
	Label string
	Tone  Tone
}
