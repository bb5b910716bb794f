package main

import (
	"fmt"
	"strings"

	"pleopod/journal"
)

// tankID returns the id of the tank that a command line means, by its id or by its name, in capitals or not; "" when it
// means none. A tank that the journal does not have is refused, as is a name that several have.
func tankID(said string, tanks []journal.Tank) (string, error) {
	if said == "" {
		return "", nil
	}
	var ids, known, named []string
	for _, tank := range tanks {
		if strings.EqualFold(tank.ID, said) {
			return tank.ID, nil
		}
		if strings.EqualFold(tank.Name, said) {
			named = append(named, tank.ID)
		}
		ids, known = append(ids, tank.ID), append(known, tank.ID, tank.Name)
	}
	if len(named) == 1 {
		return named[0], nil
	}
	if len(named) > 1 {
		return "", misuse{fmt.Errorf("%q is the name of several tanks; say which by its id: %s", said, strings.Join(named, ", "))}
	}
	if near := journal.Nearest(said, known); near != "" {
		return "", misuse{fmt.Errorf("unknown tank %q; did you mean %q?", said, near)}
	}
	return "", misuse{fmt.Errorf("unknown tank %q; the journal has %s", said, strings.Join(ids, ", "))}
}
