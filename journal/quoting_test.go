package journal

import (
	"strings"
	"testing"
)

// TestTextsThatNeedQuotes holds titles that are not understood as they stand. What the hint proposes must read as the
// title that the keeper meant, with nothing lost.
func TestTextsThatNeedQuotes(t *testing.T) {
	for written, meant := range map[string]string{
		`Day 3: "Poppy" moved`:           `Day 3: "Poppy" moved`,
		`Day 3: "Poppy": she's moved`:    `Day 3: "Poppy": she's moved`,
		`Day 12: moved # to the window`:  `Day 12: moved`,
		`Day 12: moved #1`:               `Day 12: moved #1`,
		`Day 12: #1 moved`:               `Day 12: #1 moved`,
		`Day 12: [a, b] and {c}`:         `Day 12: [a, b] and {c}`,
		`Day 12: a \ b`:                  `Day 12: a \ b`,
		`"Poppy" is berried`:             `"Poppy" is berried`,
		`"Poppy, the red" is berried`:    `"Poppy, the red" is berried`,
		`"Poppy" and "Ruby"`:             `"Poppy" and "Ruby"`,
		`"Poppy": berried`:               `"Poppy": berried`,
		`'Poppy' is berried`:             `'Poppy' is berried`,
		`'It's here'`:                    `It's here`,
		`'It's Poppy's'`:                 `It's Poppy's`,
		`"They call her "Poppy" for it"`: `They call her "Poppy" for it`,
		`"Größe" der "Poppy"`:            `"Größe" der "Poppy"`,
		`*Poppy*, my first`:              `*Poppy*, my first`,
		`&c, and "so" on`:                `&c, and "so" on`,
	} {
		entry := func(title string) (*Entry, []Problem) {
			return ParseEntry("e.md", []byte("---\ndate: 2026-03-14\ntitle: "+title+"\n---\n"), nil)
		}
		_, problems := entry(written)
		if len(problems) == 0 {
			t.Errorf("%s: no problem", written)
			continue
		}
		_, proposed, _ := strings.Cut(problems[0].Hint, "write it as ")
		read, again := entry(proposed)
		if len(again) > 0 || read.Title != meant {
			t.Errorf("%s: the hint is %q, which reads %s", written, problems[0].Hint, briefs(again))
		}
	}
	long := strings.Repeat("Poppy ", 100)
	_, problems := ParseEntry("e.md", []byte("---\ndate: 2026-03-14\ntitle: Day 3: \"A\" "+long+"\n---\n"), nil)
	checkHints(t, "a long title", problems, []string{"put ' before the whole text and behind it"})
	_, problems = ParseEntry("e.md", []byte("---\ndate: 2026-03-14\nevents: [{fed: peas, note: \"Poppy\" ate, date: 2026-03-13}]\n---\n"), nil)
	checkHints(t, "in braces", problems, []string{`write it as '"Poppy" ate'`})
}
