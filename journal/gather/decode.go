package gather

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// decode turns a file into text with LF line ends, and names its encoding.
func decode(source []byte) (text, name string, err error) {
	switch {
	case bytes.HasPrefix(source, []byte("PK\x03\x04")), bytes.HasPrefix(source, []byte("\xd0\xcf\x11\xe0")):
		return "", "", errors.New("this is a workbook, not a table as text; in the spreadsheet save the sheet as CSV, and gather that file")
	case len(bytes.TrimSpace(source)) == 0:
		return "", "", errors.New("the file is empty")
	}
	var form encoding.Encoding
	switch {
	case bytes.HasPrefix(source, []byte("\xff\xfe")):
		form, name = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM), "UTF-16"
	case bytes.HasPrefix(source, []byte("\xfe\xff")):
		form, name = unicode.UTF16(unicode.BigEndian, unicode.UseBOM), "UTF-16"
	case zeros(source, 1):
		form, name = unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM), "UTF-16 without a mark"
	case zeros(source, 0):
		form, name = unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM), "UTF-16 without a mark"
	case utf8.Valid(source):
		form, name = unicode.UTF8BOM, "UTF-8"
	default:
		form, name = charmap.Windows1252, "Windows-1252"
	}
	decoded, err := form.NewDecoder().Bytes(source)
	if err != nil || bytes.IndexByte(decoded, 0) >= 0 {
		return "", "", errors.New("this is no text; save the table as CSV, with the encoding UTF-8")
	}
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(decoded))
	return text, name, nil
}

// zeros reports whether most bytes at even (0) or odd (1) places are zero, as in UTF-16 of Latin letters.
func zeros(source []byte, from int) bool {
	found := 0
	for i := from; i < len(source); i += 2 {
		if source[i] == 0 {
			found++
		}
	}
	return found > 0 && found*10 > len(source)/2*7
}

// row is one row of a table.
type row struct {
	line  int
	cells []cell
}

// cell is one field of a row.
type cell struct {
	text   string
	column int // in the line, in code points from 1
}

// at returns the text of a column, "" beyond the end of the row.
func (r row) at(column int) string {
	if column < 0 || column >= len(r.cells) {
		return ""
	}
	return r.cells[column].text
}

// place returns the column in the line of a field.
func (r row) place(column int) int {
	if column < 0 || column >= len(r.cells) {
		return 1
	}
	return r.cells[column].column
}

// empty reports whether nothing is written in the row.
func (r row) empty() bool {
	for _, c := range r.cells {
		if c.text != "" {
			return false
		}
	}
	return true
}

// longestLine is the most bytes of one line. Finding the places of its fields takes the square of them.
const longestLine = 20_000

// separators is what may stand between columns, the one that is least likely inside a number or a text first.
var separators = []struct {
	mark rune
	name string
}{{'\t', "tabs"}, {';', "semicolons"}, {'|', "bars"}, {',', "commas"}}

// split turns text into rows, and names what separates the columns. A first line "sep=;" of a spreadsheet decides.
func split(text string) (rows []row, name string, err error) {
	for line := range strings.Lines(text) {
		if len(line) > longestLine {
			return nil, "", fmt.Errorf("a line has more than %d characters; a table of readings has short ones",
				longestLine)
		}
	}
	first, rest, _ := strings.Cut(text, "\n")
	skipped := 0
	if said, ok := strings.CutPrefix(strings.ToLower(strings.Trim(first, "\" ")), "sep="); ok && len([]rune(said)) == 1 {
		text, skipped = rest, 1
		for _, s := range separators {
			if string(s.mark) == said {
				rows, err = records(text, s.mark, skipped)
				return rows, s.name, err
			}
		}
	}
	for _, s := range separators {
		found, err := records(text, s.mark, skipped)
		if err != nil || !isTable(found) {
			continue
		}
		if _, below := headerOf(found); below > 0 {
			return found, s.name, nil
		}
		if rows == nil { // notes with semicolons make a table of a kind too, but its first rows name no columns
			rows, name = found, s.name
		}
	}
	if rows != nil {
		return rows, name, nil
	}
	return nil, "", errors.New("the file has no columns that are separated by commas, semicolons or tabs; a table has at least a column of dates and one of numbers")
}

// records reads all rows with one separator.
func records(text string, mark rune, skipped int) ([]row, error) {
	lines := strings.Split(text, "\n")
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comma, reader.FieldsPerRecord, reader.LazyQuotes = mark, -1, true
	var rows []row
	for {
		fields, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, err
		}
		r := row{}
		for i, field := range fields {
			line, column := reader.FieldPos(i)
			if i == 0 {
				r.line = line + skipped
			}
			prefix := lines[line-1][:min(column-1, len(lines[line-1]))]
			r.cells = append(r.cells, cell{tidy(field), utf8.RuneCountInString(prefix) + 1})
		}
		rows = append(rows, r)
	}
}

// isTable reports whether most rows have the same number of columns, more than one.
func isTable(rows []row) bool {
	widths := map[int]int{}
	total := 0
	for _, r := range rows {
		if !r.empty() {
			widths[len(r.cells)]++
			total++
		}
	}
	for width, n := range widths {
		if width > 1 && 2*n > total {
			return true
		}
	}
	return false
}

// tidy takes away what a keeper does not see: spaces of every kind around a text and full-width forms of digits.
func tidy(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case r >= '！' && r <= '～':
			return r - '！' + '!'
		case r == '\u00a0' || r == '\u202f' || r == '\u2007' || r == '\u2009' || r == '\u3000':
			return ' '
		case r == '−': // the minus sign of typesetters
			return '-'
		case r == '\u200b' || r == '\ufeff' || r == '\u200e' || r == '\u200f':
			return -1
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}
