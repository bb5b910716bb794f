package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pleopod/journal/invented"
)

var large = flag.Bool("large", false, "benchmark 50,000 entries too, which takes minutes")

// BenchmarkPublish publishes invented journals and holds the time against the floor of the same run: what reading,
// splitting, decoding, Markdown, one frame and writing cost at least with the same libraries. Each ratio is in CPU time,
// which other programs on the machine disturb less than the clock on the wall.
//
//	cold/floor       into a new folder, nothing kept from earlier runs
//	fresh/floor      into a new folder, predictions kept
//	unchanged/floor  again into the same folder
func BenchmarkPublish(b *testing.B) {
	sizes := []int{500, 5000}
	if *large {
		sizes = append(sizes, 50000)
	}
	for _, entries := range sizes {
		b.Run(fmt.Sprint(entries), func(b *testing.B) { benchmarkPublish(b, entries) })
	}
}

func benchmarkPublish(b *testing.B, entries int) {
	folder := inventJournal(b, entries)
	var floor, cold, fresh, unchanged time.Duration
	var memory int64
	for b.Loop() {
		scratch := b.TempDir() // removed after the last run: some disks are slow to make files for seconds after many were removed
		cache := filepath.Join(scratch, "cache")
		took, _ := execute(b, cache, "floor", folder, filepath.Join(scratch, "floor"))
		floor += took
		took, _ = execute(b, cache, "pleopod", "publish", folder, "--out", filepath.Join(scratch, "cold"))
		cold += took
		took, peak := execute(b, cache, "pleopod", "publish", folder, "--out", filepath.Join(scratch, "fresh"))
		fresh += took
		memory = max(memory, peak)
		took, _ = execute(b, cache, "pleopod", "publish", folder, "--out", filepath.Join(scratch, "fresh"))
		unchanged += took
	}
	b.ReportMetric(0, "ns/op") // four different things
	b.ReportMetric(float64(floor.Milliseconds())/float64(b.N), "floor-ms")
	b.ReportMetric(float64(fresh.Milliseconds())/float64(b.N), "fresh-ms")
	b.ReportMetric(cold.Seconds()/floor.Seconds(), "cold/floor")
	b.ReportMetric(fresh.Seconds()/floor.Seconds(), "fresh/floor")
	b.ReportMetric(unchanged.Seconds()/floor.Seconds(), "unchanged/floor")
	b.ReportMetric(float64(memory)/(1<<20), "peak-MB")
}

// inventJournal writes an invented journal into a folder of its own.
func inventJournal(tb testing.TB, entries int) string {
	tb.Helper()
	dir := tb.TempDir()
	for name, text := range invented.Usual(entries).Files() {
		writeFile(tb, filepath.Join(dir, filepath.FromSlash(name)), string(text))
	}
	return dir
}

// execute runs a command of its own process and returns its CPU time and its peak memory in bytes.
func execute(tb testing.TB, cache string, command ...string) (took time.Duration, memory int64) {
	tb.Helper()
	cmd := exec.Command(command[0], command[1:]...)
	cmd.Env = append(os.Environ(), "XDG_CACHE_HOME="+cache)
	out, err := cmd.CombinedOutput()
	if err != nil {
		tb.Fatalf("%s: %v\n%s", strings.Join(command, " "), err, out)
	}
	return cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), peak(cmd.ProcessState)
}
