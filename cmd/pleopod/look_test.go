package main

import (
	"os"
	"strings"
	"testing"
)

// The template of the README is the one whose use testdata/script/look.txtar shows.
func TestTheLookOfTheReadmeIsTried(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	script, err := os.ReadFile("testdata/script/look.txtar")
	if err != nil {
		t.Fatal(err)
	}
	_, section, ok := strings.Cut(string(readme), "## A look of your own\n")
	if !ok {
		t.Fatal("the README tells nothing of a look of one's own")
	}
	section, _, _ = strings.Cut(section, "\n## ")
	var template strings.Builder
	for line := range strings.Lines(section) {
		if code, ok := strings.CutPrefix(line, "    "); ok {
			template.WriteString(code)
		}
	}
	if template.Len() < 100 || strings.Count(string(script), "/cautions.tmpl --\n"+template.String()+"-- ") != 2 {
		t.Errorf("the script uses another template than the README shows:\n%s", template.String())
	}
}
