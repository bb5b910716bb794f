// Package lifecycle answers how dwarf shrimp develop, grow, breed and die: pure calculations, and the species' numbers with their sources.
package lifecycle
