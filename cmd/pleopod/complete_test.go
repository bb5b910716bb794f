package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// testEnvironment is one that prints nowhere.
func testEnvironment() *environment { return &environment{stdout: io.Discard, stderr: io.Discard} }

// leaves lists every command that can be called.
func leaves(node *kong.Node) (all []*kong.Node) {
	for _, child := range node.Children {
		if child.Type != kong.CommandNode || child.Hidden {
			continue
		}
		if below := leaves(child); len(below) > 0 {
			all = append(all, below...)
			continue
		}
		all = append(all, child)
	}
	return all
}

// shellWord is a word of a command line, in single quotes where it holds spaces.
var shellWord = regexp.MustCompile(`'[^']*'|\S+`)

// TestEveryCommandShowsOneExampleThatWorks reads each example of the help as the command line does.
func TestEveryCommandShowsOneExampleThatWorks(t *testing.T) {
	parser := newParser(context.Background(), testEnvironment())
	all := leaves(parser.Model.Node)
	if len(all) < 12 {
		t.Fatalf("only %d commands", len(all))
	}
	for _, command := range all {
		parts := strings.Split(command.Help, "\n\nExample: pleopod ")
		if len(parts) != 2 {
			t.Errorf("%s shows %d examples in its help, want one", command.FullPath(), len(parts)-1)
			continue
		}
		var words []string
		for _, word := range shellWord.FindAllString(strings.TrimSpace(parts[1]), -1) {
			words = append(words, strings.Trim(word, "'"))
		}
		if _, err := parser.Parse(words); err != nil {
			t.Errorf("the example of %s: %v", command.FullPath(), err)
		}
		if !strings.HasPrefix(strings.Join(words, " "), strings.TrimPrefix(command.FullPath(), "pleopod ")) {
			t.Errorf("the example of %s is of another command: %s", command.FullPath(), words)
		}
	}
}

func TestEveryCommandHasAStory(t *testing.T) {
	var stories strings.Builder
	names, _ := filepath.Glob("testdata/script/*.txtar")
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		stories.Write(text)
	}
	for _, command := range leaves(newParser(context.Background(), testEnvironment()).Model.Node) {
		if !strings.Contains(stories.String(), "exec "+command.FullPath()) {
			t.Errorf("no story in testdata/script runs %s", command.FullPath())
		}
	}
}

func TestEveryFlagSaysWhatItDoes(t *testing.T) {
	for _, command := range leaves(newParser(context.Background(), testEnvironment()).Model.Node) {
		for _, flag := range command.Flags {
			if len(flag.Help) < 10 || !strings.HasSuffix(flag.Help, ".") {
				t.Errorf("--%s of %s says %q", flag.Name, command.FullPath(), flag.Help)
			}
		}
	}
}
