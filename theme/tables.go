package theme

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
)

// dataTable is one CSV file: what it holds, its columns, and its rows.
type dataTable struct {
	path    string
	words   string
	columns []dataColumn
	rows    func(*book) [][]string
}

type dataColumn struct{ name, words string }

// dataTables lists the CSV files. The data page is made from the same list. Values are in fixed units whatever the
// journal shows, so that files of two journals can be put together.
var dataTables = []dataTable{
	{"data/broods.csv", "One line for each brood.", []dataColumn{
		{"brood", "name of the brood"}, {"tank", "id of the tank where it is or ended"},
		{"berried", "day she was seen carrying eggs"}, {"lastClear", "last day she was seen without eggs"},
		{"eyed", "day eyes were seen in the eggs"}, {"hatched", "day of the hatch"}, {"dropped", "day all eggs were lost"},
		{"state", "carried, overdue, unseen (taken as hatched unseen), hatched, dropped, or closed where the diary no longer tells"},
		{"mother", "name of the female"}, {"generation", "1 for broods of stocked females or unknown mothers"},
		{"eggs", "eggs when seen"}, {"shrimplets", "young seen at the hatch"}, {"progress", "share of development done, 0 to 1"},
		{"hatchP10", "day by which a hatch is 10 % likely"}, {"hatchP50", "the median day"}, {"hatchP90", "day by which a hatch is 90 % likely"},
	}, broodRows},
	{"data/cohorts.csv", "One line for each cohort, the young of one hatch.", []dataColumn{
		{"cohort", "name, that of the brood"}, {"tank", "id of the tank where it hatched"}, {"hatched", "day of the hatch"},
		{"shrimplets", "young seen"}, {"generation", "generation of the young"},
		{"sexableP50", "median day from which sexes can be told by eye"}, {"matureP10", "day by which half are grown with 10 % probability"},
		{"matureP50", "the median of that day"}, {"matureP90", "the same with 90 %"},
		{"female", "expected mean length of females now, mm"}, {"male", "expected mean length of males now, mm"},
	}, cohortRows},
	{"data/counts.csv", "One line for each count.", []dataColumn{
		{"date", "day of the count"}, {"tank", "id of the tank"}, {"total", "shrimp counted"}, {"females", "females among them; empty when not told apart"},
		{"males", "males"}, {"juveniles", "juveniles"}, {"unsexed", "not told apart"}, {"method", "glance, careful or emptied"},
	}, countRows},
	{"data/water.csv", "One line for each water test.", waterColumns(), waterRows},
	{"data/lengths.csv", "One line for each measured length.", []dataColumn{
		{"date", "day of the measurement"}, {"tank", "id of the tank"}, {"length", "body length, mm"}, {"sex", "female, male, or empty"},
		{"cohort", "cohort it comes from, when known"}, {"hatched", "day it hatched, when known"}, {"name", "name, when it has one"},
	}, lengthRows},
}

// waterColumns lists the readings in their order, each with its unit.
func waterColumns() []dataColumn {
	columns := []dataColumn{{"date", "day of the test"}, {"tank", "id of the tank"}}
	for _, kind := range journal.ReadingKinds() {
		unit := units{}.ReadingUnit(kind)
		columns = append(columns, dataColumn{string(kind),
			strings.TrimRight(wording.ReadingName(kind)+", "+unit, ", ") + "; with < in front where the test saw less"})
	}
	return columns
}

// rounded writes a number with at most three places.
func rounded(v float64) string { return strings.Replace(wording.Number(v, 3), "−", "-", 1) }

func known(m journal.Maybe[int]) string {
	if !m.Known {
		return ""
	}
	return strconv.Itoa(m.Value)
}

func broodRows(b *book) [][]string {
	var rows [][]string
	for i := range b.Broods {
		x := &b.Broods[i]
		mother := ""
		if x.Mother != nil {
			mother = x.Mother.Name
		}
		dropped := x.Dropped
		if x.State == forecast.Unseen {
			dropped = 0 // that their mother left later says nothing of them
		}
		rows = append(rows, []string{
			x.ID, x.Tank(), x.Berried.String(), x.LastClear.String(), x.Eyed.String(), x.Hatched.String(),
			dropped.String(), string(x.State),
			mother, strconv.Itoa(x.Generation), known(x.Eggs), known(x.Shrimplets), rounded(x.Progress),
			x.Hatch.P10.String(), x.Hatch.P50.String(), x.Hatch.P90.String(),
		})
	}
	return rows
}

func cohortRows(b *book) [][]string {
	var rows [][]string
	for i := range b.Cohorts {
		c := &b.Cohorts[i]
		rows = append(rows, []string{
			c.ID, c.Tank, c.Hatched.String(), known(c.Shrimplets), strconv.Itoa(c.Generation),
			c.Sexable.P50.String(), c.Mature.P10.String(), c.Mature.P50.String(), c.Mature.P90.String(),
			rounded(c.Female), rounded(c.Male),
		})
	}
	return rows
}

func countRows(b *book) [][]string {
	var rows [][]string
	eachTank(b, func(t *forecast.Tank) {
		for _, c := range t.Tank.Censuses {
			rows = append(rows, []string{
				c.Day.String(), t.Tank.ID, strconv.Itoa(c.Count.Total), known(c.Count.Females), known(c.Count.Males),
				known(c.Count.Juveniles), known(c.Count.Unsexed), string(c.Method),
			})
		}
	})
	return rows
}

func waterRows(b *book) [][]string {
	var rows [][]string
	eachTank(b, func(t *forecast.Tank) {
		for _, test := range t.Tank.Tests {
			row := []string{test.Day.String(), t.Tank.ID}
			for _, kind := range journal.ReadingKinds() {
				row = append(row, readingCell(test.Readings, kind))
			}
			rows = append(rows, row)
		}
	})
	return rows
}

// readingCell writes the reading of one kind, or "".
func readingCell(readings []journal.Reading, kind journal.ReadingKind) string {
	r, ok := journal.ReadingOf(readings, kind)
	switch {
	case !ok:
		return ""
	case r.Below:
		return "<" + rounded(r.Value)
	}
	return rounded(r.Value)
}

func lengthRows(b *book) [][]string {
	var rows [][]string
	eachTank(b, func(t *forecast.Tank) {
		for _, l := range t.Tank.Lengths {
			cohort := ""
			if l.Cohort != nil {
				cohort = l.Cohort.ID
			}
			rows = append(rows, []string{l.Day.String(), t.Tank.ID, rounded(l.MM), string(l.Sex), cohort,
				l.Hatched.String(), l.Name})
		}
	})
	return rows
}

// eachTank calls do for every tank in order.
func eachTank(b *book, do func(*forecast.Tank)) {
	for i := range b.Tanks {
		do(&b.Tanks[i])
	}
}

// write returns the table as CSV (RFC 4180). A cell that a spreadsheet would run as a formula gets an
// apostrophe in front.
func (t dataTable) write(b *book) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	var head []string
	for _, c := range t.columns {
		head = append(head, c.name)
	}
	if err := w.Write(head); err != nil {
		return nil, err
	}
	for _, row := range t.rows(b) {
		for i, cell := range row {
			if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) && !isNumber(cell) {
				row[i] = "'" + cell
			}
		}
		if err := w.Write(row); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

func isNumber(text string) bool {
	_, err := strconv.ParseFloat(text, 64)
	return err == nil
}
