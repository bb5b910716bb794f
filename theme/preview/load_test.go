package preview

import (
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
		case <-time.After(12 * time.Second):
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
	var pages []<-chan message
	for range 200 {
		page := listen(t, address)
		next(t, page, "mistakes")
		pages = append(pages, page)
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
	for _, page := range pages {
		for range page { // what the page was sent and did not take, up to the end that the server made
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
	for _, path := range []string{"/notes.md", "/link.html", "/./notes.md", "/a/.git/config", "/a/%2egit/config", "/.env", "/%2e/.env", "//notes.md", "/-/../notes.md", "/index.html/../notes.md", dir + "/notes.md"} {
		answer, err := http.Get(address + path)
		if err != nil {
			t.Fatal(err)
		}
		text, _ := io.ReadAll(answer.Body)
		answer.Body.Close()
		if answer.StatusCode != http.StatusNotFound || strings.Contains(string(text), "secret") {
			t.Errorf("%s: %d %q", path, answer.StatusCode, text)
		}
	}
}
