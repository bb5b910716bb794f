package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// A collection costs by what is in use, however little of the memory is rubbish. So nothing is collected before the heap
// has grown to roomyHeap, and while that leaves enough room; then it may grow by leastGrowth between two collections. With
// these a journal of ten years is published in less than 300 MB. A heap of which more than roomyHeap is in use grows by
// largeGrowth, because time matters more then.
const (
	roomyHeap   = 170 << 20
	leastGrowth = 35 // percent
	largeGrowth = 40
)

// leastHeap is the heap that the runtime sets out with at 100 percent, which it multiplies.
const leastHeap = 4 << 20

// tuneCollector says so to the runtime, and after each collection what follows from what is in use now. The usual
// variable, GOGC, goes before.
func tuneCollector() {
	if os.Getenv("GOGC") != "" {
		return
	}
	debug.SetGCPercent(growth(0))
	afterCollection()
}

// afterCollection waits for the end of the next collection, which finds the mark that nobody holds.
func afterCollection() {
	mark := new(*byte)
	runtime.AddCleanup(mark, func(struct{}) {
		live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
		metrics.Read(live)
		if live[0].Value.Kind() == metrics.KindUint64 {
			debug.SetGCPercent(growth(live[0].Value.Uint64()))
		}
		afterCollection()
	}, struct{}{})
}

// growth is by how many percent a heap may grow of which so many bytes are in use.
func growth(live uint64) int {
	live = max(live, leastHeap)
	if live >= roomyHeap {
		return largeGrowth
	}
	return max(leastGrowth, int(100*(roomyHeap-live)/live))
}
