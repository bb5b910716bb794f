package invented

import (
	"bytes"
	"math/rand/v2"
	"strings"
)

var (
	names = []string{"amber", "birch", "clover", "dune", "ember", "flint", "garnet", "heath", "iris",
		"juniper", "kelp", "laurel"}
	topics   = []string{"feeding", "plants", "broods", "water", "quiet days"}
	subjects = []string{"the largest female", "a young male", "the whole group", "one of the pale ones",
		"a half-grown shrimp", "the moss", "the sponge filter", "the piece of oak", "the old leaf", "the glass"}
	deeds = []string{"sat under the lamp", "grazed along the front", "looked cleaner than last week",
		"lost its brown film", "swam up and down the back wall", "hid behind the stones", "was busy until dark", "stood still for a minute", "held a flake of food", "turned over again and again"}
	moments = []string{"in the morning", "after the feeding", "while I changed the water",
		"just before the light went out", "for most of the evening", "when I came home", "as on the day before", "without any reason that I could see"}
	remarks = []string{"I took a note and left it at that", "nothing else was different",
		"I shall look again tomorrow", "it may mean nothing", "the others took no notice", "I counted twice to be sure", "the water was clear", "I had expected it a week ago"}
)

// writer makes sentences.
type writer struct{ random *rand.Rand }

func (w *writer) pick(words []string) string { return words[w.random.IntN(len(words))] }

func (w *writer) title() string {
	words := w.pick(subjects) + " " + w.pick(moments)
	return strings.ToUpper(words[:1]) + words[1:]
}

func (w *writer) sentence() string {
	verb := w.pick(deeds)
	if w.random.IntN(4) == 0 {
		verb = "*" + verb + "*"
	}
	return w.pick(subjects) + " " + verb + " " + w.pick(moments) + ", and " + w.pick(remarks) + "."
}

// block writes a paragraph, and now and then a heading, a list, a quotation or a table.
func (w *writer) block(out *bytes.Buffer) {
	switch w.random.IntN(12) {
	case 0:
		out.WriteString("## " + w.title() + "\n\n")
	case 1:
		for range 3 {
			out.WriteString("- " + w.sentence() + "\n")
		}
		out.WriteString("\n")
	case 2:
		out.WriteString("> " + w.sentence() + "\n\n")
	case 3:
		out.WriteString("| what | when |\n| --- | --- |\n")
		for range 3 {
			out.WriteString("| " + w.pick(subjects) + " | " + w.pick(moments) + " |\n")
		}
		out.WriteString("\n")
	default:
		for range 3 + w.random.IntN(3) {
			sentence := w.sentence()
			out.WriteString(strings.ToUpper(sentence[:1]) + sentence[1:] + "\n")
		}
		out.WriteString("\n")
	}
}
