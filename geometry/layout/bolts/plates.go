package bolts

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// plateOf gives the board of a plate, of no width for an unknown one.
func plateOf(name string) lumber.Board {
	b, _ := lumber.Named(name)
	return b
}

// walls gives the walls with their plates: cut at rough openings, at stock
// lengths, and where they meet at corners.
func (t *anchoring) walls() []Wall {
	if !t.Fits("Plates", t.Run(func(e plan.Edge) bool { return e.Wall != "" }), t.spec.Stock) {
		return nil
	}
	var out []Wall
	for _, l := range t.Sides {
		for _, s := range l {
			e := t.Edge(s)
			if t.jog(s) {
				t.Find(ruleBoltCount, rule.Note, s.At(s.Length/2, 0), "A jog of %s has no room for a plate with bolts: the plates beside it end at it. Nail a block between them.", t.Text(s.Length))
				continue
			}
			if e.Wall == "" {
				continue
			}
			w := Wall{Loop: s.Loop, Edge: s.Edge, Plate: plateOf(e.Wall), Side: s, Mark: t.Marks.Wall(s.Loop, s.Edge), Length: s.Length}
			w.Offset = t.boltOffset(w.Plate)
			for _, run := range t.plateRuns(s) {
				w.Pieces = append(w.Pieces, t.cutPlate(run, s)...)
			}
			out = append(out, w)
		}
	}
	t.checkPlates(out, 0)
	return out
}

// jog tells whether a wall is one that the walls beside it run past.
func (t *anchoring) jog(s slab.Side) bool {
	return t.Edge(s).Wall != "" && t.Loops[s.Loop].Jog(s.Edge)
}

// plateRuns gives the stretches of plate on an edge, between its rough openings
// and the plates at its corners, as outlines on the strip along it.
func (t *anchoring) plateRuns(s slab.Side) []shape {
	width := float64(plateOf(t.Edge(s).Wall).Width)
	ends := [...]meeting{t.meeting(s, true), t.meeting(s, false)}
	var out []shape
	for _, free := range t.FreeOfDoors(s, true) {
		from, to := float64(free.From), float64(free.To)
		if free.From > 0 {
			from += float64(t.spec.Jamb)
		} else if ends[0].meets {
			from -= plateReach * width
		}
		if free.To < s.Length {
			to -= float64(t.spec.Jamb)
		} else if ends[1].meets {
			to += plateReach * width
		}
		if from >= to {
			continue
		}
		run := shape{{X: from, Y: 0}, {X: to, Y: 0}, {X: to, Y: width}, {X: from, Y: width}}
		for _, m := range ends {
			for _, c := range m.cuts {
				run = run.keep(c)
			}
		}
		if lo, hi := run.extent(); hi-lo >= float64(leastRun) {
			out = append(out, run)
		}
	}
	return out
}

// leastRun is the shortest stretch that gets a plate, as between two openings:
// common practice, no source.
const leastRun = geometry.Inch

// plateReach is how many widths past a corner a plate is looked for; by then it
// has met any other that it can meet.
const plateReach = 6

// meeting is how a plate ends at a corner.
type meeting struct {
	meets bool           // another plate; it may run past the corner
	cuts  []plane.Linear // what it is cut to, by running distance and inset
}

// meeting gives how the plate on s starts, or ends. The plate that ends at a
// corner runs through: at an outside corner to the face of the next wall, at an
// inside one past the corner to the inner line of the next plate. The one that
// starts there butts against it: against its inner line or its outer line.
func (t *anchoring) meeting(s slab.Side, starts bool) meeting {
	r, n := s, t.After(s)
	if starts {
		r, n = t.Before(s), s
	}
	turn := math.Pi - slab.Interior(r, n)
	size := math.Abs(turn)
	o := t.seen(s, starts, turn)
	both := t.platedAtEnd(r) && t.platedAtStart(n)
	switch {
	case !both && turn > math.Pi/2: // a sharp corner of the slab
		return meeting{false, []plane.Linear{o.inside(0)}}
	case !both || turn < -lumber.Sharpest:
		return meeting{}
	case size < lumber.LeastButt || size > lumber.MostButt:
		return meeting{true, []plane.Linear{o.miter(starts)}}
	case turn > 0 && starts:
		return meeting{true, []plane.Linear{o.inside(o.width)}}
	case turn > 0:
		return meeting{true, []plane.Linear{o.inside(0)}}
	case starts:
		return meeting{true, []plane.Linear{o.outside(0)}}
	}
	return meeting{true, []plane.Linear{o.outside(o.width)}}
}

// neighbor is the wall round a corner as seen along another.
type neighbor struct {
	corner, along, inward plane.Vec
	width                 float64 // of its plate
}

func (t *anchoring) seen(s slab.Side, starts bool, turn float64) neighbor {
	sin, cos := math.Sincos(turn)
	o := neighbor{corner: plane.Vec{X: float64(s.Length), Y: 0}, along: plane.Vec{X: cos, Y: sin}}
	e := t.Edge(t.After(s))
	if starts {
		o, e = neighbor{along: plane.Vec{X: cos, Y: -sin}}, t.Edge(t.Before(s))
	}
	o.inward = o.along.Left()
	o.width = float64(plateOf(e.Wall).Width)
	return o
}

// inside is what lies inward of the line at an inset from the wall's face.
func (o neighbor) inside(inset float64) plane.Linear {
	return half(o.corner.Add(o.inward.Times(inset)), o.inward)
}

// outside is what lies outward of it.
func (o neighbor) outside(inset float64) plane.Linear {
	return half(o.corner.Add(o.inward.Times(inset)), o.inward.Times(-1))
}

// miter is what lies on the own side of the bisector of the corner.
func (o neighbor) miter(starts bool) plane.Linear {
	in := plane.Vec{X: 1 + o.along.X, Y: o.along.Y}.Unit()
	if !starts {
		in = in.Times(-1)
	}
	return half(o.corner, in)
}

// platedAtStart tells whether a plate reaches the corner where s starts: there is
// a wall, and no opening so near that nothing is left beside it.
func (t *anchoring) platedAtStart(s slab.Side) bool {
	free := t.FreeOfDoors(s, true)
	return t.Edge(s).Wall != "" && !t.jog(s) && len(free) > 0 && free[0].From == 0 && t.plated(s, free[0])
}

func (t *anchoring) platedAtEnd(s slab.Side) bool {
	free := t.FreeOfDoors(s, true)
	return t.Edge(s).Wall != "" && !t.jog(s) && len(free) > 0 && free[len(free)-1].To == s.Length && t.plated(s, free[len(free)-1])
}

// plated tells whether a stretch between openings is long enough for a plate.
func (t *anchoring) plated(s slab.Side, free slab.Interval) bool {
	long := free.To - free.From
	if free.From > 0 {
		long -= t.spec.Jamb
	}
	if free.To < s.Length {
		long -= t.spec.Jamb
	}
	return long >= leastRun
}

// leastPlate is the shortest piece that is cut by choice: common practice, no
// source.
const leastPlate = 4 * geometry.Foot

// cutPlate cuts a run of plate into pieces of at most the stock length.
func (t *anchoring) cutPlate(run shape, s slab.Side) []Plate {
	lo, hi := run.extent()
	var out []Plate
	at := geometry.Length(0)
	for _, long := range lumber.Pieces(geometry.Rounded(hi-lo), t.spec.Stock, leastPlate, t.Step()) {
		from, to := lo+float64(at), lo+float64(at+long)
		at += long
		// A nanometer more, so that the ends of the run, which are rounded, stay whole.
		piece := run.keep(half(plane.Vec{X: from - 1}, plane.Vec{X: 1})).keep(half(plane.Vec{X: to + 1}, plane.Vec{X: -1}))
		plate := Plate{From: geometry.Rounded(from), To: geometry.Rounded(to)}
		plate.Outline = make([]geometry.Point, 0, len(piece))
		for _, v := range piece {
			plate.Outline = append(plate.Outline, s.At(geometry.Rounded(v.X), geometry.Rounded(v.Y)))
		}
		out = append(out, plate)
	}
	return out
}

var rulePlates = rule.Rule{Name: "Plates clear of each other", Source: "geometry"}

// checkPlates reports plates that lie on each other, as those of opposite walls
// where the slab is narrower than both; those of which one is of a wall from the first on.
func (t *anchoring) checkPlates(walls []Wall, first int) {
	type piece struct {
		no    int
		wall  *Wall
		plate Plate
		on    shape
	}
	n := 0
	for i := range walls {
		n += len(walls[i].Pieces)
	}
	all, boxes := make([]piece, 0, n), make([]plane.Box, 0, n)
	for i := range walls {
		for _, p := range walls[i].Pieces {
			on := make(shape, 0, len(p.Outline))
			for _, q := range p.Outline {
				on = append(on, plane.Vec{X: float64(q.X), Y: float64(q.Y)})
			}
			all = append(all, piece{i, &walls[i], p, on})
			boxes = append(boxes, plane.BoxAround(on...))
		}
	}
	var c plane.Clipper
	plane.NewIndex(boxes).Pairs(func(i, j int) {
		a, b := all[i], all[j]
		if max(a.no, b.no) < first {
			return
		}
		common := shape(c.Within(a.on, b.on, 1))
		if plane.Area(common) > float64(inch)*float64(inch)/100 {
			t.Find(rulePlates, rule.Severe, common.center(), "The plates of %s and %s lie on each other here.", a.wall.Name(), b.wall.Name())
		}
	})
}
