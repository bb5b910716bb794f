package invented

import (
	"bytes"
	"fmt"
	"strings"
	"time"
)

// The topics of random numbers.
const (
	lives = iota
	tests
	prose
)

// diary holds the lines of events that each entry tells of. Entry i is about tank i modulo the number of tanks.
type diary struct {
	plan   Plan
	events map[int][]string // by entry, each a line below "events:"
	water  map[int]string   // by entry
}

func newDiary(p Plan) *diary {
	d := &diary{plan: p, events: map[int][]string{}, water: map[int]string{}}
	for tank := range min(p.Tanks, p.Entries) {
		d.tell(tank, "stocked: {females: 10, males: 8}", "age: 4 months")
	}
	for k := range p.Broods {
		d.brood(k)
	}
	for k := range p.Tests {
		d.test(k)
	}
	d.routine()
	return d
}

// tell adds an event with its attributes to an entry.
func (d *diary) tell(entry int, kind string, attributes ...string) {
	d.events[entry] = append(d.events[entry], strings.Join(append([]string{kind}, attributes...), "\n    "))
}

// later adds an event to the entry about a tank that is written so many days after another.
func (d *diary) later(entry, days int, kind string, attributes ...string) {
	if next, ok := d.plan.after(entry, days, entry%d.plan.Tanks); ok {
		d.tell(next, kind, attributes...)
	}
}

// brood lets a female be seen with eggs, and tells of what becomes of them.
func (d *diary) brood(k int) {
	p, r := d.plan, d.plan.stream(lives, k)
	entry := min(p.Entries-1, p.Tanks+(k*p.Entries+r.IntN(p.Entries))/p.Broods)
	name := fmt.Sprintf("brood: %s-%d", names[k%len(names)], k)
	d.tell(entry, "berried: 1", name)
	if r.IntN(10) == 0 {
		d.later(entry, 3+r.IntN(12), "dropped: "+strings.TrimPrefix(name, "brood: "))
		return
	}
	if r.IntN(3) > 0 {
		d.later(entry, 12+r.IntN(3), "eyed: "+strings.TrimPrefix(name, "brood: "))
	}
	young := 15 + r.IntN(20)
	carried := 19 + r.IntN(4)
	d.later(entry, carried, "hatched: "+strings.TrimPrefix(name, "brood: "), fmt.Sprintf("shrimplets: %d", young))
	d.later(entry, carried+40, fmt.Sprintf("measured: [%d mm, %d mm]", 9+r.IntN(3), 10+r.IntN(3)), name)
	d.later(entry, carried+120+r.IntN(60), fmt.Sprintf("removed: %d", young/3), "reason: given")
	d.later(entry, carried+20+r.IntN(300), "died: 1")
}

// test adds a water test. Temperatures follow the year a little.
func (d *diary) test(k int) {
	p, r := d.plan, d.plan.stream(tests, k)
	entry := min(p.Entries-1, (k*p.Entries+r.IntN(p.Entries))/p.Tests)
	summer := 4 - abs(int(p.date(entry).Month())-7)
	d.water[entry] = fmt.Sprintf("{temperature: %.1f C, ph: %.1f, gh: %d, kh: %d, tds: %d, ammonia: 0, nitrite: 0, nitrate: %d}",
		22.4+0.3*float64(summer)+r.Float64(), 7+0.4*r.Float64(), 7+r.IntN(2), 3+r.IntN(2), 190+r.IntN(40), 5+r.IntN(10))
}

func abs(n int) int { return max(n, -n) }

// routine adds what is done in every tank again and again.
func (d *diary) routine() {
	for entry := d.plan.Tanks; entry < d.plan.Entries; entry++ {
		switch round := entry / d.plan.Tanks; {
		case round%40 == 0:
			d.tell(entry, fmt.Sprintf("counted: %d", 15+entry%20), "method: glance")
		case round%9 == 0:
			d.tell(entry, "water-change: 20 %")
		case round%5 == 0:
			d.tell(entry, "fed: half a leaf of spinach")
		case round%7 == 0:
			d.tell(entry, "moulted: 1")
		}
	}
}

// path returns the file of an entry.
func (d *diary) path(entry int) string {
	return fmt.Sprintf("entries/%d/%s-%05d.md", d.plan.date(entry).Year(),
		d.plan.date(entry).Format(time.DateOnly), entry)
}

// entry writes one entry.
func (d *diary) entry(entry int) []byte {
	var out bytes.Buffer
	writer := &writer{random: d.plan.stream(prose, entry)}
	fmt.Fprintf(&out, "---\ndate: %s\ntitle: %s\ntank: %s\ntopics: [%s]\n",
		d.plan.date(entry).Format(time.DateOnly), writer.title(), tankID(entry%d.plan.Tanks), topics[entry%len(topics)])
	if test := d.water[entry]; test != "" {
		out.WriteString("water: " + test + "\n")
	}
	if len(d.events[entry]) > 0 {
		out.WriteString("events:\n")
		for _, event := range d.events[entry] {
			out.WriteString("  - " + event + "\n")
		}
	}
	out.WriteString("---\n")
	if entry > 0 {
		link := strings.TrimPrefix(d.path(entry-1), "entries/")
		fmt.Fprintf(&out, "Since [the day before](../%s): %s\n\n", link, writer.sentence())
	}
	for out.Len() < d.plan.Bytes {
		writer.block(&out)
	}
	return out.Bytes()
}
