package gather

import (
	"bytes"
	"strings"
	"testing"

	"pleopod/journal"
)

// FuzzRead holds that no table, however broken, makes the reader fail; that it answers something; that what it
// writes holds no mistake; and that the same table adds nothing the second time.
func FuzzRead(f *testing.F) {
	for _, test := range tables {
		f.Add(test.bytes)
	}
	for _, test := range ambiguous {
		f.Add([]byte(test.bytes))
	}
	f.Fuzz(func(t *testing.T, table []byte) {
		for _, says := range []Answers{{}, {Tank: "shelf", Dates: DayFirst, Decimal: Comma, Unit: "C"}} {
			first := gathering(twoTanks, "t.csv", table, says)
			if len(first.Questions) > 0 && len(first.Files) > 0 && len(first.Facts) == 0 {
				t.Errorf("%q: questions and files", table)
			}
			for _, p := range first.Problems {
				if p.Line < 1 || p.Line > 2+bytes.Count(table, []byte("\n"))+bytes.Count(table, []byte("\r")) || p.Column < 1 || p.Message == "" {
					t.Errorf("%q: a problem at %v", table, p)
				}
			}
			if len(first.Files) == 0 {
				continue
			}
			folder := folderOf(twoTanks, first.Files...)
			j := journal.Read(folder)
			for _, p := range j.Problems {
				if p.Severity == journal.Error || strings.HasSuffix(p.File, ".csv") {
					t.Errorf("%q becomes a mistake: %v", table, p)
				}
			}
			if second := Read(Source{Name: "t.csv", Bytes: table, Says: says}, j, folder); len(second.Files) > 0 {
				t.Errorf("%q: the second time gives %+v", table, second.Files)
			}
		}
	})
}
