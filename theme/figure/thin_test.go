package figure

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// deviation returns how far the points of a line lie from another line, at most.
func deviation(line, from []spot) float64 {
	most := 0.0
	for _, p := range line {
		nearest := math.Inf(1)
		for i := 1; i < len(from); i++ {
			nearest = min(nearest, math.Sqrt(offset2(p, from[i-1], from[i])))
		}
		most = max(most, nearest)
	}
	return most
}

func TestThinLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(3, 200).Draw(t, "count")
		wave := rapid.Float64Range(0, 80).Draw(t, "wave")
		noise := rapid.Float64Range(0, 5).Draw(t, "noise")
		line := make([]spot, count)
		for i := range line {
			line[i] = spot{float64(i) * 3,
				100 + wave*math.Sin(float64(i)/7) + noise*rapid.Float64Range(-1, 1).Draw(t, "y")}
		}
		kept := thin(line)
		if kept[0] != line[0] || kept[len(kept)-1] != line[count-1] {
			t.Fatal("an end is gone")
		}
		if d := deviation(line, kept); d > tolerance+1e-9 {
			t.Fatalf("the thinned line runs %v pixels beside a point", d)
		}
	})
}

// TestThinDropsWhatDoesNotShow counts the points of simple lines.
func TestThinDropsWhatDoesNotShow(t *testing.T) {
	straight := make([]spot, 300)
	bent := make([]spot, 300)
	for i := range straight {
		straight[i] = spot{float64(i), 5 + float64(i)/3}
		bent[i] = spot{float64(i), math.Abs(float64(i - 150))}
	}
	for _, test := range []struct {
		name string
		line []spot
		want int
	}{{"straight", straight, 2}, {"one bend", bent, 3}, {"one point", straight[:1], 1}, {"none", nil, 0}} {
		if got := len(thin(test.line)); got != test.want {
			t.Errorf("%s: %d points, want %d", test.name, got, test.want)
		}
	}
}

// TestDenseLinesKeepTheirOutline compares the lowest and highest value of every column.
func TestDenseLinesKeepTheirOutline(t *testing.T) {
	var line []spot
	for i := range 6000 {
		line = append(line, spot{float64(i) / 10, 100 + 60*math.Sin(float64(i)*1.7)*math.Sin(float64(i)/300)})
	}
	kept := thin(line)
	if len(kept) > 4*600/int(column) {
		t.Errorf("%d points are left of %d on 600 pixels", len(kept), len(line))
	}
	bounds := func(line []spot) map[float64]extent {
		columns := map[float64]extent{}
		for _, p := range line {
			at := math.Floor(p.x / column)
			e, ok := columns[at]
			if !ok {
				e = nothing
			}
			columns[at] = e.with(p.y)
		}
		return columns
	}
	got := bounds(kept)
	for at, want := range bounds(line) {
		if math.Abs(got[at].low-want.low) > tolerance || math.Abs(got[at].high-want.high) > tolerance {
			t.Errorf("column %v spans %v, want %v", at, got[at], want)
		}
	}
}

func TestShorten(t *testing.T) {
	tests := []struct {
		text string
		room float64
		want string
	}{
		{"amber", 10, "amber"},
		{"the brood with a long name", 8, "the brood wi…"},
		{"a, bbbbbbbbbbbb", 2.5, "a…"},
		{"小虾小虾小虾", 4.5, "小虾小…"},
		{"anything", 0, "…"},
		{"", 0, ""},
	}
	for _, test := range tests {
		if got := shorten(test.text, test.room); got != test.want {
			t.Errorf("shorten(%q, %v) = %q, want %q", test.text, test.room, got, test.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text, room := rapid.String().Draw(t, "text"), rapid.Float64Range(1, 20).Draw(t, "room")
		if got := shorten(text, room); textWidth(got) > room+1e-9 {
			t.Fatalf("shorten(%q, %v) = %q is %v wide", text, room, got, textWidth(got))
		}
	})
}

func TestClean(t *testing.T) {
	if got, want := clean("a\x00b\x1fc\nd\te\u202ef\ufffe\xff"), "abc d e\u202ef\ufffd"; got != want {
		t.Errorf("clean gives %q, want %q", got, want)
	}
	if got := clean(strings.Repeat("é", 3)); got != "ééé" {
		t.Errorf("clean gives %q", got)
	}
}
