package journal

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// rooms are the packages whose problems the table explains.
var rooms = []string{".", "colony", "forecast", "gather"}

// codeShape is what a code looks like.
var codeShape = regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)*$`)

// reporters are the functions that take a code among their arguments.
var reporters = []string{"wrong", "fault", "warn", "fail", "report", "complain"}

func TestEveryCodeIsExplainedAndEveryExplanationIsUsed(t *testing.T) {
	used := map[string]string{}
	for _, room := range rooms {
		files, err := filepath.Glob(filepath.Join(room, "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("no Go files in %s: %v", room, err)
		}
		for _, file := range files {
			if !strings.HasSuffix(file, "_test.go") && !strings.HasPrefix(filepath.Base(file), "explanations") {
				collectCodes(t, file, used)
			}
		}
	}
	if len(used) < 60 {
		t.Fatalf("found only %d codes", len(used))
	}
	for code, where := range used {
		if _, ok := Explain(code); !ok {
			t.Errorf("%s: the code %q has no explanation", where, code)
		}
	}
	for _, e := range Explanations() {
		if used[e.Code] == "" {
			t.Errorf("the explanation of %q belongs to no problem", e.Code)
		}
	}
}

// collectCodes notes every code that a file gives to a problem.
func collectCodes(t *testing.T, file string, used map[string]string) {
	t.Helper()
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, file, source, 0)
	if err != nil {
		t.Fatal(err)
	}
	note := func(expression ast.Expr) {
		literal, ok := expression.(*ast.BasicLit)
		if !ok || literal.Kind != token.STRING {
			return
		}
		if code, err := strconv.Unquote(literal.Value); err == nil && codeShape.MatchString(code) {
			used[code] = set.Position(literal.Pos()).String()
		}
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && strings.EqualFold(key.Name, "code") {
				note(n.Value)
			}
		case *ast.AssignStmt:
			for i, left := range n.Lhs {
				if strings.EqualFold(lastName(left), "code") && i < len(n.Rhs) {
					note(n.Rhs[i])
				}
			}
		case *ast.CallExpr:
			if slices.Contains(reporters, lastName(n.Fun)) {
				for _, argument := range n.Args {
					note(argument)
				}
			}
		}
		return true
	})
}

// lastName returns the name of an identifier or of a selected field.
func lastName(expression ast.Expr) string {
	switch e := expression.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	}
	return ""
}

func TestExplanationsAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range Explanations() {
		if seen[e.Code] {
			t.Errorf("%s is explained twice", e.Code)
		}
		seen[e.Code] = true
		if e.Title == "" || e.Meaning == "" || e.Example == "" || e.Fix == "" {
			t.Errorf("%s: %+v lacks a part", e.Code, e)
		}
		if strings.HasSuffix(e.Title, ".") || !strings.HasSuffix(e.Meaning, ".") {
			t.Errorf("%s: a title has no full stop, a paragraph has one", e.Code)
		}
	}
	if _, ok := Explain("no-such-code"); ok {
		t.Error("a code that does not exist is explained")
	}
}
