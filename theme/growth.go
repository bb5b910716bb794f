package theme

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pleopod/journal"
	"pleopod/journal/forecast"
	"pleopod/journal/wording"
	"pleopod/theme/figure"
)

// GrowthPage compares growth between tanks and generations.
type GrowthPage struct {
	Frame
	Curves []Drawing // tank by tank, one figure for each sex
	Groups []Fact    // generations and tanks against the species' curve
	Tanks  []TankGrowth
}

// TankGrowth is one tank's curves in words.
type TankGrowth struct {
	Tank Link
	Note string
}

// grows reports whether any length was measured whose age is known.
func (b *book) grows() bool {
	return slices.ContainsFunc(b.Tanks, func(t forecast.Tank) bool {
		return slices.ContainsFunc(t.Growth, func(g forecast.Growth) bool { return len(g.Points) > 0 || g.Fitted })
	})
}

func (p *pen) growthPage() page {
	out := &GrowthPage{}
	for _, sex := range []journal.Sex{journal.Female, journal.Male} {
		out.Curves = append(out.Curves, p.drawFigure(p.tankCurves(sex)))
	}
	for _, g := range p.GrowthGroups() {
		words := fmt.Sprintf("%s, %s: ", wording.Count(g.Lengths, "length", "lengths"),
			wording.Count(g.Animals, "animal", "animals"))
		out.Groups = append(out.Groups, fact(p.groupName(g), words, againstCurve(g)))
	}
	for i := range p.Tanks {
		t := &p.Tanks[i]
		if slices.ContainsFunc(t.Growth, func(g forecast.Growth) bool { return len(g.Points) > 0 || g.Fitted }) {
			out.Tanks = append(out.Tanks, TankGrowth{p.tankLink(t.Tank.ID), p.growthNote(t)})
		}
	}
	out.Frame = p.newFrame("Growth", "How fast the young grow here, tank by tank and generation by generation, against the species' usual curve.")
	return out
}

// groupName names a tank, a generation and a sex.
func (p *pen) groupName(g forecast.GrowthGroup) string {
	generation := "generation not known"
	if g.Generation > 0 {
		generation = fmt.Sprintf("generation %d", g.Generation)
	}
	return p.tankName(g.Tank) + ", " + generation + ", " + sexLook(g.Sex).name
}

// againstCurve says how long a group is against the species' curve.
func againstCurve(g forecast.GrowthGroup) string {
	share := func(ratio float64) string { return signed((ratio - 1) * 100) }
	words := "cannot be told from the species' curve"
	switch {
	case g.Low > 1:
		words = "longer than the species' curve at the same warmth"
	case g.High < 1:
		words = "shorter than the species' curve at the same warmth"
	}
	return fmt.Sprintf("%s%s%%, 90%s%% range %s to %s%s%%: %s", share(g.Ratio), wording.Joined, wording.Joined,
		share(g.Low), share(g.High), wording.Joined, words)
}

// signed writes a whole number with its sign.
func signed(x float64) string {
	n := int(math.Round(x))
	if n == 0 {
		return "0"
	}
	return strings.Replace(fmt.Sprintf("%+d", n), "-", "\u2212", 1)
}

// tankTones are the tones of the tanks in a figure, in the order of journal.yaml; more tanks begin again, dashed.
var tankTones = []figure.Tone{figure.Shrimp, figure.Water, figure.Moss, figure.Eggs, figure.Sand}

// tankCurves draws the curve of a sex in every tank that has one of its own, over the species' curve.
func (p *pen) tankCurves(sex journal.Sex) figure.Figure {
	name := sexLook(sex).name
	f := figure.Figure{
		ID: "growth-" + string(sex), Title: wording.Sentence(name) + ", tank by tank",
		Description: "Body length of " + name + " against the share of the way to maturity. The dashed line is the species' usual curve; a tank has a line of its own where its lengths say enough. Marks are lengths that were measured.",
		X:           figure.Axis{Label: "Way to maturity", Unit: "%", Min: 0, Max: 200},
		Y:           figure.Axis{Label: "Body length", Unit: p.units.sizeUnit(), FromZero: true}, Height: 280,
		Rules: []figure.Rule{{Value: 100, Label: "mature", Tone: figure.Moss}},
	}
	profile := p.Profiles[p.set.Species]
	usual := profile.Growth.Female
	if sex == journal.Male {
		usual = profile.Growth.Male
	}
	f.Lines = append(f.Lines, p.curveLine("the species", figure.Stone, true, usual.Length))
	shapes := []figure.Shape{figure.Dot, figure.Diamond, figure.Ring, figure.Bar, figure.Wedge}
	for i := range p.Tanks {
		t := &p.Tanks[i]
		tone, shape := tankTones[i%len(tankTones)], shapes[i%len(shapes)]
		for _, g := range t.Growth {
			if g.Sex != sex {
				continue
			}
			if g.Fitted {
				f.Lines = append(f.Lines, p.curveLine(p.tankName(t.Tank.ID), tone, i >= len(tankTones), g.Curve.Length))
				f.Bands = append(f.Bands, p.growthBands(g, sexed{p.tankName(t.Tank.ID), tone, shape})[1])
			}
			if cloud := p.cloud(g, sexed{p.tankName(t.Tank.ID), tone, shape}, nil); len(cloud.Marks) > 0 {
				f.Points = append(f.Points, cloud)
			}
		}
	}
	return f
}

// curveLine draws a curve from hatching to twice the way to maturity.
func (p *pen) curveLine(name string, tone figure.Tone, dashed bool, length func(phi float64) float64) figure.Line {
	line := figure.Line{Name: name, Tone: tone, Dashed: dashed}
	for step := range growthSteps + 1 {
		phi := 2 * float64(step) / growthSteps
		line.Points = append(line.Points, figure.XY{X: phi * 100, Y: p.units.size(length(phi))})
	}
	return line
}

// growthSteps is how many straight pieces a curve has.
const growthSteps = 40

// central90 is the standard normal quantile of 0.95.
const central90 = 1.6448536269514722

// growthBands draws where single animals lie, and within it where the mean is.
func (p *pen) growthBands(g forecast.Growth, look sexed) []figure.Band {
	band := func(name string, faint bool, half func(phi float64) float64) figure.Band {
		b := figure.Band{Name: look.name + ", " + name, Tone: look.tone, Faint: faint}
		for step := range growthSteps + 1 {
			phi := 2 * float64(step) / growthSteps
			middle, side := g.Curve.Length(phi), half(phi)
			b.Edges = append(b.Edges, figure.Edge{X: phi * 100, Low: p.units.size(middle - side),
				High: p.units.size(middle + side)})
		}
		return b
	}
	return []figure.Band{
		band("90\u00a0% of animals", true, func(phi float64) float64 { return central90 * g.AnimalSD(phi) }),
		band("mean, 90\u00a0% sure", false, func(phi float64) float64 { return central90 * g.MeanSD(phi) }),
	}
}

// growth draws body length against the share of the way to maturity, with the points that which lets through.
func (p *pen) growth(id, title string, t *forecast.Tank, which func(forecast.GrowthPoint) bool) figure.Figure {
	f := figure.Figure{
		ID: id, Title: title,
		Description: "Body length against the share of the way to maturity, which warm water shortens in days. Lines are what is expected, dark bands how sure the mean is, light bands where nine in ten single animals lie, marks are lengths that were measured.",
		X:           figure.Axis{Label: "Way to maturity", Unit: "%", Min: 0, Max: 200},
		Y:           figure.Axis{Label: "Body length", Unit: p.units.sizeUnit(), FromZero: true}, Height: 280,
	}
	for _, g := range t.Growth {
		look := sexLook(g.Sex)
		if g.Sex != "" {
			f.Lines = append(f.Lines, p.curveLine(look.name+", expected", look.tone, false, g.Curve.Length))
			f.Bands = append(f.Bands, p.growthBands(g, look)...)
		}
		if cloud := p.cloud(g, look, which); len(cloud.Marks) > 0 {
			f.Points = append(f.Points, cloud)
		}
	}
	f.Rules = []figure.Rule{{Value: 100, Label: "mature", Tone: figure.Moss}}
	return f
}

// cloud draws the measured lengths that which lets through; nil lets all through.
func (p *pen) cloud(g forecast.Growth, look sexed, which func(forecast.GrowthPoint) bool) figure.Points {
	cloud := figure.Points{Name: look.name + ", measured", Tone: look.tone, Shape: look.shape}
	for _, point := range g.Points {
		if which == nil || which(point) {
			cloud.Marks = append(cloud.Marks, figure.Mark{
				X: point.Phi * 100, Y: p.units.size(point.MM),
				Label: strings.TrimSpace(point.Length.Name + " " + wording.Date(point.Length.Day)),
				Link:  p.eventHref(point.Length.Event),
			})
		}
	}
	return cloud
}

// sexed is how a sex is drawn: its mark differs too, not only its tone.
type sexed struct {
	name  string
	tone  figure.Tone
	shape figure.Shape
}

func sexLook(s journal.Sex) sexed {
	switch s {
	case journal.Female:
		return sexed{"females", figure.Shrimp, figure.Dot}
	case journal.Male:
		return sexed{"males", figure.Water, figure.Diamond}
	}
	return sexed{"sex not known", figure.Stone, figure.Ring}
}
