package main

import (
	"bytes"
	"compress/zlib"
	"encoding/base64"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"net/url"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"golang.org/x/net/html"

	"pleopod/journal"
)

// marker stands in everything that must stay at home, in the name of the folder, of the machine and of its user.
const marker = "zqmarkerqz"

// fields writes one entry that has every event with every attribute that the format knows; say gives each text, and for
// "name" each name, which the reader takes only of letters, digits and a few signs.
func fields(say func(field string) string) string {
	words := journal.Words()
	out := "---\ndate: 2026-03-14\ntank: shelf\ntitle: " + say("title") + "\ntopics: [" + say("topic") + "]\nevents:\n"
	for _, kind := range words.Kinds {
		if kind.Form == journal.FormGrades {
			continue // of a scale that must exist
		}
		value := valueOf(kind.Word, say, kind.Name)
		if kind.Form == journal.FormNameOrTrue { // about a brood that must exist
			value = "of-" + kind.Name
			out += "  - berried: 1\n    brood: " + value + "\n"
		}
		out += "  - " + kind.Name + ": " + value + "\n"
		for _, word := range slices.Concat(kind.Attributes, words.Event) {
			switch {
			case word.Name == "to" && word.Form == journal.FormTank:
				out += "    to: bench\n"
			case word.Name == "brood" && kind.Name != "berried", word.Form == journal.FormTank,
				word.Form == journal.FormDate:
			case slices.Contains([]journal.Form{journal.FormText, journal.FormName, journal.FormNames, journal.FormNameOrNames}, word.Form):
				out += "    " + word.Name + ": " + valueOf(word, say, kind.Name+" "+word.Name) + "\n"
			}
		}
	}
	return out + "---\n"
}

// privately makes an entry private.
func privately(entry string) string {
	return strings.Replace(entry, "---\n", "---\nvisibility: private\n", 1)
}

// valueOf writes a text where the word takes one, and else its example.
func valueOf(word journal.Word, say func(string) string, field string) string {
	switch word.Form {
	case journal.FormText:
		return say(field)
	case journal.FormName, journal.FormNameOrNames:
		return say("name")
	case journal.FormNames, journal.FormWho:
		return "[" + say("name") + "]"
	case journal.FormAmounts:
		return "[18]"
	}
	return word.Example
}

// publishedFiles publishes a journal with the real program, in a folder and for a user with the marker in their names, and
// returns all files of the site, hidden ones too.
func publishedFiles(t *testing.T, files map[string]string) map[string][]byte {
	t.Helper()
	dir, out := filepath.Join(t.TempDir(), marker), filepath.Join(t.TempDir(), "site")
	for name, content := range files {
		writeFile(t, filepath.Join(dir, filepath.FromSlash(name)), content)
	}
	command := exec.Command("pleopod", "publish", dir, "--out", out)
	command.Env = append(os.Environ(), "USER="+marker, "LOGNAME="+marker, "HOSTNAME="+marker,
		"HOME="+filepath.Join(t.TempDir(), marker), "XDG_CACHE_HOME="+filepath.Join(t.TempDir(), marker))
	if said, err := command.CombinedOutput(); err != nil {
		t.Fatalf("publish: %v\n%s", err, said)
	}
	site := map[string][]byte{}
	root := os.DirFS(out)
	if err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			site[name], err = fs.ReadFile(root, name)
		}
		return err
	}); err != nil || len(site) < 10 {
		t.Fatalf("%d files of the site: %v", len(site), err)
	}
	return site
}

// TestMarkersAppearNowhere plants a word in every text of a private entry, in what no public entry shows, in
// the metadata of a picture that one does, in what only looks like the journal, and in the names around. No
// file of the site may hold it, in any coding, whatever pages there will be.
func TestMarkersAppearNowhere(t *testing.T) {
	n := 0
	say := func(string) string { n++; return fmt.Sprintf("%s%d", marker, n) }
	open := "---\ndate: 2026-03-13\ntank: shelf\nevents: [{stocked: 10}, {berried: [ruby], brood: amber}]\n---\n![Ruby](../photos/ruby.png) ![Pearl](../photos/pearl.jpg)\n<!-- " + marker + " --> [that night](" + marker + "3.md)\n"
	files := map[string]string{
		"journal.yaml": "# " + marker + "\ntitle: T\naddress: https://example.org/\nas-of: 2026-04-01\ntanks: {shelf: {volume: 38 L, heater: 23 C, temperature-log: readings/" + marker + ".csv}, bench: {volume: 20 L}}\n",
		"entries/a.md": open, "entries/" + marker + "3.md": privately(fields(say)) + marker + "4 ![" + marker + "5](../photos/" + marker + "6.png)\n",
		"photos/ruby.png": markedPNG(t), "photos/pearl.jpg": markedJPEG(t), "photos/" + marker + "6.png": markedPNG(t), "photos/" + marker + "7.png": markedPNG(t),
		"readings/" + marker + ".csv": "time,temperature," + marker + "\n2026-03-13,23.1," + marker + "\n", "readings/other.csv": marker, marker + ".txt": marker, "entries/." + marker + ".md": marker,
	}
	if n < 20 {
		t.Fatalf("only %d texts in an entry with everything", n)
	}
	site := publishedFiles(t, files)
	pictures := 0
	for name, content := range site {
		for _, text := range append(codings(content), []byte(name)) {
			if at := bytes.Index(bytes.ToLower(text), []byte(marker)); at >= 0 {
				t.Errorf("%s: …%q…", name, text[max(0, at-60):min(len(text), at+60)])
			}
		}
		if path.Ext(name) == ".png" || path.Ext(name) == ".jpg" {
			pictures++
		}
	}
	if pictures < 2 || !bytes.Contains(site["index.html"], []byte("amber")) {
		t.Errorf("%d pictures; is this the site of the journal?", pictures)
	}
}

// codings returns a file as it is and as what may be hidden in it: UTF-16, base64, hex, and the deflated texts
// of a PNG.
func codings(content []byte) [][]byte {
	all := [][]byte{content, bytes.ReplaceAll(content, []byte{0}, nil)}
	if decoded, err := url.QueryUnescape(string(content)); err == nil {
		all = append(all, []byte(decoded))
	}
	for _, hidden := range []string{hex.EncodeToString([]byte(marker)), base64.StdEncoding.EncodeToString([]byte(marker))[:12]} {
		if bytes.Contains(content, []byte(hidden)) {
			all = append(all, []byte(marker+" as "+hidden))
		}
	}
	for rest := content; bytes.HasPrefix(content, []byte("\x89PNG")); {
		at := bytes.IndexByte(rest, 0x78) // how deflated data begins
		if at < 0 {
			break
		}
		rest = rest[at:]
		if reader, err := zlib.NewReader(bytes.NewReader(rest)); err == nil {
			text, _ := io.ReadAll(io.LimitReader(reader, 1<<16)) // noise ends with an error, after what it gave
			all = append(all, text)
		}
		rest = rest[1:]
	}
	return all
}

// markedPNG is a picture whose text chunks, plain and deflated, hold the marker.
func markedPNG(t *testing.T) string {
	t.Helper()
	var file, deflated bytes.Buffer
	if err := png.Encode(&file, image.NewRGBA(image.Rect(0, 0, 600, 400))); err != nil {
		t.Fatal(err)
	}
	packed := zlib.NewWriter(&deflated)
	fmt.Fprint(packed, marker)
	packed.Close()
	extra := chunk("tEXt", "Author\x00"+marker) + chunk("zTXt", "Comment\x00\x00"+deflated.String()) + chunk("eXIf", "MM\x00*"+marker)
	return file.String()[:33] + extra + file.String()[33:]
}

func chunk(name, data string) string {
	length := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	sum := binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE([]byte(name+data)))
	return string(length) + name + data + string(sum)
}

// markedJPEG is a photo whose comment, EXIF and XMP hold the marker, in UTF-8 and UTF-16.
func markedJPEG(t *testing.T) string {
	t.Helper()
	var file bytes.Buffer
	if err := jpeg.Encode(&file, image.NewGray(image.Rect(0, 0, 600, 400)), nil); err != nil {
		t.Fatal(err)
	}
	wide := ""
	for _, unit := range utf16.Encode([]rune(marker)) {
		wide += string([]byte{byte(unit), byte(unit >> 8)})
	}
	extra := ""
	for kind, data := range map[string]string{"\xfe": marker, "\xe1": "Exif\x00\x00MM\x00*" + wide, "\xed": "Photoshop 3.0\x00" + marker} {
		extra += "\xff" + kind + string(binary.BigEndian.AppendUint16(nil, uint16(len(data)+2))) + data
	}
	return file.String()[:2] + extra + file.String()[2:]
}

// payloads are texts that are code where they are not escaped: in HTML, an attribute, a script, a style, XML, a
// calendar, a table, a template. A short run takes two.
func payloads() []string {
	all := []string{
		`"><script>pwn()</script><img src=x onerror=pwn()>`, `'-pwn()-' onmouseover=pwn() x='`, `</script><script>pwn()</script>`, `</title></style></textarea><svg onload=pwn()>`,
		`]]><pwn/>&pwn; {{.pwn}} ${pwn()}`, `javascript:pwn()`, `=HYPERLINK("https://example.org/pwn")`, `</text></svg><iframe srcdoc=pwn>`,
	}
	if testing.Short() {
		return all[:2]
	}
	return all
}

// TestPayloadsStayText puts each payload into every text of the format and looks at the site with parsers: no
// element, no handler, no address may come of it, in no file.
func TestPayloadsStayText(t *testing.T) {
	for _, payload := range payloads() {
		n := 0
		say := func(field string) string {
			if n++; field == "name" {
				return fmt.Sprintf("pwn o'%d", n)
			}
			return "'" + strings.ReplaceAll(payload, "'", "''") + fmt.Sprint(n) + "'"
		}
		quoted := say("")
		files := map[string]string{
			"journal.yaml": "title: " + quoted + "\nkeeper: " + quoted + "\naddress: https://example.org/\nas-of: 2026-04-01\ngrades: [" + quoted + "]\ntanks: {shelf: {name: " + quoted + ", volume: 38 L, heater: 23 C, temperature-log: readings/it's&.csv}, bench: {volume: 20 L}}\n" +
				"biology: {incubation: {base: 11.2 C, because: " + quoted + "}}\n",
			"entries/a&'b.md":  fields(say) + "# " + payload + "\n\n" + payload + "\n\n![" + payload + "](../photos/it's&.png '" + strings.ReplaceAll(payload, "'", "") + "')\n\n[" + payload + "](" + strings.ReplaceAll(payload, " ", "%20") + ")\n",
			"photos/it's&.png": markedPNG(t),
			// A column that is not the temperature's, and cells of it.
			"readings/it's&.csv": "time,temperature," + cell(payload) + "\n2026-03-13 08:00,23.1," + cell(payload) + "\n2026-03-14 08:00,23.2," + cell("\n"+payload) + "\n",
		}
		shown := harmlessSite(t, publishedFiles(t, files))
		if shown == 0 {
			t.Errorf("%q is shown nowhere: is this the site of the journal?", payload)
		}
	}
}

// TestGatheredPayloadsStayText puts each payload into the notes of a spreadsheet, which gather makes entries of.
func TestGatheredPayloadsStayText(t *testing.T) {
	for _, payload := range payloads() {
		dir, table := t.TempDir(), filepath.Join(t.TempDir(), "tests.csv")
		writeFile(t, table, "date,gh,kh,note\n2026-03-20,8,3,"+cell(payload)+"\n2026-03-27,8,3,"+cell("pwn "+payload)+"\n")
		writeFile(t, filepath.Join(dir, "journal.yaml"),
			"title: T\naddress: https://example.org/\nas-of: 2026-04-01\ntanks: {shelf: {volume: 38 L}}\n")
		if said, err := exec.Command("pleopod", "gather", table, dir, "--write").CombinedOutput(); err != nil {
			t.Fatalf("gather: %v\n%s", err, said)
		}
		files := map[string]string{}
		root := os.DirFS(dir)
		if err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
			if err == nil && !d.IsDir() {
				var content []byte
				content, err = fs.ReadFile(root, name)
				files[name] = string(content)
			}
			return err
		}); err != nil || len(files) != 3 {
			t.Fatalf("%d files in the journal: %v", len(files), err)
		}
		if harmlessSite(t, publishedFiles(t, files)) == 0 {
			t.Errorf("%q is shown nowhere: is this the site of the journal?", payload)
		}
	}
}

// harmlessSite looks at every file of a site, and returns how often its pages show the payloads' word.
func harmlessSite(t *testing.T, site map[string][]byte) (shown int) {
	t.Helper()
	for name, content := range site {
		switch path.Ext(name) {
		case ".html":
			shown += harmlessPage(t, name, content)
		case ".xml", ".svg":
			harmlessXML(t, name, content)
		case ".json":
			if !json.Valid(content) {
				t.Errorf("%s is no JSON", name)
			}
		case ".js":
			if name != "script.js" && bytes.Contains(content, []byte("<")) {
				t.Errorf("%s holds an unescaped sign", name)
			}
		case ".ics":
			for _, line := range strings.Split(string(content), "\r\n") {
				if strings.HasPrefix(line, "=") || strings.HasPrefix(line, "<") || strings.HasPrefix(line, "]]") {
					t.Errorf("%s: a line of its own: %s", name, line)
				}
			}
		case ".csv":
			if bytes.Contains(content, []byte("\n=")) || bytes.Contains(content, []byte(",=")) || bytes.Contains(content, []byte(`"=`)) {
				t.Errorf("%s holds a formula", name)
			}
		}
	}
	return shown
}

// cell writes a text as a quoted cell of a CSV file.
func cell(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }

// harmlessPage looks at every element and attribute of a page, and returns how often its text shows the payload's word.
func harmlessPage(t *testing.T, name string, content []byte) (shown int) {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	for n := range root.Descendants() {
		if n.Type == html.TextNode {
			shown += strings.Count(n.Data, "pwn")
			continue
		}
		if slices.Contains([]string{"iframe", "object", "embed", "base", "form", "pwn", "style"}, n.Data) {
			t.Errorf("%s: the element %s", name, n.Data)
		}
		for _, a := range n.Attr {
			address := slices.Contains([]string{"href", "src", "srcset", "action", "data", "srcdoc"}, a.Key)
			low := strings.ToLower(strings.Join(strings.Fields(a.Val), ""))
			switch {
			case strings.HasPrefix(a.Key, "on"), a.Key == "style", a.Key == "srcdoc":
				t.Errorf("%s: the attribute %s=%q", name, a.Key, a.Val)
			case address && (strings.HasPrefix(low, "javascript:") || strings.HasPrefix(low, "data:") || strings.HasPrefix(low, "vbscript:")):
				t.Errorf("%s: the address %s=%q", name, a.Key, a.Val)
			case n.Data == "script" && a.Key == "src" && strings.Contains(a.Val, "pwn"):
				t.Errorf("%s: the script %q", name, a.Val)
			}
		}
		if n.Data == "script" && n.FirstChild != nil && attributeOf(n, "type") != "application/json" && attributeOf(n, "type") != "application/ld+json" {
			t.Errorf("%s: a script in the page: %q", name, n.FirstChild.Data)
		}
	}
	return shown
}

func attributeOf(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// harmlessXML reads a feed, a site map or a drawing to its end.
func harmlessXML(t *testing.T, name string, content []byte) {
	t.Helper()
	decoder := xml.NewDecoder(bytes.NewReader(content))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		element, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if local := element.Name.Local; local == "script" || local == "pwn" || local == "iframe" {
			t.Errorf("%s: the element %s", name, local)
		}
	}
}
