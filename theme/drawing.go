package theme

import (
	"crypto/sha256"
	"encoding/hex"
	"html/template"

	"pleopod/theme/figure"
)

// Drawing is a figure on a page: its picture, and its numbers as a table.
type Drawing struct {
	ID, Title, Description string
	SVG                    template.HTML
	Table                  figure.Table
	From                   string // host that the chart program comes from, or "" where it is part of the site
}

// draw makes the drawing of a figure and notes it for the page's interactive charts.
func (p *pen) drawFigure(f figure.Figure) Drawing {
	svg, err := p.press.svg(f)
	if err != nil && p.err == nil {
		p.err = err
	}
	p.figures = append(p.figures, f)
	return Drawing{ID: f.ID, Title: f.Title, Description: f.Description, SVG: svg, Table: f.Table(),
		From: p.runtime.host()}
}

// fingerprint is a short name for content.
func fingerprint(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:4])
}
