package main

import (
	"context"
	"testing"
	"time"
)

// TestAFaultOfTheProgramIsSeen holds that a panic of a command ends the program as one, and not with the exit status of
// success.
func TestAFaultOfTheProgramIsSeen(t *testing.T) {
	env := testEnvironment()
	env.getenv = func(string) string { return "" }
	env.now = func() time.Time { panic("no clock") }
	defer func() {
		if fault := recover(); fault != "no clock" {
			t.Errorf("the fault of a command came out as %v", fault)
		}
	}()
	code := run(context.Background(), []string{"start", t.TempDir()}, env)
	t.Errorf("a fault of a command gave the exit status %d", code)
}
