package layout

import (
	"fmt"
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// padBars lays bars both ways near the bottom of every pad.
func (t *site) padBars() []Bar {
	s := t.spec.Pads
	if s.Size == 0 {
		return nil
	}
	db := diameter(s.Size)
	var bars []Bar
	var all geometry.Length
	for _, p := range t.plan.Pads {
		all += p.Width + p.Length
	}
	if !t.fits("Pad bars", all, s.Spacing) {
		return nil
	}
	for i, p := range t.plan.Pads {
		name := "pad " + named(p.Name, "P", i)
		sin, cos := math.Sincos(p.Turn * math.Pi / 180)
		at := func(x, y geometry.Length) geometry.Point {
			return geometry.Point{
				X: p.Center.X + round(float64(x)*cos-float64(y)*sin),
				Y: p.Center.Y + round(float64(x)*sin+float64(y)*cos),
			}
		}
		for way, size := range [2][2]geometry.Length{{p.Width, p.Length}, {p.Length, p.Width}} {
			half := size[0]/2 - s.Cover
			side := size[1]/2 - s.Cover - db/2
			if half < 2*db || side < 0 {
				t.find(rulePadRoom, false, p.Center, "%s is too small for bars with %s of cover.", name, t.text(s.Cover))
				break
			}
			depth := p.Depth - s.Cover - db/2 - geometry.Length(way)*db
			for _, y := range evenly(-side, side, s.Spacing, 1) {
				a, b := at(-half, y), at(half, y)
				if way == 1 {
					a, b = at(y, -half), at(y, half)
				}
				line := newSide(0, 0, a, b)
				for _, in := range t.through(a, b, s.Cover/2) {
					bar, ok := t.straight(line, in, s.Cover, s.Size, depth)
					if ok {
						bar.Row = name
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
func (t *site) straight(line side, in interval, cover geometry.Length, size int, depth geometry.Length) (Bar, bool) {
	if in.from > 2 {
		in.from += cover
	}
	if in.to < line.length-2 {
		in.to -= cover
	}
	in.to -= (in.to - in.from) % t.cutStep()
	if in.to-in.from < 4*diameter(size) {
		return Bar{}, false
	}
	return Bar{Size: size, Path: []geometry.Point{line.at(in.from, 0), line.at(in.to, 0)}, Depth: depth, Cut: in.to - in.from}, true
}

func named(name, letter string, i int) string {
	if name != "" {
		return name
	}
	return fmt.Sprintf("%s%d", letter, i+1)
}

// stripBars lays bars along every strip near its bottom, evenly across it.
func (t *site) stripBars() []Bar {
	s := t.spec.Strips
	if s.Count == 0 {
		return nil
	}
	var bars []Bar
	var all geometry.Length
	for _, strip := range t.plan.Strips {
		for i := 1; i < len(strip.Path); i++ {
			all += geometry.Distance(strip.Path[i-1], strip.Path[i]) * geometry.Length(s.Count)
		}
	}
	if !t.fits("Strip bars", all, t.stock()/4) {
		return nil
	}
	db := diameter(s.Size)
	for i, strip := range t.plan.Strips {
		name := "strip " + named(strip.Name, "S", i)
		half := strip.Bottom/2 - s.Cover - db/2
		if half < 0 {
			t.find(ruleStripRoom, false, strip.Path[0], "%s is too narrow for bars with %s of cover.", name, t.text(s.Cover))
			continue
		}
		depth := strip.Depth - s.Cover - db/2
		for k := range s.Count {
			off := geometry.Length(0)
			if s.Count > 1 {
				off = -half + 2*half*geometry.Length(k)/geometry.Length(s.Count-1)
			}
			bars = append(bars, t.stripBar(strip, off, depth, name)...)
		}
	}
	if len(bars) > 0 {
		t.laps = append(t.laps, LaidLap{Of: StripLaps, Size: s.Size, Length: t.spec.LapLength(s.Size, false)})
	}
	return bars
}

// stripBar lays one line of bars at an offset left of a strip's path: wrapped
// round its bends, lapped where longer than stock.
func (t *site) stripBar(strip plan.Strip, off, depth geometry.Length, name string) []Bar {
	s := t.spec.Strips
	r := row{size: s.Size, db: diameter(s.Size), lap: t.spec.LapLength(s.Size, false)}
	var c chain
	c.row = r
	n := len(strip.Path)
	segs := make([]side, n-1)
	for i := range segs {
		segs[i] = newSide(0, i, strip.Path[i], strip.Path[i+1])
	}
	for i, g := range segs {
		from, to := geometry.Length(0), g.length
		if i > 0 {
			from += miter(interior(segs[i-1], g), off)
		} else {
			from += s.Cover
		}
		if i+1 < len(segs) {
			to -= miter(interior(g, segs[i+1]), off)
		} else {
			to -= s.Cover
		}
		if to-from < 4*r.db {
			t.find(ruleStripRoom, false, g.a, "%s has a stretch too short for its bars.", name)
			return nil
		}
		if i == 0 {
			c.v = append(c.v, vertex{spot: spot{g.at(from, off), depth}})
		}
		c.v = append(c.v, vertex{spot: spot{g.at(to, off), depth}, corner: i+1 < len(segs)})
		c.s = append(c.s, stretch{-1, from, to})
	}
	c.develop()
	for i := 1; i < len(c.v); i++ {
		in := t.within(c.v[i-1].at, c.v[i].at)
		if len(in) != 1 || in[0].from > 2 || in[0].to < geometry.Distance(c.v[i-1].at, c.v[i].at)-2 {
			t.find(ruleStripRoom, true, c.v[i].at, "%s leaves the slab: its bars there are left out.", name)
			return nil
		}
	}
	return t.lay(&c, 0, c.length(), name, laps{})
}

// miter gives how far before a corner two lines at an offset to the left meet.
func miter(angle float64, off geometry.Length) geometry.Length {
	if straight(angle) {
		return 0
	}
	return round(float64(off) / math.Tan(angle/2))
}
