package main

import (
	"crypto/sha256"
	"flag"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

var kills = flag.Int("kills", 8, "how often TestKilledWhilePublishing ends the program; 200 is the full run")

// TestKilledWhilePublishing ends the real program at random moments, with the journal changed before each run.
// After each kill every page is one that some run wrote to its end, the journal is as it was, and the next run
// gives a clean site.
func TestKilledWhilePublishing(t *testing.T) {
	base := t.TempDir()
	dir := filepath.Join(base, "colony")
	put := func(name, text string) { writeFile(t, filepath.Join(dir, name), text) }
	put("journal.yaml", "title: T\naddress: https://example.org/\nas-of: 2026-04-01\ntanks: {a: {volume: 38 L, heater: 23 C}}\n")
	run := func(out string) time.Duration {
		start := time.Now()
		if said, err := exec.Command("pleopod", "publish", dir, "--out", out).CombinedOutput(); err != nil {
			t.Fatalf("publish: %v\n%s", err, said)
		}
		return time.Since(start)
	}
	site := filepath.Join(base, "site")
	hit := 0
	for i := range *kills {
		put("entries/a.md", "---\ndate: 2026-03-14\nevents: [{stocked: 10}]\n---\nVersion "+time.Unix(int64(i), 0).UTC().String()+"\n")
		clean := filepath.Join(base, "clean")
		if err := os.RemoveAll(clean); err != nil {
			t.Fatal(err)
		}
		whole := run(clean)
		before, old := sums(t, dir), sums(t, site)
		program := exec.Command("pleopod", "publish", dir, "--out", site)
		if err := program.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(rand.Int64N(int64(whole))))
		program.Process.Kill()
		program.Wait()

		want := sums(t, clean)
		for name, sum := range sums(t, site) {
			if name[0] != '.' && sum != want[name] && sum != old[name] {
				t.Errorf("kill %d: %s is neither the old nor the new one", i, name)
			}
			if name[0] != '.' && sum == want[name] && sum != old[name] {
				hit++
			}
		}
		if diff := cmp.Diff(before, sums(t, dir)); diff != "" {
			t.Errorf("kill %d changed the journal (-before +after):\n%s", i, diff)
		}
		run(site)
		if diff := cmp.Diff(want, sums(t, site)); diff != "" {
			t.Fatalf("kill %d: the next site is not a clean one (-clean +next):\n%s", i, diff)
		}
	}
	t.Logf("%d kills left %d new files", *kills, hit)
}

// sums returns the hash of every file below a folder, or nothing where there is none.
func sums(t *testing.T, dir string) map[string][sha256.Size]byte {
	t.Helper()
	all := map[string][sha256.Size]byte{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		all[name] = sha256.Sum256(text)
		return err
	})
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	return all
}
