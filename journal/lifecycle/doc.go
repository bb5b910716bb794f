// Package lifecycle answers how dwarf shrimp develop, grow, breed and die: pure calculations, and the species' numbers
// with their sources.
//
// A Profile holds every number of one species; Parameters lists them once, with meaning, unit, range and source, and is
// what overrides, the methods page and the format's manual are made from. The laws take a Profile's parts and numbers
// and give expectations: a rate at a temperature, a length at an age, a chance to live. Thermal time is the clock: phi
// is the share of the way from hatching to maturity, and lengths follow phi, not days. A Progress turns uncertain
// temperatures into the day a stage is done, as a distribution. A fit estimates a growth curve from measurements, and says when it
// cannot.
//
// It stops being true where its sources stop: outside about 16 to 32 °C, in brackish water, for animals that are ill.
// Laws marked as assumptions rest on no data at all, and say so.
package lifecycle
