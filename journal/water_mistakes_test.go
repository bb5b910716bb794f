package journal

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestWaterAsTestsReportIt tells what a keeper sees for each way in which a test kit, a strip or a meter may be noted
// down. Common practice, no source: how keepers write their tests.
func TestWaterAsTestsReportIt(t *testing.T) {
	const trace = " | for a trace too small to read, write < and the smallest step of the test, such as <0.25"
	settings := settingsOf(t, `title: Two
address: https://example.org/
tanks:
  north-shelf: {water-range: {gh: 6-10, kh: 2-6}}
`)
	for _, test := range []struct {
		name, water string
		want        []string
	}{
		{"a trace in words", "{ammonia: trace, copper: none}", []string{
			`5:22 not-a-reading: "ammonia" is "trace"; it takes a number, or < and a number` + trace,
			`5:37 not-a-reading: "copper" is "none"; it takes a number, or < and a number` + trace}},
		{"not detected", "{ammonia: ND, nitrite: not detected}", []string{
			`5:22 not-a-reading: "ammonia" is "ND"; it takes a number, or < and a number` + trace,
			`5:35 not-a-reading: "nitrite" is "not detected"; it takes a number, or < and a number` + trace}},
		{"an upper limit is right", `{ammonia: <0.25, nitrite: < 0.25, copper: "<0.05 mg/L"}`, nil},
		{"the field of a strip", "{nitrite: 0-0.25, nitrate: 10–25, tds: 210 to 250}", []string{
			`5:22 not-a-reading: "nitrite" is "0-0.25"; it takes a number, or < and a number | a reading is one number: 0, 0.25, or <0.25 for less than that`,
			`5:39 not-a-reading: "nitrate" is "10–25"; it takes a number, or < and a number | a reading is one number: 10, 25, or <25 for less than that`,
			`5:51 not-a-reading: "tds" is "210 to 250"; it takes a number, or < and a number | a reading is one number: 210, 250, or <250 for less than that`}},
		{"the field of a strip with its unit", "{ph: 7.4 - 7.6, temperature: 22-24 C}", []string{
			`5:17 not-a-reading: "ph" is "7.4 - 7.6"; it takes a number, or < and a number | a reading is one number: 7.4, 7.6, or <7.6 for less than that`,
			`5:41 not-a-reading: "temperature" is "22-24 C"; it takes a number, or < and a number | a reading is one number: 22, 24, or <24 for less than that`}},
		{"past the scale", `{nitrate: ">160", ammonia: 8+}`, []string{
			`5:22 not-a-reading: "nitrate" is ">160"; it takes a number, or < and a number | where the colour is past the scale, thin the sample with pure water, test again and multiply; or write the end of the scale and say so in a note`,
			`5:39 not-a-reading: "ammonia" is "8+"; it takes a number, or < and a number | where the colour is past the scale, thin the sample with pure water, test again and multiply; or write the end of the scale and say so in a note`}},
		{"a colour word", "{nitrate: low}", []string{
			`5:22 not-a-reading: "nitrate" is "low"; it takes a number, or < and a number | write the number beside the colour that comes nearest`}},
		{"no pH is no number", "{ph: , ammonia: 0.5}", []string{`5:13 no-value: "ph" has no value | give it one, as in ph: 7.4, or take it out`}},
		{"no pH at all is allowed", "{ammonia: 0.5}", nil},
		{"hardness as calcium carbonate", "{gh: 143 ppm, kh: 71 mg/L CaCO3}", nil},
		{"hardness as calcium carbonate in full", "{gh: 143 mg/L as CaCO3, kh: 71 ppm as CaCO3}", nil},
		{"the same the other way round", "{gh: 143 ppm as CaCO3, kh: 71 mg/L as CaCO3}", nil},
		{"hardness in degrees", "{gh: 8 °dGH, kh: 4 degrees}", nil},
		{"ppm noted as degrees", "{gh: 142, kh: 71}", []string{
			`5:13 outside-range: warning: gh 142 dGH is outside the range of "north-shelf", 6 to 10 dGH | if the test reports ppm, write 142 ppm, which is 8.0 degrees`,
			`5:22 outside-range: warning: kh 71 dKH is outside the range of "north-shelf", 2 to 6 dKH | if the test reports ppm, write 71 ppm, which is 4.0 degrees`}},
		{"degrees noted as ppm", "{gh: 8 ppm, kh: 4 ppm}", []string{
			`5:13 outside-range: warning: gh 0.448 dGH is outside the range of "north-shelf", 6 to 10 dGH | if the test reports degrees, write 8 dGH, which is 143 ppm`,
			`5:24 outside-range: warning: kh 0.224 dKH is outside the range of "north-shelf", 2 to 6 dKH | if the test reports degrees, write 4 dKH, which is 71 ppm`}},
		{"outside in either unit: no advice", "{gh: 20, kh: 0}", []string{
			`5:13 outside-range: warning: gh 20 dGH is outside the range of "north-shelf", 6 to 10 dGH`,
			`5:21 outside-range: warning: kh 0 dKH is outside the range of "north-shelf", 2 to 6 dKH`}},
		{"dissolved solids and conductivity mixed up", "{tds: 420 µS/cm, conductivity: 210 ppm}", []string{
			`5:18 unknown-unit: "tds" is "420 µS/cm"; unknown unit "µS/cm"; allowed: "ppm" | a meter that shows µS/cm measures the conductivity: write conductivity: 420 µS/cm`,
			`5:43 unknown-unit: "conductivity" is "210 ppm"; unknown unit "ppm"; allowed: "µS/cm" or "mS/cm" | a meter that shows ppm measures the tds: write tds: 210 ppm`}},
		{"two tests in one day", "{gh: 8}\n  - water: {gh: 9}\n  - water: {ph: 7}", nil},
	} {
		_, problems := ParseEntry("e.md", []byte(entryWith("- water: "+test.water)), settings)
		if diff := cmp.Diff(strings.Join(test.want, "\n"), strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
			t.Errorf("%s: %q (-want +got):\n%s", test.name, test.water, diff)
		}
	}
}

// TestHardnessHintsInPPM holds the same for a journal whose bare numbers are ppm, without a range of its own.
func TestHardnessHintsInPPM(t *testing.T) {
	settings := settingsOf(t, "title: Two\naddress: https://example.org/\nunits: {hardness: ppm}\ntanks: {north-shelf: {}}\n")
	_, problems := ParseEntry("e.md", []byte(entryWith("- water: {gh: 8}\n  - water: {gh: 143}\n  - water: {gh: 143 dGH}")), settings)
	want := `5:13 unusual-reading: warning: gh 8 ppm is unusual; 35.696 to 392.656 ppm is usual | if the test reports degrees, write 8 dGH, which is 143 ppm
7:13 unusual-reading: warning: gh 2552.264 ppm is unusual; 35.696 to 392.656 ppm is usual | if the test reports ppm, write 143 ppm, which is 8.0 degrees`
	if diff := cmp.Diff(want, strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
