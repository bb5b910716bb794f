package parallel

import (
	"fmt"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
	"time"
)

func TestEachIsCalledForEveryNumberOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		calls := make([]atomic.Int64, n)
		Each(n, func(i int) { calls[i].Add(1) })
		for i := range calls {
			if got := calls[i].Load(); got != 1 {
				t.Errorf("Each(%d): %d was called %d times", n, i, got)
			}
		}
	}
}

func TestNoMoreAtATimeThanCores(t *testing.T) {
	var now, most atomic.Int64
	Each(100, func(int) {
		at := now.Add(1)
		for seen := most.Load(); at > seen && !most.CompareAndSwap(seen, at); seen = most.Load() {
		}
		time.Sleep(100 * time.Microsecond)
		now.Add(-1)
	})
	if got, cores := most.Load(), int64(runtime.GOMAXPROCS(0)); got > cores {
		t.Errorf("%d at a time on %d cores", got, cores)
	}
}

// The message of a run that failed must not depend on which core was faster.
func TestTheLowestFailureIsReported(t *testing.T) {
	for range 200 {
		var last atomic.Int64
		err := Try(10_000, func(i int) error {
			last.Store(max(last.Load(), int64(i)))
			if slices.Contains([]int{7, 8, 9}, i) {
				time.Sleep(time.Duration(9-i) * 100 * time.Microsecond)
				return fmt.Errorf("number %d", i)
			}
			return nil
		})
		if err == nil || err.Error() != "number 7" {
			t.Fatalf("got %v, want number 7", err)
		}
		if last.Load() == 9_999 {
			t.Fatal("all were begun, though an early one failed")
		}
	}
}
