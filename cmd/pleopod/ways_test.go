package main

import (
	"go/ast"
	"go/token"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The ways of a reading and of a brood in the comment of this package lead through functions that are there.
func TestTheWaysLeadThroughRoomsThatAreThere(t *testing.T) {
	declared := map[string][]string{} // functions and methods by room
	comment := ""
	forEachFile(t, func(name string, file *ast.File, _ *token.FileSet) {
		room := path.Dir(name)
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok {
				declared[room] = append(declared[room], f.Name.Name)
			}
		}
		if name == "cmd/pleopod/doc.go" {
			comment = file.Doc.Text()
		}
	})
	stops := 0
	for _, line := range regexp.MustCompile(`(?m)^\t(\S+) +(.*)$`).FindAllStringSubmatch(comment, -1) {
		for named := range strings.SplitSeq(line[2], ", ") {
			stops++
			if function := named[strings.LastIndex(named, ".")+1:]; !slices.Contains(declared[line[1]], function) {
				t.Errorf("%s has no function %q", line[1], named)
			}
		}
	}
	if stops < 60 {
		t.Errorf("the ways have only %d stops", stops)
	}
}
