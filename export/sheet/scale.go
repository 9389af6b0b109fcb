package sheet

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
)

// Scale is how large a drawing is on paper.
type Scale struct {
	Ratio float64 // length in the world over length on paper: 48 for 1/4" = 1'-0"
	Name  string  // as printed

	grown float64 // how many times as large as drawn the paper is printed; 0 for as drawn
}

// drawn gives the length in the world over that on the page as it is drawn, before it
// grows to its paper.
func (s Scale) drawn() float64 {
	if s.grown > 0 {
		return s.Ratio * s.grown
	}
	return s.Ratio
}

// planScales are the scales of plans, from large to small: architects' scales
// for feet and inches, those of ISO 5455 and their usual companions for metric.
func planScales(u geometry.Units) []Scale {
	if u == geometry.Millimeters {
		return metricScales(20, 25, 50, 75, 100)
	}
	return []Scale{
		{Ratio: 12, Name: `1" = 1'-0"`}, {Ratio: 16, Name: `3/4" = 1'-0"`}, {Ratio: 24, Name: `1/2" = 1'-0"`}, {Ratio: 32, Name: `3/8" = 1'-0"`},
		{Ratio: 48, Name: `1/4" = 1'-0"`}, {Ratio: 64, Name: `3/16" = 1'-0"`}, {Ratio: 96, Name: `1/8" = 1'-0"`},
	}
}

// detailScales are the scales of sections and details.
func detailScales(u geometry.Units) []Scale {
	if u == geometry.Millimeters {
		return metricScales(5, 10, 15, 20, 25, 50)
	}
	return []Scale{
		{Ratio: 4, Name: `3" = 1'-0"`}, {Ratio: 8, Name: `1 1/2" = 1'-0"`}, {Ratio: 12, Name: `1" = 1'-0"`}, {Ratio: 16, Name: `3/4" = 1'-0"`},
		{Ratio: 24, Name: `1/2" = 1'-0"`}, {Ratio: 48, Name: `1/4" = 1'-0"`},
	}
}

// siteScales are smaller than those of plans: engineers' scales for feet, and
// the next of ISO 5455, out to what a plan may measure.
func siteScales(u geometry.Units) []Scale {
	if u == geometry.Millimeters {
		return metricScales(200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000)
	}
	var s []Scale
	for _, f := range []float64{20, 30, 40, 50, 60, 100, 200, 400, 600, 1000, 2000, 5000} {
		s = append(s, Scale{Ratio: f * 12, Name: fmt.Sprintf(`1" = %g'`, f)})
	}
	return s
}

// splitScales are those of a plan that is split over sheets: the smallest of plans,
// the architects' 3/32 in for feet, and then those of sites.
func splitScales(u geometry.Units) []Scale {
	plans := planScales(u)
	out := plans[len(plans)-1:]
	if u == geometry.FeetInches {
		out = append(slices.Clone(out), Scale{Ratio: 128, Name: `3/32" = 1'-0"`})
	}
	return append(out, siteScales(u)...)
}

func metricScales(ratios ...float64) []Scale {
	s := make([]Scale, len(ratios))
	for i, r := range ratios {
		s[i] = Scale{Ratio: r, Name: fmt.Sprintf("1:%g", r)}
	}
	return s
}

// paperOf gives how long l is on paper, in millimeters.
func (s Scale) paperOf(l geometry.Length) float64 { return l.Meters() * 1000 / s.drawn() }

// fit gives the largest scale at which a thing of size w by h goes into r; false
// with the smallest scale where none does.
func fit(scales []Scale, w, h geometry.Length, r rect) (Scale, bool) {
	for _, s := range scales {
		if s.paperOf(w) <= r.Width() && s.paperOf(h) <= r.Height() {
			return s, true
		}
	}
	return scales[len(scales)-1], false
}

// View maps the plan to paper.
type View struct {
	Scale  Scale
	Origin Point // where the plan's zero lies on the page
}

// viewOf centers the box lo-hi of the plan in r.
func viewOf(s Scale, lo, hi geometry.Point, r rect) View {
	v := View{Scale: s}
	mid := v.at(lo).Add(v.at(hi)).Times(0.5)
	v.Origin = r.Middle().Sub(mid)
	return v
}

// raised moves the box lo-hi of the plan up and to the left in r as far as its dimensions
// leave room: what is free then is in one piece.
func (v View) raised(lo, hi geometry.Point, r rect) View {
	const clear = reserve + 6 // mm
	at, to := v.at(lo), v.at(hi)
	v.Origin.X -= max(0, at.X-r.X0-clear)
	v.Origin.Y += max(0, r.Y1-to.Y-clear)
	return v
}

// at gives where a point of the plan lies on the page.
func (v View) at(p geometry.Point) Point {
	return Point{X: v.Origin.X + v.Scale.paperOf(p.X), Y: v.Origin.Y + v.Scale.paperOf(p.Y)}
}

// point gives the plan's point under a place on the page.
func (v View) point(p Point) geometry.Point {
	x, y := v.back(p)
	return geometry.Point{X: geometry.Length(x * float64(geometry.Meter)), Y: geometry.Length(y * float64(geometry.Meter))}
}

// back gives the plan's point under a place on the page, in meters.
func (v View) back(p Point) (x, y float64) {
	f := v.Scale.drawn() / 1000
	return (p.X - v.Origin.X) * f, (p.Y - v.Origin.Y) * f
}

// Paper is a size of sheet.
type Paper struct {
	Name          string
	Width, Height float64 // mm, upright
}

// The papers that sheets are printed on: ANSI/ASME Y14.1 A and B, legal, the
// architects' sizes of the same standard, and ISO 216.
var (
	Letter  = Paper{"Letter", 215.9, 279.4}
	Legal   = Paper{"Legal", 215.9, 355.6}
	Tabloid = Paper{"Tabloid", 279.4, 431.8}
	ArchA   = Paper{"Arch A", 228.6, 304.8}
	ArchB   = Paper{"Arch B", 304.8, 457.2}
	ArchC   = Paper{"Arch C", 457.2, 609.6}
	ArchD   = Paper{"Arch D", 609.6, 914.4}
	A4      = Paper{"A4", 210, 297}
	A3      = Paper{"A3", 297, 420}
	A2      = Paper{"A2", 420, 594}
	A1      = Paper{"A1", 594, 841}
)

// AllPapers lists every paper that can be asked for.
func AllPapers() []Paper {
	return []Paper{Letter, Legal, Tabloid, ArchA, ArchB, ArchC, ArchD, A4, A3, A2, A1}
}

// PaperNamed gives the paper of a name, in capitals or not, with spaces or
// without.
func PaperNamed(name string) (Paper, bool) {
	bare := func(s string) string { return strings.ToLower(strings.ReplaceAll(s, " ", "")) }
	for _, p := range AllPapers() {
		if bare(p.Name) == bare(name) {
			return p, true
		}
	}
	return Paper{}, false
}

// Papers lists the papers that are chosen from where none is asked for, by a
// job's units, small first: those of an office printer.
func Papers(u geometry.Units) []Paper {
	if u == geometry.Millimeters {
		return []Paper{A4, A3}
	}
	return []Paper{Letter, Tabloid}
}

// grown is how many times as large lettering and lines are on a paper as on the small
// ones: a large sheet is read from farther off.
func (p Paper) grown() float64 {
	switch {
	case p.Width > 500:
		return 1.4
	case p.Width > 350:
		return 1.2
	}
	return 1
}

// drawn gives the paper as sheets are drawn on it, before they grow.
func (p Paper) drawn() Paper {
	g := p.grown()
	return Paper{p.Name, p.Width / g, p.Height / g}
}

// scales gives scales for what is drawn on a paper that grows to so many times its size.
func scales(all []Scale, grown float64) []Scale {
	out := slices.Clone(all)
	for i := range out {
		out[i].grown = grown
	}
	return out
}

// landscape gives the paper's width and height lying on its long side.
func (p Paper) landscape() (w, h float64) { return p.Height, p.Width }
