// Package population simulates a colony day by day and weighs the simulation against what was counted.
package population
