package sheet

import (
	"fmt"
	"math"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// markNorth is what is written where the plan does not know north.
const markNorth = "mark north"

// north draws the north arrow round c, or an empty circle to mark north in on
// site where the plan does not know it.
func (d *draft) north(n plan.North, c Point) {
	const radius = 4
	if !n.Known {
		d.circle(Notes, penRule, noFill, c, radius)
		d.line(Notes, penHatch, c.Add(Point{X: 0, Y: -radius}), c.Add(Point{X: 0, Y: radius}))
		d.line(Notes, penHatch, c.Add(Point{X: -radius, Y: 0}), c.Add(Point{X: radius, Y: 0}))
		d.writeMid(c.X, c.Y-7.2, sizeFine, false, d.say.Word(markNorth))
		return
	}
	sin, cos := math.Sincos(n.Turn * math.Pi / 180)
	u := Point{X: sin, Y: cos} // clockwise from straight up
	const fine = 1e6
	d.symbol(c, drawing.SurveyLine, drawing.NorthArrow, geometry.Point{X: geometry.Length(sin * fine), Y: geometry.Length(cos * fine)})
	at := c.Toward(u, radius+2.4)
	d.writeMid(at.X, at.Y-capHeight*sizeHead*mmPerPoint/2, sizeHead, true, "N")
}

// subject gives what a note speaks of: the end of its leader, or its own place.
func subject(n plan.Note) geometry.Point {
	if n.Leader {
		return n.To
	}
	return n.At
}

// noteOf tells whether a note speaks of a slab: of all, it is the nearest.
func (s *set) noteOf(n plan.Note, of takeoff.Slab) bool {
	best, near := of.Number, 2*geometry.MaxLength
	for _, slab := range s.takeoff.Slabs {
		if d := offRing(subject(n), slab.Plan.Outline.Rim()); d < near {
			best, near = slab.Number, d
		}
	}
	return best == of.Number
}

// offRing gives how far p lies outside a ring.
func offRing(p geometry.Point, r geometry.Ring) geometry.Length {
	if plane.In(r, p) {
		return 0
	}
	return plane.Region{r}.Distance(p)
}

// heightsTable lists the heights of the corners, where they matter.
func (s *set) heightsTable(slab takeoff.Slab) []block {
	of := s.heights.Of(slab.Number)
	level := of.Level && of.Corners[0].Top == 0 && len(s.job.Survey.Benchmarks) == 0
	if level && len(of.Curbs) == 0 {
		return nil
	}
	u := s.job.Units
	tb := table{title: slab.Called("Heights over " + s.heights.Datum), head: []string{"Corner", "Top", "Dig to"}, right: []bool{false, true, true}}
	if level && len(of.Lips) == 0 { // nothing but curbs lies over it
		tb.title, tb.head[0] = slab.Called("Heights over the slab's top"), "What"
		of.Corners, of.Drains = nil, nil
		tb.head, tb.right = tb.head[:2], tb.right[:2]
	}
	for _, c := range of.Corners {
		tb.rows = append(tb.rows, []string{fmt.Sprint(c.Corner + 1), c.Top.Text(u), c.Dig.Text(u)})
	}
	for i, c := range of.Drains {
		what := fmt.Sprintf("drain %d", i+1)
		if c.Hole > 0 {
			h := slab.Plan.Holes[c.Hole-1]
			what = slab.Layout.Marks.Hole(c.Hole-1).Called(h.Name) + ", lowest"
		}
		tb.rows = append(tb.rows, []string{what, c.Top.Text(u), ""})
	}
	for _, l := range of.Lips {
		if l.Near == l.Far {
			tb.rows = append(tb.rows, []string{"lip of " + l.Door, l.Near.Text(u), ""})
			continue
		}
		tb.rows = append(tb.rows, []string{"lip of " + l.Door + ", near jamb", l.Near.Text(u), ""}, []string{"lip of " + l.Door + ", far jamb", l.Far.Text(u), ""})
	}
	for _, c := range of.Breaks {
		tb.rows = append(tb.rows, []string{"break, " + sideName(slab, c.Loop, c.Edge) + " at " + c.Along.Text(u), c.Top.Text(u), ""})
	}
	if of.LevelOn {
		tb.rows = append(tb.rows, []string{"highest place, which level curbs are measured from", of.Highest.Text(u), ""})
	}
	var last string
	for _, c := range of.Curbs {
		row := "curb " + sideName(slab, c.Loop, c.Edge)
		top := c.Start.Text(u)
		if c.Start != c.End {
			top += " to " + c.End.Text(u)
		}
		if row+top != last { // stretches between doors lie alike
			tb.rows = append(tb.rows, []string{row, top, ""}[:len(tb.head)])
		}
		last = row + top
	}
	return []block{tableBlock{table: tb}}
}

// benchmarkList says where the benchmarks are, from the datum of a slab.
func (s *set) benchmarkList(slab takeoff.Slab) block {
	u := s.job.Units
	n := notes{title: "Benchmarks", size: sizeSmall, bullet: "•"}
	datum := slab.Plan.Datum()
	for _, m := range s.job.Survey.Benchmarks {
		at := datum.Of(m.At)
		n.items = append(n.items, fmt.Sprintf("%s: height %s; from %s, %s along %s and %s square off it", m.Name, m.Height.Text(u), datum.Name(), at.X.Text(u), datum.Side(), at.Y.Text(u)))
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	n.items = append(n.items, "Rod reading at a place: that on a benchmark + its height – the height wanted.")
	return n
}
