package journal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestUnusualNumbers holds numbers of a 38 L tank that are hardly true, and others beside them that are.
func TestUnusualNumbers(t *testing.T) {
	settings := settingsOf(t, twoTanks)
	const usual = "| if it is right, leave it; what you did not count is left out\n"
	nothing := func(kind string) string {
		at := strings.Replace("5:N", "N", decimal(float64(7+len(kind))), 1)
		return at + ` nothing-happened: warning: "` + kind + `" is 0, and an event is what happened | leave it out, or write how many` + "\n"
	}
	for written, want := range map[string]string{
		"- berried: 1\n    eggs: 1":    `6:11 unusual-number: warning: "eggs" is 1; 3 to 150 are usual ` + usual,
		"- berried: 1\n    eggs: 2500": `6:11 unusual-number: warning: "eggs" is 2500; 3 to 150 are usual ` + usual,
		"- berried: 1\n    eggs: 3":    "", "- berried: 1\n    eggs: 150": "", "- dropped: true\n    eggs: 1": "",
		"- stocked: 10000": `5:14 unusual-number: warning: "stocked" is 10000; 0 to 500 are usual ` + usual, "- stocked: 500": "",
		"- stocked: 0": nothing("stocked"), "- saddled: 0": nothing("saddled"), "- moulted: 0": nothing("moulted"), "- berried: 0": nothing("berried"),
		"- died: 0": nothing("died"), "- removed: 0": nothing("removed"), "- moved: 0\n    to: window": nothing("moved"), "- died: {females: 0}": nothing("died"),
		"- counted: 0": "", "- sighted: 0": "", "- hatched: true\n    shrimplets: 0": "",
		"- stocked: 5\n    age: 40 months": "6:10 unusual-number: warning: an age of 40 months; few shrimp pass 21 | mend the number or its unit\n",
		"- stocked: 5\n    age: 20 months": "",
		"- water-change: 40 L":             `5:19 unusual-number: warning: 40 L of water were changed, and "north-shelf" holds 38 L | mend the number or its unit, or the volume in journal.yaml` + "\n",
		"- water-change: 38 L":             "", "- water-change: 40 L\n    tank: window": "", "- water-change: 100 %": "",
		"- measured: 2.2":                         "5:15 unusual-length: warning: a length of 2.2 mm is that of a shrimp that just hatched | for 2.2 cm write 22; if it just hatched, write 2.2 mm\n",
		"- measured: [21, 2.15]\n    sex: female": "5:20 unusual-length: warning: a length of 2.15 mm is that of a shrimp that just hatched | for 2.15 cm write 21.5; if it just hatched, write 2.15 mm\n",
		"- measured: [2.2 mm, 21]":                "", "- measured: [2.2]\n    brood: amber": "", "- measured: [5]": "", "- measured: [2.1 cm]": "",
		"- measured:\n    - 2.2 # by eye": "6:7 unusual-length: warning: a length of 2.2 mm is that of a shrimp that just hatched | for 2.2 cm write 22; if it just hatched, write 2.2 mm\n",
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(written)), settings)
		if diff := cmp.Diff(want, briefs(problems)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", written, diff)
		}
	}
	inches := settingsOf(t, strings.Replace(twoTanks, "grades", "units: {length: in, volume: gal}\ngrades", 1))
	for written, want := range map[string]string{
		"- measured: 0.1":        "",
		"- water-change: 11 gal": `5:19 unusual-number: warning: 11 gal of water were changed, and "north-shelf" holds 10 gal | mend the number or its unit, or the volume in journal.yaml` + "\n",
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith(written)), inches)
		if diff := cmp.Diff(want, briefs(problems)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", written, diff)
		}
	}
	patient := settingsOf(t, twoTanks+"biology: {survival: {long-life: 1300 days}}\n")
	if _, problems := ParseEntry("e.md", []byte(entryWith("- stocked: 5\n    age: 40 months")), patient); len(problems) > 0 {
		t.Errorf("a species of 43 months: %s", briefs(problems))
	}
}
