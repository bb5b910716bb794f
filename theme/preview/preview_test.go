package preview

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"
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
		{"climbing, escaped", "GET", "/%2e%2e/%2e%2e/etc/passwd", "localhost:7421", "", 404, "lost"},
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
			request.URL.Path = strings.ReplaceAll(test.path, "%2e", ".")
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
	for _, want := range []string{`src="/-/preview.js"`, "connect-src 'self'"} {
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

// listen opens an event stream and returns its messages.
func listen(t *testing.T, address string) <-chan message {
	t.Helper()
	answer, err := http.Get(address + eventsPath)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { answer.Body.Close() })
	messages := make(chan message, 16)
	go func() {
		defer close(messages)
		for lines := bufio.NewScanner(answer.Body); lines.Scan(); {
			text, isData := strings.CutPrefix(lines.Text(), "data: ")
			var m message
			if isData && json.Unmarshal([]byte(text), &m) == nil {
				messages <- m
			}
		}
	}()
	return messages
}

func next(t *testing.T, messages <-chan message, kind string) message {
	t.Helper()
	select {
	case m := <-messages:
		if m.Kind != kind {
			t.Fatalf("told %q, want %q", m.Kind, kind)
		}
		return m
	case <-time.After(5 * time.Second):
		t.Fatalf("never told %q", kind)
	}
	return message{}
}

func TestOpenPagesAreTold(t *testing.T) {
	server := New()
	server.Show(site)
	address, _ := start(t, server)
	messages := listen(t, address)
	if first := next(t, messages, "mistakes"); len(first.Mistakes) > 0 {
		t.Error("a fresh journal has mistakes")
	}

	server.Fault([]Mistake{{Where: "entries/a.md:6:5", Message: `unknown event "bered"`}})
	if m := next(t, messages, "mistakes"); len(m.Mistakes) != 1 || m.Mistakes[0].Where != "entries/a.md:6:5" {
		t.Errorf("told of %v", m.Mistakes)
	}
	if m := next(t, listen(t, address), "mistakes"); len(m.Mistakes) != 1 {
		t.Error("a page opened later is not told of the mistake")
	}

	server.Show(site) // the same site again: mended
	if m := next(t, messages, "reload"); m.Files != nil {
		t.Errorf("only %v loads itself again after a mistake", m.Files)
	}

	server.Patch(map[string][]byte{"tanks/north.html": []byte("<html><head></head><body>early</body></html>")})
	if m := next(t, messages, "reload"); !slices.Equal(m.Files, []string{"tanks/north.html"}) {
		t.Errorf("told of %v", m.Files)
	}
	server.Show(site)
	if m := next(t, messages, "reload"); !slices.Equal(m.Files, []string{"tanks/north.html"}) {
		t.Errorf("told of %v", m.Files)
	}

	styled := map[string][]byte{}
	for name, content := range site {
		styled[name] = content
	}
	styled["style.css"] = []byte("p{color:red}")
	server.Show(styled)
	next(t, messages, "style")

	server.Note("numbers follow")
	if m := next(t, messages, "note"); m.Note != "numbers follow" {
		t.Errorf("note %q", m.Note)
	}
	if m := next(t, listen(t, address), "mistakes"); m.Note != "numbers follow" {
		t.Errorf("a page opened later has the note %q", m.Note)
	}
	server.Show(styled) // the numbers have come
	next(t, messages, "reload")
	if m := next(t, listen(t, address), "mistakes"); m.Note != "" {
		t.Errorf("the note %q stays", m.Note)
	}
}

func TestManyOpenPagesAndAQuickStop(t *testing.T) {
	server := New()
	server.Show(site)
	address, stop := start(t, server)
	var all []<-chan message
	for range 200 {
		all = append(all, listen(t, address))
	}
	for _, messages := range all {
		next(t, messages, "mistakes")
	}
	server.Show(map[string][]byte{"index.html": []byte("new")})
	for _, messages := range all {
		next(t, messages, "reload")
	}
	if took := stop(); took > time.Second {
		t.Errorf("stopping took %v with open streams", took)
	}
	server.mu.RLock()
	defer server.mu.RUnlock()
	if len(server.pages) > 0 {
		t.Errorf("%d streams are still held", len(server.pages))
	}
}

func TestBusyPortNamesAFreeOne(t *testing.T) {
	taken, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	_, err = Listen(taken.Addr().(*net.TCPAddr).Port)
	if err == nil || !strings.Contains(err.Error(), "--port") {
		t.Errorf("Listen on a busy port: %v", err)
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
