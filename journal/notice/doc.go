// Package notice weighs whether something in a colony's record is unusual enough to tell the keeper.
//
// Weigh goes through the record once for each kind of notice and finds the stretches of days on which that notice stood,
// each with what was seen, what was expected, how unusual that is, what else may explain it, and what to check first. A
// notice stands from the first day on which the record, as far as it was written by then, called for it. So the notices of
// earlier days come from the same pass as those of the as-of day, and nothing is predicted anew for any of them: what was
// expected comes from the forecast's own past (the window of each brood day by day, the estimate of each week, the count
// checked against the estimate before it).
//
// A notice is never a diagnosis and never an order. Its probability says how often a record as unusual comes up while all
// is well; with many tanks and many weeks something unusual comes up now and then, which is why most notices are calm.
// It stops being true where the model does: see packages lifecycle and population.
package notice
