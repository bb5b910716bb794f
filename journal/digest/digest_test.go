package digest_test

import (
	"bytes"
	"fmt"
	"testing"

	"pleopod/journal/digest"
)

type shape interface{ sides() int }

type square struct{ edge float64 }

func (square) sides() int { return 4 }

type box struct{ edge float64 }

func (box) sides() int { return 4 }

type leaf struct {
	Name   string
	secret int
	Items  []string
	next   *leaf
	seen   map[string]int
	form   shape
	raw    []byte
}

func TestEveryDifferenceShows(t *testing.T) {
	values := []any{
		nil, 0, 1, int64(1), uint8(1), 1.0, -1, "", "a", true, false,
		[]string{"a", "b"}, []string{"ab"}, []string{"", "ab"}, [2]string{"a", "b"}, []string(nil), []byte("ab"),
		leaf{}, &leaf{}, leaf{Name: "a"}, leaf{secret: 1}, leaf{Items: []string{"a"}}, leaf{raw: []byte("a")},
		leaf{next: &leaf{}}, leaf{next: &leaf{secret: 1}}, leaf{seen: map[string]int{"a": 1}}, leaf{seen: map[string]int{"a": 2}},
		leaf{seen: map[string]int{"a": 1, "b": 2}}, leaf{seen: map[string]int{"a": 2, "b": 1}},
		leaf{form: square{1}}, leaf{form: square{2}}, leaf{form: box{1}}, leaf{form: &box{1}},
	}
	known := map[digest.Sum]string{}
	for _, value := range values {
		name := fmt.Sprintf("%#v", value)
		sum := digest.Of(value)
		if other, taken := known[sum]; taken {
			t.Errorf("%s has the checksum of %s", name, other)
		}
		known[sum] = name
	}
	if digest.Of("a", "b") == digest.Of("ab") || digest.Of("a", "b") == digest.Of("b", "a") {
		t.Error("several values run into each other")
	}
}

func TestEqualValuesHaveOneSum(t *testing.T) {
	make := func() leaf {
		seen := map[string]int{}
		for i := range 100 {
			seen[fmt.Sprint(i)] = i
		}
		return leaf{Name: "a", secret: 3, Items: []string{"x"}, next: &leaf{Name: "b"}, seen: seen, form: square{2}}
	}
	first := digest.Of(make())
	for range 20 {
		if again := digest.Of(make()); again != first {
			t.Fatalf("%s, then %s", first, again)
		}
	}
	if first.String() == "" || len(first.String()) != 64 {
		t.Errorf("as text: %q", first)
	}
}

func TestWhatHasNoContentIsRefused(t *testing.T) {
	ring := &leaf{}
	ring.next = ring
	for name, value := range map[string]any{"function": func() {}, "channel": make(chan int), "ring": ring} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("was summed up")
				}
			}()
			digest.Of(value)
		})
	}
}

func TestOpenTellsWhatIsSpoilt(t *testing.T) {
	sealed := digest.Seal([]byte("eggs"))
	if got := digest.Open(sealed); string(got) != "eggs" {
		t.Errorf("opened %q", got)
	}
	for i := range sealed {
		spoilt := bytes.Clone(sealed)
		spoilt[i]++
		if digest.Open(spoilt) != nil || digest.Open(sealed[:i]) != nil {
			t.Errorf("spoilt at byte %d and not noticed", i)
		}
	}
}
