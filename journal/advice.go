package journal

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/goccy/go-yaml/token"
)

// What keepers write where the format wants something else, and what to type instead.

var (
	// looseCount is a number with a doubt: "~20", "about 20", "20+".
	looseCount = regexp.MustCompile(`^(?:[~≈<>≤≥+x×]|[A-Za-z. ]+ )?\s*(\d{1,6})\s*(?:[+?!.x×]*|ish)$`)
	// keyWithValue is a key and its value with another mark than a colon between them: "ph 7.2", "ph=7.2".
	keyWithValue = regexp.MustCompile(`^([a-zA-Z][a-zA-Z-]*)\s*[ =：]\s*(.+)$`)
	// unsure is a word for what nobody knows.
	unsure = regexp.MustCompile(`(?i)^(?:\?+|unknown|unclear|unsure|uncertain|not (?:known|sure|counted|measured)|no idea|don'?t know|n/?a|tbd)$`)
)

// numberWords are the numbers from one on.
var numberWords = []string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// vague is a word for a number that nobody counted.
var vague = regexp.MustCompile(`(?i)^(a )?(few|couple|some|several|many|lots|plenty)\b`)

var (
	// animals is the word that people put behind a number of shrimp.
	animals = regexp.MustCompile(`(?i) +shrimps?$`)
	// sum is "20 + 5", and grouped a whole number with a mark between its thousands, or with zeros behind its point.
	sum     = regexp.MustCompile(`^\d{1,6}(?: *\+ *\d{1,6})+$`)
	grouped = regexp.MustCompile(`^(\d{1,3})\.(\d{3})$|^(\d{1,6})\.0+$`)
)

// countHint proposes the whole number that a text may mean, and a middle one for a span.
func countHint(text string) string {
	text = animals.ReplaceAllString(text, "")
	if i := slices.Index(numberWords, strings.ToLower(text)); i >= 0 {
		return "write " + strconv.Itoa(i+1)
	}
	if slices.Contains([]string{"a", "an"}, strings.ToLower(text)) {
		return "write 1"
	}
	if sum.MatchString(text) {
		total := 0
		for _, part := range digitsOnly.FindAllString(text, -1) {
			number, _ := strconv.Atoi(part)
			total += number
		}
		return "write " + strconv.Itoa(total)
	}
	if m := grouped.FindStringSubmatch(text); m != nil {
		return "write " + m[1] + m[2] + m[3]
	}
	if m := looseCount.FindStringSubmatch(text); m != nil {
		return "write " + m[1]
	}
	if vague.MatchString(text) || unsure.MatchString(text) {
		return "write the number that you saw"
	}
	if from, to, ok := spanOf(text); ok {
		low, _ := strconv.ParseFloat(from, 64)
		high, _ := strconv.ParseFloat(to, 64)
		return "write one number, such as " + strconv.Itoa(int(low+high)/2)
	}
	return numberHint(text)
}

// broodHint says what to write where a brood or true was meant: a number belongs to a key of its own.
func (c *cell) broodHint(text string) string {
	kind := c.context.kind
	if kind == nil || c.found.word.Form != FormNameOrTrue {
		return ""
	}
	m := countedYoung.FindStringSubmatch(text)
	for _, word := range kind.Attributes {
		if m != nil && word.Form == FormWhole {
			return "write " + kind.Name + ": true, or the name of the brood, and below it " + word.Name + ": " + m[1]
		}
	}
	switch {
	case m != nil:
		return "write " + kind.Name + ": true, or put the name of the brood in quotes: " + quote(text)
	case isYes(text):
		return "write " + kind.Name + ": true"
	}
	return ""
}

// countedYoung is a number, with a doubt or of young or eggs, where a brood belongs; "batch 1" is a brood.
var countedYoung = regexp.MustCompile(`(?i)^(?:[~≈<>≤≥]|(?:about|around|circa|ca\.?|approx\.?|roughly|maybe|some|nearly|almost|over|at least|up to|more than|only) )?\s*` +
	`(\d{1,6})\s*(?:[+?]*| +(?:tiny +|small +)?(?:eggs?|bab(?:y|ies)|young|fry|shrimplets?|juveniles?|shrimps?))$`)

// isYes reports a word that people write for true.
func isYes(text string) bool {
	return slices.Contains([]string{"yes", "y", "on"}, strings.ToLower(text))
}

var (
	// classPart is one class in "5 adults, 3 babies", betweenThe what stands between two, and unparted where nothing does.
	classPart  = regexp.MustCompile(`^(?:(\d{1,6}|an?|one) +)?(?:grown +)?([A-Za-z]+)(?: +(\d{1,6}))?$`)
	betweenThe = regexp.MustCompile(` *(?:,? and |[,;+&/]) *`)
	unparted   = regexp.MustCompile(`([A-Za-z]) +(\d+ +[A-Za-z])`)
)

// several returns the parts of a text that lists more than one, "Poppy, Ruby & Pearl", or nil.
func several(text string) []string {
	parts := betweenThe.Split(singleSpaced(text), -1)
	if len(parts) < 2 || slices.Contains(parts, "") {
		return nil
	}
	return parts
}

// bracketed writes items as a list behind its key.
func bracketed(name string, items []string) string {
	return "write " + name + ": [" + strings.Join(items, ", ") + "]"
}

// namesHint proposes the list of names that a text may mean. Digits belong to a count rather than to a name.
func namesHint(name, text string) string {
	shaped := func(text string) bool { return nameShape(text) && unicode.IsLetter([]rune(text)[0]) }
	all := several(text)
	if all == nil && shaped(text) && digitsOnly.FindString(text) == "" {
		return "for a shrimp of that name " + bracketed(name, []string{text})
	}
	for i := range all {
		if all[i] = strings.Trim(all[i], `"'`+typographic); !shaped(all[i]) {
			return ""
		}
	}
	if all == nil {
		return ""
	}
	return "for several names " + bracketed(name, all)
}

// noneNamed says what to write for an item of a list of shrimp that counts some, "1 female", or names several.
func (c *cell) noneNamed(text string) string {
	word := c.found.word
	if word.Form != FormWho && word.Form != FormNames {
		return ""
	}
	if word.Form == FormWho && classesHint(word.Name, text) != "" {
		nodes, _ := c.items(c.node)
		var all []string
		for _, node := range nodes {
			single, _ := scalarOf(node)
			all = append(all, single.text)
		}
		return or(classesHint(word.Name, strings.Join(all, ", ")), "names and counts are two events")
	}
	if several(text) != nil {
		return namesHint(word.Name, text)
	}
	return ""
}

// leaveOut says of a key whose value nobody knows that it is not needed, where that is so.
func (c *cell) leaveOut() string {
	word, context := c.found.word, c.context
	if !c.isSingle || !unsure.MatchString(strings.TrimSpace(c.single.text)) || word.Required || context.owner == entryOwner ||
		context.kind != nil && word.Name == context.kind.Name {
		return ""
	}
	return notKnown(word)
}

func notKnown(word *Word) string {
	return "leave out " + quote(word.Name) + ": what is not known is not written"
}

// classesHint proposes the classes in which a text counts: "5 adults, 3 babies".
func classesHint(name, text string) string {
	var classes []string
	seen := map[string]bool{}
	parts := betweenThe.Split(text, -1)
	if len(parts) == 1 {
		parts = betweenThe.Split(unparted.ReplaceAllString(text, "$1, $2"), -1)
	}
	for _, part := range parts {
		m := classPart.FindStringSubmatch(part)
		if m == nil || m[1] != "" && m[3] != "" {
			return ""
		}
		class, number := calledSo(classWords, m[2]), m[1]+m[3]
		if len(class) == 0 || seen[class[0]] || number == "" && !slices.Contains([]string{"female", "male"}, m[2]) {
			return ""
		}
		if !wholeShape.MatchString(number) {
			number = "1"
		}
		seen[class[0]] = true
		classes = append(classes, class[0]+": "+number)
	}
	return "write " + name + ": {" + strings.Join(classes, ", ") + "}"
}

// misplaced says where a key belongs that stands among the keys of an entry, or with the wrong event.
func misplaced(found child, context *context) string {
	single, _ := scalarOf(found.value)
	if strings.Contains(single.text, "\n") {
		single.text = ""
	}
	switch kind := context.kind; {
	case kind != nil && kind.Form == FormNameOrTrue && found.name == "brood" && nameShape(single.text):
		return "write " + kind.Name + ": " + single.text
	case kind != nil:
		return elsewhere(found.name)
	case context.owner != entryOwner:
		return ""
	case kindOf(found.name) != nil:
		return "it is an event: write it below events, as   - " + found.name + ": " + or(single.text, kindOf(found.name).Example)
	case find(readingWords, found.name) != nil:
		return "write water: {" + found.name + ": " + or(single.text, find(readingWords, found.name).Example) + "}"
	}
	if hint := elsewhere(found.name); hint != "" {
		return hint + ", below events"
	}
	return ""
}

// keyAdvice is what to do about keys that are no words of a place. The place is told by a word that it has, and the value
// stands for VALUE. The key "" is every key that comes near no word of the place.
var keyAdvice = []struct {
	place  string
	keys   []string
	advice string
}{
	{"unsexed", []string{"adult", "adults", "grown"}, "write unsexed: VALUE, or females and males"},
	{"moved", []string{"from"}, "the tank that they leave is tank: VALUE"},
	{"berried", []string{"name", "names", "female", "mother"}, "a shrimp with a name is written as berried: [VALUE]"},
	{"died", []string{"name", "names"}, "a shrimp with a name is written as died: [VALUE]"},
	{"note", []string{""}, "what is no word of the format belongs in its note or in the text"},
	{"as-of", []string{"name", "volume", "heater", "since", "fish", "cover", "capacity", "water-range"}, "it tells of a tank: indent it below the id of that tank"},
	{"visibility", []string{"photo", "photos", "picture", "pictures", "image", "images"}, "a picture goes into the text: ![Ruby and her eggs](../photos/ruby.jpg)"},
	{"visibility", []string{"note", "notes", "text", "comment"}, "write it below the second line of hyphens"},
	{"visibility", []string{""}, "what is no word of the format belongs in the text, below the second line of hyphens"},
	{"water-range", []string{""}, "what else there is to tell of a tank belongs in the text of an entry"},
}

// keyHint says what to do about a key that is none of the words.
func keyHint(key, value string, words []Word) string {
	for _, row := range keyAdvice {
		if slices.Contains(row.keys, strings.ToLower(key)) && find(words, row.place) != nil {
			return strings.ReplaceAll(row.advice, "VALUE", value)
		}
	}
	return ""
}

// choiceHint says how to write a choice whose word stands as the key: "private: true" for "visibility: private".
func choiceHint(key, value string, words []Word, nearest []string) string {
	if len(nearest) != 1 || !isYes(value) && !strings.EqualFold(value, "true") {
		return ""
	}
	word := find(words, nearest[0])
	if choice := chosen(word.Allowed, key); choice != "" {
		return "write " + word.Name + ": " + choice
	}
	return ""
}

// eventAdvice is what to write for words that may be several events; the value stands for VALUE.
var eventAdvice = map[string]string{
	"lost": "for shrimp that died write died: VALUE, for eggs that she lost dropped: true",
}

// eventHint says what to write for an event that does not exist, when it may be another.
func eventHint(written, value string, kind *EventKind) string {
	if advice := eventAdvice[fold(written)]; advice != "" {
		return strings.ReplaceAll(advice, "VALUE", value)
	}
	if kind == nil || kind.Name != "removed" {
		return ""
	}
	if reason := chosen(find(kind.Attributes, "reason").Allowed, written); reason != "" {
		return "write removed: " + value + ", and below it reason: " + reason
	}
	return ""
}

// choiceWords are words that people write for one of a few allowed ones.
var choiceWords = []struct{ written, meant string }{
	{"hidden", "private"}, {"secret", "private"}, {"no", "private"}, {"false", "private"}, {"yes", "public"}, {"true", "public"},
	{"draft", "private"}, {"gift", "given"}, {"gave", "given"}, {"gave away", "given"}, {"given away", "given"}, {"sale", "sold"}, {"f", "female"}, {"m", "male"},
	{"guess", "glance"}, {"estimate", "glance"}, {"rough", "glance"}, {"exact", "emptied"},
}

// chosen returns the allowed word that a text is, or is another word for, or "".
func chosen(allowed []string, text string) string {
	for _, word := range allowed {
		if fold(word) == fold(text) {
			return word
		}
	}
	for _, word := range choiceWords {
		if fold(word.written) == fold(text) && slices.Contains(allowed, word.meant) {
			return word.meant
		}
	}
	return ""
}

// keysInValue recognises "berried: 1, eggs: 20": keys of an event that stand in one line, as they would in braces.
var keysInValue = regexp.MustCompile(`, *([a-z][a-z-]*)$`)

// colonInValue says what to do about a colon in a value: another key gets a line of its own, a text gets quotes.
func colonInValue(p *page, tk *token.Token) string {
	if before := tk.Prev; before != nil && before.Prev != nil && before.Prev.Value == "events" {
		return "write it in the next line:   - " + p.restOf(tk)
	}
	if m := keysInValue.FindStringSubmatch(tk.Value); m != nil && formWord(m[1]) {
		return "put " + m[1] + ": on a line of its own, below the key before it"
	}
	return asText(p.restOf(tk))
}
