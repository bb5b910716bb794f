package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

func TestAProgramIsKnownByItsBuildIDElseByItsBytes(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(self)
	if err != nil {
		t.Fatal(err)
	}
	usual := strings.Repeat("a", 20) + "/" + strings.Repeat("b", 20) + "/" + strings.Repeat("c", 20) + "/"
	program := func(id, rest string) string { return "head\xff Go build ID: \"" + id + "\"\n \xff" + rest }
	for _, c := range []struct {
		name, a, b string
		same       bool
	}{
		{"the same program twice", string(text), string(text), true},
		{"without an id the whole counts", "one", "two", false},
		{"an id of somebody's choice says nothing", program("v1", "one"), program("v1", "two"), false},
		{"other ids", program(usual+strings.Repeat("d", 20), ""), program(usual+strings.Repeat("e", 20), ""), false},
		{"the id of a build stands for the whole", program(usual+strings.Repeat("d", 20), "x"), program(usual+strings.Repeat("d", 20), "y"), true},
	} {
		a, b := sumOf(strings.NewReader(c.a)), sumOf(strings.NewReader(c.b))
		if a == "" || (a == b) != c.same {
			t.Errorf("%s: %q and %q", c.name, a, b)
		}
	}
	if got, want := programSum(), sumOf(bytes.NewReader(text)); got != want {
		t.Errorf("the running program has %q, its file %q", got, want)
	}
}
