package main

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// levels gives every package its place: a package may import only packages of a lower level.
var levels = map[string]int{
	"journal/lifecycle":  0,
	"journal/water":      0,
	"journal/evidence":   0,
	"theme/figure":       0,
	"theme/photo":        0,
	"theme/folder":       0,
	"theme/preview":      0,
	"journal/saves":      0,
	"journal/invented":   0,
	"journal/digest":     0,
	"journal/parallel":   0,
	"journal/population": 1,
	"journal":            1,
	"journal/colony":     2,
	"journal/forecast":   3,
	"journal/schema":     2,
	"journal/notice":     4,
	"journal/care":       4,
	"journal/gather":     3,
	"journal/wording":    2,
	"journal/manual":     2,
	"journal/draft":      4,
	"theme":              5,
	"cmd/pleopod":        6,
	"cmd/sketch":         6,
	"cmd/invent":         6,
	"cmd/snapshots":      6,
	"sample-journal":     7, // only its test, which walks the whole house
}

// pure lists the packages that must not reach for a clock's, disk's, network's or environment's package.
var pure = []string{
	"journal/lifecycle", "journal/water", "journal/evidence", "journal/population", "journal/colony", "journal/forecast",
	"journal/notice", "journal/wording", "journal/care", "journal/invented", "journal/draft", "journal/schema", "journal/gather", "journal/manual", "theme/figure",
}

const module = "pleopod/"

type listed struct {
	ImportPath string
	Imports    []string
}

func TestImportsPointOneWay(t *testing.T) {
	for _, p := range packages(t) {
		name := strings.TrimPrefix(p.ImportPath, module)
		level, known := levels[name]
		if !known {
			t.Errorf("package %s has no level; give it one in this test and in DEVELOPERS.md", name)
			continue
		}
		for _, imported := range p.Imports {
			below, ours := strings.CutPrefix(imported, module)
			if ours && levels[below] >= level {
				t.Errorf("%s (level %d) imports %s (level %d)", name, level, below, levels[below])
			}
			if slices.Contains(pure, name) && slices.Contains([]string{"os", "net", "net/http", "os/exec", "io/ioutil", "syscall"}, imported) {
				t.Errorf("%s is pure and imports %s", name, imported)
			}
		}
	}
}

func packages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", module+"...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var found []listed
	for decoder := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		found = append(found, p)
	}
	if len(found) < 9 {
		t.Fatalf("go list found only %d packages", len(found))
	}
	return found
}

// TestPurePackagesReadNoClock looks for calls that would make the same journal give other bytes another day.
func TestPurePackagesReadNoClock(t *testing.T) {
	forEachFile(t, func(name string, file *ast.File, set *token.FileSet) {
		if !slices.Contains(pure, path.Dir(name)) && path.Dir(name) != "journal" && path.Dir(name) != "theme" {
			return
		}
		ast.Inspect(file, func(n ast.Node) bool {
			selector, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			from, ok := selector.X.(*ast.Ident)
			if ok && from.Name == "time" && slices.Contains([]string{"Now", "Since", "Until", "Local"}, selector.Sel.Name) {
				t.Errorf("%s: time.%s in a package that must not know the hour", set.Position(n.Pos()),
					selector.Sel.Name)
			}
			return true
		})
	})
}

func TestEveryExportedNameHasAComment(t *testing.T) {
	forEachFile(t, func(_ string, file *ast.File, set *token.FileSet) {
		for _, decl := range file.Decls {
			switch decl := decl.(type) {
			case *ast.FuncDecl:
				if decl.Name.IsExported() && decl.Doc == nil && exportedReceiver(decl) {
					t.Errorf("%s: %s has no comment", set.Position(decl.Pos()), decl.Name.Name)
				}
			case *ast.GenDecl:
				checkSpecs(t, decl, set)
			}
		}
	})
}

func checkSpecs(t *testing.T, decl *ast.GenDecl, set *token.FileSet) {
	for _, spec := range decl.Specs {
		switch spec := spec.(type) {
		case *ast.TypeSpec:
			if spec.Name.IsExported() && decl.Doc == nil && spec.Doc == nil {
				t.Errorf("%s: %s has no comment", set.Position(spec.Pos()), spec.Name.Name)
			}
		case *ast.ValueSpec:
			if spec.Names[0].IsExported() && decl.Doc == nil && spec.Doc == nil && spec.Comment == nil {
				t.Errorf("%s: %s has no comment", set.Position(spec.Pos()), spec.Names[0].Name)
			}
		}
	}
}

func exportedReceiver(decl *ast.FuncDecl) bool {
	if decl.Recv == nil {
		return true
	}
	receiver := decl.Recv.List[0].Type
	if star, ok := receiver.(*ast.StarExpr); ok {
		receiver = star.X
	}
	name, ok := receiver.(*ast.Ident)
	return ok && name.IsExported()
}

// TestFilesStaySmall keeps every Go file, tests too, where one reading holds it.
func TestFilesStaySmall(t *testing.T) {
	forEachFile(t, func(name string, file *ast.File, set *token.FileSet) {
		if lines := set.Position(file.End()).Line; lines > 500 {
			t.Errorf("%s has %d lines; split it by topic", name, lines)
		}
	}, "tests too")
}

// TestFunctionsStaySmall keeps every function of the program on one screen, and its call on one line.
func TestFunctionsStaySmall(t *testing.T) {
	forEachFile(t, func(_ string, file *ast.File, set *token.FileSet) {
		for _, decl := range file.Decls {
			f, ok := decl.(*ast.FuncDecl)
			if !ok {
				continue
			}
			from, to := set.Position(f.Pos()), set.Position(f.End())
			if lines := to.Line - from.Line + 1; lines > 60 {
				t.Errorf("%s: %s has %d lines; part it where a step has a name", from, f.Name.Name, lines)
			}
			if n := f.Type.Params.NumFields(); n > 5 {
				t.Errorf("%s: %s takes %d parameters; some belong together", from, f.Name.Name, n)
			}
		}
	})
}

// TestTheTableOfTheHouseIsWhole compares the rooms that DEVELOPERS.md lists by level with those of this test.
func TestTheTableOfTheHouseIsWhole(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]int{"sample-journal": levels["sample-journal"]} // only a test
	room := regexp.MustCompile("`((?:journal|theme|cmd)(?:/[a-z]+)?)`")
	for _, row := range regexp.MustCompile(`(?m)^\| ([0-9]) \| (.*) \|$`).FindAllStringSubmatch(string(text), -1) {
		level, _ := strconv.Atoi(row[1])
		for _, named := range room.FindAllStringSubmatch(row[2], -1) {
			listed[named[1]] = level
		}
	}
	if diff := cmp.Diff(levels, listed); diff != "" {
		t.Errorf("the levels of this test and the table of DEVELOPERS.md differ (-want +got):\n%s", diff)
	}
}

// TestTestdataIsExplained asks for a README in every folder of test data that people write.
func TestTestdataIsExplained(t *testing.T) {
	root := os.DirFS("../..")
	folders := map[string]bool{} // that hold files, and whether a README is among them
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		switch at := "/" + name; {
		case err != nil:
			return err
		case d.IsDir() && strings.HasSuffix(at, "/testdata/fuzz"):
			return fs.SkipDir // inputs that a fuzz test found
		case !d.IsDir() && strings.Contains(at, "/testdata/"):
			folders[path.Dir(name)] = folders[path.Dir(name)] || d.Name() == "README.md"
		}
		return nil
	})
	if err != nil || len(folders) < 3 {
		t.Fatalf("found %d folders, %v", len(folders), err)
	}
	for folder, explained := range folders {
		if !explained {
			t.Errorf("%s has no README.md: what lies there, how one is added, how it is updated, who reads it", folder)
		}
	}
}

// forEachFile parses every Go file of the house; tests only when asked.
func forEachFile(t *testing.T, visit func(name string, file *ast.File, set *token.FileSet), tests ...string) {
	t.Helper()
	root := os.DirFS("../..")
	seen := 0
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(name) != ".go" || (len(tests) == 0 && strings.HasSuffix(name, "_test.go")) {
			return err
		}
		set := token.NewFileSet()
		source, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(set, name, source, parser.ParseComments)
		if err != nil {
			return err
		}
		seen++
		visit(name, file, set)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen < 9 {
		t.Fatalf("found only %d Go files", seen)
	}
}
