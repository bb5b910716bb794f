// Package forecast predicts from a colony's record on its as-of day: when eggs hatch, when young can be sexed and mature,
// how shrimp grow, how many live now and in a year, what the keeper's own broods taught, and how earlier predictions did.
//
// A prediction is a distribution, shown as the days or numbers that it passes with a given probability. What has a day
// rests on the water as it was and is expected, on the species, on how exactly the keeper noted dates, and on how fast
// earlier broods of this journal and tank were. Every finished brood is predicted again from what was known on its first
// day and half-way: the track record says how often the windows held. Numbers of shrimp come from package population, one
// simulation for the tanks that ever exchanged shrimp.
//
// Make predicts all; Days leaves out the numbers, which take nearly all the time; a Predictor keeps whatever still holds
// from one forecast to the next.
//
// It stops at numbers with their probabilities and the reasons beside them. Notices stand in a Forecast too, but
// journal/notice weighs them. Nothing is predicted where the water leaves the range that science knows, see
// lifecycle.Incubation, and nothing that the record tells only after the as-of day is used: colony.Replay cuts it off.
package forecast
