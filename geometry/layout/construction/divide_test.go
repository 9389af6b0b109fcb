package construction_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/construction"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

const (
	inch = geometry.Inch
	ft   = geometry.Foot
)

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

// slab gives a slab with a haunch all round.
func slab(t, d, b, r geometry.Length, ring ...geometry.Point) plan.Plan {
	p := plan.Plan{Field: t, Sections: []plan.Section{{Name: "E", Depth: d, Bottom: b, Taper: r}}}
	for _, q := range ring {
		p.Outline = append(p.Outline, plan.Edge{At: q, Section: "E"})
	}
	return p
}

func rectangle(w, h geometry.Length) plan.Plan {
	return slab(6*inch, 12*inch, 12*inch, 12*inch, pt(0, 0), pt(w, 0), pt(w, h), pt(0, h))
}

// Both sides of a line across a rectangle with a haunch hold what an independent program
// finds in whole fractions.
func TestVolumesOfPours(t *testing.T) {
	f, err := os.Open("../../../testdata/pours/pours.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 20 {
		t.Fatal(len(rows), err)
	}
	const cubic = 0.0254 * 0.0254 * 0.0254
	for _, row := range rows {
		var v [12]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		in := func(i int) geometry.Length { return geometry.Rounded(v[i] * float64(inch)) }
		p := slab(in(2), in(3), in(4), in(5), pt(0, 0), pt(in(0), 0), pt(in(0), in(1)), pt(0, in(1)))
		p.Construction = []plan.Construction{{From: pt(in(6), in(7)), To: pt(in(8), in(9))}}
		d := construction.Divide(p)
		s := solid.OfSound(p)
		if len(d.Parts) != 2 || d.Parts[0].Day != 1 || d.Parts[1].Day != 2 || len(d.Lines) != 1 {
			t.Errorf("%v: %+v", row, d)
			continue
		}
		for i, want := range v[10:] {
			if got := s.VolumeWithin(d.Parts[i].Region) / cubic; math.Abs(got-want) > 1e-6*want {
				t.Errorf("%v: pour %d has %.6f in³, %.6f expected", row, i+1, got, want)
			}
		}
	}
}

// The pours of a slab add up to it, wherever its joints lie, and each joint is as long as
// the slab is along it.
func TestPoursAddUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		u := func(name string, most int) geometry.Length {
			return geometry.Length(rapid.IntRange(0, most*16).Draw(rt, name)) * inch / 16
		}
		// A U, so that a line may lie across one leg or both.
		p := slab(5*inch, 14*inch, 10*inch, 8*inch, pt(0, 0), pt(40*ft, 0), pt(40*ft, 30*ft), pt(28*ft, 30*ft), pt(28*ft, 12*ft), pt(12*ft, 12*ft), pt(12*ft, 30*ft), pt(0, 30*ft))
		p = p.Rotate(pt(0, 0), float64(rapid.IntRange(0, 90).Draw(rt, "turn")))
		for range rapid.IntRange(1, 4).Draw(rt, "joints") {
			c := plan.Construction{From: pt(u("x", 480), u("y", 360)), To: pt(u("x", 480), u("y", 360)), Days: rapid.IntRange(0, 3).Draw(rt, "days")}
			c.First = plan.ConstructionSide(rapid.IntRange(0, 1).Draw(rt, "first"))
			if c.From != c.To {
				p.Construction = append(p.Construction, c)
			}
		}
		s := solid.OfSound(p)
		d := construction.Divide(p)
		volume, area := 0.0, 0.0
		for i, part := range d.Parts {
			volume, area = volume+s.VolumeWithin(part.Region), area+part.Region.Area()
			if i > 0 && part.Day < d.Parts[i-1].Day {
				rt.Errorf("day %d after day %d", part.Day, d.Parts[i-1].Day)
			}
		}
		if math.Abs(volume-s.Volume) > 1e-8*s.Volume || math.Abs(area-s.Area) > 1e-8*s.Area {
			rt.Errorf("pours hold %.12f m³ of %.12f, %.9f m² of %.9f", volume, s.Volume, area, s.Area)
		}
		if len(d.Idle) < len(p.Construction) != (len(d.Parts) > 1) {
			rt.Errorf("%d parts by %d joints, %d of them idle", len(d.Parts), len(p.Construction), len(d.Idle))
		}
	})
}

func TestDivide(t *testing.T) {
	u := slab(5*inch, 14*inch, 10*inch, 8*inch, pt(0, 0), pt(40*ft, 0), pt(40*ft, 30*ft), pt(28*ft, 30*ft), pt(28*ft, 12*ft), pt(12*ft, 12*ft), pt(12*ft, 30*ft), pt(0, 30*ft))
	holed := rectangle(40*ft, 20*ft).AddHole("pit", plan.Like(geometry.Ring{pt(18*ft, 8*ft), pt(22*ft, 8*ft), pt(22*ft, 12*ft), pt(18*ft, 12*ft)}, plan.Edge{}))
	joint := func(x1, y1, x2, y2 geometry.Length) plan.Construction {
		return plan.Construction{From: pt(x1*ft, y1*ft), To: pt(x2*ft, y2*ft)}
	}
	right := func(c plan.Construction) plan.Construction { c.First = plan.RightFirst; return c }
	wait := func(c plan.Construction, days int) plan.Construction { c.Days = days; return c }
	for _, c := range []struct {
		name   string
		of     plan.Plan
		joints []plan.Construction
		days   []int
		lines  int
		idle   int
	}{
		{"none", u, nil, []int{1}, 0, 0},
		{"one leg", u, []plan.Construction{joint(0, 20, 12, 20)}, []int{1, 2}, 1, 0},
		{"both legs by one line", u, []plan.Construction{joint(0, 20, 40, 20)}, []int{1, 1, 2}, 2, 0}, // the tips are left of it
		{"both legs, the base first", u, []plan.Construction{right(joint(0, 20, 40, 20))}, []int{1, 2, 2}, 2, 0},
		{"drawn short of the edges", u, []plan.Construction{joint(1, 20, 11, 20)}, []int{1, 2}, 1, 0},
		{"off the slab", u, []plan.Construction{joint(14, 20, 26, 20)}, []int{1}, 0, 1},
		{"past a hole", holed, []plan.Construction{joint(20, 0, 20, 20)}, []int{1, 2}, 2, 0},
		{"to a hole", holed, []plan.Construction{joint(20, 0, 20, 8)}, []int{1}, 0, 1},
		{"every other lane first", rectangle(60*ft, 20*ft), []plan.Construction{joint(20, 0, 20, 20), wait(right(joint(40, 0, 40, 20)), 3)}, []int{1, 1, 4}, 2, 0},
		{"from left to right, three days apart", rectangle(60*ft, 20*ft), []plan.Construction{wait(joint(20, 0, 20, 20), 3), wait(joint(40, 0, 40, 20), 3)}, []int{1, 4, 7}, 2, 0},
		{"on another joint", rectangle(60*ft, 20*ft), []plan.Construction{joint(20, 0, 20, 20), joint(20, 10, 60, 10)}, []int{1, 2, 3}, 2, 0},
		{"one for two parts", rectangle(60*ft, 60*ft), []plan.Construction{joint(20, 0, 20, 60), joint(0, 30, 60, 30)}, []int{1, 2, 2, 3}, 3, 0},
	} {
		c.of.Construction = c.joints
		d := construction.Divide(c.of)
		var days []int
		for _, p := range d.Parts {
			days = append(days, p.Day)
		}
		if !slices.Equal(days, c.days) || len(d.Lines) != c.lines || len(d.Idle) != c.idle {
			t.Errorf("%s: days %v, %d lines, idle %v; %v, %d and %d expected", c.name, days, len(d.Lines), d.Idle, c.days, c.lines, c.idle)
		}
	}
}
