package draft

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"pleopod/journal"
)

// FirstTank is the id of the tank in a new journal.
const FirstTank = "first-tank"

// Journal returns the files of a new journal that publishes at once: journal.yaml, whose comments are the
// manual in small, a first entry of the day, and a page for the keeper. Nothing in them is made up: what only
// the keeper knows, such as the volume of the tank, stands behind a #.
func Journal(title string, day journal.Day) []File {
	return []File{
		{journal.SettingsFile, settings(title, day)},
		{"entries/" + day.String() + "-first-entry.md", firstEntry(day)},
		{"how-to-write.md", howTo},
	}
}

// Title turns the name of a folder into the title of a journal.
func Title(folder string) string {
	words := strings.Join(strings.FieldsFunc(folder, func(r rune) bool { return r == '-' || r == '_' || r == ' ' || r == '.' }), " ")
	if words == "" {
		return "My shrimp"
	}
	first, size := utf8.DecodeRuneInString(words)
	return strings.ToUpper(string(first)) + words[size:]
}

// left is the keys that a new journal does not propose: they are for special cases, and the manual has them.
var left = []string{"title", "tanks", "as-of", "charts", "look", "biology", "tds-factor", "temperature-log",
	"cover", "capacity"}

func settings(title string, day journal.Day) string {
	words := journal.Words()
	var out strings.Builder
	out.WriteString("# What holds for the whole diary. A line that begins with # is not read: take away the # and the space behind it to use it.\n")
	out.WriteString("# A line is a key, a colon, a space and a value. What belongs together has the same indent, in spaces.\n\n")
	fmt.Fprintf(&out, "title: %s\n", yamlText(title))
	proposals(&out, words.Settings, "")
	fmt.Fprintf(&out, "\ntanks:\n  %s:%s# the id that entries use: small letters, digits, hyphens\n", FirstTank,
		strings.Repeat(" ", 20))
	out.WriteString("    name: My first tank\n")
	tank := slices.DeleteFunc(slices.Clone(words.Tank),
		func(w journal.Word) bool { return w.Name == "name" || w.Name == "species" })
	tank[slices.IndexFunc(tank, func(w journal.Word) bool { return w.Name == "since" })].Example = day.String()
	proposals(&out, tank, "    ")
	out.WriteString("\n# A second tank is a second id with the same keys below it. Every key there is: pleopod manual journal.yaml\n")
	return out.String()
}

// proposals writes each word as a line that only needs its # taken away.
func proposals(out *strings.Builder, words []journal.Word, space string) {
	for _, word := range words {
		if !slices.Contains(left, word.Name) {
			fmt.Fprintf(out, "%s# %-42s # %s\n", space, word.Name+": "+word.Example, word.About)
		}
	}
}

func firstEntry(day journal.Day) string {
	stocked := find(kindWords(), "stocked")
	var out strings.Builder
	fmt.Fprintf(&out, "---\ndate: %s\n", day)
	out.WriteString("# The lines between the hyphens are for the calculations. Take away the # and the space behind it where a line is true, and mend the numbers.\n")
	fmt.Fprintf(&out, "# %-42s # %s\n", "water: {temperature: 23.4 C, ph: 7.4, gh: 8}", "what you measured")
	out.WriteString("events:\n")
	fmt.Fprintf(&out, "  # %-40s # %s\n", "- stocked: "+stocked.Example, stocked.About)
	out.WriteString("  #   age: 3 months\n")
	out.WriteString("# Below the second line of hyphens write whatever you like to remember, in plain words.\n---\n# My diary begins\n")
	return out.String()
}

// howTo is the page for the keeper. It is not published: only entries are.
const howTo = `# How to write this diary

Each day you saw something is a file in the folder entries. "pleopod entry" makes one for today and proposes what is due.

    pleopod entry             a new file for today; --edit opens it in your editor
    pleopod check             tells you of every slip, with its line and the word you may have meant
    pleopod watch             shows the diary in the browser and makes it again at every save
    pleopod publish           writes the site into the folder published
    pleopod manual berried    explains a word; "pleopod manual" explains them all

Run them in this folder. Write "berried" once, when you first see her eggs; "hatched" or "dropped" ends the brood. Pictures go into the folder photos, and into an entry like this: ![Ruby and her eggs](../photos/ruby.jpg)

Nothing you write is ever changed by the program, and this page is not published.
`

// kindWords lists the words of the kinds of events.
func kindWords() []journal.Word {
	var words []journal.Word
	for _, kind := range journal.Words().Kinds {
		words = append(words, kind.Word)
	}
	return words
}
