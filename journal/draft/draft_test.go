package draft

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
)

// read reads texts as a journal.
func read(files ...File) *journal.Journal {
	folder := fstest.MapFS{}
	for _, file := range files {
		folder[file.Path] = &fstest.MapFile{Data: []byte(file.Text)}
	}
	return journal.Read(folder)
}

// codes lists the codes of problems, each once.
func codes(problems []journal.Problem) []string {
	var all []string
	for _, p := range problems {
		all = append(all, p.Code)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

var someDay = journal.NewDay(2026, 3, 14)

func TestANewJournalHasNoMistake(t *testing.T) {
	j := read(Journal("My colony", someDay)...)
	if diff := cmp.Diff([]string{"no-address"}, codes(j.Problems)); diff != "" {
		t.Errorf("problems: %s", diff)
	}
	if len(j.Entries) != 1 || len(j.Entries[0].Events) != 0 || j.Settings.Tanks[0].Volume.Known {
		t.Errorf("a new journal tells of something that the keeper did not write: %+v", j)
	}
}

// TestEveryCommentOfANewJournalCanBeUsed takes away each # that hides a key.
func TestEveryCommentOfANewJournalCanBeUsed(t *testing.T) {
	for _, file := range Journal("My colony", someDay)[:2] {
		lines := strings.SplitAfter(file.Text, "\n")
		used := 0
		for i, line := range lines {
			key, _, found := strings.Cut(strings.TrimSpace(line), ": ")
			name := strings.TrimPrefix(strings.TrimPrefix(key, "# "), "- ")
			if !found || !strings.HasPrefix(key, "# ") || strings.Contains(name, " ") || name == "age" {
				continue
			}
			used++
			changed := slices.Clone(lines)
			changed[i] = strings.Replace(line, "# ", "", 1)
			files := Journal("My colony", someDay)
			files[slices.IndexFunc(files, func(f File) bool { return f.Path == file.Path })].Text = strings.Join(changed, "")
			if got := codes(read(files...).Problems); journal.HasErrors(read(files...).Problems) || len(got) > 1 {
				t.Errorf("%s with %q: %v", file.Path, changed[i], read(files...).Problems)
			}
		}
		if want := map[string]int{journal.SettingsFile: 12}[file.Path]; used < max(want, 2) {
			t.Errorf("%s proposes %d keys, want at least %d", file.Path, used, max(want, 2))
		}
	}
}

func TestTitles(t *testing.T) {
	for folder, want := range map[string]string{
		"my-colony": "My colony", "Harbour_Street": "Harbour Street", "öl": "Öl", "...": "My shrimp", "2026": "2026",
	} {
		if got := Title(folder); got != want {
			t.Errorf("the title of the folder %q is %q, want %q", folder, got, want)
		}
	}
}

// TestTitlesSurviveYAML writes odd titles and reads them back.
func TestTitlesSurviveYAML(t *testing.T) {
	for _, title := range []string{
		"First eggs", "Day 12: moved", "Tank #1", "yes", "12", "- a", `say "hi"`, `back\slash`, "'tis", "{a}", "Émile’s [x]", "a # b", "12:30", "ends in a colon:", "*red*",
		"two\nlines", "~", "null", "1e3", "é", "a\u00a0b",
	} {
		file := File{Path: "entries/a.md", Text: "---\ndate: 2026-03-14\ntitle: " + yamlText(title) + "\n---\n"}
		j := read(append(Journal("x", someDay)[:1], file)...)
		want := strings.Join(strings.Fields(title), " ")
		if len(j.Entries) != 1 || j.Entries[0].Title != want {
			t.Errorf("%q is written as %s and read as %+v", title, yamlText(title), j.Problems)
		}
	}
}

func TestSlugs(t *testing.T) {
	for title, want := range map[string]string{
		"First berried female!": "first-berried-female", "Émile’s 2nd": "émiles-2nd", "../../x": "x", "": "", "---": "", "con": "con",
		"A title that goes on and on and on and is far too long for a file": "a-title-that-goes-on-and-on-and-on-and",
	} {
		if got := slug(title); got != want {
			t.Errorf("%q becomes %q, want %q", title, got, want)
		}
	}
}

func TestPathsAreFree(t *testing.T) {
	at := func(paths ...string) (entries []*journal.Entry) {
		for _, p := range paths {
			entries = append(entries, &journal.Entry{Path: p, Date: someDay})
		}
		return entries
	}
	tests := []struct {
		taken []*journal.Entry
		title string
		want  string
	}{
		{nil, "", "entries/2026-03-14.md"},
		{nil, "Eggs", "entries/2026-03-14-eggs.md"},
		{at("entries/2026-03-14.md"), "", "entries/2026-03-14-2.md"},
		{at("entries/2026-03-14.md", "entries/2026-03-14-2.MD"), "", "entries/2026-03-14-3.md"},
		{at("entries/2026/2026-03-14.md"), "", "entries/2026/2026-03-14-2.md"},
		{at("entries/2026/a.md", "entries/b.md", "entries/c.md"), "", "entries/2026-03-14.md"},
	}
	for _, test := range tests {
		if got := freePath(test.taken, Options{Day: someDay, Title: test.title}); got != test.want {
			t.Errorf("with %d entries and title %q the path is %s, want %s", len(test.taken), test.title, got,
				test.want)
		}
	}
}

// twoTanks is the settings of the journals below.
const twoTanks = "title: Test\ntanks:\n  shelf: {heater: 23 C}\n  window: {heater: 23 C}\n"

// written is an entry of a journal below.
func written(date, matter string) File {
	return File{Path: "entries/" + date + ".md", Text: "---\ndate: " + date + "\ntank: shelf\n" + matter + "---\n"}
}

// record is a journal with something of everything that can be due.
func record() []File {
	return []File{
		{journal.SettingsFile, twoTanks},
		written("2026-01-01", "water: {temperature: 23 C, ph: 7.2}\nevents:\n  - stocked: 12\n"),
		written("2026-01-10", "events:\n  - berried: [ruby]\n    brood: amber\n"),
		written("2026-02-02", "events:\n  - hatched: amber\n    shrimplets: 20\n  - counted: 30\n"),
		written("2026-02-04", "water: {gh: 8}\nevents:\n  - water-change: 20 %\n"),
		written("2026-02-10", "events:\n  - berried: [ruby]\n    brood: \"2\"\n  - saddled: [pearl]\n"),
	}
}

func draftOn(day journal.Day, wanted Options, files []File) (File, *journal.Journal) {
	j := read(files...)
	wanted.Day = day
	c := colony.Replay(j, day)
	return Entry(c, forecast.Days(c), j.Entries, wanted), j
}

func TestWhatIsLikely(t *testing.T) {
	tests := []struct {
		name string
		day  journal.Day
		tank string
		want []string // each stands in the draft
		not  []string
	}{
		{"twelve days on, eyes can show", journal.NewDay(2026, 2, 20), "shelf", []string{"eyes can be seen in the eggs of 2 from ", "# - eyed: \"2\"", "# water: {gh: }   # last tested 16 days ago; take out what you did not measure", "tank: shelf\n",
			"the last water change of shelf was 16 days ago", "# a saddle was seen in shelf 10 days ago", "# - berried: 1"}, []string{"# - hatched", "counted:", "tank: window"}},
		{"three weeks on, the brood is due and the count is old", journal.NewDay(2026, 3, 2), "", []string{"2 is due", "# - hatched: \"2\"\n  #   # shrimplets: 18   # young seen that day\n  #   tank: shelf\n", "# - eyed: \"2\"",
			"shelf was last counted 28 days ago: 30", "# tank: shelf   # one of: shelf, window\n"}, nil},
		{"two months on, it is overdue", journal.NewDay(2026, 4, 15), "shelf", []string{"2 should have hatched by now", "if the eggs are lost: dropped: \"2\"", "# - hatched: \"2\"\n  #   date: 2026-03-04   # a guess, the likeliest day: write the day it was\n", "the young of amber"}, []string{"a saddle was seen", "# - eyed"}},
		{"the other tank", journal.NewDay(2026, 3, 2), "window", []string{"tank: window\n", "no water test yet"}, []string{"- hatched", "- counted"}},
		{"before anything", journal.NewDay(2025, 12, 1), "shelf", []string{"no water test yet", "such as   - died: 1\n  # stocked, saddled"}, []string{"  # - "}},
		{"just hatched", journal.NewDay(2026, 2, 9), "shelf", []string{"the young of amber hatched 7 days ago and were not seen since", "# - sighted:"}, []string{"- hatched"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			file, _ := draftOn(test.day, Options{Tank: test.tank}, record())
			for _, want := range test.want {
				if !strings.Contains(file.Text, want) {
					t.Errorf("the draft lacks %q:\n%s", want, file.Text)
				}
			}
			for _, not := range test.not {
				if strings.Contains(file.Text, not) {
					t.Errorf("the draft has %q:\n%s", not, file.Text)
				}
			}
		})
	}
}

// TestADraftTellsOfNothing holds that an entry which is saved as it was made changes nothing, and that every proposal
// becomes an event, or asks for its value, when its # is taken away.
func TestADraftTellsOfNothing(t *testing.T) {
	for day := journal.NewDay(2026, 1, 1); day < journal.NewDay(2026, 6, 1); day += 5 {
		for _, tank := range []string{"", "shelf"} {
			file, before := draftOn(day, Options{Tank: tank, Title: "A: b"}, record())
			after := read(append(record(), file)...)
			if diff := cmp.Diff(before.Problems, after.Problems); diff != "" || len(after.Entries) != len(before.Entries)+1 {
				t.Fatalf("%s: the draft has problems: %s", day, diff)
			}
			used := read(append(record(), uncommented(file))...)
			for _, code := range codes(used.Problems) {
				if !slices.Contains([]string{"no-address", "no-value", "not-a-list"}, code) {
					t.Errorf("%s: a proposal gives %v\n%s", day, used.Problems, uncommented(file).Text)
				}
			}
		}
	}
}

// TestNoAttributeIsLeftBlank holds that whoever takes the # away has to fill in what was seen and nothing else.
func TestNoAttributeIsLeftBlank(t *testing.T) {
	blank := regexp.MustCompile(`(?m)^ +# +[a-z-]+:$`)
	for day := journal.NewDay(2026, 1, 1); day < journal.NewDay(2026, 6, 1); day++ {
		file, _ := draftOn(day, Options{}, record())
		if found := blank.FindString(file.Text); found != "" {
			t.Fatalf("%s: %q has no value:\n%s", day, found, file.Text)
		}
	}
}

func TestAnEntryWithNothingInItIsFound(t *testing.T) {
	day := journal.NewDay(2026, 3, 2)
	for _, test := range []struct {
		name     string
		wanted   Options
		existing func(text string) string
		want     string
	}{
		{"as it was made", Options{}, func(text string) string { return text }, "entries/made.md"},
		{"with lines of another system", Options{}, func(text string) string { return strings.ReplaceAll(text, "\n", "\r\n") }, "entries/made.md"},
		{"with the same title and tank", Options{Title: "Eggs", Tank: "shelf"}, func(text string) string { return text }, "entries/made.md"},
		{"with a text", Options{}, func(text string) string { return text + "# Moss\n" }, ""},
		{"with an event", Options{}, func(text string) string { return strings.Replace(text, "events:\n", "events:\n  - fed: nettle\n", 1) }, ""},
		{"with a topic", Options{}, func(text string) string { return strings.Replace(text, "events:\n", "topics: [moss]\nevents:\n", 1) }, ""},
		{"of another day", Options{}, func(text string) string { return strings.Replace(text, "2026-03-02", "2026-03-01", 1) }, ""},
	} {
		made, _ := draftOn(day, test.wanted, record())
		file, j := draftOn(day, test.wanted, append(record(), File{"entries/made.md", test.existing(made.Text)}))
		if got := Blank(j.Entries, file); got != test.want {
			t.Errorf("%s: the blank entry is %q, want %q", test.name, got, test.want)
		}
	}
	plain, _ := draftOn(day, Options{}, record())
	titled, j := draftOn(day, Options{Title: "Eggs"}, append(record(), plain))
	if got := Blank(j.Entries, titled); got != "" {
		t.Errorf("for an entry with a title, %s without one is taken", got)
	}
}

// uncommented takes the # away from every proposal.
func uncommented(file File) File {
	var out strings.Builder
	for line := range strings.Lines(file.Text) {
		rest, commented := strings.CutPrefix(line, "  # ")
		if commented && (strings.HasPrefix(rest, "- ") || strings.HasPrefix(rest, "  ")) {
			line = "  " + rest
		}
		if rest, commented := strings.CutPrefix(line, "# "); commented && (strings.HasPrefix(rest, "water: ") || strings.HasPrefix(rest, "tank: ")) {
			line = rest
		}
		out.WriteString(line)
	}
	return File{file.Path, out.String()}
}

func TestALongListIsCut(t *testing.T) {
	files := record()
	for i := range 15 {
		files = append(files, File{fmt.Sprintf("entries/x%d.md", i),
			fmt.Sprintf("---\ndate: 2026-02-10\ntank: shelf\nevents:\n  - berried: 1\n    brood: b%d\n---\n", i)})
	}
	file, _ := draftOn(journal.NewDay(2026, 3, 3), Options{}, files)
	if got := strings.Count(file.Text, "  # - "); got != mostProposals || !strings.Contains(file.Text, "more: pleopod forecast") {
		t.Errorf("%d proposals, want %d and a word of the others:\n%s", got, mostProposals, file.Text)
	}
}
