package preview

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/http/httptest"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

const port = 7421

var site = map[string][]byte{
	"index.html":       []byte(`<html><head><meta content="connect-src 'self'"></head><body>home</body></html>`),
	"tanks/north.html": []byte("<html><head></head><body>north</body></html>"),
	"style.css":        []byte("p{}"),
	"404.html":         []byte("<html><head></head><body>lost</body></html>"),
	".manifest":        []byte("secret"),
}

func TestWhatIsAnswered(t *testing.T) {
	server := New()
	server.Show(site)
	tests := []struct {
		name, method, path, host, origin string
		status                           int
		holds                            string
	}{
		{"home", "GET", "/", "localhost:7421", "", 200, "home"},
		{"page", "GET", "/tanks/north.html", "127.0.0.1:7421", "", 200, "north"},
		{"page, upper-case host", "GET", "/tanks/north.html", "LOCALHOST:7421", "", 200, "north"},
		{"style", "GET", "/style.css", "[::1]:7421", "", 200, "p{}"},
		{"own origin", "GET", "/", "localhost:7421", "http://localhost:7421", 200, "home"},
		{"head", "HEAD", "/", "localhost:7421", "", 200, ""},
		{"unknown", "GET", "/nothing.html", "localhost:7421", "", 404, "lost"},
		{"folder", "GET", "/tanks/", "localhost:7421", "", 404, "lost"},
		{"dot-file", "GET", "/.manifest", "localhost:7421", "", 404, "lost"},
		{"climbing", "GET", "/../../etc/passwd", "localhost:7421", "", 404, "lost"},
		{"climbing, backslash", "GET", `/..\..\etc\passwd`, "localhost:7421", "", 404, "lost"},
		{"foreign host", "GET", "/", "evil.example:7421", "", 421, "own names"},
		{"no port", "GET", "/", "localhost", "", 421, "own names"},
		{"other port", "GET", "/", "localhost:80", "", 421, "own names"},
		{"name that resolves here", "GET", "/", "127.0.0.1.rebind.example:7421", "", 421, "own names"},
		{"final dot", "GET", "/", "localhost.:7421", "", 421, "own names"},
		{"no host", "GET", "/", "", "", 421, "own names"},
		{"foreign origin", "GET", "/", "localhost:7421", "https://evil.example", 403, "own pages"},
		{"post", "POST", "/", "localhost:7421", "", 405, "only be read"},
		{"delete", "DELETE", "/index.html", "localhost:7421", "", 405, "only be read"},
		{"options", "OPTIONS", "/", "localhost:7421", "", 405, "only be read"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			request := httptest.NewRequest(test.method, "http://localhost:7421/", nil)
			request.URL.Path = test.path
			request.Host = test.host
			if test.origin != "" {
				request.Header.Set("Origin", test.origin)
			}
			answer := httptest.NewRecorder()
			server.Handler(port).ServeHTTP(answer, request)
			if answer.Code != test.status || !strings.Contains(answer.Body.String(), test.holds) {
				t.Errorf("%s %s to %q: %d %q, want %d with %q", test.method, test.path, test.host, answer.Code, answer.Body, test.status, test.holds)
			}
			if strings.Contains(answer.Body.String(), "secret") {
				t.Error("a dot-file was served")
			}
		})
	}
}

// TestBeforeTheFirstSite: a journal may begin with a mistake, and its page must show it.
func TestBeforeTheFirstSite(t *testing.T) {
	server := New()
	request := httptest.NewRequest("GET", "/", nil)
	request.Host = "localhost:7421"
	answer := httptest.NewRecorder()
	server.Handler(port).ServeHTTP(answer, request)
	if answer.Code != http.StatusServiceUnavailable || !strings.Contains(answer.Body.String(), scriptPath) {
		t.Errorf("%d %s", answer.Code, answer.Body)
	}
}

func TestPagesAreMadeLive(t *testing.T) {
	server := New()
	server.Show(site)
	answer := httptest.NewRecorder()
	request := httptest.NewRequest("GET", "/", nil)
	request.Host = "localhost:7421"
	server.Handler(port).ServeHTTP(answer, request)
	for _, want := range []string{`src="/-/preview.js?`, "connect-src 'self'"} {
		if !strings.Contains(answer.Body.String(), want) {
			t.Errorf("the page lacks %s: %s", want, answer.Body)
		}
	}
}

// start serves on a real port and returns its address and a way to stop.
func start(t *testing.T, server *Server) (address string, stop func() time.Duration) {
	t.Helper()
	listener, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- server.Serve(ctx, listener) }()
	stop = func() time.Duration {
		begin := time.Now()
		cancel()
		<-done
		return time.Since(begin)
	}
	t.Cleanup(cancel)
	return "http://" + listener.Addr().String(), stop
}

// page is an open page that has read the site at a version.
type page struct {
	testing.TB
	told chan news
	id   string // of the last news
}

// open opens an event stream for a page that knows a version of the site, or nothing yet with "".
func open(t *testing.T, address, version string) *page {
	t.Helper()
	answer, err := http.Get(address + eventsPath + "?" + version)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { answer.Body.Close() })
	p := &page{TB: t, told: make(chan news, 16)}
	go func() {
		defer close(p.told)
		for lines := bufio.NewScanner(answer.Body); lines.Scan(); {
			if id, isID := strings.CutPrefix(lines.Text(), "id: "); isID {
				p.id = id
			}
			text, isData := strings.CutPrefix(lines.Text(), "data: ")
			var told news
			if isData && json.Unmarshal([]byte(text), &told) == nil {
				p.told <- told
			}
		}
	}()
	return p
}

// next fails when the next news are not the wanted.
func (p *page) next(want news) {
	p.Helper()
	select {
	case told := <-p.told:
		if diff := cmp.Diff(want, told); diff != "" {
			p.Fatalf("told (-want +got):\n%s", diff)
		}
	case <-time.After(5 * time.Second):
		p.Fatalf("never told %+v", want)
	}
}

// allFiles are the names of the site.
var allFiles = slices.Sorted(maps.Keys(site))

// with returns the site with another content of one file, or without it where there is none.
func with(name, content string) map[string][]byte {
	changed := maps.Clone(site)
	changed[name] = []byte(content)
	if content == "" {
		delete(changed, name)
	}
	return changed
}

func TestOpenPagesAreTold(t *testing.T) {
	const north, style = "tanks/north.html", "style.css"
	server := New()
	address, _ := start(t, server)
	waiting := open(t, address, "0")
	waiting.next(news{})
	server.Show(site)
	waiting.next(news{Files: allFiles})
	p := open(t, address, "")
	p.next(news{Files: allFiles})

	mistakes := []Mistake{{Where: "entries/a.md:6:5", Message: `unknown event "bered"`, Line: "  - bered: 1", Hint: `did you mean "berried"?`}}
	server.Fault(mistakes)
	p.next(news{Mistakes: mistakes})
	open(t, address, p.id).next(news{Mistakes: mistakes})
	server.Show(site) // the same site again: mended
	p.next(news{})

	server.Patch(map[string][]byte{north: []byte("<html><head></head><body>early</body></html>")})
	p.next(news{Files: []string{north}})
	server.Show(site)
	p.next(news{Files: []string{north}})
	server.Show(with(style, "p{color:red}"))
	p.next(news{Files: []string{style}})
	server.Show(with(north, ""))
	p.next(news{Files: []string{style, north}})

	server.Note("numbers follow")
	p.next(news{Note: "numbers follow"})
	open(t, address, p.id).next(news{Note: "numbers follow"})
	server.Fault(mistakes) // what the note was about was given up
	p.next(news{Mistakes: mistakes})
	server.Note("not saved")
	p.next(news{Mistakes: mistakes, Note: "not saved"})
	server.Show(site)
	p.next(news{Files: []string{north}})
}

// TestWhatAPageMissed: it was loading, or its connection was lost, or the server was started again.
func TestWhatAPageMissed(t *testing.T) {
	server := New()
	server.Show(site)
	address, _ := start(t, server)
	_, text := get(t, address+"/")
	version := regexp.MustCompile(`preview\.js\?(\d+)"`).FindStringSubmatch(text)
	if version == nil {
		t.Fatalf("no version in %s", text)
	}
	open(t, address, version[1]).next(news{})
	server.Show(with("index.html", "new"))
	server.Show(with("style.css", "p{color:red}"))
	missed := news{Files: []string{"index.html", "style.css"}}
	open(t, address, version[1]).next(missed)

	request, err := http.NewRequest("GET", address+eventsPath+"?0", nil)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Last-Event-ID", version[1])
	answer, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	lines := bufio.NewScanner(answer.Body)
	for lines.Scan() && !strings.HasPrefix(lines.Text(), "data: ") {
	}
	if want := `data: {"mistakes":null,"note":"","files":["index.html","style.css"]}`; lines.Text() != want {
		t.Errorf("after a lost connection: %s, want %s", lines.Text(), want)
	}

	again := New()
	address, _ = start(t, again)
	p := open(t, address, version[1]) // of the other server
	p.next(news{})                    // there is nothing yet to load
	again.Show(site)
	p.next(news{Files: allFiles})
	open(t, address, version[1]).next(news{Files: allFiles})
	open(t, address, "99999999999999999").next(news{Files: allFiles}) // from before the clock was set back
}

// get returns the status and the text of an address.
func get(t *testing.T, address string) (int, string) {
	t.Helper()
	answer, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(text)
}

// TestMissingPageIsLive: a page that went, such as that of an entry whose title is being typed, may come back.
func TestMissingPageIsLive(t *testing.T) {
	server := New()
	server.Show(site)
	address, _ := start(t, server)
	if status, text := get(t, address+"/diary/gone.html"); status != http.StatusNotFound || !strings.Contains(text, scriptPath) {
		t.Errorf("%d %s", status, text)
	}
}

func TestManyOpenPagesAndAQuickStop(t *testing.T) {
	server := New()
	server.Show(site)
	address, stop := start(t, server)
	var all []*page
	for range 200 {
		all = append(all, open(t, address, ""))
	}
	for _, p := range all {
		p.next(news{Files: allFiles})
	}
	server.Show(with("index.html", "new"))
	for _, p := range all {
		p.next(news{Files: []string{"index.html"}})
	}
	if took := stop(); took > 500*time.Millisecond {
		t.Errorf("stopping took %v: open streams were not ended, but cut off", took)
	}
	server.mu.RLock()
	defer server.mu.RUnlock()
	if len(server.pages) > 0 {
		t.Errorf("%d streams are still held", len(server.pages))
	}
}

func TestPortThatCannotBeHad(t *testing.T) {
	taken, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	for port, reason := range map[int]string{taken.Addr().(*net.TCPAddr).Port: "is taken by another program", 65536: "does not exist; the last one is 65535"} {
		_, err := Listen(port)
		said := regexp.MustCompile(`^port (\d+) (.*); --port (\d+) is free$`).FindStringSubmatch(fmt.Sprint(err))
		if said == nil || said[1] != strconv.Itoa(port) || said[2] != reason {
			t.Fatalf("Listen(%d): %v, want that it %s", port, err, reason)
		}
		other, _ := strconv.Atoi(said[3])
		free, err := Listen(other)
		if err != nil {
			t.Fatalf("the port that was called free: %v", err)
		}
		free.Close()
	}
}

func TestHugeHeaderIsRefused(t *testing.T) {
	address, _ := start(t, New())
	request, err := http.NewRequest("GET", address+"/", nil)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("X-Long", strings.Repeat("x", 64<<10))
	answer, err := http.DefaultClient.Do(request)
	if err != nil {
		return // the connection was closed: refused too
	}
	defer answer.Body.Close()
	if _, err := io.Copy(io.Discard, answer.Body); err != nil || answer.StatusCode != http.StatusRequestHeaderFieldsTooLarge {
		t.Errorf("huge header: %d, %v", answer.StatusCode, err)
	}
}
