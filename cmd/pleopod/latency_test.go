package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// BenchmarkWatch measures, at 5,000 entries, how long it takes from a save until the page with the new text is served, and
// until the numbers that follow from it are: for a text, for an event of the last weeks, and for one of years ago. 80 ms
// of each are spent waiting for the folder to be quiet. Medians; -benchtime says how many saves of each kind.
func BenchmarkWatch(b *testing.B) {
	s := watch(b, inventJournal(b, 5000), time.Now)
	s.shows("", "An invented journal")
	kinds := []saveKind{{"text", 2000, false}, {"recent", 0, true}, {"old", 3000, true}}
	text, numbers := map[string][]time.Duration{}, map[string][]time.Duration{}
	for n := 0; b.Loop(); n++ {
		for _, kind := range kinds {
			toText, toNumbers := s.edit(kind, n).measure()
			text[kind.name] = append(text[kind.name], toText)
			numbers[kind.name] = append(numbers[kind.name], toNumbers)
		}
	}
	b.ReportMetric(0, "ns/op")
	for _, kind := range kinds {
		b.ReportMetric(float64(median(text[kind.name]).Milliseconds()), kind.name+"-ms")
		if kind.numbers {
			b.ReportMetric(float64(median(numbers[kind.name]).Milliseconds()), kind.name+"-numbers-ms")
		}
	}
}

func median(all []time.Duration) time.Duration {
	slices.Sort(all)
	return all[len(all)/2]
}

// saveKind is what is saved: a text, or a count of shrimp, from which numbers follow.
type saveKind struct {
	name    string
	back    int // entries before the last
	numbers bool
}

// timedSave is one save that is about to be measured.
type timedSave struct {
	*watching
	file, page, word string
	tank             string // its page
	text             []byte
}

var (
	glanced = regexp.MustCompile(`counted: \d+`)
	ofTank  = regexp.MustCompile(`(?m)^tank: (\S+)$`)
)

// edit prepares the nth save of a kind: of the entry so many before the last, or of the next before it that counts shrimp.
func (s *watching) edit(kind saveKind, n int) timedSave {
	s.Helper()
	word := fmt.Sprintf("Word%dfor%s", n, kind.name)
	files := (&storm{watching: s}).entries()
	for i := len(files) - 1 - kind.back; i >= 0; i-- {
		text, err := os.ReadFile(files[i])
		if err != nil {
			s.Fatal(err)
		}
		if kind.numbers && !glanced.Match(text) {
			continue
		}
		page := s.pageOf(files[i], text)
		if kind.numbers {
			text = glanced.ReplaceAll(text, fmt.Appendf(nil, "counted: %d", 12+n%9))
		}
		return timedSave{s, files[i], page, word, "tanks/" + string(ofTank.FindSubmatch(text)[1]) + ".html", append(text, []byte("\n"+word+".\n")...)}
	}
	s.Fatal("no entry to edit")
	return timedSave{}
}

// pageOf finds the page of an entry: the one among those of its day that shows a word put into it.
func (s *watching) pageOf(file string, text []byte) (page string) {
	s.Helper()
	word := fmt.Sprintf("Probe%d", time.Now().UnixNano())
	if err := os.WriteFile(file, append(slices.Clone(text), []byte("\n"+word+".\n")...), 0o644); err != nil {
		s.Fatal(err)
	}
	s.until("the page of "+file, func() bool {
		pages, _ := filepath.Glob(filepath.Join(s.dir, "published", "diary", filepath.Base(file)[:len("2026-01-01")]+"*.html"))
		for _, name := range pages {
			if content, err := os.ReadFile(name); err == nil && strings.Contains(string(content), word) {
				page = "diary/" + filepath.Base(name)
			}
		}
		return page != ""
	})
	return page
}

// measure saves, and returns the time until the text is served and until the page of the tank is what it will be.
func (e timedSave) measure() (text, numbers time.Duration) {
	e.Helper()
	start := time.Now()
	if err := os.WriteFile(e.file, e.text, 0o644); err != nil {
		e.Fatal(err)
	}
	shown := func() string { // without what the preview adds: that tells every version from the last
		_, page := e.get(e.tank)
		_, body, _ := strings.Cut(page, "</head>")
		return body
	}
	last := shown()
	look := func() {
		if now := shown(); now != last {
			last, numbers = now, time.Since(start)
		}
	}
	e.until("the text of "+e.page, func() bool {
		_, body := e.get(e.page)
		return strings.Contains(body, e.word)
	})
	text = time.Since(start)
	e.until("the site is saved", func() bool { // which it is when nothing more is to come
		look()
		content, err := os.ReadFile(filepath.Join(e.dir, "published", e.page))
		return err == nil && strings.Contains(string(content), e.word)
	})
	return text, numbers
}
