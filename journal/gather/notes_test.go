package gather

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestANoteStaysANote holds that a note is gathered as it is, shown, and that events it seems to tell of are only proposed.
func TestANoteStaysANote(t *testing.T) {
	for note, want := range map[string][]string{
		"water change 20%":               {"- water-change: 20 %"},
		"WC 3,5 L and fertiliser":        {"- water-change: 3.5 L"},
		"found 2 dead":                   {"- died: 2"},
		"2 dead; water change 20 %":      {"- died: 2", "- water-change: 20 %"},
		"GH was 8, water change 20%":     {"- water-change: 20 %"},
		"bought 10 more":                 {"- stocked: 10"},
		"5 in the moss or 6, 2 are dead": nil, // which number is it?
		"found one dead":                 nil,
		"water change next week":         nil,
		"moved 2 to the other tank":      nil, // the tank must be named
		"fed 2 pellets":                  nil,
		"hatched 20":                     nil, // of which brood?
	} {
		result := gathering(oneTank, "t.csv", []byte("date\tph\tnote\n2026-11-08\t7.4\t"+note+"\n"), Answers{})
		if len(result.Files) != 1 {
			t.Fatalf("%q becomes %+v", note, result)
		}
		file := result.Files[0]
		if diff := cmp.Diff(want, file.Meant); diff != "" {
			t.Errorf("%q: %s", note, diff)
		}
		if about := `water: {ph: 7.4}, note: "` + note + `"`; file.About != about || strings.Count(file.Text, "\n  - ") != 1 {
			t.Errorf("%q is shown as %s and becomes\n%s", note, file.About, file.Text)
		}
	}
}

// TestARowWithOnlyANoteIsNamed holds that no row is passed over in silence.
func TestARowWithOnlyANoteIsNamed(t *testing.T) {
	result := gathering(oneTank, "t.csv", []byte("date;ph;note\n2026-11-08;7.4;\n2026-11-09;;cloudy\n2026-11-10;;\n"), Answers{})
	want := Fact{"left out", "1 row that has a note and no number: line 3; write it into an entry"}
	if got := result.Facts[len(result.Facts)-1]; got != want {
		t.Errorf("%v, want %v", got, want)
	}
}
