package figure

import (
	"encoding/json"
	"encoding/xml"
	"io"
	"strings"
	"testing"
)

// draw returns the SVG of a figure, and fails the test where there is none.
func svgOf(t testing.TB, f Figure) string {
	t.Helper()
	svg, err := f.SVG()
	if err != nil {
		t.Fatalf("SVG of %s: %v", f.ID, err)
	}
	return string(svg)
}

// TestSamplesAreWellFormed reads every drawing as XML and every option as JSON.
func TestSamplesAreWellFormed(t *testing.T) {
	for _, f := range samples() {
		decoder := xml.NewDecoder(strings.NewReader(svgOf(t, f)))
		for {
			if _, err := decoder.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", f.ID, err)
			}
		}
		option, err := f.Option()
		if err != nil || !json.Valid(option) {
			t.Errorf("Option of %s: %v", f.ID, err)
		}
	}
}
