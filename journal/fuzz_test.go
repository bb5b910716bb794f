package journal

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// seeds is entries of every kind, and what once went wrong.
var seeds = []string{
	"---\ndate: 2026-03-14\n---\n",
	goodEntry,
	"---\r\ndate: 2026-03-14\r\ntitle: \"a: b\"\r\n---\r\n# Hi\r\n![a](../photos/b.jpg)\r\n",
	"\ufeff---\ndate: 2026-03-14\nnote: |\n  a\n  ---\n---\n",
	"---\ndate: 2026-03-14\nwater: {ph: 7,4}\nevents:\n  - died\n    cause: x\n---\n",
	"---\nevents: [{berried: [a, 'b'], brood: {x: [1]}}, [], {}, null, ~, - x]\ndate: 2026-02-30\n---\n",
	"---\ntitle: &a *a\n<<: !x {y}\n? z\n---\n", "---\n\"\n---\n", "---\na: |\n\n\n ---\n---\n", "--- \n\t\n---\n",
	// Once slow, once beyond the last line, once read as another value.
	"---\na: |\n  x" + strings.Repeat("\n", 90) + "---\n", "---\n- - - - - a\n---\n", "---\na: " + strings.Repeat("[", 31) + "\n---\n",
	"---\ndate: 2026-03-14\n---\n" + strings.Repeat("*a_ ", 400) + strings.Repeat("[", 400) + "\n> > > - - x\n", "---\ntitle: a #b\ntank: 1e3\n---\n",
	"---\nwater: {ammonia: <0.25, ph: 7-8, temperature: 23,4 C}\nvisibility: privat\n---\n", "\xff\xfe-\x00", "---\ndate: 2026-03-14\n---\n![](<../a b.jpg>)![](%2e%2e/%2e%2e/x)",
}

// addSamples adds the sample journal's files, of long ones the beginning.
func addSamples(f *testing.F, pattern string) {
	files, err := filepath.Glob(filepath.Join("..", "sample-journal", pattern))
	if err != nil || len(files) == 0 {
		f.Fatalf("no %s in the sample journal: %v", pattern, err)
	}
	for _, file := range files[:min(len(files), 60)] {
		source, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(source[:min(len(source), 4000)])
	}
}

// inTime fails when reading takes longer than any file within the limits may.
func inTime(t *testing.T, source any) func() {
	start := time.Now()
	return func() {
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%q took %v", source, took)
		}
	}
}

// FuzzEntry holds that no entry, however broken, makes the reader fail, and that every problem lies inside the file.
func FuzzEntry(f *testing.F) {
	for _, seed := range seeds {
		f.Add([]byte(seed))
	}
	addSamples(f, "entries/*/*.md")
	settings := settingsOf(f, twoTanks)
	f.Fuzz(func(t *testing.T, source []byte) {
		defer inTime(t, source)()
		entry, problems := ParseEntry("entries/e.md", source, settings)
		checkPlaces(t, source, problems)
		if entry == nil {
			if !HasErrors(problems) {
				t.Errorf("%q: no entry and no error", source)
			}
			return
		}
		for i := range entry.Events {
			checkEventOf(t, settings, &entry.Events[i])
		}
		again, _ := ParseEntry("entries/e.md", entry.Source, settings)
		if again == nil || len(again.Events) != len(entry.Events) || again.Title != entry.Title || again.Private != entry.Private {
			t.Errorf("%q: reading its own source gives another entry", source)
		}
	})
}

// checkEventOf holds what the rest of the program relies on.
func checkEventOf(t *testing.T, settings *Settings, event *Event) {
	t.Helper()
	if settings.Tank(event.Tank) == nil || event.What == nil || event.Entry == nil {
		t.Errorf("event %+v", event)
	}
	if moved, ok := event.What.(*Moved); ok && moved.To != "" && settings.Tank(moved.To) == nil {
		t.Errorf("moved to %q", moved.To)
	}
	test, ok := event.What.(*WaterTest)
	if !ok {
		return
	}
	for _, reading := range test.Readings {
		if math.IsNaN(reading.Value) || math.IsInf(reading.Value, 0) || reading.Value < 0 {
			t.Errorf("reading %+v", reading)
		}
	}
}

// FuzzFrontMatter compares the splitter with one that knows nothing but lines.
func FuzzFrontMatter(f *testing.F) {
	for _, seed := range seeds {
		f.Add([]byte(seed))
	}
	addSamples(f, "entries/*/*.md")
	f.Fuzz(func(t *testing.T, source []byte) {
		defer inTime(t, source)()
		p := &page{path: "e.md"}
		text, ok := p.cleanText(source)
		if !ok {
			return
		}
		got, ok := p.splitFrontMatter(text)
		checkPlaces(t, source, p.problems)
		if !ok {
			if len(p.problems) == 0 {
				t.Fatalf("%q: refused without a problem", source)
			}
			return
		}
		lines := strings.SplitAfter(string(text), "\n")
		open := 0
		for strings.TrimSpace(lines[open]) == "" {
			open++
		}
		end := open + 1
		for strings.TrimSpace(lines[end]) != fence {
			end++
		}
		if yaml := strings.Join(lines[open+1:end], ""); yaml != string(got.yaml) || got.before != open+1 {
			t.Errorf("%q: YAML %q from line %d, want %q from line %d", source, got.yaml, got.before, yaml, open+1)
		}
		if body := strings.Join(lines[end+1:], ""); body != string(text[got.body:]) {
			t.Errorf("%q: text %q, want %q", source, text[got.body:], body)
		}
	})
}

// FuzzSettings is FuzzEntry for journal.yaml.
func FuzzSettings(f *testing.F) {
	for _, seed := range []string{"", twoTanks, titled, titled + "tanks: {a: {water-range: {ph: 7-6}}}\nbiology: {incubation: {base: 11 C}}\n", "tanks: [&a]\nunits: {temperature: F}\n",
		"title: A\ngrades: pale,\n\n deep\n"} {
		f.Add([]byte(seed))
	}
	addSamples(f, "journal.yaml")
	f.Fuzz(func(t *testing.T, source []byte) {
		defer inTime(t, source)()
		settings, problems := ParseSettings(source)
		checkPlaces(t, source, problems)
		if settings == nil && !HasErrors(problems) {
			t.Errorf("%q: no settings and no error", source)
		}
		if settings != nil && settings.Title == "" && !HasErrors(problems) {
			t.Errorf("%q: no title and no error", source)
		}
	})
}

// FuzzLog is FuzzEntry for logger files. The days are in order, and their means lie between their ends.
func FuzzLog(f *testing.F) {
	for _, seed := range []string{"time,temperature\n2026-03-14T08:00,22\n", "date;temperature (F)\n2026-03-14;71,6\n", "time\ttemperature\n\n\"2026-03-14\n", "temperature,time\n1",
		"time,temperature\n2026-03-14,23,4\n2026-03-14T24:00:00.5+05:30,-0\n2026-03-15,1e3\n", "\ufefftimestamp;temperature [°F]\r2026-03-14 08:00 UTC;73,4\r", "time,temperature\n" + strings.Repeat(",", 300) + "\n\"\n"} {
		f.Add([]byte(seed))
	}
	addSamples(f, "readings/*.csv")
	f.Fuzz(func(t *testing.T, source []byte) {
		defer inTime(t, source)()
		days, problems := ParseLog("l.csv", source, MetricUnits())
		checkPlaces(t, append(bytes.Clone(source), '\n'), problems)
		for i, day := range days {
			if day.Samples < 1 || !(day.Min <= day.Mean+1e-9 && day.Mean <= day.Max+1e-9) || day.Min < 0 || day.Max > 45 {
				t.Errorf("%q: %+v", source, day)
			}
			if i > 0 && days[i-1].Day >= day.Day {
				t.Errorf("%q: days out of order", source)
			}
		}
	})
}

// FuzzAmount holds that an amount that was understood is a plain number, and reads the same when the program writes it.
func FuzzAmount(f *testing.F) {
	for _, seed := range []string{"23.4 C", "22°C", "10 gal (US)", "23,4", "-0", ".5", "1e9", "0.9\"", "25 %", "３", "999999999999.999999999 L"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		defer inTime(t, text)()
		written, ok := splitAmount(text)
		if !ok {
			return
		}
		for _, m := range measures {
			value, problem := MetricUnits().convert(written, m.quantity)
			if problem.code != "" {
				continue
			}
			if math.IsNaN(value) || math.IsInf(value, 0) {
				t.Fatalf("%q is %v", text, value)
			}
			again, ok := splitAmount(decimal(written.number) + " " + written.unit)
			if ok && (again.number != written.number || again.unit != written.unit) {
				t.Errorf("%q reads as %+v and again as %+v", text, written, again)
			}
		}
	})
}

// FuzzPath holds that a path that was accepted stays inside the journal.
func FuzzPath(f *testing.F) {
	for _, seed := range []string{"../photos/ruby.jpg", "../../x", "/etc/passwd", `..\x`, "%2e%2e/%2e%2e/x", "con.jpg", "a/../../..", "http://x/y", "x\x00y", "C:/x", "./././x", "..%2f..%2fx"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, address string) {
		defer inTime(t, address)()
		target, remote, problem := resolveReference("entries", address)
		if problem.code != "" || remote != "" {
			return
		}
		if strings.HasPrefix(target, "/") || target == ".." || strings.HasPrefix(target, "../") || strings.Contains(target, "/../") || strings.ContainsAny(target, "\\:\x00") {
			t.Errorf("%q is the path %q", address, target)
		}
	})
}
