package journal

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// parseYAML turns YAML into a tree, or reports why it is none. The tree is nil when there is nothing in it or a
// problem was reported. Before the parser sees the text it is refused what would make it slow or lets values
// refer to each other: the parser is quadratic in nesting, and a journal needs neither.
func (p *page) parseYAML(source []byte) ast.Node {
	if line, column, bad := dashes(source); bad {
		p.fail(p.place(line+p.before, column),
			issue{code: "yaml-depth", message: "too many hyphens in a row; a list item starts with one"})
		return nil
	}
	if line := blankRun(source); line > 0 {
		p.fail(p.place(line+p.before, 1),
			issue{code: "too-long", message: fmt.Sprintf("more than %d blank lines in a row", maxBlankLines)})
		return nil
	}
	tokens := lexer.Tokenize(string(source))
	if p.noBreakSpaces(source) || !p.guardTokens(tokens) {
		return nil
	}
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		if !p.badForm(source) {
			p.fail(p.syntax(err))
		}
		return nil
	}
	var body ast.Node
	for _, document := range file.Docs {
		if document.Body == nil {
			continue
		}
		if body != nil {
			p.fail(p.at(document.Body.GetToken()),
				issue{code: "yaml-syntax", message: "a second group of keys begins here; there may be one",
					hint: "remove the line of three hyphens above"})
			return nil
		}
		body = document.Body
	}
	return body
}

// dashes looks for a line that opens more lists than any journal needs: "- - - - -" costs the parser quadratic time.
func dashes(source []byte) (line, column int, bad bool) {
	line = 1
	run, atStart := 0, true
	for i, column := 0, 1; i < len(source); i, column = i+1, column+1 {
		switch c := source[i]; {
		case c == '\n':
			line, column, run, atStart = line+1, 0, 0, true
		case c == '-' && atStart && i+1 < len(source) && (source[i+1] == ' ' || source[i+1] == '\t' || source[i+1] == '-'):
			if run++; run > maxDashesPerLine && source[i+1] != '-' {
				return line, column, true
			}
		case c != ' ' && c != '\t' && c != '-':
			atStart = false
		}
	}
	return 0, 0, false
}

// blankRun returns the line at which a run of blank lines grows too long, or 0.
func blankRun(source []byte) int {
	line, run := 0, 0
	for text := range bytes.Lines(source) {
		line, run = line+1, run+1
		if len(bytes.TrimSpace(text)) > 0 {
			run = 0
		}
		if run > maxBlankLines {
			return line
		}
	}
	return 0
}

// forbidden is the YAML that a journal may not use, because it hides what a value is.
var forbidden = map[token.Type]string{
	token.AnchorType:     "&",
	token.AliasType:      "*",
	token.MergeKeyType:   "<<",
	token.TagType:        "!",
	token.MappingKeyType: "?",
	token.DirectiveType:  "%",
}

// guardTokens reports what the parser must not see.
func (p *page) guardTokens(tokens token.Tokens) bool {
	good, depth := true, 0
	for i, tk := range tokens {
		if i == maxYAMLTokens {
			p.fail(p.at(tk), issue{code: "too-long",
				message: fmt.Sprintf("more than %d words and marks", maxYAMLTokens)})
			return false
		}
		switch tk.Type {
		case token.MappingStartType, token.SequenceStartType:
			depth++
		case token.MappingEndType, token.SequenceEndType:
			depth--
		}
		if depth > maxYAMLDepth {
			p.fail(p.at(tk), issue{code: "yaml-depth",
				message: fmt.Sprintf("brackets inside each other more than %d deep", maxYAMLDepth)})
			return false
		}
		if i > 0 && lostText(tk, tokens[i-1]) {
			p.warn(p.at(tk), issue{code: "comment-in-value",
				message: quote("#"+tk.Value) + " is taken for a comment and left out",
				hint:    "put the whole value in quotes; if it is a comment, put a space after #"})
		}
		if what, bad := forbidden[tk.Type]; bad {
			p.fail(p.at(tk), issue{code: "yaml-reference",
				message: quote(what) + " at the start has a meaning of its own, which a journal does not use",
				hint:    or(starredEvent(p.restOf(tk)), "if it is part of a text, "+asText(p.restOf(tk)))})
			good = false
		}
	}
	return good
}

// starredEvent says how an event is written that begins with a star.
func starredEvent(text string) string {
	if m := looseHyphen.FindStringSubmatch(text); m != nil && formWord(m[3]) {
		return "an event begins with a hyphen: write - " + strings.TrimLeft(text, "* ")
	}
	return ""
}

// syntax turns an error of the YAML parser into words for a keeper.
func (p *page) syntax(err error) (Position, issue) {
	var wrong yaml.Error
	if !errors.As(err, &wrong) || wrong.GetToken() == nil {
		return p.place(1+p.before, 1), issue{code: "yaml-syntax",
			message: "the keys cannot be read; look for a missing colon, quote or bracket"}
	}
	tk := wrong.GetToken()
	at := p.at(tk)
	message := wrong.GetMessage()
	if joined(tk) {
		key := tk.Next.Prev
		return p.lineStart(tk.Next.Position.Line, key),
			issue{code: "yaml-syntax", message: "the line is indented, so it counts as part of the value above it", hint: "begin it at the same column as the key above it"}
	}
	if textBehind(tk) {
		return at, issue{code: "yaml-syntax", message: "the text goes on behind its closing quote", hint: p.wholeText(tk.Prev, tk)}
	}
	for _, known := range syntaxWords {
		if strings.Contains(message, known.says) {
			return at, issue{code: "yaml-syntax", message: known.message, hint: or(known.hint(p, tk), p.endHint(message))}
		}
	}
	line := lineAt(p.text, at.Line)
	if m := valueOf.FindStringSubmatch(line); m != nil && strings.ContainsAny(m[1][:1], "|>") {
		if number := looseCount.FindStringSubmatch(m[1]); number != nil {
			return at, issue{code: "yaml-syntax", message: quote(m[1]) + " is no number here", hint: "write " + number[1]}
		}
		return at, issue{code: "yaml-syntax", message: quote(m[1][:1]) + " at the start has a meaning of its own", hint: "if it is part of a text, " + asText(m[1])}
	}
	if tab := strings.IndexByte(line, '\t'); tab >= 0 {
		return p.place(at.Line, 1+utf8.RuneCountInString(line[:tab])), issue{code: "yaml-syntax", message: "a tab; type spaces in its place"}
	}
	return at, issue{code: "yaml-syntax",
		message: "the keys cannot be read here; look for a missing colon, quote or bracket in this line and the one above", hint: trapHint(tk.Value)}
}

// lineStart returns the place of the first word in a line of the YAML.
func (p *page) lineStart(line int, tk *token.Token) Position {
	column := tk.Position.Column
	if text := lineAt(p.text, line+p.before); text != "" {
		column = 1 + len(text) - len(strings.TrimLeft(text, " \t"))
	}
	return p.place(line+p.before, max(column, 1))
}

// endHint helps where the front matter of an entry was never ended and its text is read as YAML.
func (p *page) endHint(message string) string {
	if p.path == SettingsFile || !strings.Contains(message, "non-map value") {
		return ""
	}
	return "if the text of the entry begins here, put a line of three hyphens (---) above it"
}

// child is one key of a mapping with its value.
type child struct {
	key   *token.Token
	name  string
	value ast.Node
	torn  string // a value that commas have torn apart, such as "7,4", as it was written
}

// keysOf returns the keys of a whole file, of which an empty one has none. Where something else stands the
// problem is reported.
func (p *page) keysOf(tree ast.Node, problem issue) ([]child, bool) {
	if tree == nil {
		return nil, true
	}
	keys, ok := p.children(tree)
	if !ok {
		p.fail(p.at(startOf(tree)), problem)
	}
	return keys, ok
}

// children returns the keys of a mapping in the order of the file, and false when node is no mapping. A key that is
// given twice is reported and only its first value kept.
func (p *page) children(node ast.Node) ([]child, bool) {
	mapping, ok := node.(*ast.MappingNode)
	if !ok {
		return nil, false
	}
	all := make([]child, 0, len(mapping.Values))
	seen := make(map[string]Position, len(mapping.Values))
	for i, pair := range mapping.Values {
		tk := pair.Key.GetToken()
		if i == maxListItems {
			p.fail(p.at(tk), issue{code: "too-long",
				message: fmt.Sprintf("more than %d keys in one place", maxListItems)})
			break
		}
		name := strings.TrimSpace(tk.Value)
		if mapping.IsFlowStyle && len(all) > 0 && tornOff(&all[len(all)-1], name, pair.Value) {
			continue
		}
		if first, twice := seen[name]; twice {
			p.fail(p.at(tk), issue{code: "key-twice",
				message: fmt.Sprintf("%s is given twice; the first is in line %d", quote(name), first.Line)})
			continue
		}
		seen[name] = p.at(tk)
		all = append(all, child{key: tk, name: name, value: pair.Value})
	}
	return all, true
}

// items returns the items of a list, and false when node is none.
func (p *page) items(node ast.Node) ([]ast.Node, bool) {
	list, ok := node.(*ast.SequenceNode)
	if !ok {
		return nil, false
	}
	if len(list.Values) > maxListItems {
		p.fail(p.at(list.Values[maxListItems].GetToken()),
			issue{code: "too-long", message: fmt.Sprintf("more than %d items in one list", maxListItems)})
		return list.Values[:maxListItems], true
	}
	return list.Values, true
}

// scalar is a single value as it was written. Numbers, dates and words alike are taken as text and read by us.
type scalar struct {
	text   string
	quoted bool
	empty  bool // nothing was written
}

// scalarOf returns the text of a single value, and false for a list or a mapping.
func scalarOf(node ast.Node) (scalar, bool) {
	switch node := node.(type) {
	case nil:
		return scalar{empty: true}, true
	case *ast.NullNode:
		tk := node.GetToken()
		return scalar{text: tk.Value, empty: tk.Type == token.ImplicitNullType || tk.Value == "~" || strings.EqualFold(tk.Value, "null")}, true
	case *ast.LiteralNode:
		return scalar{text: strings.TrimRight(node.Value.Value, "\n"), quoted: true}, true
	case *ast.StringNode, *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		tk := node.GetToken()
		quoted := tk.Type == token.SingleQuoteType || tk.Type == token.DoubleQuoteType
		return scalar{text: tk.Value, quoted: quoted, empty: quoted && strings.TrimSpace(tk.Value) == ""}, true
	}
	return scalar{}, false
}

// startOf returns the first token of a value: for a mapping its first key or its brace, not the colon that the
// parser names.
func startOf(node ast.Node) *token.Token {
	if mapping, ok := node.(*ast.MappingNode); ok && !mapping.IsFlowStyle && len(mapping.Values) > 0 {
		return mapping.Values[0].Key.GetToken()
	}
	return node.GetToken()
}
