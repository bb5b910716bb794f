package main

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
)

// TestTheNamedEditorIsTakenElseTheUsual looks for the editor that was named, and else for the usual one of the system.
func TestTheNamedEditorIsTakenElseTheUsual(t *testing.T) {
	usual := usualEditors(runtime.GOOS)[0]
	program := usual[0]
	if runtime.GOOS == "windows" {
		program += ".exe"
	}
	with := t.TempDir()
	if err := os.WriteFile(filepath.Join(with, program), nil, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name string
		path string
		env  map[string]string
		want []string // nil for none
	}{
		{"named twice", with, map[string]string{"VISUAL": "mine --wait", "EDITOR": "other"}, []string{"mine", "--wait"}},
		{"named", with, map[string]string{"EDITOR": "other"}, []string{"other"}},
		{"usual", with, nil, usual},
		{"none", t.TempDir(), nil, nil},
	} {
		t.Setenv("PATH", test.path)
		if got := editor(func(name string) string { return test.env[name] }); !slices.Equal(got, test.want) {
			t.Errorf("%s: %q; want %q", test.name, got, test.want)
		}
	}
}

// TestWithoutAnEditorTheEntryIsNamed holds that a keeper learns where the new entry is and how to name an editor, also
// where the desktop has a program for opening files that finds none.
func TestWithoutAnEditorTheEntryIsNamed(t *testing.T) {
	path := t.TempDir()
	if err := os.WriteFile(filepath.Join(path, anyEditor), []byte("#!/bin/sh\nexit 3\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", path)
	commands := [][]string{nil}
	if runtime.GOOS != "windows" {
		commands = append(commands, []string{anyEditor})
	}
	for _, command := range commands {
		err := (&entryCommand{Journal: "my colony"}).edit(t.Context(), command, "entries/a.md")
		const want = `no editor was found; open entries/a.md yourself, or name one: EDITOR=nano pleopod entry "my colony" --edit`
		if err == nil || err.Error() != want {
			t.Errorf("with %q: %v, want %s", command, err, want)
		}
	}
}
