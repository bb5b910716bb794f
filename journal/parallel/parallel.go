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
	errs := make([]error, n)
	var failed atomic.Bool
	var crew errgroup.Group
	crew.SetLimit(runtime.GOMAXPROCS(0))
	for i := 0; i < n && !failed.Load(); i++ {
		crew.Go(func() error {
			errs[i] = do(i)
			if errs[i] != nil {
				failed.Store(true)
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
