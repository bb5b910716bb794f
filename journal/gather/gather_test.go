package gather

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"pleopod/journal"
)

// table is one way to write a table, and what it says.
type table struct {
	name     string
	settings string
	bytes    []byte
	says     Answers
	want     []string // as told writes it
	facts    []string // each stands in what was understood
}

// tables is in the forms that loggers and spreadsheets of several countries give; the values are made up.
var tables = []table{
	{"a logger in ISO form", oneTank, []byte("time,temperature (C)\n2026-03-14 08:00,23.4\n2026-03-14T20:00:00Z,23.8\n2026-03-15 08:00,22.0\n"), Answers{},
		[]string{"2026-03-14 shelf 2 x 23.60 C", "2026-03-15 shelf 1 x 22.00 C"},
		[]string{"separated by commas", "temperature: column 2, temperature (C), in C"}},
	{"a logger with lines above its header, Fahrenheit and the month first", oneTank,
		[]byte("Plot Title: shelf\n\"#\",\"Date Time, GMT-05:00\",\"Temp, °F (S/N: 1234)\",\"Battery\"\n1,03/14/26 08:00:00 AM,73.4,3.1\n2,03/14/26 08:00:00 PM,75.2,3.1\n"), Answers{},
		[]string{"2026-03-14 shelf 2 x 23.50 C"},
		[]string{"month-first: 03/14/26 08:00:00 AM is 2026-03-14", "not used: #; Battery", "header in line 2"}},
	{"a German spreadsheet", oneTank, []byte("Datum;Uhrzeit;pH-Wert;GH (°dH);KH (°dH);Nitrit (mg/l);Nitrat (mg/l);Bemerkung\n14.03.2026;18:30;7,4;8;4;<0,05;10;Trübung\n21.03.2026;;7,2;9;;;12,5;\n"), Answers{},
		[]string{"2026-03-14 shelf ph=7.4 gh=8 kh=4 nitrite<0.05 nitrate=10",
			"2026-03-21 shelf ph=7.2 gh=9 nitrate=12.5"},
		[]string{"decimal comma", "day-first: 14.03.2026 is 2026-03-14", "separated by semicolons",
			"gh: column 4, GH (°dH), in dGH"}},
	{"a French one in an old encoding", oneTank, inLatin("Date;Température de l'eau;Dureté totale;Remarques\n14/03/2026;23,4 °C;8;\n28/03/2026;22,9 °C;7,5;bébés partout\n"), Answers{},
		[]string{"2026-03-14 shelf temperature=23.4 gh=8", "2026-03-28 shelf temperature=22.9 gh=7.5"},
		[]string{"Windows-1252", "day-first"}},
	{"UTF-16 with tabs, as a spreadsheet saves it", oneTank, inUTF16("Fecha\tpH\tGH\n14/03/2026\t7,4\t8\n1/4/2026\t7,1\t8\n", false, true), Answers{},
		[]string{"2026-03-14 shelf ph=7.4 gh=8", "2026-04-01 shelf ph=7.1 gh=8"}, []string{"UTF-16", "tabs"}},
	{"UTF-16 the other way round and without its mark", oneTank, inUTF16("date,ph\n2026-03-14,7.4\n", true, false), Answers{}, []string{"2026-03-14 shelf ph=7.4"}, []string{"UTF-16 without a mark"}},
	{"the day numbers of a spreadsheet", oneTank, []byte("sep=;\nDate;Temp\n46095;23,4\n46095,75;24\n46096;22,8\n"), Answers{},
		[]string{"2026-03-14 shelf 2 x 23.70 C", "2026-03-15 shelf 1 x 22.80 C"},
		[]string{"day numbers of a spreadsheet: 46095 is 2026-03-14", "in C by its values"}},
	{"merged cells and empty columns", twoTanks, []byte("Date,,Tank,Water,,Counted,,\n,,,pH,TDS,Females,Males,\n2026-03-14,,North shelf,7.4,210,4,3,\n,,window,7.0,180,,,\n2026-03-21,,shelf,,,5,3,\n"), Answers{},
		[]string{"2026-03-14 shelf ph=7.4 tds=210", "2026-03-14 shelf counted f=4 m=3 j=0 u=0 glance",
			"2026-03-14 window ph=7 tds=180", "2026-03-21 shelf counted f=5 m=3 j=0 u=0 glance"},
		[]string{"merged cells: 1 empty date or tank is taken from the row above"}},
	{"counts with a method, a total, and months in words", oneTank, []byte("Day|Total|Method|Notes\n14 March 2026|45|careful|half of them young\n1 Apr 2026|52||\n"), Answers{},
		[]string{"2026-03-14 shelf counted 45 careful", "2026-04-01 shelf counted 52 glance"}, []string{"bars"}},
	{"units in a row of their own, and hardness in ppm", oneTank, []byte("Date,Temp,GH,KH,TDS,NO3\n,°F,ppm,ppm,ppm,mg/L\n2026-03-14,74.3,140,71,\"1,234\",5\n2026-03-15,74.3,140,71,950.5,5\n"), Answers{},
		[]string{"2026-03-14 shelf temperature=23.5 gh=7.844 kh=3.978 tds=1234 nitrate=5",
			"2026-03-15 shelf temperature=23.5 gh=7.844 kh=3.978 tds=950.5 nitrate=5"},
		[]string{"temperature: column 2, Temp, in F", "decimal point"}},
	{"spaces that do not break, full-width digits and a typesetter's minus", oneTank, []byte("\ufeffdate\u00a0;water\u00a0temp;ph\n2026-03-14\u00a0;23,4\u00a0°C;７,４\n2026-03-15;−;7,2\n"), Answers{},
		[]string{"2026-03-14 shelf temperature=23.4 ph=7.4", "2026-03-15 shelf ph=7.2"}, nil},
	{"three decimals that can be nothing else", oneTank, []byte("时间,水温\n2026年3月14日 08:00,23.456\n2026年3月14日 09:00,23.544\n"), Answers{}, []string{"2026-03-14 shelf 2 x 23.50 C"}, []string{"decimal point, because 23.456 could not be true otherwise"}},
	{"ISO week of a Dutch sheet with quoted commas", oneTank, []byte("\"Datum\",\"Watertemperatuur\",\"Opmerking\",\"GH\"\r\n\"za 14-03-2026\",\"23,4\",\"mos, blad\",\"8\"\r\n\"za 21-03-2026\",\"22,9\",\"\",\"8,5\"\r\n"), Answers{},
		[]string{"2026-03-14 shelf temperature=23.4 gh=8", "2026-03-21 shelf temperature=22.9 gh=8.5"},
		[]string{"day-first"}},
	{"open questions that the keeper answers", twoTanks, []byte("date;temp;tds\n03/04/2026;50;1.234\n"), Answers{Tank: "window", Dates: DayFirst, Decimal: Comma, Unit: "F"},
		[]string{"2026-04-03 window temperature=10 tds=1234"},
		[]string{"day-first, as you say", "window, as you say", "decimal comma, as you say"}},
	{"columns that the keeper names", oneTank, []byte("14.03.2026;A;23,4\n15.03.2026;A;23,6\n"), Answers{Columns: []string{"date", "-", "temperature"}}, []string{"2026-03-14 shelf 1 x 23.40 C", "2026-03-15 shelf 1 x 23.60 C"}, nil},
}

func TestTablesAreReadRight(t *testing.T) {
	for _, test := range tables {
		t.Run(test.name, func(t *testing.T) {
			result := gathering(test.settings, "table.csv", test.bytes, test.says)
			if len(result.Questions) > 0 || journal.HasErrors(result.Problems) {
				t.Fatalf("questions %v, problems %v", result.Questions, result.Problems)
			}
			if diff := cmp.Diff(test.want, told(t, test.settings, result)); diff != "" {
				t.Errorf("(-want +got):\n%s%v", diff, result.Facts)
			}
			facts := ""
			for _, fact := range result.Facts {
				facts += fact.About + ": " + fact.Text + "\n"
			}
			for _, want := range test.facts {
				if !strings.Contains(facts, want) {
					t.Errorf("what was understood lacks %q:\n%s", want, facts)
				}
			}
		})
	}
}

// TestTheSameTableTwiceAddsNothing gathers each table into the journal that it became.
func TestTheSameTableTwiceAddsNothing(t *testing.T) {
	for _, test := range tables {
		first := gathering(test.settings, "table.csv", test.bytes, test.says)
		folder := folderOf(test.settings, first.Files...)
		second := Read(Source{Name: "renamed.csv", Bytes: test.bytes, Says: test.says}, journal.Read(folder), folder)
		if len(second.Files) > 0 || second.Known == 0 || len(second.Questions) > 0 {
			t.Errorf("%s: the second time gives %+v", test.name, second)
		}
	}
}

func TestALongerTableAddsOnlyWhatIsNew(t *testing.T) {
	short := "time,temp\n2026-03-14 08:00,73.4\n2026-03-14 09:00,73.6\n"
	first := gathering(oneTank, "a.csv", []byte(short), Answers{})
	folder := folderOf(oneTank, first.Files...)
	second := Read(Source{Name: "a.csv", Bytes: []byte(short + "2026-03-15 08:00,22.5 C\n")},
		journal.Read(folder), folder)
	want := "time,temperature (F)\n2026-03-14 08:00,73.4\n2026-03-14 09:00,73.6\n2026-03-15 08:00,72.50\n"
	if len(second.Files) != 1 || second.Files[0].Text != want || !second.Files[0].Grows || second.Known != 2 {
		t.Errorf("%+v", second)
	}
}

// ambiguous is a table that can be read in several ways, with the question and its answer.
var ambiguous = []struct {
	name     string
	settings string
	bytes    string
	says     Answers
	question string
	answer   string
}{
	{"the order of the date", oneTank, "date,ph\n03/04/2026,7.4\n05/06/2026,7.2\n", Answers{}, "is 03/04/2026 the 3 April 2026 or the 4 March 2026?", "add --dates day-first or --dates month-first"},
	{"short dates whose year stands last", oneTank, "date,ph\n11/8/26,7.4\n", Answers{}, "is 11/8/26 the 11 August 2026 or the 8 November 2026?", "add --dates day-first or --dates month-first"},
	{"short dates that begin with a day or a year", oneTank, "date,ph\n26-11-08,7.4\n", Answers{}, "is 26-11-08 the 26 November 2008 or the 8 November 2026?", "--dates year-first"},
	{"dots before a short year", oneTank, "date,ph\n10.11.12,7.4\n", Answers{}, "is 10.11.12 the ", "--dates day-first"},
	{"dates that contradict each other", oneTank, "date,ph\n13/03/2026,7.4\n03/14/2026,7.2\n", Answers{}, "the dates contradict each other", "look for slips"},
	{"thousands or decimals", oneTank, "date;tds\n2026-03-14;1.234\n", Answers{}, "is 1.234 the number 1.234, or 1234?", "add --decimal point for 1.234, or --decimal comma for 1234"},
	{"a decimal comma between commas", oneTank, "date,temp\n2026-03-14,23,4\n2026-03-15,22,9\n", Answers{}, "is the comma also the decimal mark", "save the table again with semicolons"},
	{"whose tank", twoTanks, "date,ph\n2026-03-14,7.4\n", Answers{}, "whose values are they?", "add --tank shelf or --tank window"},
	{"degrees of no scale", oneTank, "date,temp,ph\n2026-03-14,42,7\n", Answers{}, "the temperatures have no unit", "add --unit C or --unit F"},
	{"two sensors", oneTank, "time,Temperature (°C),Temp (°C)\n2026-03-14,23,24\n", Answers{}, "two columns hold temperature", "--columns date,temperature,- or --columns date,-,temperature"},
	{"no header", oneTank, "14.03.2026;23,4\n15.03.2026;23,6\n", Answers{}, "no row names a column of dates", "--columns date,temperature,-"},
	{"a workbook", oneTank, "PK\x03\x04...", Answers{}, "this is a workbook", ""},
	{"a letter", oneTank, "Dear keeper,\nhow are the shrimp?\n", Answers{}, "no columns", ""},
	{"one endless line", oneTank, "date,ph\n" + strings.Repeat(",", 100_000), Answers{}, "a line has more than 20000 characters", ""},
	{"nothing", oneTank, " \n", Answers{}, "the file is empty", ""},
	{"another basis of ammonia", oneTank, "date,NH4\n2026-03-14,0.5\n", Answers{}, "no column can be used", "it counts NH4, and journal.yaml says that your test reports N"},
	{"nitrogen", oneTank, "date,NO3-N\n2026-03-14,0.5\n", Answers{}, "no column can be used", "nitrate is 4.43 times"},
	{"a tank twice said", twoTanks, "date,tank,ph\n2026-03-14,shelf,7\n", Answers{Tank: "window"}, "has a column of tanks", "leave --tank out"},
	{"a column that does not exist", oneTank, "1;2\n3;4\n", Answers{Columns: []string{"date", "mood"}}, `"mood" is nothing that a column can hold`, "use date, time, tank"},
}

func TestAmbiguousTablesAreRefused(t *testing.T) {
	for _, test := range ambiguous {
		result := gathering(test.settings, "table.csv", []byte(test.bytes), test.says)
		if len(result.Questions) == 0 || len(result.Files) > 0 {
			t.Errorf("%s: no question; files %+v", test.name, result.Files)
			continue
		}
		if q := result.Questions[0]; !strings.Contains(q.Text, test.question) || !strings.Contains(q.Answer, test.answer) {
			t.Errorf("%s: asks %q, %q", test.name, q.Text, q.Answer)
		}
	}
}

// TestRowsThatCannotBeRead holds that a bad row is reported at its place and hides no good one.
func TestRowsThatCannotBeRead(t *testing.T) {
	source := "Datum;Becken;pH;NO3;Anzahl;Weibchen\n14.03.2026;shelf;7,4;10;;\nSumme;shelf;7,4;10;;\n15.03.2026;shelv;7,4;;;\n16.03.2026;shelf;74;;;\n17.03.2026;shelf;gut;;;\n18.03.2026;window;9,2;;;\n19.03.2026;window;7;;5;4\n20.03.2026;shelf;0-7;;;\n"
	result := gathering(twoTanks, "t.csv", []byte(source), Answers{})
	var got []string
	for _, p := range result.Problems {
		got = append(got, p.Error())
	}
	want := []string{
		`t.csv:3:1: "Summe" is no date; the row is left out`,
		`t.csv:4:12: "shelv" is no tank of the journal; the row is left out`,
		`t.csv:5:18: "ph" is "74"; pH runs from 0 to 14; the row is left out`,
		`t.csv:6:18: "gut" is no number for ph; the row is left out`,
		`t.csv:7:19: warning: ph 9.2 is unusual; 5.8 to 8.6 is usual`,
		`t.csv:8:22: the classes add up to 4 and the total is 5; the row is left out`,
		`t.csv:9:18: "0-7" is no number for ph; the row is left out`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"2026-03-14 shelf ph=7.4 nitrate=10", "2026-03-18 window ph=9.2"}, told(t, twoTanks, result)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestAFailedSensorIsLeftOut(t *testing.T) {
	result := gathering(oneTank, "t.csv",
		[]byte("time,temp\n2026-03-14 08:00,23\n2026-03-14 09:00,-127\n2026-03-14 10:00,85 C\n2026-03-14 11:00,\n"), Answers{})
	if diff := cmp.Diff([]string{"2026-03-14 shelf 1 x 23.00 C"}, told(t, oneTank, result)); diff != "" || len(result.Problems) != 2 {
		t.Errorf("%v\n%s", result.Problems, diff)
	}
}

// TestALoggerFileOfTheKeeperStays refuses to add to a file in another form.
func TestALoggerFileOfTheKeeperStays(t *testing.T) {
	folder := folderOf(oneTank, File{Path: "readings/shelf.csv", Text: "Zeit;Temperatur\n"})
	result := Read(Source{Name: "t.csv", Bytes: []byte("time,temp\n2026-03-14,23\n")}, journal.Read(folder), folder)
	if len(result.Files) > 0 || len(result.Questions) != 1 || !strings.Contains(result.Questions[0].Text, "nothing of yours is changed") {
		t.Errorf("%+v", result)
	}
}

// TestALargeTableIsQuick reads two months of a reading every minute.
func TestALargeTableIsQuick(t *testing.T) {
	var table strings.Builder
	table.WriteString("time,temperature (C)\n")
	for day := journal.NewDay(2025, 1, 1); day < journal.NewDay(2025, 3, 1); day++ {
		for minute := range 1440 {
			fmt.Fprintf(&table, "%s %02d:%02d,%.2f\n", day, minute/60, minute%60, 22+float64(minute)/1440)
		}
	}
	begin := time.Now()
	result := gathering(oneTank, "t.csv", []byte(table.String()), Answers{})
	took := time.Since(begin)
	if len(result.Files) != 1 || len(result.Problems) > 0 || took > 60*time.Second {
		t.Errorf("%d files, %d problems, in %s", len(result.Files), len(result.Problems), took)
	}
	t.Logf("%d bytes in %s", table.Len(), took)
}
