package journal

import (
	_ "embed"
	"strings"
)

//go:embed doc.go
var docSource string

// Manual returns the manual of the format: the comment of this package, in the form of Go's doc comments.
func Manual() string {
	var out strings.Builder
	for line := range strings.Lines(docSource) {
		text, ok := strings.CutPrefix(line, "//")
		if !ok {
			break
		}
		out.WriteString(strings.TrimPrefix(text, " "))
	}
	return out.String()
}
