package draft

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"pleopod/journal"
)

// File is a text and where it goes, relative to the journal's folder.
type File struct {
	Path string
	Text string
}

// plainText is a text that YAML takes for a text without quotes.
var plainText = regexp.MustCompile(`^\pL[\pL\pN .,!?()'-]*[\pL\pN.!?)]$`)

// reserved is what YAML takes for something else than a text.
var reserved = []string{"true", "false", "yes", "no", "on", "off", "null", "nan", "inf"}

// yamlText writes a text as a YAML value on one line.
func yamlText(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if plainText.MatchString(text) && !slices.Contains(reserved, strings.ToLower(text)) {
		return text
	}
	var out strings.Builder
	encoder := json.NewEncoder(&out) // a JSON string is a YAML string in double quotes
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(text); err != nil {
		panic("draft: " + err.Error()) // a string always has a JSON form
	}
	return strings.TrimSuffix(out.String(), "\n")
}

// slug turns a title into a part of a file name that every system can store.
func slug(title string) string {
	const most = 40
	var out strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			out.WriteRune(r)
		case out.Len() > 0 && !strings.HasSuffix(out.String(), "-") && r != '\'' && r != '’':
			out.WriteByte('-')
		}
	}
	short := []rune(strings.Trim(out.String(), "-"))
	if len(short) > most {
		short = short[:most]
		if end := strings.LastIndexByte(string(short), '-'); end > 0 {
			return string(short)[:end]
		}
	}
	return string(short)
}

// commented puts a # before every line.
func commented(lines ...string) string {
	var out strings.Builder
	for _, line := range lines {
		out.WriteString(strings.TrimRight("# "+line, " ") + "\n")
	}
	return out.String()
}

// indent puts spaces before every line.
func indent(text, space string) string {
	var out strings.Builder
	for line := range strings.Lines(text) {
		out.WriteString(space + line)
	}
	return out.String()
}

// find returns the word of that name; the vocabulary has it.
func find(words []journal.Word, name string) journal.Word {
	return words[slices.IndexFunc(words, func(w journal.Word) bool { return w.Name == name })]
}
