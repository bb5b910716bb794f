package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// watching is a watch of a journal under way.
type watching struct {
	testing.TB
	dir     string
	address string
	printed *lockedBuffer // on stderr
	code    chan int
	stop    context.CancelFunc
}

// lockedBuffer is a writer that may be read while it is written to.
type lockedBuffer struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (p *lockedBuffer) Write(text []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.Write(text)
}

func (p *lockedBuffer) String() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.String()
}

var addressLine = regexp.MustCompile(`http://localhost:\d+`)

// watch starts the command on a folder and waits until it serves a site.
func watch(tb testing.TB, dir string, now func() time.Time, flags ...string) *watching {
	tb.Helper()
	ctx, stop := context.WithCancel(context.Background())
	s := &watching{TB: tb, dir: dir, printed: &lockedBuffer{}, code: make(chan int, 1), stop: stop}
	out := &lockedBuffer{}
	env := &environment{stdout: out, stderr: s.printed, getenv: func(string) string { return "" }, now: now, cache: cacheFolder(tb.TempDir())}
	go func() { s.code <- run(ctx, append([]string{"watch", dir, "--port", "0"}, flags...), env) }()
	tb.Cleanup(s.end)
	s.until("an address is printed", func() bool {
		s.address = addressLine.FindString(out.String())
		return s.address != ""
	})
	return s
}

// end interrupts the command, which must stop within a second.
func (s *watching) end() {
	s.Helper()
	s.stop()
	select {
	case code := <-s.code:
		if code != exitDone {
			s.Errorf("watch ended with %d: %s", code, s.printed)
		}
		s.code <- code
	case <-time.After(5 * time.Second): // the code allows itself one; a busy machine is given more
		s.Error("watch does not stop")
	}
}

// until waits for something to come true.
func (s *watching) until(what string, holds func() bool) {
	s.Helper()
	for deadline := time.Now().Add(2 * time.Minute); !holds(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(deadline) {
			s.Fatalf("never: %s\n%s", what, s.printed)
		}
		select {
		case code := <-s.code:
			s.Fatalf("watch ended with %d: %s", code, s.printed)
		default:
		}
	}
}

// get returns the status and the body of a page.
func (s *watching) get(page string) (int, string) {
	s.Helper()
	answer, err := http.Get(s.address + "/" + page)
	if err != nil {
		s.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		s.Fatal(err)
	}
	return answer.StatusCode, string(text)
}

// shows waits until a page holds a text.
func (s *watching) shows(page, text string) {
	s.Helper()
	s.until(fmt.Sprintf("%s shows %q", page, text), func() bool {
		_, body := s.get(page)
		return strings.Contains(body, text)
	})
}

// prints waits until something is printed on stderr.
func (s *watching) prints(text string) {
	s.Helper()
	s.until(fmt.Sprintf("%q is printed", text), func() bool { return strings.Contains(s.printed.String(), text) })
}

// announces waits until the event stream tells open pages something.
func (s *watching) announces(text string) {
	s.Helper()
	s.until(fmt.Sprintf("open pages are told %q", text), func() bool {
		ctx, stop := context.WithTimeout(context.Background(), time.Second)
		defer stop()
		request, err := http.NewRequestWithContext(ctx, http.MethodGet, s.address+"/-/events", nil)
		if err != nil {
			s.Fatal(err)
		}
		answer, err := http.DefaultClient.Do(request)
		if err != nil {
			return false
		}
		defer answer.Body.Close()
		lines, line := bufio.NewReader(answer.Body), ""
		for err == nil && !strings.HasPrefix(line, "data: ") {
			line, err = lines.ReadString('\n')
		}
		return strings.Contains(line, text)
	})
}

// write changes a file of the journal.
func (s *watching) write(name, text string) {
	s.Helper()
	writeFile(s.TB, filepath.Join(s.dir, filepath.FromSlash(name)), text)
}

// writeFile writes a file, and the folders that it needs.
func writeFile(tb testing.TB, name, text string) {
	tb.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		tb.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		tb.Fatal(err)
	}
}

const (
	smallSettings = "title: Small\naddress: https://example.org/\ntanks: {north: {volume: 30 L, heater: 23 C}}\n"
	stockedEntry  = "---\ndate: 2026-03-14\ntitle: First\nevents:\n  - stocked: {females: 6, males: 4}\n    age: 4 months\n---\nTen of them.\n"
)

// smallJournal writes a journal with one entry.
func smallJournal(tb testing.TB) string {
	tb.Helper()
	dir, err := os.MkdirTemp("", "journal")
	if err != nil {
		tb.Fatal(err)
	}
	// A watch that is cut off may still be writing, so the folder cannot be one that must be gone at the end.
	tb.Cleanup(func() { _ = os.RemoveAll(dir) })
	s := &watching{TB: tb, dir: dir}
	s.write("journal.yaml", smallSettings)
	s.write("entries/a.md", stockedEntry)
	return s.dir
}

func TestWatchShowsEverySave(t *testing.T) {
	s := watch(t, smallJournal(t), time.Now, "--as-of", "2026-03-21")
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	s.write("entries/a.md", strings.Replace(stockedEntry, "Ten of them.", "Ten, all lively.", 1))
	s.shows("diary/2026-03-14-first.html", "all lively")
	s.prints(": entries/a.md\n  no problem, 1")

	// half-written, then invalid for a while: the mistake is told with its place, line and suggestion, and the last good site stays
	s.write("entries/a.md", strings.Replace(stockedEntry, "stocked", "stoked", 1))
	s.announces(`"where":"entries/a.md:5:5"`)
	s.announces(`"line":"  - stoked: {females: 6, males: 4}"`)
	s.announces(`did you mean \"stocked\"?`)
	s.prints("  1 error; the pages are those of before\n")
	s.shows("diary/2026-03-14-first.html", "all lively")
	s.write("entries/a.md", "---\ndate: 2026-03-1")
	s.announces(`"where":"entries/a.md:1:1"`)
	s.write("entries/a.md", stockedEntry)
	s.announces(`"mistakes":null`)
	s.shows("diary/2026-03-14-first.html", "Ten of them.")
	s.until("the mistake is gone", func() bool {
		text, err := os.ReadFile(filepath.Join(s.dir, "published/diary/2026-03-14-first.html"))
		return err == nil && strings.Contains(string(text), "Ten of them.")
	})

	// an event moves the numbers: the text comes at once, the numbers follow
	s.write("entries/b.md", "---\ndate: 2026-03-20\ntitle: Second\nevents:\n  - counted: 4\n    method: emptied\n---\nOnly four.\n")
	s.shows("diary/2026-03-20-second.html", "Only four.")
	s.shows("data/forecast.json", `"p50": 4,`)
}

func TestWatchOfAMistakenJournalShowsTheSiteOnceMended(t *testing.T) {
	dir := smallJournal(t)
	if err := os.WriteFile(filepath.Join(dir, "entries", "a.md"), []byte("no front matter"), 0o644); err != nil {
		t.Fatal(err)
	}
	s := watch(t, dir, time.Now)
	s.announces(`"where":"entries/a.md:1:1"`)
	if status, text := s.get(""); status != http.StatusServiceUnavailable || !strings.Contains(text, "preview.js") {
		t.Errorf("%d %s", status, text)
	}
	s.write("entries/a.md", stockedEntry)
	s.shows("", "Small")
}

// TestWatchSaysOnceThatThereIsNoAddress holds that a keeper without a web address is not told at every save.
func TestWatchSaysOnceThatThereIsNoAddress(t *testing.T) {
	dir := smallJournal(t)
	(&watching{TB: t, dir: dir}).write("journal.yaml", strings.Replace(smallSettings, "address: https://example.org/\n", "", 1))
	s := watch(t, dir, time.Now, "--as-of", "2026-03-21")
	s.shows("", "Small")
	s.write("entries/a.md", stockedEntry+"\n![Moss](../photos/none.jpg)\n")
	s.prints("  1 error;")
	s.write("entries/a.md", stockedEntry)
	s.prints("  no problem, ")
	if printed := s.printed.String(); strings.Count(printed, "no address") != 1 {
		t.Errorf("it is not said once that there is no address:\n%s", printed)
	}
}

// TestWatchFollowsTheDay lets midnight come while the first site is made, and sets the clock back later.
func TestWatchFollowsTheDay(t *testing.T) {
	var mu sync.Mutex
	asked := 0
	later := time.Date(2026, 4, 2, 0, 0, 1, 0, time.Local)
	clock := func() time.Time {
		mu.Lock()
		defer mu.Unlock()
		if asked++; asked <= 4 { // the last time for the day of the site
			return time.Date(2026, 4, 1, 23, 50, 0, 0, time.Local)
		}
		return later
	}
	s := watch(t, smallJournal(t), clock)
	s.shows("", "2026-04-02")
	mu.Lock()
	later = time.Date(2026, 3, 20, 12, 0, 0, 0, time.Local)
	mu.Unlock()
	s.write("entries/a.md", strings.Replace(stockedEntry, "Ten of", "After the clock was set back, ten of", 1))
	s.shows("diary/2026-03-14-first.html", "was set back")
	s.shows("", "2026-03-20")
}
