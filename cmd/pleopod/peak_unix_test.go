//go:build unix

package main

import (
	"os"
	"syscall"
)

// peak returns the most memory that a process used, in bytes.
func peak(process *os.ProcessState) int64 {
	if use, ok := process.SysUsage().(*syscall.Rusage); ok {
		return use.Maxrss << 10
	}
	return 0
}
