package journal

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestLoggerFiles(t *testing.T) {
	two := []LoggedDay{{Day: NewDay(2026, 3, 14), Mean: 23, Min: 22, Max: 24, Samples: 2},
		{Day: NewDay(2026, 3, 15), Mean: 21.5, Min: 21.5, Max: 21.5, Samples: 1}}
	fahrenheit := MetricUnits()
	fahrenheit.Temperature = "F"
	for name, test := range map[string]struct {
		source string
		units  Units
		want   []LoggedDay
	}{
		"comma":                          {"time,temperature\n2026-03-14T08:00,22\n2026-03-14T20:00,24\n2026-03-15T08:00,21.5\n", MetricUnits(), two},
		"semicolon and comma":            {"timestamp;temperature\n2026-03-14 08:00;22,0\n2026-03-14 20:00:00;24,0\n2026-03-15 08:00:00.5;21,5\n", MetricUnits(), two},
		"tab":                            {"date\thumidity\ttemperature\n2026-03-14\t50\t22\n2026-03-14\t51\t24\n2026-03-15\t52\t21.5", MetricUnits(), two},
		"quotes":                         {"\"time\",\"temperature\"\n\"2026-03-14 08:00\",\"22,0\"\n\"2026-03-14 20:00\",\"24\"\n\"2026-03-15 08:00\",\"21,5\"\n", MetricUnits(), two},
		"unit in the header":             {"Time,Temperature (°F)\n2026-03-14 08:00,71.6\n2026-03-14 20:00,75.2\n2026-03-15 08:00,70.7\n", MetricUnits(), two},
		"unit in brackets":               {"time;temperature [C]\n2026-03-14 08:00;22\n2026-03-14 20:00;24\n2026-03-15 08:00;21.5\n", fahrenheit, two},
		"unit of the journal":            {"time,temperature\n2026-03-14 08:00,71.6\n2026-03-14 20:00,75.2\n2026-03-15 08:00,70.7\n", fahrenheit, two},
		"zones: the written day counts":  {"time,temperature\n2026-03-14T00:10:00+13:00,22\n2026-03-14T23:50:00Z,24\n2026-03-15T01:00:00-0800,21.5\n", MetricUnits(), two},
		"out of order":                   {"time,temperature\n2026-03-15 08:00,21.5\n2026-03-14 20:00,24\n2026-03-14 08:00,22\n", MetricUnits(), two},
		"columns turned":                 {"temperature,battery,time\n22,90,2026-03-14 08:00\n24,90,2026-03-14 20:00\n21.5,89,2026-03-15 08:00\n", MetricUnits(), two},
		"read out twice":                 {"time,temperature\n2026-03-14 08:00,22\n2026-03-14 20:00,24\n2026-03-14 08:00,22\n2026-03-14 20:00,24\n2026-03-15 08:00,21.5\n", MetricUnits(), two},
		"gaps":                           {"\ntime,temperature\n\n2026-03-14 08:00,22\n2026-03-14 12:00,\n2026-03-14 20:00,24\n2026-03-15 08:00,21.5\n\n", MetricUnits(), two},
		"windows line ends":              {"\ufefftime,temperature\r\n2026-03-14 08:00,22\r\n2026-03-14 20:00,24\r\n2026-03-15 08:00,21.5\r\n", MetricUnits(), two},
		"a burst of rows weighs no more": {"time,temperature\n2026-03-14 08:00,22\n2026-03-14 20:00,24\n2026-03-14 20:00:10,24\n2026-03-14 20:00:20,24\n2026-03-15 08:00,21.5\n", MetricUnits(), []LoggedDay{{Day: NewDay(2026, 3, 14), Mean: 23, Min: 22, Max: 24, Samples: 4}, two[1]}},
		"a column with other marks":      {"time,temperature,\"note; remark\"\n2026-03-14 08:00,22,\"a; b\"\n2026-03-14 20:00,24,\n2026-03-15 08:00,21.5,\"a, b\"\n", MetricUnits(), two},
		"only a header":                  {"time,temperature\n", MetricUnits(), nil},
	} {
		got, problems := ParseLog("log.csv", []byte(test.source), test.units)
		if len(problems) > 0 {
			t.Errorf("%s: %v", name, problems)
		}
		if diff := cmp.Diff(test.want, got, closeNumbers, anyPlace); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func TestMistakesInLoggerFiles(t *testing.T) {
	for _, test := range []mistake{
		{"", []string{"1:1 log-header: the file has no header row | its first line names the columns: time,temperature"}},
		{"Zeit;Wert\n2026-03-14;22\n", []string{`1:1 log-header: the header "Zeit;Wert" lacks a time column or a temperature column | name one column "time", "date" or "timestamp" and one "temperature" or "temperature (F)"`}},
		{"time,temperature (K)\n2026-03-14,295\n", []string{`1:6 log-header: unknown unit "k" of the temperature column; allowed: "C" or "F"`}},
		{"time,temperature\n2026-03-14,22\nyesterday,22\n2026-03-15,warm\n2026-03-16\n2026-03-17,-127\n2026-03-18,85\n14.03.2026,22\n2026-02-30,22\n46095,22\n2026-03-19,22 C\n", []string{
			`3:1 log-row: warning: "yesterday" is no time like 2026-03-14 or 2026-03-14 18:30; the row is left out | write the day itself, such as 2026-03-14`,
			`4:12 log-row: warning: "warm" is no temperature; the row is left out`,
			`5:1 log-row: warning: the row has 1 column; its temperature is column 2; the row is left out`,
			`6:12 log-row: warning: "-127" is no temperature of a tank; the row is left out`,
			`7:12 log-row: warning: "85" is no temperature of a tank; the row is left out`,
			`8:1 log-row: warning: "14.03.2026" is no time like 2026-03-14 or 2026-03-14 18:30; the row is left out | write it as 2026-03-14`,
			`9:1 log-row: warning: "2026-02-30" is no time like 2026-03-14 or 2026-03-14 18:30; the row is left out`,
			`10:1 log-row: warning: "46095" is no time like 2026-03-14 or 2026-03-14 18:30; the row is left out | a spreadsheet counts this as the day 2026-03-14`,
			`11:12 log-row: warning: "22 C" is no temperature; the row is left out`,
		}},
		{"place;time;temperature\n“Fenster”;2026-03-14; kühl\n", []string{`2:23 log-row: warning: "kühl" is no temperature; the row is left out`}},
		{"time,temperature\n2026-03-14 08:00,23,4\n", []string{"2:18 log-row: warning: the temperature has a decimal comma in a file whose columns are separated by commas; the row is left out | save the file with semicolons between its columns"}},
		{"time,temperature\n2026-03-14,2\xff\n", []string{"2:13 not-utf-8: from here on the file is not saved as UTF-8 | save the file again with the encoding UTF-8"}},
	} {
		_, problems := ParseLog("log.csv", []byte(test.written), MetricUnits())
		if diff := cmp.Diff(strings.Join(test.want, "\n"), strings.TrimSuffix(briefs(problems), "\n")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.written, diff)
		}
	}
}

func TestManyBadRowsAreCounted(t *testing.T) {
	source := "time,temperature\n2026-03-14,22\n" + strings.Repeat("x,y\n", 1)
	for i := range 500 {
		source += "x" + strings.Repeat("x", i) + ",y\n"
	}
	days, problems := ParseLog("log.csv", []byte(source), MetricUnits())
	if len(days) != 1 || len(problems) != maxReportedInFile+1 {
		t.Fatalf("%d days and %d problems", len(days), len(problems))
	}
	last := problems[len(problems)-1]
	if want := "more row"; !strings.Contains(last.Message, want) && last.Code != "more-problems" {
		t.Errorf("last problem %v", last)
	}
}

func TestLoggerFilesOfTanks(t *testing.T) {
	fsys := small("date: 2026-03-14\n")
	fsys["journal.yaml"].Data = []byte(titled + "tanks:\n  shelf: {temperature-log: readings/a.csv}\n  window: {temperature-log: readings/b.csv}\n  sill: {temperature-log: readings}\n")
	fsys["readings/a.csv"] = fileOf("time,temperature\n2026-03-14,22\nx,22\n")
	journal := Read(fsys)
	want := `journal.yaml:5:29 missing-file: there is no file "readings/b.csv" | did you mean "readings/a.csv"?
journal.yaml:6:27 not-a-file: "readings" is a folder; a file is needed
readings/a.csv:3:1 log-row: warning: "x" is no time like 2026-03-14 or 2026-03-14 18:30; the row is left out
`
	if diff := cmp.Diff(want, told(journal)); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
	if logged := journal.Settings.Tanks[0].Logged; len(logged) != 1 || logged[0].Mean != 22 || logged[0].Position.String() != "readings/a.csv:2:1" {
		t.Errorf("logged %v", logged)
	}
}

func TestLoggedDayIsWeighedByTime(t *testing.T) {
	for name, test := range map[string]struct {
		rows string
		want float64
	}{
		// The trapezoids of 0, 6, 14 and 24 h: (6·21 + 8·23.5 + 10·23)/24, by hand.
		"straight lines between the rows":                    {"2026-03-14 00:00,20\n2026-03-14 06:00,22\n2026-03-14 14:00,25\n2026-03-14 24:00,21\n", 22.666667},
		"out of order":                                       {"2026-03-14 14:00,25\n2026-03-14 24:00,21\n2026-03-14 00:00,20\n2026-03-14 06:00,22\n", 22.666667},
		"law: even steps of a straight line give its middle": {"2026-03-14 00:00,20\n2026-03-14 08:00,22\n2026-03-14 16:00,24\n", 22},
		"no time: the plain mean":                            {"2026-03-14,20\n2026-03-14,22\n2026-03-14,27\n", 23},
		"one moment: the plain mean":                         {"2026-03-14 08:00,20\n2026-03-14 08:00,24\n", 22},
	} {
		days, problems := ParseLog("log.csv", []byte("time,temperature\n"+test.rows), MetricUnits())
		if len(problems) > 0 || len(days) != 1 || math.Abs(days[0].Mean-test.want) > 1e-6 {
			t.Errorf("%s: %+v, problems %v, want a mean of %g", name, days, problems, test.want)
		}
	}
}

// TestClockChanges reads a logger that follows the law's clock: an hour is missing in spring and comes twice in autumn.
func TestClockChanges(t *testing.T) {
	for _, test := range []struct {
		name  string
		day   string
		hours []int
	}{
		{"spring", "2026-03-29", []int{0, 1, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23}},
		{"autumn", "2026-10-25", []int{0, 1, 2, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23}},
	} {
		text := "time,temperature\n"
		var sum float64
		for i, hour := range test.hours {
			celsius := 22 + 0.1*float64(i)
			sum += celsius
			text += fmt.Sprintf("%s %02d:00,%.1f\n", test.day, hour, celsius)
		}
		days, problems := ParseLog("log.csv", []byte(text), MetricUnits())
		if len(problems) > 0 || len(days) != 1 || days[0].Day.String() != test.day || days[0].Samples != len(test.hours) {
			t.Fatalf("%s: %+v, problems %v; want the one day %s with all its %d rows and no word of it",
				test.name, days, problems, test.day, len(test.hours))
		}
		if want := sum / float64(len(test.hours)); math.Abs(days[0].Mean-want) > 0.1 {
			t.Errorf("%s: mean %g, want about %g", test.name, days[0].Mean, want)
		}
	}
}
