package bolts

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// plateOf gives the board of a plate, of no width for an unknown one.
func plateOf(name string) lumber.Board {
	b, _ := lumber.Named(name)
	return b
}

// walls gives the walls with their plates: cut at rough openings, at stock
// lengths, and where they meet at corners.
func (t *anchoring) walls(before int) []Wall {
	if !t.Fits("Plates", t.Run(func(e plan.Edge) bool { return e.Wall != "" }), t.spec.Stock) {
		return nil
	}
	var out []Wall
	for _, l := range t.Sides {
		for _, s := range l {
			e := t.Edge(s)
			if e.Wall == "" {
				continue
			}
			w := Wall{Loop: s.Loop, Edge: s.Edge, Plate: plateOf(e.Wall), Name: wallName(before + len(out)), Length: s.Length}
			for _, run := range t.plateRuns(s) {
				w.Pieces = append(w.Pieces, t.cutPlate(run, s)...)
			}
			out = append(out, w)
		}
	}
	t.checkPlates(out)
	return out
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
	meets bool   // another plate; it may run past the corner
	cuts  []half // what it is cut to, by running distance and inset
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
		return meeting{false, []half{o.inside(0)}}
	case !both || turn < -lumber.Sharpest:
		return meeting{}
	case size < lumber.LeastButt || size > lumber.MostButt:
		return meeting{true, []half{o.miter(starts)}}
	case turn > 0 && starts:
		return meeting{true, []half{o.inside(o.width)}}
	case turn > 0:
		return meeting{true, []half{o.inside(0)}}
	case starts:
		return meeting{true, []half{o.outside(0)}}
	}
	return meeting{true, []half{o.outside(o.width)}}
}

// neighbor is the wall round a corner as seen along another.
type neighbor struct {
	corner, along, inward slab.Vec
	width                 float64 // of its plate
}

func (t *anchoring) seen(s slab.Side, starts bool, turn float64) neighbor {
	sin, cos := math.Sincos(turn)
	o := neighbor{corner: slab.Vec{X: float64(s.Length), Y: 0}, along: slab.Vec{X: cos, Y: sin}}
	e := t.Edge(t.After(s))
	if starts {
		o, e = neighbor{along: slab.Vec{X: cos, Y: -sin}}, t.Edge(t.Before(s))
	}
	o.inward = slab.Vec{X: -o.along.Y, Y: o.along.X}
	o.width = float64(plateOf(e.Wall).Width)
	return o
}

// inside is what lies inward of the line at an inset from the wall's face.
func (o neighbor) inside(inset float64) half {
	return half{slab.Vec{X: o.corner.X + inset*o.inward.X, Y: o.corner.Y + inset*o.inward.Y}, o.inward}
}

// outside is what lies outward of it.
func (o neighbor) outside(inset float64) half {
	h := o.inside(inset)
	h.in = slab.Vec{X: -o.inward.X, Y: -o.inward.Y}
	return h
}

// miter is what lies on the own side of the bisector of the corner.
func (o neighbor) miter(starts bool) half {
	x, y := 1+o.along.X, o.along.Y
	h := math.Hypot(x, y)
	if !starts {
		h = -h
	}
	return half{o.corner, slab.Vec{X: x / h, Y: y / h}}
}

// platedAtStart tells whether a plate reaches the corner where s starts: there is
// a wall and no opening.
func (t *anchoring) platedAtStart(s slab.Side) bool {
	free := t.FreeOfDoors(s, true)
	return t.Edge(s).Wall != "" && len(free) > 0 && free[0].From == 0
}

func (t *anchoring) platedAtEnd(s slab.Side) bool {
	free := t.FreeOfDoors(s, true)
	return t.Edge(s).Wall != "" && len(free) > 0 && free[len(free)-1].To == s.Length
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
		piece := run.keep(half{slab.Vec{X: from, Y: 0}, slab.Vec{X: 1, Y: 0}}).keep(half{slab.Vec{X: to, Y: 0}, slab.Vec{X: -1, Y: 0}})
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
// where the slab is narrower than both.
func (t *anchoring) checkPlates(walls []Wall) {
	type piece struct {
		wall  *Wall
		plate Plate
		on    shape
	}
	n := 0
	for i := range walls {
		n += len(walls[i].Pieces)
	}
	all, boxes := make([]piece, 0, n), make([]geometry.Box, 0, n)
	for i := range walls {
		for _, p := range walls[i].Pieces {
			on := make(shape, 0, len(p.Outline))
			for _, q := range p.Outline {
				on = append(on, slab.Vec{X: float64(q.X), Y: float64(q.Y)})
			}
			all = append(all, piece{&walls[i], p, on})
			boxes = append(boxes, on.box())
		}
	}
	geometry.NewIndex(boxes).Pairs(func(i, j int) {
		a, b := all[i], all[j]
		common := a.on
		for k, p := range b.on {
			common = common.keep(leftOf(p, b.on[(k+1)%len(b.on)]))
		}
		if common.area() > float64(inch)*float64(inch)/100 {
			t.Find(rulePlates, rule.Severe, common.center(), "The plates of %s and %s lie on each other here.", a.wall.Name, b.wall.Name)
		}
	})
}

// wallName counts A to Z, then AA, AB and on.
func wallName(i int) string {
	name := ""
	for i++; i > 0; i = (i - 1) / 26 {
		name = string(rune('A'+(i-1)%26)) + name
	}
	return "Wall " + name
}
