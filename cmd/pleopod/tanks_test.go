package main

import (
	"testing"

	"pleopod/journal"
)

func TestATankIsKnownByItsIDAndItsName(t *testing.T) {
	tanks := []journal.Tank{{ID: "north", Name: "The shelf"}, {ID: "south", Name: "Ännchen’s cube"}, {ID: "a", Name: "Twin"}, {ID: "b", Name: "twin"}, {ID: "twin-3", Name: "north"}}
	for said, want := range map[string]string{
		"": "", "north": "north", "North": "north", "the SHELF": "north", "ännchen’s Cube": "south",
		"twin":      `"twin" is the name of several tanks; say which by its id: a, b`,
		"The shelv": `unknown tank "The shelv"; did you mean "The shelf"?`,
		"cellar":    `unknown tank "cellar"; the journal has north, south, a, b, twin-3`,
	} {
		got, err := tankID(said, tanks)
		if err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("the tank %q is %s, want %s", said, got, want)
		}
	}
}
