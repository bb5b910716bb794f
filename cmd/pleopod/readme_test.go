package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// TestEveryStepOfTheReadmeWorks does what the README says, in its order, in an empty folder with the sample journal beside it: every
// command it shows, and the files of its tutorial.
func TestEveryStepOfTheReadmeWorks(t *testing.T) {
	if testing.Short() {
		t.Skip("publishes the sample: left out with -short")
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	here := t.TempDir()
	if err := os.CopyFS(filepath.Join(here, "sample-journal"), os.DirFS("../../sample-journal")); err != nil {
		t.Fatal(err)
	}
	t.Chdir(here)
	// The table that gather is shown with is the keeper's own.
	writeFile(t, "water-tests.csv", "date,gh,kh,ph\n2026-03-20,8,3,7.4\n2026-03-27,8,3,7.5\n")

	steps := readmeSteps(string(readme))
	commands := 0
	for _, step := range steps {
		if step.file != "" {
			writeFile(t, step.file, step.text)
			continue
		}
		commands++
		runAsShown(t, step.text)
	}
	if commands < 10 {
		t.Errorf("the README shows %d commands; the test found too few of them", commands)
	}
	for _, made := range []string{"sample-journal/published/index.html", "my-colony/published/index.html", "my-colony/entry.schema.json"} {
		if _, err := os.Stat(made); err != nil {
			t.Errorf("after all steps of the README: %v", err)
		}
	}
}

// readmeStep is one thing that the README tells its reader to do: save a file, or run a command.
type readmeStep struct{ file, text string }

var (
	shownCommand = regexp.MustCompile("`go run \\./cmd/pleopod ([^`]+)`|(?m:^ {4,}go run \\./cmd/pleopod (.+)$)")
	shownBlock   = regexp.MustCompile(`(?m)(?:^ {7}.*\n|^\n)+`)
)

// readmeSteps lists the commands of the README in their order, and the two files of the tutorial after the commands
// that make the folder they belong in.
func readmeSteps(readme string) []readmeStep {
	var steps []readmeStep
	at := 0
	for _, found := range shownCommand.FindAllStringSubmatchIndex(readme, -1) {
		steps = append(steps, tutorialFiles(readme[at:found[0]])...)
		from, to := found[2], found[3]
		if from < 0 {
			from, to = found[4], found[5]
		}
		command, _, _ := strings.Cut(readme[from:to], " #")
		steps = append(steps, readmeStep{text: strings.Join(strings.Fields(command), " ")})
		at = found[1]
	}
	return steps
}

// tutorialFiles finds journal.yaml and the entry among the indented blocks of a piece of the README.
func tutorialFiles(piece string) []readmeStep {
	var steps []readmeStep
	for _, block := range shownBlock.FindAllString(piece, -1) {
		text := strings.TrimLeft(strings.ReplaceAll(block, "\n       ", "\n"), " \n")
		switch {
		case strings.HasPrefix(text, "title:"):
			steps = append(steps, readmeStep{"my-colony/journal.yaml", text})
		case strings.HasPrefix(text, "---\n"):
			steps = append(steps, readmeStep{"my-colony/entries/2026-03-14.md", text})
		}
	}
	return steps
}

// shownWord is a word of a command line, with or without quotes.
var shownWord = regexp.MustCompile(`'([^']*)'|(\S+)`)

// runAsShown runs one command of the README in this program; `watch` is stopped as soon as it serves.
func runAsShown(t *testing.T, shown string) {
	t.Helper()
	command, into, _ := strings.Cut(shown, " > ")
	var args []string
	for _, word := range shownWord.FindAllStringSubmatch(command, -1) {
		args = append(args, word[1]+word[2])
	}
	ctx, stop := context.WithTimeout(t.Context(), 2*time.Minute)
	defer stop()
	stdout := &hookedBuffer{}
	if args[0] == "watch" {
		args = append(args, "--port", "0")
		stdout.seen, stdout.then = "http://localhost:", stop
	}
	var stderr bytes.Buffer
	variables := map[string]string{"EDITOR": "true"}
	env := &environment{stdout: stdout, stderr: &stderr, getenv: func(key string) string { return variables[key] }, now: time.Now}
	if code := run(ctx, args, env); code != exitDone {
		t.Errorf("%s: exit %d\n%s", shown, code, stderr.String())
	}
	if stdout.String() == "" {
		t.Errorf("%s prints nothing", shown)
	}
	if stdout.then != nil && !strings.Contains(stdout.String(), stdout.seen) {
		t.Errorf("%s never said where it serves", shown)
	}
	if into != "" {
		writeFile(t, into, stdout.String())
	}
}

// hookedBuffer keeps what was printed, and calls then when seen has been printed.
type hookedBuffer struct {
	lockedBuffer
	seen string
	then func()
}

func (b *hookedBuffer) Write(p []byte) (int, error) {
	n, err := b.lockedBuffer.Write(p)
	if b.then != nil && strings.Contains(b.String(), b.seen) {
		b.then()
	}
	return n, err
}
