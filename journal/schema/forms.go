package schema

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"pleopod/journal"
)

// The parts of patterns. A pattern holds for the whole text.
const (
	space    = `[\s\x{00a0}\x{202f}\x{2009}]*`
	date     = `(19[5-9]|2[01][0-9])[0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])`
	number   = `\+?([0-9]{1,12}(\.[0-9]{0,9})?|\.[0-9]{1,9})`
	whole    = `[0-9]{1,9}`
	name     = `[\p{L}\p{Nd}][\p{L}\p{M}\p{Nd} '’-]*`
	tankID   = `[a-z0-9]+(-[a-z0-9]+)*`
	address  = `https?://[^/\s?#@]+(/[^\s?#]*)?`
	language = `[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*`
	inside   = `[^\\:/~][^\\:]*`
)

// form is the schema of a word's value.
func form(word journal.Word) object {
	switch word.Form {
	case journal.FormText:
		return text()
	case journal.FormWords:
		return anyOf(null(), list(short()), short())
	case journal.FormDate:
		return pattern(date)
	case journal.FormFlag:
		return object{"type": "boolean"}
	case journal.FormTrue:
		return object{"const": true}
	case journal.FormChoice:
		return choice(word)
	case journal.FormWhole:
		return wholeNumber(word)
	case journal.FormNumber, journal.FormAmount:
		return amount(word, "")
	case journal.FormReading:
		return amount(word, "<?"+space)
	case journal.FormAmounts:
		return anyOf(amount(word, ""), object{"type": "array", "items": amount(word, ""), "minItems": 1})
	case journal.FormCount:
		return anyOf(wholeNumber(word), classes())
	case journal.FormWho:
		return anyOf(wholeNumber(word), classes(), names())
	case journal.FormName, journal.FormNames, journal.FormNameOrNames, journal.FormNameOrTrue:
		return nameForm(word.Form)
	case journal.FormTank, journal.FormTanks:
		return tankForm(word.Form)
	}
	return structure(word)
}

// structure is the schema of a value that holds others, or of a path or an address.
func structure(word journal.Word) object {
	words := journal.Words()
	switch word.Form {
	case journal.FormReadings:
		return mapping(words.Readings)
	case journal.FormRanges:
		return anyOf(null(), ranges(words.Readings))
	case journal.FormGrades:
		return object{"type": "object", "additionalProperties": wholeNumber(journal.Word{Form: journal.FormWhole})}
	case journal.FormMapping:
		return anyOf(null(), mapping(word.Keys))
	case journal.FormTankList:
		return object{"type": "object", "minProperties": 1,
			"propertyNames":        object{"pattern": "^" + tankID + "$", "maxLength": journal.LongestName},
			"additionalProperties": anyOf(null(), object{"$ref": "#/$defs/tank"})}
	case journal.FormBiology:
		return anyOf(null(), object{"$ref": "#/$defs/biology"})
	case journal.FormEvents:
		return events()
	case journal.FormPath:
		return pattern(inside)
	case journal.FormAddress:
		return pattern(address)
	case journal.FormLanguage:
		return pattern(language)
	}
	panic("schema: a word has the form " + string(word.Form) + ", which has no schema")
}

func null() object { return object{"type": "null"} }

// anyOf is a value of one of several forms.
func anyOf(forms ...object) object { return object{"anyOf": forms} }

// pattern is a text of a shape. Spaces around it do not count.
func pattern(shape string) object {
	return object{"type": "string", "pattern": ecma("^" + space + "(" + shape + ")" + space + "$")}
}

// codePoint is a code point as Go writes it in a pattern.
var codePoint = regexp.MustCompile(`\\x\{([0-9a-f]{4})\}`)

// ecma writes a pattern so that it means the same in ECMA-262 and in Go: code points stand as themselves.
func ecma(shape string) string {
	return codePoint.ReplaceAllStringFunc(shape, func(escaped string) string {
		var r rune
		if _, err := fmt.Sscanf(escaped, `\x{%x}`, &r); err != nil {
			panic("schema: " + escaped)
		}
		return string(r)
	})
}

// text is any single value that is not empty: YAML takes 12 for a number where the keeper means a text.
func text() object {
	return object{"type": []string{"string", "number", "boolean"}, "pattern": `\S`, "maxLength": journal.LongestText}
}

// short is a text of a few words.
func short() object {
	return object{"type": []string{"string", "number", "boolean"}, "pattern": `\S`, "maxLength": journal.LongestName}
}

// list is a list of different items.
func list(item object) object {
	return object{"type": "array", "items": item, "uniqueItems": true}
}

// choice is one of a word's choices. The reader does not mind letter case and other spellings of a unit.
func choice(word journal.Word) object {
	also := append([]string{}, word.Allowed...)
	for _, quantity := range []journal.Quantity{journal.QuantityTemperature, journal.QuantityVolume, journal.QuantityLength, journal.QuantityGH} {
		units, _ := journal.Spellings(quantity)
		for _, unit := range units {
			if strings.Contains(" "+strings.Join(word.Allowed, " ")+" ", " "+unit.Symbol+" ") {
				also = append(also, unit.Also...)
			}
		}
	}
	return anyOf(object{"enum": word.Allowed}, pattern(anyCase(also)))
}

// anyCase is a pattern of one of several words in any letter case. A space in them may be several.
func anyCase(words []string) string {
	var all []string
	for _, word := range words {
		var one strings.Builder
		for _, r := range word {
			lower, upper := unicode.ToLower(r), unicode.ToUpper(r)
			switch {
			case r == ' ':
				one.WriteString(` +`)
			case lower != upper:
				one.WriteString("[" + string(lower) + string(upper) + "]")
			default:
				one.WriteString(regexp.QuoteMeta(string(r)))
			}
		}
		all = append(all, one.String())
	}
	return strings.Join(all, "|")
}

func wholeNumber(word journal.Word) object {
	low, high := journal.Reach(journal.Word{Form: journal.FormWhole, Name: word.Name})
	return anyOf(object{"type": "integer", "minimum": low, "maximum": high}, pattern(whole))
}

// spellings lists every way to write a unit of a word, and says whether a number without one is understood.
func spellings(word journal.Word) (spelled []string, bare bool) {
	units, bare := journal.Spellings(word.Quantity)
	for _, unit := range units {
		spelled = append(append(spelled, unit.Symbol), unit.Also...)
	}
	return spelled, bare
}

// amount is a number, or a text of a number and its unit.
func amount(word journal.Word, before string) object {
	spelled, bare := spellings(word)
	after := ""
	if len(spelled) > 0 {
		after = space + "(" + anyCase(spelled) + `)\.?`
	}
	if !bare {
		return pattern(number + after)
	}
	if after != "" {
		after = "(" + after + ")?"
	}
	low, high := journal.Reach(word)
	alone := object{"type": "number", "minimum": low, "maximum": high}
	if word.Positive {
		alone["exclusiveMinimum"] = 0
	}
	return anyOf(alone, pattern(before+number+after))
}

// classes is a count told apart.
func classes() object {
	m := mapping(journal.Words().Classes)
	m["minProperties"] = 1
	return m
}

func nameText() object {
	n := pattern(name)
	n["maxLength"] = journal.LongestName
	return n
}

// names is a list of names, at least one.
func names() object {
	n := list(nameText())
	n["minItems"] = 1
	return n
}

func nameForm(form journal.Form) object {
	switch form {
	case journal.FormNames:
		return names()
	case journal.FormNameOrNames:
		return anyOf(nameText(), names())
	case journal.FormNameOrTrue:
		return anyOf(nameText(), object{"const": true})
	}
	return nameText()
}

func tankForm(form journal.Form) object {
	one := anyOf(pattern(tankID), object{"type": "integer", "minimum": 0})
	if form == journal.FormTank {
		return one
	}
	several := list(one)
	several["minItems"] = 1
	return anyOf(pattern(tankID), object{"type": "integer", "minimum": 0}, several)
}

// ranges is a mapping of readings to two numbers with a hyphen.
func ranges(readings []journal.Word) object {
	properties := object{}
	for _, word := range readings {
		spelled, _ := spellings(word)
		unit := ""
		if len(spelled) > 0 {
			unit = "(" + space + "(" + anyCase(spelled) + `)\.?)?`
		}
		span := pattern(number + space + "(-|–|to)" + space + number + unit)
		span["description"] = word.About + "; for example: " + map[bool]string{true: "20-26 C", false: "6-10"}[word.Quantity == journal.QuantityTemperature]
		properties[word.Name] = span
	}
	return object{"type": "object", "properties": properties, "additionalProperties": false}
}
