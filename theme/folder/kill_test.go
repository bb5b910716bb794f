package folder

import (
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

var kills = flag.Int("kills", 40, "how often TestKill ends a run at a random moment")

// victim is the variable that makes the test program write sites into a folder until it is ended.
const victim = "PLEOPOD_TEST_WRITE_INTO"

func TestMain(m *testing.M) {
	flag.Parse()
	if dir := os.Getenv(victim); dir != "" {
		fmt.Println("begun")
		for i := 0; ; i++ {
			if _, err := Write(dir, Files(edition(i%3))); err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(3)
			}
		}
	}
	os.Exit(m.Run())
}

// edition is one of three sites with common, changed and own files; every file says which it is, and ends in a mark.
func edition(n int) map[string][]byte {
	files := map[string][]byte{}
	add := func(name string, n int) {
		line := fmt.Sprintf("%s of edition %d\n", name, n)
		files[name] = []byte(strings.Repeat(line, 60) + "END")
	}
	for i := range 40 {
		add(fmt.Sprintf("entries/%d.html", i), n)
		add(fmt.Sprintf("photos/%d.jpg", i), 0)
		add(fmt.Sprintf("own-%d/%d.html", n, i), n)
	}
	add("index.html", n)
	add([]string{"odd", "odd/file", "odd.html"}[n], n)
	return files
}

// TestKill ends a program that publishes again and again, at random moments. Each time every file must be whole, and the next
// Write must give the same as into a new folder.
func TestKill(t *testing.T) {
	clean := t.TempDir()
	write(t, clean, edition(1))
	want := tree(t, clean)

	base := t.TempDir()
	mixed, staged := 0, 0
	for i := range *kills {
		dir := filepath.Join(base, fmt.Sprint(i/10)) // some kills hit the first run in a new folder
		if i%10 == 0 {
			dir = filepath.Join(base, "first", fmt.Sprint(i))
		}
		endAtRandom(t, dir)
		editions := map[byte]bool{}
		for name, content := range tree(t, dir) {
			if strings.HasPrefix(name, ".pleopod-") {
				if strings.HasPrefix(name, stageName+"/") {
					staged++
				}
				continue
			}
			if !whole(name, []byte(content)) {
				t.Fatalf("kill %d: %s is torn (%d bytes)", i, name, len(content))
			}
			if strings.HasPrefix(name, "entries/") {
				editions[content[strings.Index(content, "edition ")+8]] = true
			}
		}
		if len(editions) > 1 {
			mixed++
		}

		write(t, dir, edition(1))
		if diff := cmp.Diff(want, tree(t, dir)); diff != "" {
			t.Fatalf("kill %d: the next site differs from a clean one (-want +got):\n%s", i, diff)
		}
	}
	t.Logf("%d kills: %d left pages of two editions, %d staged files lay about", *kills, mixed, staged)
	if *kills >= 40 && staged+mixed == 0 {
		t.Error("no kill hit a run in its work; the test shows nothing")
	}
}

// endAtRandom runs the victim on a folder and ends it without notice, within its first sites. The time to start is not
// counted: it differs too much between machines.
func endAtRandom(t *testing.T, dir string) {
	t.Helper()
	program := exec.Command(os.Args[0])
	program.Env = append(os.Environ(), victim+"="+dir)
	var said bytes.Buffer
	program.Stderr = &said
	begun, err := program.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := program.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := begun.Read(make([]byte, 1)); err != nil {
		t.Fatalf("the program to be killed did not begin: %v, %s", err, said.String())
	}
	time.Sleep(time.Duration(rand.Int64N(int64(60 * time.Millisecond))))
	program.Process.Kill()
	program.Wait()
	if said.Len() > 0 {
		t.Fatalf("the program to be killed failed: %s", said.String())
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
}

// whole reports whether a file is exactly that of one edition.
func whole(name string, content []byte) bool {
	for n := range 3 {
		if bytes.Equal(content, edition(n)[name]) && len(content) > 0 {
			return true
		}
	}
	return false
}
