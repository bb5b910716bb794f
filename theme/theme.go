// Package theme draws the site: pages, style, script, figures, feed, calendar and data files, from a forecast.
//
// A page is one struct, one function that fills it, and one template. All sums, rounding, plurals, dates and
// sorting happen in the fill functions; templates only place what they are given. The package answers what to show
// and how; it predicts nothing, and reads only photos and the chart runtime.
//
// # The design
//
// The site is a page of a naturalist's field notebook, and every choice follows from that:
//
//  1. One sheet with a margin on the left. The margin holds dates and section names, a double line parts it from the text.
//  2. Sections are ruled off by one thin line across margin and text. There are no boxes, shadows or rounded panels.
//  3. The month ruler: a drawn ruler with a tick for each day, longer at each fifth, and the day's events as marks above it.
//  4. A tank is drawn as a tank: water, moss and one small shrimp for each so many that live there, eggs where they carry.
//  5. Eggs in progress are twenty eggs in a row: clear, eyed, hatched. Progress is development done, never days.
//  6. Text is a serif from the system, labels and figures a system sans with figures of one width. No font is loaded.
//  7. Sizes step by 1.2 from 1 rem; spaces are multiples of 0.5 rem; a line of text is at most 45 rem wide.
//  8. Colours come from the tank: paper is pale water, ink is wet slate, then moss, water, sand, eggs and shrimp, each
//     with a twin for the dark, all at 4.5:1 or more on their ground. A mark or a word always says the same as the colour.
//  9. Motion is none. Focus is a thick line in ink. In print the margin stays, links lose their colour, the dark is off.
//  10. Every page is whole without its script; the script adds readouts, days from today, search and larger charts.
package theme

import "embed"

// FS holds the built-in look: the frame, the pieces, the pages, and the files that go to the site as they are.
//
//go:embed frame.tmpl piece/*.tmpl page/*.tmpl style.css script.js icon.svg
var FS embed.FS
