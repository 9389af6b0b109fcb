package bars

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// padBars lays bars both ways near the bottom of every pad.
func (t *steel) padBars() []Bar {
	s := t.pads
	if s.Size == 0 {
		return nil
	}
	db := s.Size.Diameter()
	var bars []Bar
	var all geometry.Length
	for _, p := range t.Plan.Pads {
		all += p.Width + p.Length
	}
	if !t.Fits("Pad bars", all, s.Spacing) {
		return nil
	}
	for i, p := range t.Plan.Pads {
		part := Part{InPad, i}
		sin, cos := math.Sincos(p.Turn * math.Pi / 180)
		at := func(x, y geometry.Length) geometry.Point {
			return geometry.Point{
				X: p.Center.X + geometry.Rounded(float64(x)*cos-float64(y)*sin),
				Y: p.Center.Y + geometry.Rounded(float64(x)*sin+float64(y)*cos),
			}
		}
		for way, size := range [2][2]geometry.Length{{p.Width, p.Length}, {p.Length, p.Width}} {
			half := size[0]/2 - s.Cover
			side := size[1]/2 - s.Cover - db/2
			if half < 2*db || side < 0 {
				t.Find(rulePadRoom, rule.Note, p.Center, "%s is too small for bars with %s of cover.", part.Text(t.Plan, t.Marks), t.Text(s.Cover))
				break
			}
			depth := p.Depth - s.Cover - db/2 - geometry.Length(way)*db
			for _, y := range slab.Evenly(-side, side, s.Spacing, 1) {
				a, b := at(-half, y), at(half, y)
				if way == 1 {
					a, b = at(y, -half), at(y, half)
				}
				line := slab.NewSide(0, 0, a, b)
				for _, in := range t.Through(a, b, s.Cover/2) {
					bar, ok := t.straight(line, in, s.Cover, s.Size, depth)
					if ok {
						bar.Of = part
						bars = append(bars, bar)
					}
				}
			}
		}
	}
	return bars
}

// straight gives a bar along part of a line, with cover where the slab ends
// before the line does, cut to whole steps.
func (t *steel) straight(line slab.Side, in slab.Interval, cover geometry.Length, size Size, depth geometry.Length) (Bar, bool) {
	if in.From > 2 {
		in.From += cover
	}
	if in.To < line.Length-2 {
		in.To -= cover
	}
	in.To -= (in.To - in.From) % t.CutStep()
	if in.To-in.From < 4*size.Diameter() {
		return Bar{}, false
	}
	return Bar{Size: size, Path: []geometry.Point{line.At(in.From, 0), line.At(in.To, 0)}, Depth: depth, Cut: in.To - in.From}, true
}

// stripBars lays bars along every strip near its bottom, evenly across it.
func (t *steel) stripBars() []Bar {
	s := t.strips
	if s.Count == 0 {
		return nil
	}
	var bars []Bar
	var all geometry.Length
	for _, strip := range t.Plan.Strips {
		for i := 1; i < len(strip.Path); i++ {
			all += geometry.Distance(strip.Path[i-1], strip.Path[i]) * geometry.Length(s.Count)
		}
	}
	if !t.Fits("Strip bars", all, t.spec.longest()/4) {
		return nil
	}
	db := s.Size.Diameter()
	for i, strip := range t.Plan.Strips {
		part := Part{InStrip, i}
		half := strip.Bottom/2 - s.Cover - db/2
		if half < 0 {
			t.Find(ruleStripRoom, rule.Note, strip.Path[0], "%s is too narrow for bars with %s of cover.", part.Text(t.Plan, t.Marks), t.Text(s.Cover))
			continue
		}
		depth := strip.Depth - s.Cover - db/2
		for k := range s.Count {
			off := geometry.Length(0)
			if s.Count > 1 {
				off = -half + 2*half*geometry.Length(k)/geometry.Length(s.Count-1)
			}
			bars = append(bars, t.stripBar(strip, off, depth, part)...)
		}
	}
	if len(bars) > 0 {
		t.laps = append(t.laps, LaidLap{Of: StripLaps, Size: s.Size, Length: t.lap(s.Size, false)})
	}
	return bars
}

// stripBar lays one line of bars at an offset left of a strip's path: wrapped
// round its bends, lapped where longer than stock.
func (t *steel) stripBar(strip plan.Strip, off, depth geometry.Length, part Part) []Bar {
	s := t.strips
	r := row{size: s.Size, db: s.Size.Diameter(), lap: t.lap(s.Size, false)}
	var c chain
	c.row = r
	n := len(strip.Path)
	segs := make([]slab.Side, n-1)
	for i := range segs {
		segs[i] = slab.NewSide(0, i, strip.Path[i], strip.Path[i+1])
	}
	for i, g := range segs {
		from, to := geometry.Length(0), g.Length
		if i > 0 {
			from += miter(slab.Interior(segs[i-1], g), off)
		} else {
			from += s.Cover
		}
		if i+1 < len(segs) {
			to -= miter(slab.Interior(g, segs[i+1]), off)
		} else {
			to -= s.Cover
		}
		if to-from < 4*r.db {
			t.Find(ruleStripRoom, rule.Note, g.A, "%s has a stretch too short for its bars.", part.Text(t.Plan, t.Marks))
			return nil
		}
		if i == 0 {
			c.v = append(c.v, vertex{Spot: Spot{g.At(from, off), depth}})
		}
		c.v = append(c.v, vertex{Spot: Spot{g.At(to, off), depth}, corner: i+1 < len(segs)})
		c.s = append(c.s, stretch{-1, from, to})
	}
	c.develop()
	for i := 1; i < len(c.v); i++ {
		in := t.Within(c.v[i-1].At, c.v[i].At)
		if len(in) != 1 || in[0].From > 2 || in[0].To < geometry.Distance(c.v[i-1].At, c.v[i].At)-2 {
			t.Find(ruleStripRoom, rule.Severe, c.v[i].At, "%s leaves the slab: its bars there are left out.", part.Text(t.Plan, t.Marks))
			return nil
		}
	}
	return t.lay(&c, 0, c.length(), part, &laps{})
}

// miter gives how far before a corner two lines at an offset to the left meet.
func miter(angle float64, off geometry.Length) geometry.Length {
	if slab.Straight(angle) {
		return 0
	}
	return geometry.Rounded(float64(off) / math.Tan(angle/2))
}
