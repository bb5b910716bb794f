package photo

import "sync"

// large is how much memory, in bytes, a photo takes that is decoded alone.
const large = 150_000_000

// turns holds a place for each photo in work, and entry lets one photo at a time take its places, so that two large
// ones cannot wait for each other.
var (
	turns = make(chan struct{}, 2)
	entry sync.Mutex
)

// takeTurns waits for room to decode a photo and returns the function that makes room for the next.
func takeTurns(memory int64) (done func()) {
	places := 1
	if memory > large {
		places = cap(turns)
	}
	entry.Lock()
	defer entry.Unlock()
	for range places {
		turns <- struct{}{}
	}
	return func() {
		for range places {
			<-turns
		}
	}
}
