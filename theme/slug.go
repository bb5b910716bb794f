package theme

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// slugLimit is the longest file name made from a keeper's words, in bytes, without its ending and number.
const slugLimit = 60

// reserved are names that some system or server gives a meaning of its own.
var reserved = map[string]bool{
	"con": true, "prn": true, "aux": true, "nul": true, "conin": true, "conout": true, "clock": true, "index": true,
	"com0": true, "com1": true, "com2": true, "com3": true, "com4": true, "com5": true, "com6": true, "com7": true, "com8": true, "com9": true,
	"lpt0": true, "lpt1": true, "lpt2": true, "lpt3": true, "lpt4": true, "lpt5": true, "lpt6": true, "lpt7": true, "lpt8": true, "lpt9": true,
}

// latin spells letters that no decomposition turns into a plain one.
var latin = map[rune]string{
	'ß': "ss", 'æ': "ae", 'ø': "o", 'œ': "oe", 'đ': "d", 'ð': "d", 'ł': "l", 'þ': "th", 'ı': "i",
}

// slug turns words into a part of a file name: a to z, 0 to 9 and single hyphens, at most slugLimit bytes.
// It is "" when nothing of the words can be spelled so, as with Arabic, Chinese or emoji.
func slug(words string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(strings.ToLower(words)) {
		var spelled string
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			spelled = string(r)
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’':
			continue
		default:
			spelled = latin[r]
		}
		if spelled == "" {
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('-')
		}
		gap = false
		if b.Len()+len(spelled) > slugLimit {
			return atHyphen(b.String())
		}
		b.WriteString(spelled)
	}
	return strings.TrimRight(b.String(), "-")
}

// atHyphen cuts a slug that was too long at its last whole word, unless that would leave less than half.
func atHyphen(cut string) string {
	if at := strings.LastIndexByte(cut, '-'); at > slugLimit/2 {
		return cut[:at]
	}
	return strings.TrimRight(cut, "-")
}

// shelf gives out file names inside one folder, each once whatever the case.
type shelf map[string]bool

// name returns a free name made from words, or from fallback when the words cannot be spelled or mean something
// to a system.
func (s shelf) name(words, fallback string) string {
	base := slug(words)
	if base == "" || reserved[base] {
		base = strings.Trim(fallback+"-"+base, "-")
	}
	name := base
	for n := 2; s[name]; n++ {
		name = fmt.Sprintf("%s-%d", base, n)
	}
	s[name] = true
	return name
}
