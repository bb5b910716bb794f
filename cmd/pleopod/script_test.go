package main

import (
	"bytes"
	"encoding/hex"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"pleopod": main, // which ends with its exit status, and on an interrupt
		"floor": func() {
			if err := floor(os.Args[1], os.Args[2]); err != nil {
				panic(err)
			}
		},
	})
}

// TestScripts tells one story for each file in testdata/script.
func TestScripts(t *testing.T) {
	schemas, err := filepath.Abs("../../journal/forecast/testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Setup: func(env *testscript.Env) error {
			env.Setenv("NO_COLOR", "1")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"fits":  func(ts *testscript.TestScript, neg bool, args []string) { fits(ts, schemas, neg, args) },
			"same":  same,
			"port":  port,
			"page":  page,
			"holds": holds,
			"fill":  fill,
			"bits":  bits,
		},
	})
}

// fits FILE [NAME] checks a JSON document against the schema of forecast --json, or that of another command by name; a
// name that ends in .json is a schema that the story made itself.
func fits(ts *testscript.TestScript, schemas string, neg bool, args []string) {
	name := "forecast"
	if len(args) > 1 {
		name = args[1]
	}
	compiler := jsonschema.NewCompiler()
	compiler.AssertFormat()
	file := filepath.Join(schemas, name+".schema.json")
	if filepath.Ext(name) == ".json" {
		file = ts.MkAbs(name)
	}
	compiled, err := compiler.Compile(file)
	ts.Check(err)
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader([]byte(ts.ReadFile(args[0]))))
	ts.Check(err)
	if err := compiled.Validate(value); (err != nil) != neg {
		ts.Fatalf("%s: %v", args[0], err)
	}
}

// port NAME puts the number of a free port of this machine into an environment variable.
func port(ts *testscript.TestScript, _ bool, args []string) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	ts.Check(err)
	ts.Setenv(args[0], strconv.Itoa(listener.Addr().(*net.TCPAddr).Port))
	ts.Check(listener.Close())
}

// page ADDRESS WORD waits until a page that is served on this machine holds a word.
func page(ts *testscript.TestScript, _ bool, args []string) {
	last := "no answer"
	for end := time.Now().Add(60 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		answer, err := http.Get(args[0])
		if err != nil {
			continue
		}
		body, err := io.ReadAll(answer.Body)
		ts.Check(err)
		ts.Check(answer.Body.Close())
		if last = string(body); bytes.Contains(body, []byte(args[1])) {
			return
		}
	}
	ts.Fatalf("%s never held %q: %.500s", args[0], args[1], last)
}

// same DIR DIR compares two folders byte by byte.
func same(ts *testscript.TestScript, neg bool, args []string) {
	a, b := tree(ts, args[0]), tree(ts, args[1])
	different := ""
	for name, text := range a {
		if other, ok := b[name]; !ok || !bytes.Equal(text, other) {
			different += " " + name
		}
		delete(b, name)
	}
	for name := range b {
		different += " " + name
	}
	if (different != "") != neg {
		ts.Fatalf("different files:%s", different)
	}
}

// holds DIR WORD looks for a word in the names and the bytes of all files of a folder.
func holds(ts *testscript.TestScript, neg bool, args []string) {
	found := ""
	for name, text := range tree(ts, args[0]) {
		if bytes.Contains([]byte(name), []byte(args[1])) || bytes.Contains(text, []byte(args[1])) {
			found += " " + name
		}
	}
	if (found == "") != neg {
		ts.Fatalf("%q is in:%s", args[1], found)
	}
}

// fill FILE TEXT COUNT adds a text to a file again and again, for files that are too large to be written out here.
func fill(ts *testscript.TestScript, _ bool, args []string) {
	n := 0
	_, err := fmt.Sscan(args[2], &n)
	ts.Check(err)
	file, err := os.OpenFile(ts.MkAbs(args[0]), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	ts.Check(err)
	_, err = file.Write(bytes.Repeat([]byte(args[1]), n))
	ts.Check(err)
	ts.Check(file.Close())
}

// bits FILE HEX writes bytes that no text file can hold.
func bits(ts *testscript.TestScript, _ bool, args []string) {
	raw, err := hex.DecodeString(args[1])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), raw, 0o644))
}

// tree reads all files below a folder, and fails when there are none.
func tree(ts *testscript.TestScript, dir string) map[string][]byte {
	files := map[string][]byte{}
	root := os.DirFS(ts.MkAbs(dir))
	ts.Check(fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		files[name], err = fs.ReadFile(root, name)
		return err
	}))
	if len(files) == 0 {
		ts.Fatalf("%s holds no file", dir)
	}
	return files
}
