package journal

import "slices"

// Explanation tells a keeper what one kind of problem means.
type Explanation struct {
	Code    string // as in Problem.Code
	Title   string // a few words
	Meaning string // one paragraph
	Example string // what raises it
	Fix     string // what to write or to do instead
}

// Explain returns the explanation of a kind of problem, and false for a code that does not exist.
func Explain(code string) (Explanation, bool) {
	all := Explanations()
	i := slices.IndexFunc(all, func(e Explanation) bool { return e.Code == code })
	if i < 0 {
		return Explanation{}, false
	}
	return all[i], true
}

// Explanations lists every kind of problem that reading, replaying and predicting can report, by topic.
func Explanations() []Explanation {
	return slices.Concat(textExplanations, keyExplanations, valueExplanations, numberExplanations, eventExplanations,
		fileExplanations, broodExplanations, stockExplanations)
}

// textExplanations is about files as text, and about YAML.
var textExplanations = []Explanation{
	{"no-journal", "no journal here", "A journal is a folder with a file journal.yaml. The folder that was looked at has none.",
		"pleopod publish, run in the folder above the journal", "go into the folder of the journal, or name it: pleopod publish my-colony"},
	{"not-read", "an entry that is not read", "Entries are the files in the folder entries, and in folders inside it, whose names end in .md. This file begins as an entry does, but has another name or another place.",
		"entries/2026-03-14.md.txt, as some editors call a text", "rename it to entries/2026-03-14.md"},
	{"not-utf-8", "not saved as UTF-8", "Text is read as UTF-8. The file holds bytes that are no UTF-8 text; it was saved in an older encoding, or it is no text file.",
		"a file saved as Latin-1 or UTF-16", "save it again in the editor with the encoding UTF-8"},
	{"front-matter", "no keys at the top of an entry", "An entry begins with a line of exactly three hyphens at the margin; its date and the other keys follow; a second such line ends them. One of the two lines is missing, indented or longer.",
		"date: 2026-03-14 in the first line, without the hyphens above it", "write --- above and --- below the keys, each at the start of its own line"},
	{"yaml-syntax", "keys that cannot be read", "Keys have a simple form, which is called YAML: a key, a colon, a space, a value; what belongs together has the same indent in spaces. At the place that is named the rules are broken. A colon or a # inside a value needs quotes around the value.",
		"title: Day 12: moved", `title: "Day 12: moved"`},
	{"comment-in-value", "a # that swallows the rest", "A # after a space begins a comment, and what follows is left out. Without a space behind it, it was hardly meant so.",
		"title: Tank #1", `title: "Tank #1"`},
	{"yaml-reference", "a mark with a meaning of its own", "A value that begins with &, *, ! or % has a meaning of its own, which a journal does not use: every value is written where it belongs.",
		"note: *very* red", `note: "*very* red"`},
	{"yaml-depth", "too many brackets or hyphens", "Brackets, braces or hyphens stand inside each other deeper than a journal ever needs.",
		"- - - - - moulted: 1", "one hyphen for each event"},
	{"too-long", "more than is read", "A file, a text, a list or the keys at the top are larger than the limit. The limits keep a slip, such as a video renamed to .md, from filling the memory.",
		"keys of 100 KB above the text", "split it into several entries; long texts belong below the second line of hyphens"},
	{"markdown-cost", "a paragraph with thousands of marks", "One paragraph holds so many marks of emphasis, links or code, or so many quotes and lists inside each other, that turning it into a page would take very long.",
		"ten thousand asterisks in a row", "put blank lines between its parts, or remove the marks"},
	{"event-in-text", "an event in the text", "What stands below the second line of hyphens is for readers: nothing in it is counted. This line would be an event above it.",
		"died: 2, on a line of its own in the text", "- died: 2, in the list of events above the second line of hyphens"},
	{"html-left-out", "HTML in the text", "Texts are Markdown. HTML in them is left out of the site, so that no entry can put a script there.",
		`<img src="../photos/ruby.jpg">`, "![Ruby and her eggs](../photos/ruby.jpg)"},
	{"no-such-entry", "a link to an entry that does not exist", "The link leads to the file of an entry, and no entry has this path. The words stay, without a link.",
		"[the day before](2026-03-31.md)", "[the day before](2026-03-13.md), the path of an entry, from the file that it stands in"},
	{"same-entry", "the same events in two entries", "Two files have the same date and the same events, to the letter, or one is by its name a copy that another program made. The events of both count, so that they may count twice.",
		"2026-03-14.md and 2026-03-14-2.md, both with died: 2", "delete one of the two; if both are true, give one a title of its own"},
	{"name-and-date", "a file named after another day", "The name of the file begins with a day, and the date in it is another. Often the file was copied from an older one. The date is what counts.",
		"entries/2026-03-15.md with date: 2026-03-14", "date: 2026-03-15, or another name for the file"},
	{"more-problems", "more problems than are listed", "Of one file the first two hundred problems are listed; the others are counted.",
		"a logger file saved in another form", "mend the first ones; the others are often of the same kind"},
}

// keyExplanations is about keys and words.
var keyExplanations = []Explanation{
	{"unknown-key", "a key that does not exist", "Only the keys of this manual are understood, so that a typing slip is never passed over in silence. Keys are small letters and hyphens.",
		"titel: First eggs", "title: First eggs"},
	{"key-twice", "a key given twice", "One key stands twice in the same place. Which of the two values is meant cannot be told.",
		"tank: shelf, and three lines below tank: window", "remove one of them; two events of one kind are two items of the list"},
	{"missing-key", "a key that must be there", "journal.yaml needs a title and its tanks, an entry needs a date, and the event moved needs to.",
		"an entry without date", "date: 2026-03-14"},
	{"no-value", "a key without a value", "The key is there and nothing follows its colon. What only tells more of an event is then taken as not written.", "title:", "write the value, or remove the line"},
	{"unknown-word", "a word that is not one of the choices", "The key takes one of a few words, and this is none of them.", "method: carefull", "method: careful"},
	{"unknown-tank", "a tank that journal.yaml does not have", "Entries name tanks by the ids in journal.yaml, not by the names for people.", "tank: north-shelv", "tank: north-shelf"},
	{"unknown-grade", "a grade that is not on the scale", "graded uses the words of grades in journal.yaml.", "graded: {dark: 2}, when the scale is pale, even, deep", "graded: {deep: 2}, or add the word to grades"},
	{"no-grades", "graded without a scale", "Colour is graded on the journal's own scale, and journal.yaml has none.", "graded: {pale: 2}", "in journal.yaml, worst first: grades: [pale, even, deep]"},
	{"unknown-unit", "a unit that is not understood", "After the number stands a unit that does not measure this.", "temperature: 23 K", "temperature: 23 C"},
	{"no-unit", "a number without its unit", "An age and a water change always need their unit, because 3 may be weeks or months and 25 percent or litres.", "water-change: 25", "water-change: 25 %"},
	{"no-tank", "an event whose tank cannot be told", "The journal has several tanks, and neither the event nor the entry says which one. With a list of tanks in the entry, only water, water-change, dosed and fed apply to each.",
		"moulted: 1, in an entry without tank", "tank: north-shelf, in the entry or in the event"},
	{"no-tanks", "a journal without a tank", "Below tanks there is nothing.", "tanks:", "tanks: {north-shelf: {volume: 38 L}}"},
	{"no-address", "no address of the site", "Feed, calendar and sitemap hold whole web addresses, so they are written only when the journal says where the site will be served. Everything else works without it.",
		"journal.yaml without address", "address: https://example.org/shrimp/"},
	{"word-twice", "a word twice in a list", "A list of names, topics or tanks holds the same word twice.", "died: [ruby, ruby]", "died: [ruby]"},
}

// valueExplanations is about the form of values.
var valueExplanations = []Explanation{
	{"not-text", "a text was expected", "The key takes a text, and a list or a group of keys stands there. Text in brackets or braces needs quotes.", "title: [draft]", `title: "[draft]"`},
	{"not-a-list", "a list was expected", "The key takes several items: in brackets with commas, or one a line with a hyphen.", "died: ruby", "died: [ruby]"},
	{"not-a-mapping", "keys with values were expected", "The key takes keys of its own: in braces with commas, or one a line below it with an indent.", "water: good", "water: {ph: 7.4, gh: 8}"},
	{"not-a-date", "not a date", "A date is written year, month, day: four digits, two, two, with hyphens. Other orders are refused because 03/04 may be March or April.",
		"date: 14.03.2026", "date: 2026-03-14"},
	{"no-such-date", "a day that does not exist", "The month or the day is outside the calendar.", "date: 2026-02-30", "date: 2026-02-28"},
	{"date-order", "a day before that lies after", "The key names a day before the event, such as the last day on which a female was still without eggs. The day that is written lies after the event.", "berried on 14 March, with last-clear: 2026-03-20", "last-clear: 2026-03-12"},
	{"not-a-flag", "true was expected", "The key takes true. What is not so is left out.", "failed: yes", "failed: true"},
	{"not-a-choice", "one word was expected", "The key takes one of a few words, and a list or a group of keys stands there.", "reason: [sold, given]", "reason: sold; a second event for the others"},
	{"not-a-name", "not a name", "Names of broods and shrimp are made of letters, digits, spaces, hyphens and apostrophes and begin with a letter or a digit. A bare number, true and null are taken for slips unless they are in quotes.",
		"brood: #1", "brood: amber"},
	{"not-a-tank", "not a tank id", "A tank's id is made of lower-case letters, digits and single hyphens, because it becomes part of addresses. Its name for people stands in name.",
		"tanks: {North Shelf: {volume: 38 L}}", "tanks: {north-shelf: {name: North Shelf, volume: 38 L}}"},
	{"not-an-address", "not a web address", "The address is where the site will be served: with https:// or http://, and without ? and #.", "address: example.org", "address: https://example.org/"},
	{"not-a-language", "not a language tag", "The language is a tag of BCP 47: two or three letters, with a country or a script after a hyphen where needed.", "language: English", "language: en"},
	{"brood-names", "names that do not fit the number of broods", "brood takes one name, or a list with one name for each berried female.", "berried: 3, with brood: [amber, flint]", "brood: [amber, flint, jade]"},
	{"measured-names", "names that do not fit the lengths", "names takes one name for each length, in the same order.", "measured: [21, 22], with names: [ruby]", "names: [ruby, pearl]"},
}

// numberExplanations is about numbers and readings.
var numberExplanations = []Explanation{
	{"not-a-number", "not a number", "The key takes one number in digits, with its unit where it has one.", "heater: warm", "heater: 23 C"},
	{"not-a-whole-number", "not a whole number", "Eggs, young and shrimp are counted in whole numbers, in digits.", "eggs: about 30", "eggs: 30"},
	{"not-a-count", "not a number of shrimp", "A count is a whole number, or classes in braces. Events about animals that may have names also take a list of names.", "died: ruby", "died: 1, died: {females: 1} or died: [ruby]"},
	{"not-a-reading", "not a reading", "A reading is one number, or < and a number for less than that. Words and ranges are refused: a chart cannot draw them.", "ammonia: trace", "ammonia: <0.25"},
	{"not-a-range", "not a range", "A range is two numbers with a hyphen, the lower one first.", "water-range: {ph: 7}", "water-range: {ph: 6.8-7.8}"},
	{"decimal-comma", "a comma in a number", "Numbers are written with a decimal point. In braces a comma also ends the value, so that 7,4 would be 7 and a stray 4.", "water: {ph: 7,4}", "water: {ph: 7.4}"},
	{"number-without-meaning", "a number that cannot be", "Nothing in the world has this value: a count below zero, a pH above 14, water below 0 or above 45 °C, more than 100 percent.", "water: {ph: 74}", "water: {ph: 7.4}"},
	{"parameter-range", "a species parameter outside its range", "Each parameter below biology has a span in which the calculations make sense; the methods page lists them.", "biology: {incubation: {base: 25 C}}", "biology: {incubation: {base: 11 C}}"},
	{"parameters-contradict", "species parameters that contradict each other", "Two parameters below biology cannot both be true, such as a length at maturity above the greatest length. One of them may be a default that was not replaced; the methods page lists all.", "biology: {growth: {female-mature: 28 mm}}, with female-max at its default", "replace both, or neither"},
	{"outside-range", "a reading outside your range", "The reading lies outside the water-range that journal.yaml gives for this tank. If it is true, nothing needs to be done: the warning is for slips.", "water: {ph: 8.4}, with water-range: {ph: 6.8-7.8}", "mend the number, or widen the range"},
	{"unusual-reading", "an unusual reading", "The reading lies outside the span that this manual lists as usual for tanks of dwarf shrimp. Often the point or the unit is wrong: hardness in ppm is 18 times the number of degrees.", "water: {gh: 140}", "water: {gh: 140 ppm}; or give your own water-range in journal.yaml"},
	{"unusual-number", "an unusual number", "The number is possible and hardly ever true: a female with one egg or with thousands, a thousand shrimp at once, an age that no shrimp reaches, more water changed than the tank holds.",
		"age: 40 months", "age: 4 months"},
	{"nothing-happened", "an event of nothing", "An event is what happened. A count or a look for young may find none, and that is worth noting; no death is not.", "died: 0", "died: 1; without a death no event"},
	{"unusual-length", "an unusual length", "Dwarf shrimp measure from about 2 mm to 30 mm. Often millimetres and centimetres were mixed up.", "measured: [210]", "measured: [21]"},
}

// eventExplanations is about events.
var eventExplanations = []Explanation{
	{"unknown-event", "an event that does not exist", "An event begins with one of the kinds of this manual.", "bered: 2", "berried: 2"},
	{"no-kind", "details without an event", "The item tells details, such as a brood or a number of eggs, but not what happened.", "- brood: amber", "- hatched: amber"},
	{"two-kinds", "two events in one", "Each item of the list is one event. Two kinds stand in the same item.", "- berried: 1, and below it moulted: 2 without a hyphen", "put a hyphen before the second"},
	{"not-an-event", "not an event", "An item of the list is a kind, a colon and a value.", "- died", "- died: 1"},
}
