// Package preview serves a site from memory to a browser on the same machine, and tells open pages when it changed.
//
// It answers only GET and HEAD, only to a Host that names this machine and the real port (so that a page elsewhere cannot
// reach it through a name of its own), and only for files of the site: it never opens the disk.
package preview

import (
	"bytes"
	"cmp"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"mime"
	"net"
	"net/http"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// Addresses of the preview's own files. No published file can have them: names of the site never begin with a hyphen.
const (
	eventsPath = "/-/events"
	scriptPath = "/-/preview.js"
	stylePath  = "/-/preview.css"
)

//go:embed preview.js
var script []byte

//go:embed preview.css
var style []byte

// Mistake is one problem of the journal as the page shows it.
type Mistake struct {
	Where   string `json:"where"`   // file:line:column
	Message string `json:"message"` // what was found and what is allowed
	Line    string `json:"line"`    // the line itself
	Hint    string `json:"hint"`    // what to type, or ""
}

// Server holds the last good site and the mistakes of the journal since then.
type Server struct {
	mu       sync.RWMutex
	files    map[string][]byte
	version  int64            // of the files; 0 without a site, and larger with every change, also after a new start
	changed  map[string]int64 // the version that each file, or its absence, came with
	mistakes []Mistake
	note     string
	pages    map[chan struct{}]bool // event streams of open pages; each holds one call to look, or none
}

// news is what an open page is told.
type news struct {
	Mistakes []Mistake `json:"mistakes"`
	Note     string    `json:"note"`
	Files    []string  `json:"files"` // that have changed since the version that the page knows, sorted
}

// New returns a server without a site.
func New() *Server {
	return &Server{changed: map[string]int64{}, pages: map[chan struct{}]bool{}}
}

// Show takes a good site, by slash path, and tells the open pages. It clears the mistakes and the note.
func (s *Server) Show(files map[string][]byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.mistakes, s.note = nil, ""
	s.replace(files)
}

// Patch puts single files into the site that is shown, ahead of the next Show. The mistakes and the note stay.
func (s *Server) Patch(files map[string][]byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	patched := maps.Clone(s.files)
	if patched == nil {
		patched = map[string][]byte{}
	}
	maps.Copy(patched, files)
	s.replace(patched)
}

// Fault keeps the last good site and shows the mistakes on every open page, until the next Show. It clears the note.
func (s *Server) Fault(mistakes []Mistake) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.mistakes, s.note = mistakes, ""
	s.tell()
}

// Note shows one line of text on every open page until the next Show, Fault or Note; "" takes it away.
func (s *Server) Note(text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.note = text
	s.tell()
}

// replace changes the files and tells the open pages.
func (s *Server) replace(files map[string][]byte) {
	if names := changes(s.files, files); len(names) > 0 {
		s.version = max(s.version+1, time.Now().UnixMicro())
		for _, name := range names {
			s.changed[name] = s.version
		}
	}
	s.files = files
	s.tell()
}

// changes returns the names of the files that differ.
func changes(before, after map[string][]byte) []string {
	var names []string
	for name, content := range after {
		if old, stood := before[name]; !stood || !bytes.Equal(old, content) {
			names = append(names, name)
		}
	}
	for name := range before {
		if _, stands := after[name]; !stands {
			names = append(names, name)
		}
	}
	return names
}

// tell calls every open page to look for news; one that has not looked since the last call needs no other.
func (s *Server) tell() {
	for page := range s.pages {
		select {
		case page <- struct{}{}:
		default:
		}
	}
}

// since returns what a page that knows a version must be told, and the version that it knows then.
func (s *Server) since(version int64) (news, int64) {
	s.mu.RLock()
	defer s.mu.RUnlock()
	if version > s.version { // from before the clock was set back and watch was started again
		version = 0
	}
	told := news{Mistakes: s.mistakes, Note: s.note}
	for name, came := range s.changed {
		if came > version {
			told.Files = append(told.Files, name)
		}
	}
	slices.Sort(told.Files)
	return told, s.version
}

// Listen opens a port on the loopback address; port 0 takes any free one. The error for a port that cannot be had names one
// that can.
func Listen(port int) (net.Listener, error) {
	listener, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err == nil {
		return listener, nil
	}
	free, freeErr := net.Listen("tcp", "127.0.0.1:0")
	if freeErr != nil {
		return nil, err
	}
	defer free.Close()
	reason := "is taken by another program"
	switch {
	case port < 0 || port > math.MaxUint16:
		reason = fmt.Sprintf("does not exist; the last one is %d", math.MaxUint16)
	case errors.Is(err, fs.ErrPermission):
		reason = "is not for every user"
	}
	return nil, fmt.Errorf("port %d %s; --port %d is free", port, reason, free.Addr().(*net.TCPAddr).Port)
}

// Serve answers on the listener until ctx ends, then closes every connection within a second.
func (s *Server) Serve(ctx context.Context, listener net.Listener) error {
	server := &http.Server{
		Handler:           s.Handler(listener.Addr().(*net.TCPAddr).Port),
		BaseContext:       func(net.Listener) context.Context { return ctx }, // ends the event streams, for which Shutdown would wait
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
	}
	done := make(chan error, 1)
	go func() { done <- server.Serve(listener) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), 500*time.Millisecond)
	defer cancel()
	if server.Shutdown(last) != nil {
		return server.Close() // somebody does not take what is sent
	}
	return nil
}

// Handler answers requests that were sent to the given port.
func (s *Server) Handler(port int) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		header := w.Header()
		header.Set("Cache-Control", "no-store")
		header.Set("X-Content-Type-Options", "nosniff")
		header.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !ours(r.Host, port):
			http.Error(w, "this preview answers only to this machine's own names", http.StatusMisdirectedRequest)
		case r.Header.Get("Origin") != "" && !ours(strings.TrimPrefix(r.Header.Get("Origin"), "http://"), port):
			http.Error(w, "this preview answers only its own pages", http.StatusForbidden)
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			header.Set("Allow", "GET, HEAD")
			http.Error(w, "this preview can only be read", http.StatusMethodNotAllowed)
		case r.URL.Path == eventsPath:
			s.stream(w, r)
		case r.URL.Path == scriptPath:
			send(w, r, scriptPath, script)
		case r.URL.Path == stylePath:
			send(w, r, stylePath, style)
		default:
			s.file(w, r)
		}
	})
}

// ours reports whether host is one of the loopback names with the real port.
func ours(host string, port int) bool {
	host = strings.ToLower(host)
	for _, name := range []string{"localhost", "127.0.0.1", "[::1]"} {
		if host == fmt.Sprintf("%s:%d", name, port) {
			return true
		}
	}
	return false
}

// file answers with a file of the site. Names are looked up as they are: there is nothing to climb out of.
func (s *Server) file(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	s.mu.RLock()
	content, found := s.files[name]
	missing, version := s.files["404.html"], s.version
	s.mu.RUnlock()
	switch {
	case found && !hidden(name):
		if path.Ext(name) == ".html" {
			content = live(content, version)
		}
		send(w, r, name, content)
	case version == 0:
		sendPage(w, http.StatusServiceUnavailable, live([]byte(waiting), 0))
	case missing != nil:
		sendPage(w, http.StatusNotFound, live(missing, version))
	default:
		http.NotFound(w, r)
	}
}

// waiting is the page while there is no site: it shows the mistakes and loads itself again.
const waiting = `<!doctype html><html lang="en"><head><title>No site yet</title></head><body><p>There is no site yet.</p></body></html>`

// hidden reports whether any part of a path begins with a dot.
func hidden(name string) bool { return strings.HasPrefix(name, ".") || strings.Contains(name, "/.") }

func send(w http.ResponseWriter, r *http.Request, name string, content []byte) {
	kind := mime.TypeByExtension(path.Ext(name))
	if kind == "" {
		kind = http.DetectContentType(content)
	}
	w.Header().Set("Content-Type", kind)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(content))
}

// sendPage answers with a page that is not the one that was asked for.
func sendPage(w http.ResponseWriter, status int, page []byte) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(page)
}

// live adds the preview's script and style to a page of a version; the page's own policy must allow connections to its own
// host.
func live(page []byte, version int64) []byte {
	head := fmt.Sprintf(`<link rel="stylesheet" href="%s"><script src="%s?%d" defer></script></head>`, stylePath, scriptPath, version)
	return bytes.Replace(page, []byte("</head>"), []byte(head), 1)
}

// stream keeps one page told until it goes away or the server stops. The page says which version it knows: as the query,
// or, when the connection was lost, as the last id that it was sent.
func (s *Server) stream(w http.ResponseWriter, r *http.Request) {
	version, _ := strconv.ParseInt(cmp.Or(r.Header.Get("Last-Event-ID"), r.URL.RawQuery), 10, 64) // else 0: it knows nothing
	page := make(chan struct{}, 1)
	page <- struct{}{} // to look for a first time
	s.mu.Lock()
	s.pages[page] = true
	s.mu.Unlock()
	defer func() {
		s.mu.Lock()
		delete(s.pages, page)
		s.mu.Unlock()
	}()
	w.Header().Set("Content-Type", "text/event-stream")
	fmt.Fprint(w, "retry: 500\n\n")
	ping := time.NewTicker(15 * time.Second)
	defer ping.Stop()
	for http.NewResponseController(w).Flush() == nil {
		select {
		case <-r.Context().Done():
			return
		case <-page:
			var told news
			told, version = s.since(version)
			text, err := json.Marshal(told)
			if err != nil {
				panic("preview: " + err.Error()) // only strings: cannot happen
			}
			fmt.Fprintf(w, "id: %d\ndata: %s\n\n", version, text)
		case <-ping.C:
			fmt.Fprint(w, ": still here\n\n")
		}
	}
}
