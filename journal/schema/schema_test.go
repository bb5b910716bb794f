package schema

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"pleopod/journal"
)

// compiled returns a schema that was checked against the meta-schema of draft 2020-12.
func compiled(t *testing.T, source []byte) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(source))
	if err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource("urn:pleopod", document); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile("urn:pleopod")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// valueOf reads YAML as an editor would, and reports false when it is none.
func valueOf(text string) (any, bool) {
	var value any
	if err := yaml.Unmarshal([]byte(text), &value); err != nil {
		return nil, false
	}
	plain, err := json.Marshal(value)
	if err != nil {
		return nil, false // such as .nan
	}
	value, err = jsonschema.UnmarshalJSON(bytes.NewReader(plain))
	return value, err == nil
}

// frontMatter returns the YAML of an entry.
func frontMatter(source string) string {
	parts := strings.SplitN("\n"+strings.ReplaceAll(source, "\r\n", "\n"), "\n---\n", 3)
	if len(parts) < 3 || strings.TrimSpace(parts[0]) != "" {
		return ":"
	}
	return parts[1]
}

func TestTheSampleFits(t *testing.T) {
	sample := os.DirFS("../../sample-journal")
	settings, err := fs.ReadFile(sample, journal.SettingsFile)
	if err != nil {
		t.Fatal(err)
	}
	value, ok := valueOf(string(settings))
	if err := compiled(t, Journal()).Validate(value); err != nil || !ok {
		t.Errorf("journal.yaml of the sample: %v", err)
	}
	schema, seen := compiled(t, Entry()), 0
	err = fs.WalkDir(sample, "entries", func(name string, d fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(name) != ".md" {
			return err
		}
		source, err := fs.ReadFile(sample, name)
		if err != nil {
			return err
		}
		seen++
		value, ok := valueOf(frontMatter(string(source)))
		if err := schema.Validate(value); err != nil || !ok {
			t.Errorf("%s: %v", name, err)
		}
		return nil
	})
	if err != nil || seen < 80 {
		t.Fatalf("%d entries of the sample: %v", seen, err)
	}
}

// beyond is the kinds of problems that a schema cannot express: they depend on other files, on other values, on
// the order of numbers, or on how the YAML is written.
var beyond = []string{
	"unknown-tank", "no-tank", "no-grades", "unknown-grade", "brood-names", "measured-names", "date-order", "no-such-date",
	"parameter-range", "parameters-contradict", "front-matter", "yaml-syntax", "yaml-reference", "yaml-depth", "key-twice", "not-utf-8",
	"markdown-cost",
}

// partly is the written values of which a schema cannot say what is wrong, although it knows the kind of problem.
var partly = map[string]string{
	"0x17":             "not-a-count", // YAML takes it for a number
	"1_000":            "not-a-count",
	"temperature: 74}": "number-without-meaning", // in a journal with F it is right
	"125 %":            "number-without-meaning", // a text, not a number, for YAML
}

// TestSchemaAndReaderAgree takes every mistake, and every right line beside them, from the tests of the reader:
// the schema accepts what the reader accepts and refuses what it can express.
func TestSchemaAndReaderAgree(t *testing.T) {
	entries, settings := compiled(t, Entry()), compiled(t, Journal())
	two, _ := journal.ParseSettings([]byte("title: T\naddress: https://example.org/\ngrades: [pale, even, deep]\ntanks: {north-shelf: {volume: 38 L}, window: {}}\n"))
	refused, accepted := 0, 0
	check := func(schema *jsonschema.Schema, yaml string, problems []journal.Problem) {
		value, ok := valueOf(yaml)
		if !ok {
			return
		}
		err := schema.Validate(value)
		errors := errorsIn(problems)
		switch {
		case strings.Contains(yaml, "\u00a0:"): // a key with a space that does not break: the reader is kinder
		case len(errors) == 0 && err != nil:
			t.Errorf("the reader accepts this and the schema does not:\n%s\n%v", yaml, err)
		case len(errors) == 0:
			accepted++
		case err != nil:
			refused++
		case !slices.ContainsFunc(errors, func(p journal.Problem) bool { return expressible(p, yaml) }):
		default:
			t.Errorf("the schema accepts this and the reader does not:\n%s\n%v", yaml, errors)
		}
	}
	for _, text := range mistakes(t, "../mistakes_test.go") {
		_, problems := journal.ParseEntry("e.md", []byte(text), two)
		check(entries, frontMatter(text), problems)
	}
	for _, text := range append(mistakes(t, "../event_mistakes_test.go"), mistakes(t, "../kinds_test.go")...) {
		text = "---\ndate: 2026-03-14\ntank: north-shelf\nevents:\n  " + text + "\n---\n"
		_, problems := journal.ParseEntry("e.md", []byte(text), two)
		check(entries, frontMatter(text), problems)
	}
	for _, text := range mistakes(t, "../settings_test.go") {
		_, problems := journal.ParseSettings([]byte(text))
		check(settings, text, problems)
	}
	t.Logf("%d refused, %d accepted", refused, accepted)
	if refused < 100 || accepted < 40 {
		t.Errorf("only %d refused and %d accepted", refused, accepted)
	}
}

func errorsIn(problems []journal.Problem) []journal.Problem {
	return slices.DeleteFunc(slices.Clone(problems),
		func(p journal.Problem) bool { return p.Severity == journal.Warning })
}

func expressible(p journal.Problem, yaml string) bool {
	if slices.Contains(beyond, p.Code) {
		return false
	}
	for written, code := range partly {
		if p.Code == code && strings.Contains(yaml, written) {
			return false
		}
	}
	return true
}

// mistakes returns what was written in each row of the tables of mistakes, and of examples, of a test file.
func mistakes(t *testing.T, file string) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	constants := map[string]string{"titled": "title: T\naddress: https://example.org/\n"}
	var written []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		row, ok := n.(*ast.CompositeLit)
		if !ok || row.Type != nil || len(row.Elts) != 2 {
			return true
		}
		if text, ok := textOf(row.Elts[0], constants); ok {
			written = append(written, text)
		}
		return true
	})
	if len(written) < 20 {
		t.Fatalf("found only %d rows in %s", len(written), file)
	}
	return written
}

// textOf returns the text of a string expression.
func textOf(expression ast.Expr, constants map[string]string) (string, bool) {
	switch e := expression.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, err == nil
	case *ast.Ident:
		text, ok := constants[e.Name]
		return text, ok
	case *ast.BinaryExpr:
		left, ok := textOf(e.X, constants)
		right, good := textOf(e.Y, constants)
		return left + right, ok && good && e.Op == token.ADD
	}
	return "", false
}

// TestEveryKeyIsDescribed looks at every property of both schemas.
func TestEveryKeyIsDescribed(t *testing.T) {
	for name, source := range map[string][]byte{"journal": Journal(), "entry": Entry()} {
		var document any
		if err := json.Unmarshal(source, &document); err != nil {
			t.Fatal(err)
		}
		seen := 0
		eachProperty(document, func(key string, property map[string]any) {
			seen++
			if about, _ := property["description"].(string); len(about) < 8 {
				t.Errorf("the key %q of %s has the description %q", key, name, about)
			}
		})
		if seen < 60 {
			t.Errorf("%s has only %d properties", name, seen)
		}
	}
}

func eachProperty(node any, visit func(key string, property map[string]any)) {
	switch node := node.(type) {
	case []any:
		for _, item := range node {
			eachProperty(item, visit)
		}
	case map[string]any:
		properties, _ := node["properties"].(map[string]any)
		for key, property := range properties {
			visit(key, property.(map[string]any))
		}
		for _, inner := range node {
			eachProperty(inner, visit)
		}
	}
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(Entry(), Entry()) || !bytes.Equal(Journal(), Journal()) {
		t.Error("two calls give different bytes")
	}
}
