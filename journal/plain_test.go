package journal

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// jargon is what a keeper of shrimp does not say, and blame is what nobody wants to hear.
var (
	jargon = regexp.MustCompile(`(?i)\b(yaml|mapping|scalar|alias|anchor|token|front matter|syntax|pars(e|er|ing)|string|integer|boolean|null|argument|parameter list|array|object|regex|schema|encoding error|stdin|flag)\b`)
	blame  = regexp.MustCompile(`(?i)\b(invalid|illegal|bad|wrong|fail(ed|ure)?|fatal|must not|forbidden|you (forgot|must|should)|error|oops|sorry|please)\b`)
)

// TestMessagesSpeakPlainly reads every text that a problem can show.
func TestMessagesSpeakPlainly(t *testing.T) {
	seen := 0
	check := func(where, text string) {
		if codeShape.MatchString(text) {
			return // the code of a problem, or a key
		}
		seen++
		text = strings.ReplaceAll(text, SettingsFile, "the settings")
		if found := jargon.FindString(text); found != "" {
			t.Errorf("%s: %q is no word of a keeper: %q", where, found, text)
		}
		if found := blame.FindString(text); found != "" {
			t.Errorf("%s: %q sounds like blame: %q", where, found, text)
		}
		if strings.HasSuffix(strings.TrimSpace(text), ".") || strings.Contains(text, "!") && !strings.Contains(text, "![") {
			t.Errorf("%s: a message has no full stop and does not shout: %q", where, text)
		}
	}
	for _, known := range syntaxWords {
		check("syntaxWords", known.message)
	}
	for _, room := range rooms {
		files, err := filepath.Glob(filepath.Join(room, "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("no Go files in %s: %v", room, err)
		}
		for _, file := range files {
			if !strings.HasSuffix(file, "_test.go") {
				eachMessage(t, file, check)
			}
		}
	}
	if seen < 250 {
		t.Errorf("only %d texts of messages", seen)
	}
	for _, e := range Explanations() {
		check(e.Code, e.Title)
	}
}

// eachMessage visits every text that goes into a message or a hint.
func eachMessage(t *testing.T, file string, visit func(where, text string)) {
	t.Helper()
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	texts := func(expression ast.Node) {
		ast.Inspect(expression, func(n ast.Node) bool {
			if literal, ok := n.(*ast.BasicLit); ok && literal.Kind == token.STRING {
				if text, err := strconv.Unquote(literal.Value); err == nil && len(text) > 3 {
					visit(set.Position(literal.Pos()).String(), text)
				}
			}
			return true
		})
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && (key.Name == "message" || key.Name == "hint" || key.Name == "Message" || key.Name == "Hint") {
				texts(n.Value)
			}
		case *ast.AssignStmt:
			for i, left := range n.Lhs {
				if name := lastName(left); (name == "message" || name == "hint" || name == "Message" || name == "Hint") && i < len(n.Rhs) {
					texts(n.Rhs[i])
				}
			}
		case *ast.CallExpr:
			name := lastName(n.Fun)
			if name == "wrong" || name == "leaveOut" || name == "ask" || name == "bad" || name == "badBracket" {
				for _, argument := range n.Args {
					texts(argument)
				}
			}
		}
		return true
	})
}
