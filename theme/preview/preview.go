// Package preview serves a site from memory to a browser on the same machine, and tells open pages when it changed.
//
// It answers only GET and HEAD, only to a Host that names this machine and the real port (so that a page elsewhere cannot
// reach it through a name of its own), and only for files of the site: it never opens the disk.
package preview

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"mime"
	"net"
	"net/http"
	"path"
	"slices"
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
	mistakes []Mistake
	note     string
	version  int
	pages    map[chan message]bool // open event streams; each channel holds the newest message only
}

// message is what an open page is told.
type message struct {
	Kind     string    `json:"kind"`            // "reload", "style", "mistakes" or "note"
	Version  int       `json:"version"`         // of the site; rises with every change
	Files    []string  `json:"files,omitempty"` // that changed, or none for all
	Mistakes []Mistake `json:"mistakes,omitempty"`
	Note     string    `json:"note,omitempty"`
}

// New returns a server without a site.
func New() *Server { return &Server{pages: map[chan message]bool{}} }

// Show takes a good site, by slash path, and tells the open pages: to load the style again when only styles changed, else
// to load themselves again when they are among what changed. It clears the mistakes and the note.
func (s *Server) Show(files map[string][]byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	changed := changes(s.files, files)
	cleared := len(s.mistakes) > 0 || s.note != ""
	s.files, s.mistakes, s.note = files, nil, ""
	s.tellOf(changed, cleared)
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
	changed := changes(s.files, patched)
	s.files = patched
	s.tellOf(changed, false)
}

// changes returns the names of the files that differ, sorted.
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
	slices.Sort(names)
	return names
}

// mostTold is how many changed files are named; of more, every open page loads itself again.
const mostTold = 200

// tellOf tells the open pages that files have changed. After mistakes or a note every page loads itself again.
func (s *Server) tellOf(changed []string, cleared bool) {
	if len(changed) == 0 && !cleared {
		return
	}
	s.version++
	told := message{Kind: "reload", Version: s.version}
	switch {
	case cleared || len(changed) > mostTold:
	case !slices.ContainsFunc(changed, func(name string) bool { return path.Ext(name) != ".css" }):
		told.Kind = "style"
	default:
		told.Files = changed
	}
	s.tell(told)
}

// Fault keeps the last good site and shows the mistakes on every open page.
func (s *Server) Fault(mistakes []Mistake) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.mistakes = mistakes
	s.tell(message{Kind: "mistakes", Version: s.version, Mistakes: mistakes})
}

// Note shows one line of text on every open page until the next Show or Note; "" takes it away.
func (s *Server) Note(text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.note = text
	s.tell(message{Kind: "note", Version: s.version, Note: text})
}

// tell hands m to every open page; a page that has not taken the one before gets m in its place.
func (s *Server) tell(m message) {
	for page := range s.pages {
		select {
		case <-page:
		default:
		}
		page <- m
	}
}

// Listen opens a port on the loopback address; port 0 takes any free one. A busy port gives an error that names a free one.
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
	return nil, fmt.Errorf("port %d is taken by another program; --port %d is free", port, free.Addr().(*net.TCPAddr).Port)
}

// Serve answers on the listener until ctx ends, then closes every connection within a second.
func (s *Server) Serve(ctx context.Context, listener net.Listener) error {
	base, stop := context.WithCancel(ctx)
	defer stop()
	server := &http.Server{
		Handler:           s.Handler(listener.Addr().(*net.TCPAddr).Port),
		BaseContext:       func(net.Listener) context.Context { return base },
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
	stop() // open event streams end here; Shutdown would wait for them
	last, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	if server.Shutdown(last) != nil {
		return server.Close()
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
			write(w, r, scriptPath, script)
		case r.URL.Path == stylePath:
			write(w, r, stylePath, style)
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
	missing := s.files["404.html"]
	s.mu.RUnlock()
	switch {
	case found && !hidden(name):
		write(w, r, name, content)
	case s.empty():
		waiting(w)
	case missing != nil:
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.WriteHeader(http.StatusNotFound)
		_, _ = w.Write(missing)
	default:
		http.NotFound(w, r)
	}
}

// empty reports whether there has been no good site yet.
func (s *Server) empty() bool {
	s.mu.RLock()
	defer s.mu.RUnlock()
	return s.files == nil
}

// waiting answers while there is no site: with a page that shows the mistakes and loads itself again.
func waiting(w http.ResponseWriter) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(http.StatusServiceUnavailable)
	_, _ = w.Write(live([]byte("<!doctype html><html lang=\"en\"><head><title>No site yet</title></head><body><p>There is no site yet.</p></body></html>")))
}

// hidden reports whether any part of a path begins with a dot.
func hidden(name string) bool { return strings.HasPrefix(name, ".") || strings.Contains(name, "/.") }

func write(w http.ResponseWriter, r *http.Request, name string, content []byte) {
	kind := mime.TypeByExtension(path.Ext(name))
	if kind == "" {
		kind = http.DetectContentType(content)
	}
	if strings.HasPrefix(kind, "text/html") {
		content = live(content)
	}
	w.Header().Set("Content-Type", kind)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(content))
}

// live adds the preview's script and style to a page; the page's own policy must allow connections to its own host.
func live(page []byte) []byte {
	return bytes.Replace(page, []byte("</head>"), []byte(`<link rel="stylesheet" href="`+stylePath+`"><script src="`+scriptPath+`" defer></script></head>`), 1)
}

// stream keeps one page told until it goes away or the server stops.
func (s *Server) stream(w http.ResponseWriter, r *http.Request) {
	control := http.NewResponseController(w)
	if err := control.SetWriteDeadline(time.Time{}); err != nil {
		http.Error(w, "no event stream on this connection", http.StatusInternalServerError)
		return
	}
	page := make(chan message, 1)
	s.mu.Lock()
	s.pages[page] = true
	now := message{Kind: "mistakes", Version: s.version, Mistakes: s.mistakes, Note: s.note}
	s.mu.Unlock()
	defer func() {
		s.mu.Lock()
		delete(s.pages, page)
		s.mu.Unlock()
	}()
	w.Header().Set("Content-Type", "text/event-stream")
	fmt.Fprint(w, "retry: 500\n\n")
	send(w, now)
	ping := time.NewTicker(15 * time.Second)
	defer ping.Stop()
	for control.Flush() == nil {
		select {
		case <-r.Context().Done():
			return
		case m := <-page:
			send(w, m)
		case <-ping.C:
			fmt.Fprint(w, ": still here\n\n")
		}
	}
}

func send(w io.Writer, m message) {
	text, err := json.Marshal(m)
	if err != nil {
		panic("preview: " + err.Error()) // only strings and numbers: cannot happen
	}
	fmt.Fprintf(w, "data: %s\n\n", text)
}
