package figure

import (
	"strings"
	"unicode"
)

// textWidth returns about how wide a text is, in em, in a common sans-serif face. The classes err to the wide
// side (they were set against DejaVu Sans, one of the widest in use), so that labels which fit here fit on the page.
func textWidth(text string) float64 {
	width := 0.0
	for _, r := range text {
		width += runeWidth(r)
	}
	return width
}

func runeWidth(r rune) float64 {
	switch {
	case strings.ContainsRune("ijlI|'.,:;!", r):
		return 0.32
	case strings.ContainsRune("ftr ()[]-/\"\u00a0\u2013", r):
		return 0.42
	case strings.ContainsRune("mwMW%@\u2026\u2014", r):
		return 0.98
	case unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Me, r) || unicode.Is(unicode.Cf, r):
		return 0
	case r >= 'A' && r <= 'Z':
		return 0.71
	case r < 0x2e80:
		return 0.63
	default:
		return 1.05 // ideographs, syllables and pictures
	}
}

// shorten cuts a text that is wider than room, in em, and marks the cut.
func shorten(text string, room float64) string {
	if textWidth(text) <= room {
		return text
	}
	room -= runeWidth('…')
	var kept strings.Builder
	for _, r := range text {
		room -= runeWidth(r)
		if room < 0 {
			break
		}
		kept.WriteRune(r)
	}
	return strings.TrimRight(kept.String(), " \u200d,;:-") + "…"
}

// clean drops what a text in XML may not hold, and turns line breaks into spaces.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case unicode.IsControl(r) || r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, text)
}
