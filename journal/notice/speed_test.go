package notice

import (
	"testing"
	"testing/fstest"

	"pleopod/journal"
	"pleopod/journal/colony"
	"pleopod/journal/forecast"
	"pleopod/journal/invented"
)

// BenchmarkWeigh weighs four tanks with 5,000 entries; the forecast is made once before.
func BenchmarkWeigh(b *testing.B) {
	plan := invented.Usual(5000)
	plan.Bytes = 300 // of text, which is not what is looked at
	files := fstest.MapFS{}
	for name, text := range plan.Files() {
		files[name] = &fstest.MapFile{Data: text}
	}
	j := journal.Read(files)
	f := forecast.Past(colony.Replay(j, j.Settings.AsOf))
	b.ResetTimer()
	for b.Loop() {
		Weigh(f)
	}
}
