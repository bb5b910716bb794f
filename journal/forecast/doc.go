// Package forecast predicts from a colony's record on its as-of day: when eggs hatch, when young can be sexed and mature,
// how shrimp grow, how many live now and in a year, what the keeper's own broods taught, and how earlier predictions did.
//
// It stops at numbers with their probabilities and the reasons beside them. Notices stand in a Forecast too, but
// journal/notice weighs them. Nothing is predicted where the water leaves the range that science knows, see
// lifecycle.Incubation, and nothing that the record tells only after the as-of day is used: colony.Replay cuts it off.
package forecast
