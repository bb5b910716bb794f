package journal

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// syntaxWords turns the YAML parser's messages into a keeper's language.
var syntaxWords = []struct {
	says    string
	message string
	hint    func(p *page, tk *token.Token) string
}{
	{"mapping value is not allowed", "a colon inside a value", colonInValue},
	{"cannot start any token", "a tab; indent with spaces", none},
	{"found a tab character", "a tab; indent with spaces", none},
	{"could not find end character of double-quoted", "a double quote is opened and never closed", closeQuote},
	{"could not find end character of single-quoted", "a single quote is opened and never closed; an apostrophe inside single quotes is written twice", none},
	{"sequence end token", "a [ is opened and never closed", none},
	{"could not find flow map content", "what stands in braces is not written right", none},
	{"flow mapping", "what stands in braces is not written right; close it with } and put a comma between its keys", none},
	{"mapping end token", "a { is opened and never closed", none},
	{"is a reserved character", "a value may not start with @ or a back-quote unless it is in quotes", wholeValue},
	{"unexpected key name", "a key where none can stand; look at the indent, and for a value that is missing in the line above", none},
	{"value is not allowed in this context", "a value where none can stand; look at the indent and for a missing colon above", bracketedText},
	{"non-map value is specified", "a line without a colon; write a key, a colon, a space and the value", none},
	{"block sequence entries are not allowed", "a list item where none can stand; look at the indent", wholeValue},
}

// closeQuote says what ends a text in double quotes.
func closeQuote(*page, *token.Token) string { return "write \" at the end of the text" }

func none(*page, *token.Token) string { return "" }

// valueOf is a value with its key before it in the same line.
var valueOf = regexp.MustCompile(`^ *(?:- +)?[A-Za-z-]+:\s+(\S.*)$`)

// wholeValue shows how the value of a line is written that is a text and begins with a mark of the form.
func wholeValue(p *page, tk *token.Token) string {
	if m := valueOf.FindStringSubmatch(lineAt(p.text, p.at(tk).Line)); m != nil {
		return asText(m[1])
	}
	return ""
}

// bracketedText is wholeValue for a text that begins with a word in brackets: "[sic] it says".
func bracketedText(p *page, tk *token.Token) string {
	if m := valueOf.FindStringSubmatch(lineAt(p.text, p.at(tk).Line)); m != nil && strings.ContainsAny(m[1][:1], "[{") {
		return asText(m[1])
	}
	return ""
}

// joined reports whether a value goes on in the next line, and that line was meant to be a key.
func joined(tk *token.Token) bool {
	return tk.Next != nil && tk.Next.Type == token.MappingValueType && tk.Next.Position.Line > tk.Position.Line
}

// textBehind reports whether a text goes on behind its closing quote: "Poppy" is berried.
func textBehind(tk *token.Token) bool {
	before := tk.Prev
	return before != nil && before.Position.Line == tk.Position.Line && tk.Type == token.StringType && !formWord(tk.Value) &&
		(before.Type == token.DoubleQuoteType || before.Type == token.SingleQuoteType)
}

// restOf returns what stands in a line from a word on, up to a comment or to where a list or a group in brackets goes on.
func (p *page) restOf(tk *token.Token) string {
	at := p.at(tk)
	line := []rune(lineAt(p.text, at.Line))
	end, depth := len(line), 0
	for next := tk.Next; next != nil && next.Position.Line == tk.Position.Line; next = next.Next {
		switch next.Type {
		case token.SequenceStartType, token.MappingStartType:
			depth++
		case token.SequenceEndType, token.MappingEndType:
			depth--
		}
		if depth < 0 || depth == 0 && next.Type == token.CollectEntryType || next.Type == token.CommentType && strings.HasPrefix(next.Value, " ") {
			end = max(0, min(end, next.Position.Column-1))
			break
		}
	}
	return strings.TrimSpace(string(line[min(at.Column-1, end):end]))
}

// asText shows how a text is written that is not understood without quotes, and nothing of it is cut off.
func asText(text string) string {
	const most = 200
	mark := `"`
	if strings.ContainsAny(text, `"\\`) {
		mark, text = "'", strings.ReplaceAll(text, "'", "''")
	}
	if len(text) > most {
		return "put " + mark + " before the whole text and behind it"
	}
	return "write it as " + mark + text + mark
}

// wholeText shows how to quote a text that goes on behind a quote, as that of 'It's here' behind the apostrophe. Where
// the quotes were meant to hold all of it, they are not part of the text.
func (p *page) wholeText(first, next *token.Token) string {
	text := p.restOf(first)
	if len(text) > 1 && text[len(text)-1] == text[0] && next.Position.Column-first.Position.Column == len([]rune(first.Value))+2 {
		text = text[1 : len(text)-1]
	}
	return asText(text)
}

var (
	decimalComma = regexp.MustCompile(`^([+-]?\d+),(\d+)`)
	commaInside  = regexp.MustCompile(`(\d),(\d)`)
	// looseNumber is a number with a doubt before it: "~8", "about 21.5 C".
	looseNumber = regexp.MustCompile(`^(?:[~≈]|[A-Za-z]+\.? )\s*(\d[\d.]*(?: ?[^\d,]+)?)$`)
	thousands   = regexp.MustCompile(`^[+-]?\d{1,3}(,\d{3})+$`)
	looseDate   = regexp.MustCompile(`^(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})$`)
	dayFirst    = regexp.MustCompile(`^(\d{1,2})([-/. ])(\d{1,2})[-/. ](\d{4})$`)
	closeDate   = regexp.MustCompile(`^(\d{4})-?(\d{2})-?(\d{2})(?:[T ]+[\d:]+.*)?$`)
	shortYear   = regexp.MustCompile(`^(\d{1,2})([/.])(\d{1,2})[/.](\d{2})$`)
	noCentury   = regexp.MustCompile(`^\d{1,2}[- ]\d{1,2}[- ]\d{2}$`)
	// fromToday is a day that is told from the day of writing; ago is one that can be counted back.
	fromToday = regexp.MustCompile(`(?i)^(?:now|tonight|(?:last|this|on) [a-z]+|[a-z]+day|\w+ (?:day|week|month)s? ago)$`)
	ago       = regexp.MustCompile(`(?i)^(\d{1,3}) (day|week)s? ago$`)
	serial    = regexp.MustCompile(`^\d{5}$`)
	// besideDate is what stands in a date in words beside the day, the month and the year.
	besideDate = regexp.MustCompile(`(?i)^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\b|\b(?:of|the)\b|(?:st|nd|rd|th)\b|[,.'’-]`)
	// isoDate is a date among other words; noYear is the day and the month alone, in numbers or with the month in words.
	isoDate   = regexp.MustCompile(`\b\d{4}-\d{2}-\d{2}\b`)
	noYear    = regexp.MustCompile(`^(?:(\d{1,2}([./])\d{1,2})[./]?|(\d{2}-\d{2})|([A-Za-z]{3,9}\.? \d{1,2}(?:st|nd|rd|th)?|\d{1,2}(?:st|nd|rd|th|\.)? [A-Za-z]{3,9}\.?))$`)
	monthName = regexp.MustCompile(`([A-Za-z]{3})[A-Za-z]*`)
)

// shortMonth writes a date in words with nothing but its day, the first letters of its month, and its year.
func shortMonth(text string) string {
	return singleSpaced(monthName.ReplaceAllString(besideDate.ReplaceAllString(text, " "), "$1"))
}

// trapHint names the invisible or look-alike characters in a text that was not understood.
func trapHint(text string) string {
	for _, r := range text {
		switch {
		case strings.ContainsRune(typographic, r):
			return "it holds typographic quotes; write " + straight(text)
		case strings.ContainsRune("‘’‚", r):
			return "it holds a typographic apostrophe; type a straight one (')"
		case strings.ContainsRune(noBreak, r):
			return "it holds a no-break space, which looks like a space; type a plain one"
		case r >= '０' && r <= '９':
			return "it holds full-width digits; write " + narrow(text)
		case unicode.Is(unicode.Cf, r):
			return "it holds an invisible character; delete the word and type it again"
		case strings.ContainsRune("‐‑‒–—−", r):
			return "it holds a long dash; type a hyphen (-)"
		}
	}
	return ""
}

// noBreak is the spaces at which no line is broken. Pages of the web and some editors put them in place of plain ones.
const noBreak = "\u00a0\u202f\u2007"

// typographic is the quotes that editors put in place of straight ones.
const typographic = "“”„«»‟"

// straight takes typographic quotes away at the ends, and makes straight ones of those inside.
func straight(text string) string {
	text = strings.TrimSpace(strings.Trim(text, typographic))
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(typographic, r) {
			return '"'
		}
		return r
	}, text)
}

// narrow turns full-width forms into ordinary characters.
func narrow(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= '！' && r <= '～' {
			return r - '！' + '!'
		}
		return r
	}, text)
}

// dateHint proposes the date that a text may mean.
func dateHint(text string) string {
	if trap := trapHint(text); trap != "" {
		return trap
	}
	if m := looseDate.FindStringSubmatch(text); m != nil {
		return properDate(m[1], m[2], m[3])
	}
	if m := dayFirst.FindStringSubmatch(text); m != nil {
		return turnedDate(m[4], m[1], m[3], m[2] == ".")
	}
	for _, layout := range []string{"2 Jan 2006", "Jan 2 2006", "2006 Jan 2"} {
		if day, err := time.Parse(layout, shortMonth(text)); err == nil {
			return "write it as " + DayAt(day).String()
		}
	}
	if m := closeDate.FindStringSubmatch(text); m != nil {
		return properDate(m[1], m[2], m[3])
	}
	if m := shortYear.FindStringSubmatch(text); m != nil {
		return turnedDate("20"+m[4], m[1], m[3], m[2] == ".")
	}
	if all := isoDate.FindAllString(text, -1); len(all) > 0 {
		return "a date is one day and nothing else: write it as " + strings.Join(all, " or ")
	}
	for _, layout := range []string{"2 Jan 06", "Jan 2 06"} {
		if day, err := time.Parse(layout, shortMonth(text)); err == nil {
			return "write it as " + DayAt(day).String()
		}
	}
	if noCentury.MatchString(text) {
		return "write the year first, with four digits"
	}
	if fromToday.MatchString(text) {
		return "write the day itself, such as 2026-03-14"
	}
	if serial.MatchString(text) {
		days, _ := strconv.Atoi(text)
		return fmt.Sprintf("a spreadsheet counts this as the day %s", spreadsheetEpoch+Day(days))
	}
	return ""
}

// daysBack is how many days before the day of writing a word means, and unitDays how many days a unit has.
var (
	daysBack = map[string]int{"now": 0, "tonight": 0, "today": 0, "yesterday": 1}
	unitDays = map[string]int{"day": 1, "week": 7}
)

// dateHint proposes the date of a day that is told from another, such as "yesterday" in an entry.
func (from reckoned) dateHint(text string) string {
	text = strings.ToLower(text)
	days, known := daysBack[text]
	if m := ago.FindStringSubmatch(text); m != nil {
		count, _ := strconv.Atoi(m[1])
		days, known = count*unitDays[m[2]], true
	}
	if m := noYear.FindStringSubmatch(text); m != nil {
		return from.withYear(m)
	}
	if !known || from.day == 0 {
		return ""
	}
	return "write it as " + (from.day - Day(days)).String() + ", counted from " + from.what
}

// withYear proposes a date for a day and a month, in the year of the day that it is told from.
func (from reckoned) withYear(m []string) string {
	if from.day == 0 {
		return "write the year too, as in 2026-03-14"
	}
	year := strconv.Itoa(from.day.Time().Year())
	switch {
	case m[1] != "":
		return dateHint(m[1] + m[2] + year)
	case m[3] != "":
		return dateHint(year + "-" + m[3])
	}
	return dateHint(m[4] + " " + year)
}

// spreadsheetEpoch is day 0 of the day numbers of spreadsheets: 1899-12-30, for numbers above 60.
const spreadsheetEpoch Day = unixEpoch - 25569

func properDate(year, month, day string) string {
	two := func(digits string) string { return ("0" + digits)[len(digits)-1:] }
	text := year + "-" + two(month) + "-" + two(day)
	if _, err := ParseDay(text); err != nil {
		return ""
	}
	return "write it as " + text
}

// turnedDate proposes a date for one with the year last. Dots mean that the day stands first; slashes may mean either.
func turnedDate(year, first, second string, dayLeads bool) string {
	ifDayLeads, ifMonthLeads := properDate(year, second, first), properDate(year, first, second)
	switch {
	case ifMonthLeads == "" || (dayLeads && ifDayLeads != "") || ifDayLeads == ifMonthLeads:
		return ifDayLeads
	case ifDayLeads == "":
		return ifMonthLeads
	}
	return ifDayLeads + ", or " + strings.TrimPrefix(ifMonthLeads, "write it as ") + " if the month stands first"
}

// numberHint proposes the number that a text may mean.
func numberHint(text string) string {
	if trap := trapHint(text); trap != "" {
		return trap
	}
	if thousands.MatchString(text) {
		return "write " + strings.ReplaceAll(text, ",", "") + ", or with a point " + strings.Replace(text, ",", ".", 1)
	}
	if from, to, ok := spanOf(pointed(text)); ok {
		return "a reading is one number: " + from + ", " + to + ", or <" + to + " for less than that"
	}
	if decimalComma.MatchString(text) {
		return "write " + pointed(text)
	}
	if m := looseNumber.FindStringSubmatch(text); m != nil {
		return "write " + m[1]
	}
	return ""
}

// spanOf splits "0-0.25" and "0 to 0.25".
func spanOf(text string) (from, to string, ok bool) {
	m := spanText.FindStringSubmatch(text)
	if m == nil {
		return "", "", false
	}
	return m[1], m[2], true
}

var spanText = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(?:-|–|—|to|\.\.)\s*(\d+(?:\.\d+)?)`)

// tornOff recognises "{ph: 7,4}": inside braces a comma ends the value, and the 4 stands where a key belongs. It gives
// such a piece back to the value before it.
func tornOff(before *child, name string, value ast.Node) bool {
	single, ok := scalarOf(before.value)
	if !ok || !digits.MatchString(single.text) || !digits.MatchString(name) || !isImplicitNull(value) {
		return false
	}
	before.torn = or(before.torn, single.text) + "," + name
	return true
}

// tornApart reports a value that commas have torn apart.
func (p *page) tornApart(found child, hint string) {
	p.fail(p.at(startOf(found.value)), issue{code: "decimal-comma",
		message: quote(found.name) + " is " + quote(found.torn) + "; a decimal number has a point", hint: or(hint, "write "+pointed(found.torn))})
}

// pointed writes the decimal commas of a text as points.
func pointed(text string) string { return commaInside.ReplaceAllString(text, "$1.$2") }

// digits is a number, or a reading below one.
var digits = regexp.MustCompile(`^<?\d+`)

// joinedItems recognises "[22,5]": two lengths, or one with a decimal comma.
func (c *cell) joinedItems(before, after ast.Node) bool {
	first, second := startOf(before), startOf(after)
	return wholeShape.MatchString(first.Value) && oneDigit.MatchString(second.Value) &&
		first.Position.Line == second.Position.Line && second.Position.Column == first.Position.Column+len(first.Value)+1
}

// oneDigit is a number of one digit, with or without a unit.
var oneDigit = regexp.MustCompile(`^\d(\D.*)?$`)

// lostText recognises a comment that was hardly meant to be one: "title: Tank #1".
func lostText(tk, before *token.Token) bool {
	return tk.Type == token.CommentType && before != nil && (before.Type == token.StringType || before.Type == token.MappingValueType) &&
		before.Position.Line == tk.Position.Line && tk.Value != "" && tk.Value[0] != ' ' && tk.Value[0] != '#'
}
