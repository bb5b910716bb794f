// Package figure draws one Figure as static SVG, as a table and as the option of an interactive chart.
package figure
