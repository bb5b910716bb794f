//go:build unix

package population

import (
	"syscall"
	"testing"
	"time"
)

// reportCPU adds the processor time of one operation to a benchmark: the wall clock also counts what other programs do.
func reportCPU(b *testing.B) func() {
	b.Helper()
	before := processorTime(b)
	return func() {
		b.Helper()
		b.ReportMetric((processorTime(b)-before).Seconds()*1e3/float64(b.N), "cpu-ms/op")
	}
}

func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
