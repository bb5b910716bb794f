// Package colony replays a journal up to a day: what the record proves about tanks, broods, cohorts and named shrimp.
//
// Replay gives the Colony of one day. Nothing later gets in: one function (until) cuts the journal before anything
// else looks at it. An entry is known from its own date on, even when it tells of an earlier day; an event with a date
// of its own is known from the later of the two dates. Later lists what was left out. Events are replayed by day, then
// path, then position.
//
// Where the keeper leaves something open, the replay takes the likeliest meaning and says so where it may be wrong:
//
//   - A name exists from its first mention. It belongs to one animal for good.
//   - A named female who moves takes her open brood along; when she dies or leaves, the brood is lost with her. A brood
//     whose later events stand in another tank follows a move of shrimp without names, if there was one.
//   - Eggs lost in part leave a brood open, until as many were lost as were counted.
//   - A named shrimp belongs to a cohort when a measurement with its name gives the brood. This is used for its earlier
//     lengths as well, but never before the day on which it was written.
//   - The ledger holds what was written down. Its balance is no estimate of the living, because young and deaths go
//     unseen; Proofs are the numbers that were certainly alive.
//   - More shrimp leaving than can be alive is a warning with the arithmetic: stocked and moved in, the eggs of each
//     hatched brood (60 where nobody counted), less what left. A larger count, or shrimp from nowhere, ends the
//     arithmetic; a complete count of the emptied tank begins it anew.
//
// It predicts nothing, and it knows no clock and no disk. Replay copies what it changes: the journal stays as it was.
package colony
