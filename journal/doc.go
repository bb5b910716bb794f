// Package journal reads a keeper's folder: settings, entries and typed events, each with its position, and every problem
// in them. It knows no biology and no pages. This comment is the manual of the format.
//
// # The folder
//
//	my-colony/
//	  journal.yaml         title, tanks, units
//	  entries/**/*.md      diary entries; any folders, any file names
//	  photos/**            pictures (they may also lie beside an entry)
//	  readings/*.csv       files of temperature loggers
//	  published/           the site; never read back, safe to delete
//
// Only pictures that an entry or journal.yaml refers to are published. Files of other kinds are ignored; one that begins
// as an entry does is told of. Links to folders are not followed, and nothing outside the folder is ever read.
//
// # journal.yaml
//
//	title: Harbour Street shrimp
//	keeper: Wren Adeyemi
//	address: https://example.org/shrimp/
//	language: en
//	units: {temperature: C, volume: L, length: mm, hardness: dGH}
//	species: neocaridina-davidi
//	grades: [pale, even, deep]
//	as-of: 2026-04-01
//	ammonia-as: N
//	tds-factor: 0.5
//	tanks:
//	  north-shelf:
//	    name: North shelf
//	    volume: 38 L
//	    since: 2025-01-12
//	    heater: 23 C
//	    capacity: 180
//	    species: neocaridina-davidi
//	    fish: true
//	    water-range: {temperature: 20-26 C, ph: 6.8-7.8, gh: 6-10, kh: 2-6}
//	biology:
//	  incubation: {base: 11 C, degree-days: 239, because: "fitted on my first year"}
//
// The title and one tank are required; everything else may be left out. The address is where the site will be served:
// without it feed, calendar and sitemap are not written. Units say how pages show values and what a bare number means: C or
// F, L or gal (US), mm or in, dGH or ppm. Grades are your own colour scale, worst first. The day of as-of is for a finished
// or a sample journal. A test of ammonia reports N, NH3 or NH4. The tds-factor turns conductivity into TDS, a convention.
//
// Beside these: charts, with the runtime file that draws interactive charts from your own site; look, a folder that
// replaces single templates and styles; for a tank its temperature-log and its cover picture. Below biology a default
// parameter of the species can be replaced, with your reason after because; the methods page lists them all.
//
// # An entry
//
//	---
//	date: 2026-03-14
//	title: First berried female
//	tank: north-shelf
//	water: {temperature: 23.4 C, ph: 7.4, gh: 8, kh: 4, tds: 210, ammonia: <0.25, nitrite: 0, nitrate: 10}
//	events:
//	  - berried: [ruby]
//	    brood: amber
//	    last-clear: 2026-03-12
//	  - moulted: 1
//	visibility: public
//	topics: [breeding]
//	---
//	Ordinary Markdown: tables, footnotes and task lists too, but no HTML.
//
// Only the date is required: the day you saw it. Without a title the first heading is taken. In a journal with one tank,
// tank may be left out. With a list of tanks, water, water-change, dosed and fed apply to each, and every other event names
// its own. The key water is short for one water event. An entry without an event, a picture or text is not shown.
//
// The text below the keys is for readers: nothing in it is counted, and HTML is left out. A line there that is an event, a
// link to an entry that does not exist, a file named after another day than its date, and two entries with the same keys
// are warnings.
//
// A private entry (visibility: private) has no page, no picture and no trace in feed, search, calendar or data; its events
// still count in the totals. A private reading, count or measurement is never shown, and a brood, a name or the young of a
// hatch are public only if the entry that first told of them is.
//
// # Pictures and links
//
// A picture stands in the text, with words for those who cannot see it, and the way from the entry's file to its own:
//
//	![Ruby and her eggs](../photos/ruby.jpg)
//	![Ruby and her eggs](../photos/ruby.jpg "The day her eggs showed eyes")
//
// Behind the path, in quotes, may stand a line to be shown below it. Pictures are JPEG, PNG or WebP; the HEIC of a phone is
// exported as JPEG first. The site gets smaller ones, turned upright and without their metadata, so without the place where
// they were taken. A link to another entry leads to its file, [her first brood](2026-02-02-first.md), and becomes a link to
// its page.
//
// # Changing your mind
//
// The files are all there is: nothing is kept beside them that could disagree. To undo or correct something, change or
// delete the line, and publish again. The address of an entry's page is made of its date and title, not of its file's name;
// when a file is renamed, links to it are told of. What a private entry or a deleted one had published goes at the next
// publish, but not from copies that others made. For a backup, copy the folder; published may be left out. A journal kept
// under version control keeps its history too.
//
// # Events
//
// Each event is one kind with its attributes. Every event may also carry tank, date (when seen on another day) and note. A
// count is a whole number, or classes: {females: 4, males: 3, juveniles: 2, unsexed: 1}; a class left out was not counted.
// A list of names stands wherever single shrimp are meant: [ruby, pearl]. A name exists from its first mention.
//
//   - stocked: a count; age, length, source, line. Without age it is taken from the length, else as 3 to 7 months, grown.
//   - saddled: a count or names. Eggs show in the ovaries.
//   - moulted: a count or names; failed: true when it went wrong.
//   - courting: true. Males swim restlessly.
//   - berried: a count or names; brood, eggs (for each), last-clear (last day seen without eggs). Opens a brood for each, so
//     it is written once, when the eggs are first seen.
//   - eyed: a brood, or true for the only open one. Eyes show in the eggs.
//   - hatched: a brood, or true; shrimplets (seen that day), last-carried (last day the eggs were still carried).
//   - dropped: a brood, or true; eggs (how many, all when left out), reason.
//   - sighted: a number of shrimplets; brood.
//   - counted: a count; method: glance (when left out), careful or emptied. An emptied tank is exact.
//   - measured: a list of lengths; sex: female or male, brood or hatched-on, names.
//   - graded: grades with counts, {pale: 2, deep: 5}; sex, brood.
//   - died: a count or names; cause.
//   - removed: a count or names; reason: sold, given, culled or moved-out; to.
//   - moved: a count or names; to, the id of the other tank. A berried female takes her brood along.
//   - water: readings. A test.
//   - water-change: a share or a volume, always with its unit; with (readings of the new water), temperature.
//   - dosed: an amount or words; substance.
//   - fed: words.
//
// When you take a tank down, move or remove its shrimp, then write counted: 0 with method: emptied. Only this says that no
// young stayed behind unseen, and closes the tank: nothing is due there any more.
//
// A brood without a name is called after its tank and day: north-shelf-2026-03-14, then -2. One name for several gives
// amber, amber-2. If a berried female dies or leaves, her brood is dropped; more than three weeks after its window it is
// taken as hatched unseen instead.
//
// # Readings and amounts
//
// An amount is a number and a unit: 23.4 C, 74 F, 10 gal, 0.9 in, 3 months, 25 %. A decimal number has a point. Readings
// are temperature, ph, gh and kh (dGH and dKH, or ppm), tds (ppm), conductivity (µS/cm), ammonia (total, mg/L), nitrite and
// nitrate (mg/L as the ion), copper and oxygen (mg/L). Write <0.25 for less than that.
//
// A reading outside your water-range is a warning. Without one, these ranges hold. They are wide, to catch slips, and say
// nothing of what shrimp want: a settled tank shows no ammonia, nitrite or copper, and the notices tell of less than stands
// here (common practice, no source):
//
//	temperature   14 to 31 C
//	ph            5.8 to 8.6
//	gh            2 to 22 dGH
//	kh            0 to 16 dKH
//	tds           50 to 600 ppm
//	conductivity  80 to 1200 µS/cm
//	ammonia       0 to 1 mg/L
//	nitrite       0 to 1 mg/L
//	nitrate       0 to 80 mg/L
//	copper        0 to 0.1 mg/L
//	oxygen        3 to 14 mg/L
//
// Other numbers that are hardly true are warnings too (common practice): fewer than 3 or more than 150 eggs of a female, more
// than 500 shrimp at once, a length outside 1 to 45 mm, an age above the species' long-life, more young than a brood had
// eggs, more water changed than the tank holds, and an event of 0 shrimp, but for a count and a look.
//
// # Logger files
//
// A header row, then rows: a column time, date or timestamp in ISO 8601 (the written day counts, whatever the zone) and a
// column temperature, with its unit in the header where it is not the journal's:
//
//	time,temperature (F)
//	2026-03-14 08:00,73.4
//
// Columns are separated by commas, semicolons or tabs; with the last two a decimal comma is understood. Other tables, with
// water tests or counts too, are turned into this form or into entries by "pleopod gather".
//
// # Limits
//
// They keep a slip, such as a film renamed to .md, from filling the memory: 1 MB for an entry and 64 kB for its keys, 256 kB
// for journal.yaml, 16 MB for a logger file, 64 MB and 60 megapixels for a picture, 128 MB for all entries together; 1,000
// events of an entry, 100 of one tank on one day, 100,000 in all; 200 broods of one event, 5,000 in all; 20,000 shrimp stocked
// in one tank; 200 tanks; 25 years from the first event to the day of the calculation. Whatever is above is a problem at its
// place. YAML has no anchors, aliases, tags or merges here, and at most 32 brackets inside each other.
//
// # Problems
//
// Each problem names file, line and column (in characters, from 1), what was found, what is allowed and the nearest right
// word. An error stops publishing, a warning does not. "pleopod check --why" explains every kind with an example and the
// fix. All problems of a run are reported, journal.yaml first.
//
// For programs "pleopod check --json" prints one document; with --why each problem has its "why" (title, meaning, example
// and fix), with --private there is a list of what stays "private". As "pleopod check --sarif" the same is SARIF 2.1.0, which
// editors and code hosts read:
//
//	{
//	  "asOf": "2026-03-20", "errors": 1, "warnings": 0,
//	  "problems": [{
//	    "file": "entries/2026-03-14.md", "line": 6, "column": 5, "severity": "error", "code": "unknown-event",
//	    "message": "unknown event \"bered\"; did you mean \"berried\"?", "hint": ""
//	  }]
//	}
//
// Nothing you wrote is ever changed.
package journal
