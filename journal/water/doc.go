// Package water answers questions about tank water: temperature between readings, ammonia, hardness, mixing and units.
//
// A Record of readings becomes a Course, the temperature of every day with its uncertainty. The other files are sums
// for one moment: what part of the ammonia is toxic, what a water change makes of a value, where a weekly routine
// leads. They hold for fresh water, well mixed, between 0 and 45 °C; pH is never mixed. What cannot be, such as a pH of
// 15 or a share of 120 %, is an error that names the number and its range.
package water
