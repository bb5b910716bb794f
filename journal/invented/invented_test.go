package invented_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/invented"
)

func folder(p invented.Plan) fstest.MapFS {
	files := fstest.MapFS{}
	for name, text := range p.Files() {
		files[name] = &fstest.MapFile{Data: text}
	}
	return files
}

func TestJournalIsWhatThePlanSays(t *testing.T) {
	for _, entries := range []int{1, 3, 37, 500, 6000} {
		plan := invented.Usual(entries)
		plan.Bytes = 300 // the text is not what is looked at here
		read := journal.Read(folder(plan))
		if len(read.Problems) > 0 {
			t.Fatalf("%d entries: %v", entries, read.Problems[0])
		}
		berried, tests := 0, 0
		for _, entry := range read.Entries {
			for i := range entry.Events {
				switch entry.Events[i].What.(type) {
				case *journal.Berried:
					berried++
				case *journal.WaterTest:
					tests++
				}
			}
		}
		if len(read.Entries) != entries || berried != plan.Broods || tests < plan.Tests*9/10 {
			t.Errorf("%d entries, %d broods, %d tests; the plan is %+v", len(read.Entries), berried, tests, plan)
		}
		first, last := read.Entries[0].Date, read.Entries[len(read.Entries)-1].Date
		if days := int(last-first) + 1; entries > 400 && (days < plan.Days*9/10 || days > plan.Days) {
			t.Errorf("%d entries over %d days, planned %d", entries, days, plan.Days)
		}
	}
}

func TestSamePlanSameFiles(t *testing.T) {
	plan := invented.Usual(60)
	first, again := folder(plan), folder(plan)
	plan.Seed++
	other, differ := folder(plan), 0
	for name, file := range first {
		if !bytes.Equal(file.Data, again[name].Data) {
			t.Errorf("%s is another text the second time", name)
		}
		if other[name] == nil || !bytes.Equal(file.Data, other[name].Data) {
			differ++
		}
		if size := len(file.Data); name != "journal.yaml" && (size < plan.Bytes || size > plan.Bytes+1200) {
			t.Errorf("%s has %d bytes, planned %d", name, size, plan.Bytes)
		}
	}
	if differ < 50 {
		t.Errorf("another seed changes only %d files", differ)
	}
}
