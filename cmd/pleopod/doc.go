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
//	theme              pour, public, newBook, allJobs, waterPage, testLines, strip, tankPage, addReadings, entryPage, readings, draw, render
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
//
// # What is kept
//
// From one save to the next, in memory, and from one run to the next in the user's cache, each under what tells that it
// still holds:
//
//   - journal.Reader: a parsed entry, under the checksum of its file.
//   - colony.Retell: a colony and its forecast when only texts changed, after comparing the events of each entry.
//   - forecast.Predictor: what is predicted of a brood, a cohort, a tank's water and growth, under what was known of it on its
//     last day; the simulation on earlier days, under the records up to that day; in the cache, the numbers of tanks that
//     exchanged shrimp, under a checksum of their records, the day and the program.
//   - theme.Press: an entry's text as HTML, under the reading of its file and where its links lead; a figure, under its
//     checksum; a page, under that of its filled struct, its figures and its template.
//   - theme.Look: what many pages share, the head, the ways, icons and links, under their template and all that it is given.
//   - theme.Options: in the cache, the previews of tanks, under a checksum of what they show and the program.
//   - photo.Cache: in the cache, the pictures made of a photo, under a checksum of its file.
//   - folder.Writer: the checksums of what the site's folder holds, as long as its list is ours.
//   - runCache: in the cache, a whole run of publish, under all that it read of the journal, the day, the program and every
//     file of the site.
//
// Publish never holds a site as a whole: pages go from the template into the folder's stage. Nobody keeps the syntax tree of
// a text: it is parsed for its words when it is read, and again when it is drawn.
package main
