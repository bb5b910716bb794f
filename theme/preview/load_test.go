package preview

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestSlowClientIsCutOff opens a connection that sends one letter of its header now and then. It is closed in time, and
// others are answered meanwhile.
func TestSlowClientIsCutOff(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for the limit of 5 s")
	}
	server := New()
	server.Show(site)
	address, _ := start(t, server)
	slow, err := net.Dial("tcp", strings.TrimPrefix(address, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer slow.Close()
	ended := make(chan time.Duration, 1)
	begin := time.Now()
	go func() {
		_, _ = io.Copy(io.Discard, slow)
		ended <- time.Since(begin)
	}()
	drip := time.NewTicker(200 * time.Millisecond)
	defer drip.Stop()
	tooLong := time.After(12 * time.Second)
	if _, err := io.WriteString(slow, "GET / HTTP/1.1\r\nX: "); err != nil {
		t.Fatal(err)
	}
	for {
		select {
		case took := <-ended:
			if took > 9*time.Second {
				t.Errorf("a slow client was held for %v", took)
			}
			return
		case <-drip.C:
			_, _ = io.WriteString(slow, "x")
			answer, err := http.Get(address + "/")
			if err != nil {
				t.Fatalf("while one client is slow: %v", err)
			}
			answer.Body.Close()
		case <-tooLong:
			t.Fatal("a slow client is held for ever")
		}
	}
}

// TestOpenPagesDoNotGrow tells 200 open pages of a thousand changes, of which they take none. What is kept for them must
// not grow with the number of changes, and all of it must be gone when the pages are.
func TestOpenPagesDoNotGrow(t *testing.T) {
	server := New()
	server.Show(site)
	address, stop := start(t, server)
	before := runtime.NumGoroutine()
	var pages []*page
	for range 200 {
		p := open(t, address, "")
		p.next(news{Files: allFiles})
		pages = append(pages, p)
	}
	heap := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	tell := func(times int) {
		for i := range times {
			server.Fault([]Mistake{{Where: "entries/a.md:6:5", Message: strings.Repeat("x", 100+i%2)}})
		}
	}
	tell(200)
	first := heap()
	tell(1000)
	if grown := int64(heap()) - int64(first); grown > 16<<20 {
		t.Errorf("a thousand changes left %d bytes", grown)
	}
	stop()
	for _, p := range pages {
		for range p.told { // what the page was sent and did not take, up to the end that the server made
		}
	}
	http.DefaultClient.CloseIdleConnections()
	for range 500 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Errorf("%d goroutines before the pages, %d after", before, runtime.NumGoroutine())
}

// TestStopsWhileAPageTakesNothing: one that does not take what it is sent holds its stream up, but not the stop.
func TestStopsWhileAPageTakesNothing(t *testing.T) {
	server := New()
	address, stop := start(t, server)
	stuck, err := net.Dial("tcp", strings.TrimPrefix(address, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer stuck.Close()
	if _, err := fmt.Fprintf(stuck, "GET %s HTTP/1.1\r\nHost: %s\r\n\r\n", eventsPath, strings.TrimPrefix(address, "http://")); err != nil {
		t.Fatal(err)
	}
	note := strings.Repeat("x", 1<<20)
	for i := range 16 { // more than a connection holds
		server.Note(fmt.Sprint(note, i))
		time.Sleep(10 * time.Millisecond)
	}
	if took := stop(); took < 400*time.Millisecond || took > time.Second {
		t.Errorf("stopping took %v; it must wait a moment for what is being sent, and no longer", took)
	}
}

// TestOnlyTheSiteIsServed runs the server in a folder with a file and a link to it. Neither is ever opened: the site is in memory.
func TestOnlyTheSiteIsServed(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "notes.md"), []byte("secret"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("notes.md", filepath.Join(dir, "link.html")); err != nil {
		t.Skipf("SKIPPED, NOT TESTED: no symbolic links here: %v", err)
	}
	t.Chdir(dir)
	server := New()
	server.Show(map[string][]byte{"index.html": []byte("home"), "a/.git/config": []byte("secret"), ".env": []byte("secret")})
	address, _ := start(t, server)
	for _, path := range []string{"/notes.md", "/link.html", "/./notes.md", "/a/.git/config", "/a/%2egit/config", "/.env", "/%2e/.env", "/%2e%2e/%2e%2e/etc/passwd", "//notes.md", "/-/../notes.md", "/index.html/../notes.md", dir + "/notes.md"} {
		if status, text := get(t, address+path); status != http.StatusNotFound || strings.Contains(text, "secret") {
			t.Errorf("%s: %d %q", path, status, text)
		}
	}
}
