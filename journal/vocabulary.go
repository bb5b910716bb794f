package journal

import (
	"slices"
)

// Form is the shape of a value in the YAML.
type Form string

// The forms. The manual in the package comment shows each.
const (
	FormText        Form = "text"
	FormWords       Form = "list of words"
	FormDate        Form = "date"
	FormFlag        Form = "true or false"
	FormTrue        Form = "true"
	FormChoice      Form = "one of several words"
	FormWhole       Form = "whole number"
	FormNumber      Form = "number"
	FormAmount      Form = "number with a unit"
	FormAmounts     Form = "list of numbers with a unit"
	FormCount       Form = "count"
	FormWho         Form = "count or list of names"
	FormName        Form = "name"
	FormNames       Form = "list of names"
	FormNameOrNames Form = "name or list of names"
	FormNameOrTrue  Form = "name, or true"
	FormTank        Form = "tank id"
	FormTanks       Form = "tank id or list of tank ids"
	FormReading     Form = "reading"
	FormReadings    Form = "mapping of readings"
	FormRanges      Form = "mapping of ranges"
	FormGrades      Form = "mapping of grades to counts"
	FormMapping     Form = "mapping"
	FormTankList    Form = "mapping of tank ids to tanks"
	FormBiology     Form = "mapping of species parameters"
	FormEvents      Form = "list of events"
	FormPath        Form = "path inside the journal"
	FormAddress     Form = "web address"
	FormLanguage    Form = "language tag"
)

// Word is one key of the format and what may stand after its colon.
type Word struct {
	Name     string
	Form     Form
	Quantity Quantity // of amounts, readings and ranges
	// Low and High are the span of a number in the reader's unit where it is narrower than that of its
	// quantity; both zero otherwise. Positive means that zero is refused too.
	Low, High float64
	Positive  bool
	Allowed   []string // the words of a choice
	Keys      []Word   // the keys of a mapping
	Required  bool
	Example   string   // a value as a keeper would write it
	About     string   // one line for people
	Also      []string // what people write instead; only for suggestions
}

// EventKind is one kind of event: its word, its attributes, and how its values become a Happening.
type EventKind struct {
	Word
	Attributes []Word // besides EventWords
	EachTank   bool   // it is about the tank and not about shrimp; with a list of tanks it applies to each
	MayBeNone  bool   // 0 shrimp may be found, as by a count; of other events they are a slip
	build      func(found *values) Happening
}

// Vocabulary is every word of the format.
type Vocabulary struct {
	Settings []Word      // journal.yaml
	Tank     []Word      // one tank of journal.yaml
	Entry    []Word      // front matter of an entry
	Event    []Word      // what every event may carry
	Kinds    []EventKind // what can happen
	Readings []Word      // what a water test can measure
	Classes  []Word      // the classes of a count
	Biology  []Word      // the groups of species parameters, with their parameters as keys
}

// Words returns the vocabulary of the format: what the reader accepts, the schema describes and the manual explains.
// The caller must not change it.
func Words() Vocabulary { return vocabulary }

// vocabulary is the one place that knows which words exist.
var vocabulary = Vocabulary{
	Settings: settingsWords,
	Tank:     tankWords,
	Entry:    entryWords,
	Event:    eventWords,
	Kinds: []EventKind{
		stocked, saddled, moulted, courting, berried, eyed, hatched, dropped, sighted, counted,
		measured, graded, died, removed, moved, waterTest, waterChange, dosed, fed,
	},
	Readings: readingWords,
	Classes:  classWords,
	Biology:  biologyWords(),
}

// entryWords is the front matter of an entry.
var entryWords = []Word{
	{Name: "date", Form: FormDate, Required: true, Example: "2026-03-14", About: "the day the keeper saw it", Also: []string{"day", "when"}},
	{Name: "title", Form: FormText, Example: "First berried female", About: "heading of the entry; without it the first heading of the text, else the date", Also: []string{"heading", "name"}},
	{Name: "tank", Form: FormTanks, Example: "north-shelf", About: "the tank, or a list of tanks, that the entry is about; the default of its events", Also: []string{"tanks", "aquarium"}},
	{Name: "water", Form: FormReadings, Example: "{ph: 7.4, gh: 8}", About: "a water test, short for one water event", Also: []string{"parameters", "readings", "test"}},
	{Name: "events", Form: FormEvents, Example: "[{moulted: 1}]", About: "what happened, one item for each event", Also: []string{"event"}},
	{Name: "visibility", Form: FormChoice, Allowed: []string{"public", "private"}, Example: "private", About: "private entries leave no trace on the site; their events still count", Also: []string{"private", "public", "draft"}},
	{Name: "topics", Form: FormWords, Example: "[breeding, water]", About: "words that group entries", Also: []string{"topic", "tags", "categories"}},
}

// eventWords is what every event may carry beside its kind and the attributes of that kind.
var eventWords = []Word{
	{Name: "tank", Form: FormTank, Example: "north-shelf", About: "the tank of this event, when it is not the entry's"},
	{Name: "date", Form: FormDate, Example: "2026-03-12", About: "the day of this event, when it is not the entry's"},
	{Name: "note", Form: FormText, Example: "under the moss", About: "a remark shown with the event", Also: []string{"comment", "remark", "notes"}},
}

// readingWords is what a water test can measure.
var readingWords = []Word{
	{Name: string(Temperature), Form: FormReading, Quantity: QuantityTemperature, Example: "23.4 C", About: "water temperature, C or F", Also: []string{"temp"}},
	{Name: string(PH), Form: FormReading, Quantity: QuantityNumber, High: 14, Example: "7.4", About: "acidity, 0 to 14"},
	{Name: string(GH), Form: FormReading, Quantity: QuantityGH, Example: "8", About: "general hardness, dGH or ppm", Also: []string{"hardness"}},
	{Name: string(KH), Form: FormReading, Quantity: QuantityKH, Example: "4", About: "carbonate hardness, dKH or ppm", Also: []string{"alkalinity"}},
	{Name: string(TDS), Form: FormReading, Quantity: QuantityTDS, Example: "210", About: "total dissolved solids, ppm"},
	{Name: string(Conductivity), Form: FormReading, Quantity: QuantityConductivity, Example: "420 µS/cm", About: "electrical conductivity at 25 °C, µS/cm or mS/cm", Also: []string{"ec"}},
	{Name: string(Ammonia), Form: FormReading, Quantity: QuantityMass, Example: "<0.25", About: "total ammonia, mg/L, on the basis that ammonia-as names", Also: []string{"nh3", "nh4", "ammonium", "tan"}},
	{Name: string(Nitrite), Form: FormReading, Quantity: QuantityMass, Example: "0", About: "nitrite, mg/L as the ion", Also: []string{"no2"}},
	{Name: string(Nitrate), Form: FormReading, Quantity: QuantityMass, Example: "10", About: "nitrate, mg/L as the ion", Also: []string{"no3"}},
	{Name: string(Copper), Form: FormReading, Quantity: QuantityMass, Example: "0", About: "copper, mg/L", Also: []string{"cu"}},
	{Name: string(Oxygen), Form: FormReading, Quantity: QuantityMass, Example: "8", About: "dissolved oxygen, mg/L", Also: []string{"o2", "do"}},
}

// names lists the names of words.
func names(words []Word) []string {
	var all []string
	for i := range words {
		all = append(all, words[i].Name)
	}
	return all
}

// find returns the word of that name, or nil.
func find(words []Word, name string) *Word {
	for i := range words {
		if words[i].Name == name {
			return &words[i]
		}
	}
	return nil
}

// suggest returns the names of the words that the writer most likely meant: those that are also called so, else the nearest.
func suggest(words []Word, written string) []string {
	if called := calledSo(words, written); len(called) > 0 {
		return called
	}
	return equallyNear(written, names(words))
}

// calledSo returns the names of the words that are called so, or by people also.
func calledSo(words []Word, written string) []string {
	same := func(other string) bool { return fold(other) == fold(written) }
	var called []string
	for i := range words {
		if same(words[i].Name) || slices.ContainsFunc(words[i].Also, same) {
			called = append(called, words[i].Name)
		}
	}
	return called
}

// kindWords lists the words of the kinds.
func kindWords() []Word {
	var words []Word
	for i := range vocabulary.Kinds {
		words = append(words, vocabulary.Kinds[i].Word)
	}
	return words
}

// kindOf returns the kind of that name, or nil.
func kindOf(name string) *EventKind {
	for i := range vocabulary.Kinds {
		if vocabulary.Kinds[i].Name == name {
			return &vocabulary.Kinds[i]
		}
	}
	return nil
}
