package gather

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf16"

	"pleopod/journal"
)

const oneTank = "title: T\naddress: https://example.org/\ntanks: {shelf: {volume: 38 L}}\n"

const twoTanks = "title: T\naddress: https://example.org/\ntanks: {shelf: {name: North shelf}, window: {}}\n"

// folderOf is a journal with these settings and files.
func folderOf(settings string, files ...File) fstest.MapFS {
	folder := fstest.MapFS{journal.SettingsFile: {Data: []byte(settings)}}
	for _, file := range files {
		folder[file.Path] = &fstest.MapFile{Data: []byte(file.Text)}
	}
	return folder
}

// gathering reads a table into a journal.
func gathering(settings, name string, table []byte, says Answers) *Result {
	folder := folderOf(settings)
	return Read(Source{Name: name, Bytes: table, Says: says}, journal.Read(folder), folder)
}

// told writes what a journal with the files says: one line for each event, and one for each logged day.
func told(t *testing.T, settings string, result *Result) []string {
	t.Helper()
	for _, advice := range result.Advice {
		_, log, _ := strings.Cut(advice, "temperature-log: ")
		settings = strings.Replace(settings, "shelf: {", "shelf: {temperature-log: "+log+", ", 1)
	}
	j := journal.Read(folderOf(settings, result.Files...))
	var all []string
	for _, p := range j.Problems {
		if p.Severity == journal.Error || strings.HasSuffix(p.File, ".csv") {
			all = append(all, "PROBLEM "+p.Error())
		}
	}
	for _, entry := range j.Entries {
		for i := range entry.Events {
			all = append(all, fmt.Sprintf("%s %s %s", entry.Events[i].Day, entry.Events[i].Tank,
				happened(entry.Events[i].What)))
		}
	}
	for _, tank := range j.Settings.Tanks {
		for _, day := range tank.Logged {
			all = append(all, fmt.Sprintf("%s %s %d x %.2f C", day.Day, tank.ID, day.Samples, day.Mean))
		}
	}
	return all
}

func happened(what journal.Happening) string {
	switch what := what.(type) {
	case *journal.WaterTest:
		var parts []string
		for _, r := range what.Readings {
			parts = append(parts, fmt.Sprintf("%s%s%.4g", r.Kind,
				map[bool]string{true: "<", false: "="}[r.Below], r.Value))
		}
		return strings.Join(parts, " ")
	case *journal.Counted:
		c := what.Shrimp
		if c.Sorted {
			return fmt.Sprintf("counted f=%d m=%d j=%d u=%d %s", c.Females.Value, c.Males.Value,
				c.Juveniles.Value, c.Unsexed.Value, what.Method)
		}
		return fmt.Sprintf("counted %d %s", c.Total, what.Method)
	}
	return what.Kind()
}

// inUTF16 is a text as a spreadsheet saves "Unicode text".
func inUTF16(text string, big, mark bool) []byte {
	units := utf16.Encode([]rune(text))
	if mark {
		units = slices.Insert(units, 0, 0xfeff)
	}
	var out []byte
	for _, u := range units {
		if big {
			out = append(out, byte(u>>8), byte(u))
		} else {
			out = append(out, byte(u), byte(u>>8))
		}
	}
	return out
}

// inLatin is a text in an encoding of one byte for each character.
func inLatin(text string) []byte {
	var out []byte
	for _, r := range text {
		out = append(out, byte(r))
	}
	return out
}
