package photo

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// entries returns the files of a cache.
func entries(t testing.TB, c Cache) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(c.Dir, "*"))
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// TestCacheGivesTheSame asks for one photo without a cache, with an empty one, a full one, and damaged ones.
func TestCacheGivesTheSame(t *testing.T) {
	source := jpegOf(t, quarters(1000, 700))
	want := mustMake(t, source)
	cache := Cache{Dir: filepath.Join(t.TempDir(), "new", "photos")}
	check := func(what string) {
		t.Helper()
		got, err := cache.Make(source)
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", what, diff)
		}
	}
	check("empty cache")
	found := entries(t, cache)
	if len(found) != 1 {
		t.Fatalf("the cache holds %q", found)
	}
	check("full cache")

	whole, err := os.ReadFile(found[0])
	if err != nil {
		t.Fatal(err)
	}
	flipped := append([]byte(nil), whole...)
	flipped[len(flipped)/2] ^= 1
	for what, damaged := range map[string][]byte{"empty entry": {}, "entry cut off": whole[:len(whole)/2], "entry with a flipped bit": flipped} {
		if err := os.WriteFile(found[0], damaged, 0o600); err != nil {
			t.Fatal(err)
		}
		check(what)
		if again, _ := os.ReadFile(found[0]); string(again) != string(whole) {
			t.Errorf("%s: the entry was not made anew", what)
		}
	}
	if len(entries(t, cache)) != 1 {
		t.Errorf("the cache holds %q", entries(t, cache))
	}
}

// TestCacheIsUsed puts another photo's entry at the place of one, which must then come out.
func TestCacheIsUsed(t *testing.T) {
	cache := Cache{Dir: t.TempDir()}
	one, two := jpegOf(t, quarters(60, 40)), jpegOf(t, quarters(70, 50))
	want, err := cache.Make(one)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(filepath.Join(cache.Dir, key(one)), filepath.Join(cache.Dir, key(two))); err != nil {
		t.Fatal(err)
	}
	got, err := cache.Make(two)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("the entry was not used (-want +got):\n%s", diff)
	}
}

// TestCacheThatCannotBe names a file as the folder of a cache.
func TestCacheThatCannotBe(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, cache := range []Cache{{}, {Dir: file}, {Dir: filepath.Join(file, "below")}} {
		if _, err := cache.Make(jpegOf(t, quarters(60, 40))); err != nil {
			t.Errorf("with the cache %q: %v", cache.Dir, err)
		}
	}
	if _, err := os.Stat(file); err != nil {
		t.Errorf("the file is gone: %v", err)
	}
}

// TestTrim keeps what was used last.
func TestTrim(t *testing.T) {
	cache := Cache{Dir: t.TempDir()}
	put := func(name string, size int, age time.Duration) {
		place := filepath.Join(cache.Dir, name)
		if err := os.WriteFile(place, make([]byte, size), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(place, time.Now(), time.Now().Add(-age)); err != nil {
			t.Fatal(err)
		}
	}
	put("old.picture", 100, 3*time.Hour)
	put("middle.picture", 100, 2*time.Hour)
	put("new.picture", 100, time.Hour)
	put("new-1.part", 100, 48*time.Hour)
	put("new-2.part", 100, time.Minute)
	put("mine.txt", 100, 48*time.Hour)
	cache.trim(250)
	var got []string
	for _, path := range entries(t, cache) {
		got = append(got, filepath.Base(path))
	}
	if diff := cmp.Diff([]string{"middle.picture", "mine.txt", "new-2.part", "new.picture"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	// Whoever puts a picture in tidies up.
	put("new-3.part", 100, 48*time.Hour)
	if _, err := cache.Make(jpegOf(t, quarters(60, 40))); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(cache.Dir, "new-3.part")); err == nil {
		t.Error("what a run that was cut off left is still there after the next picture")
	}
}
