//go:build !unix

package population

import "testing"

// reportCPU does nothing where the processor time is not told.
func reportCPU(*testing.B) func() { return func() {} }
