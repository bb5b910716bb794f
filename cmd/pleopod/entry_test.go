package main

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
)

// TestEditor looks for the editor that was named, and else for the usual one of the system.
func TestEditor(t *testing.T) {
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
		command := entryCommand{Edit: true}
		got, err := command.editor(&world{getenv: func(name string) string { return test.env[name] }})
		if !slices.Equal(got, test.want) || (err == nil) != (test.want != nil) {
			t.Errorf("%s: %q, %v; want %q", test.name, got, err, test.want)
		}
	}
}
