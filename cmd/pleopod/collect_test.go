package main

import "testing"

func TestASmallHeapMayGrowToTheRoomyOne(t *testing.T) {
	for _, c := range []struct {
		live uint64
		want int
	}{{0, 100 * (roomyHeap - leastHeap) / leastHeap}, {roomyHeap / 2, 100}, {roomyHeap - 1, leastGrowth}, {roomyHeap, largeGrowth}, {1 << 40, largeGrowth}} {
		if got := growth(c.live); got != c.want {
			t.Errorf("growth(%d) = %d, want %d", c.live, got, c.want)
		}
	}
}
