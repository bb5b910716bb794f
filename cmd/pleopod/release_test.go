package main

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// licences are the kinds that may stand in go.mod, by words that only they hold.
var licences = []struct{ name, words string }{
	{"MPL-2.0", "Mozilla Public License Version 2.0"}, {"Apache-2.0", "Apache License Version 2.0"},
	{"MIT", "Permission is hereby granted, free of charge"}, {"BSD-3-Clause", "Redistribution and use in source and binary forms"},
}

// TestEveryLicenceIsListed reads the licence of each module of go.mod and looks for the module behind its name
// in LICENCES.md.
func TestEveryLicenceIsListed(t *testing.T) {
	text, err := os.ReadFile("LICENCES.md")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]string{}
	for _, line := range regexp.MustCompile(`(?m)^- ([A-Z][\w.-]+): (.*)$`).FindAllStringSubmatch(string(text), -1) {
		for _, module := range strings.Split(line[2], ", ") {
			listed[module] = line[1]
		}
	}
	for _, module := range required(t) {
		if found := licenceOf(t, module.Dir); found != listed[module.Path] {
			t.Errorf("%s has the licence %q, and LICENCES.md says %q", module.Path, found, listed[module.Path])
		}
		delete(listed, module.Path)
	}
	for module, name := range listed {
		if strings.Contains(module, ".") && !strings.Contains(module, " ") {
			t.Errorf("LICENCES.md lists %s (%s), which is not in go.mod", module, name)
		}
	}
}

type needed struct{ Path, Dir string }

// required returns the modules that go.mod names.
func required(t *testing.T) []needed {
	t.Helper()
	text, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	args := []string{"list", "-m", "-json"}
	for _, line := range regexp.MustCompile(`(?m)^\t(\S+) v`).FindAllStringSubmatch(string(text), -1) {
		args = append(args, line[1])
	}
	out, err := exec.Command("go", args...).Output()
	if err != nil || len(args) < 13 {
		t.Fatalf("go list: %v, %d modules", err, len(args)-3)
	}
	var all []needed
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; {
		var one needed
		if err := decoder.Decode(&one); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, one)
	}
}

// licenceOf returns the licence in a module's folder.
func licenceOf(t *testing.T, dir string) string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "[LC][IiOo][CcPp][EeYy]*"))
	if err != nil || dir == "" || len(files) == 0 {
		t.Errorf("no licence file in %q: %v", dir, err)
		return ""
	}
	text, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	plain := strings.Join(strings.Fields(string(text)), " ")
	for _, l := range licences {
		if strings.Contains(plain, l.words) {
			return l.name
		}
	}
	return ""
}

// foreign is what no file of the house and no message of a commit may hold: paths of a machine, and hosts that hand out
// packages. The words are put together here, so that this file passes as well.
var foreign = regexp.MustCompile(`/(work|root|home/\w+/go|tmp/\w+)/|\b(pro` + `xy|sum)\.golang\.org|\b(npm` + `js|py` + `pi|crat` + `es)\.(org|com|io)|registry\.`)

// TestTheHouseNamesNoMachine reads every tracked file, and the messages of all commits.
func TestTheHouseNamesNoMachine(t *testing.T) {
	names := git(t, "ls-files", "-z")
	checked := 0
	for _, name := range strings.Split(strings.TrimSuffix(names, "\x00"), "\x00") {
		text, err := os.ReadFile(filepath.Join("..", "..", name))
		if errors.Is(err, os.ErrNotExist) {
			continue // deleted, and not committed yet
		}
		if err != nil {
			t.Fatal(err)
		}
		checked++
		for _, found := range foreign.FindAllString(name+"\n"+string(text), -1) {
			t.Errorf("%s holds %q", name, found)
		}
	}
	if checked < 300 {
		t.Errorf("only %d files", checked)
	}
	for _, found := range foreign.FindAllString(git(t, "log", "--format=%an%n%ae%n%B"), -1) {
		t.Errorf("a commit says %q", found)
	}
}

// git asks the repository, and skips the test where there is none, as in an unpacked archive.
func git(t *testing.T, args ...string) string {
	t.Helper()
	out, err := exec.Command("git", append([]string{"-C", "../.."}, args...)...).Output()
	if err != nil {
		t.Skipf("SKIPPED, NOT TESTED: no git repository: %v", err)
	}
	return string(out)
}
