// Package figure draws one Figure value four times: as static SVG, as a table, as the option of an interactive chart,
// and as the picture on a card for previews of links. All come from the same numbers. The package knows axes, lines
// and marks; it does not know what they mean, reads no clock and no file, and gives the same bytes for the same figure.
//
// # The drawing
//
// SVG returns
//
//	<div class="fig">
//	  <svg class="fig-wide" …>    for boxes wider than 35rem, 720 units wide
//	  <svg class="fig-narrow" …>  for narrower ones, 344 units wide, so that text stays readable
//	</div>
//
// and Style the sheet that shows one of the two. Both carry
//
//	role="img"               or "group" where the figure holds links
//	aria-labelledby, aria-describedby   its <title> and <desc>; all ids begin with Figure.ID
//	data-left, data-right    the ends of the X axis, in units of the viewBox
//	data-from, data-to       the values there: numbers, or days counted from 1 for 0001-01-01
//
// A mark or span that can be pointed at is a <g class="fig-item">, or an <a class="fig-item" tabindex="-1"> where
// it leads somewhere, in the order of the figure, with
//
//	<title> or aria-label        what it stands for, in one line: its place on X, its value, its label
//
// A script that shows a readout should remove the <title> elements inside items (they would show twice), give
// the visible svg tabindex="0", move the class fig-here from item to item on the arrow keys, follow the link on
// Enter, and write the texts into an element with aria-live="polite". Lines carry no values: for them the
// script looks up the nearest row of the table, whose rows hold Row.X. There is no style attribute and no
// script in a drawing, so a strict Content-Security-Policy may forbid both.
//
// Colours are the variables --fig-paper, --fig-ink, --fig-quiet, --fig-hair, --fig-shade and one per Tone
// (--fig-water, …), set by Style for light, dark and print; --fig-font is the face of the text.
//
// # The interactive option
//
// Option returns a JSON object for ECharts 5. Its key "figure" is ours and must be taken off before the rest
// goes to setOption:
//
//	height    CSS pixels that the chart wants
//	x         "calendar" or "number"
//	unit      unit of Y, may be ""
//	mirrored  true where X values are shown without their sign
//	lanes     [{label, link, spans: [{from, to, label, link}]}]
//
// The script walks the object and replaces these strings, and no others:
//
//	"fn:fan"       tooltip of an axis with values. For each entry: value[1] is y; where value[3] is a number, value[2] and
//	               value[3] are the low and high edge of a band and value[1] must not be shown; on marks, value[2]
//	               is the label and value[3] the link, both text. Entries whose seriesId begins with "unseen-" are left out.
//	"fn:lanes"     tooltip of a figure with lanes. Where the first entry's axisDim is "y", the pointer is on a lane: show
//	               figure.lanes[value[1]] with its spans. Otherwise it is on the part below: show it as fn:fan does.
//	"fn:unsigned"  label of an axis without its sign
//	"tone:NAME"    the colour of the variable --fig-NAME: a tone, "ink", "quiet", "hair", "shade" or "paper"
//
// Dates are YYYY-MM-DD without a zone, or YYYY-MM-DD HH:MM:SS within a day. ECharts reads both in the reader's
// own zone and shows them in it, so a script that formats a time must use the local fields of Date. Numbers
// have the four significant digits that the table shows.
package figure
