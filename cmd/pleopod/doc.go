// Command pleopod turns a folder of notes about dwarf shrimp into a published colony diary with predictions.
//
// Results go to stdout, problems and progress to stderr. It exits 0 when done, 1 when there are mistakes in the journal
// or the run, and 2 when the command was misused.
//
// # The way of a reading
//
// "water: {temperature: 22.4 C}" in an entry, from the file to the pages, by publish. Each line is a room and the functions
// in which the reading is in hand, in order; a test holds that they are there.
//
//	cmd/pleopod        publishCommand.Run, write, load
//	journal            Read, readEntries, readEntry, ParseEntry, cleanText, splitFrontMatter, parseYAML, readMapping, readValue, readForm, readReadings, readingOf, readingFrom, convert, addEvents, checkReadings
//	journal/colony     Replay, newReplay, apply, tested, settle
//	journal/forecast   Make, newRecord, newKnownTank, course, whole, tank, WaterOf, RatesOf, CreepOf
//	journal/water      NewRecord, On, Span, observe
//	journal/population Advance, live, turn
//	journal/notice     Weigh, newHistory, readings
//	theme              pour, public, newBook, jobs, waterPage, testLines, strip, tankPage, addReadings, entryPage, readings, draw, render
//	theme/figure       SVG
//	theme/folder       Write
//
// # The way of a brood
//
// "berried: 1" in an entry. As far as the replay it goes the same way, but for readWho and buildBerried.
//
//	journal            readEvents, readEvent, kindOfEvent, readWho, buildBerried, addEvents
//	journal/colony     berried, nameBrood, open, settleGenerations
//	journal/forecast   newKnownBrood, learnEggs, broods, brood, eggs, windowOf, follow, stateOn, trackRecord, translate, fill
//	journal/lifecycle  Count, Window, Quantile
//	journal/population apply, claimRecent, letGo
//	journal/notice     Weigh, overdue
//	journal/care       Calendar, ofBrood
//	theme              public, brood, foreseen, broodPage, broodDays, howSure, eggRow, broodLane, broodDue, berried
package main
