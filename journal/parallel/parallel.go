// Package parallel does many things at a time, one on each core, and answers with nothing but an error: what each thing
// gives, it writes to a place of its own, so that the result is the same on any number of cores.
package parallel

import (
	"runtime"
	"sync/atomic"

	"golang.org/x/sync/errgroup"
)

// Each calls do for 0 to n-1, in this order, as many at a time as there are cores, and returns when all are done.
func Each(n int, do func(i int)) {
	_ = Try(n, func(i int) error { do(i); return nil })
}

// Try is Each for what can fail: after a failure it begins no more. It returns the error of the lowest number that
// failed, which does not depend on the number of cores, because all lower numbers began before it.
func Try(n int, do func(i int) error) error {
	var failed atomic.Bool
	var next atomic.Int64
	errs := make([]error, n)
	var crew errgroup.Group
	// A goroutine for each core and not for each number: each would grow its stack anew, a fortieth of publishing.
	for range min(n, runtime.GOMAXPROCS(0)) {
		crew.Go(func() error {
			for !failed.Load() { // asked before a number is taken: one that is taken is tried
				i := int(next.Add(1)) - 1
				if i >= n {
					break
				}
				if errs[i] = do(i); errs[i] != nil {
					failed.Store(true)
				}
			}
			return nil
		})
	}
	_ = crew.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
