// Package invented makes up a journal of any length, for benchmarks and for trying things by hand.
//
// The keeper, the tanks and all that happens in them are made up from a seed: the same Plan gives the same files. What
// is written is plausible enough to be read without an error and to give every room of the house its usual work: broods
// are seen, get eyes and hatch; young are sighted, measured, counted and given away; water is tested and changed. It is
// no simulation of a colony: predictions from it say nothing about shrimp.
package invented
