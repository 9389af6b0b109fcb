package layout

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// plateWidth gives the dressed width of a plate, 0 for an unknown one.
func plateWidth(name string) geometry.Length {
	b, _ := lumber.Named(name)
	return b.Width
}

// walls gives the walls with their plates: cut at rough openings, at stock
// lengths, and where they meet at corners.
func (t *site) walls() []Wall {
	if !t.fits("Plates", t.run(func(e plan.Edge) bool { return e.Wall != "" }), t.spec.Bolts.Stock) {
		return nil
	}
	var out []Wall
	for _, l := range t.sides {
		for _, s := range l {
			e := t.edge(s)
			if e.Wall == "" {
				continue
			}
			w := Wall{Loop: s.loop, Edge: s.edge, Plate: e.Wall, Name: wallName(t.wallsBefore + len(out)), Length: s.length}
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
func (t *site) plateRuns(s side) []shape {
	width := float64(plateWidth(t.edge(s).Wall))
	ends := [...]meeting{t.meeting(s, true), t.meeting(s, false)}
	var out []shape
	for _, free := range t.freeOfDoors(s, true) {
		from, to := float64(free.from), float64(free.to)
		if free.from > 0 {
			from += float64(t.spec.Bolts.Jamb)
		} else if ends[0].meets {
			from -= plateReach * width
		}
		if free.to < s.length {
			to -= float64(t.spec.Bolts.Jamb)
		} else if ends[1].meets {
			to += plateReach * width
		}
		if from >= to {
			continue
		}
		run := shape{{from, 0}, {to, 0}, {to, width}, {from, width}}
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

// Corners that turn by more than leastButt and less than mostButt take a plate
// that runs through and one that butts against it; others are mitered. Beyond
// sharpest, plates at an inside corner do not meet. Common practice, no source.
const (
	leastButt = math.Pi / 3
	mostButt  = 2 * math.Pi / 3
)

// meeting gives how the plate on s starts, or ends. The plate that ends at a
// corner runs through: at an outside corner to the face of the next wall, at an
// inside one past the corner to the inner line of the next plate. The one that
// starts there butts against it: against its inner line or its outer line.
func (t *site) meeting(s side, starts bool) meeting {
	r, n := s, t.after(s)
	if starts {
		r, n = t.before(s), s
	}
	turn := math.Pi - interior(r, n)
	size := math.Abs(turn)
	o := t.seen(s, starts, turn)
	both := t.platedAtEnd(r) && t.platedAtStart(n)
	switch {
	case !both && turn > math.Pi/2: // a sharp corner of the slab
		return meeting{false, []half{o.inside(0)}}
	case !both || turn < -sharpest:
		return meeting{}
	case size < leastButt || size > mostButt:
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
	corner, along, inward vec
	width                 float64 // of its plate
}

func (t *site) seen(s side, starts bool, turn float64) neighbor {
	sin, cos := math.Sincos(turn)
	o := neighbor{corner: vec{float64(s.length), 0}, along: vec{cos, sin}}
	e := t.edge(t.after(s))
	if starts {
		o, e = neighbor{along: vec{cos, -sin}}, t.edge(t.before(s))
	}
	o.inward = vec{-o.along.y, o.along.x}
	o.width = float64(plateWidth(e.Wall))
	return o
}

// inside is what lies inward of the line at an inset from the wall's face.
func (o neighbor) inside(inset float64) half {
	return half{vec{o.corner.x + inset*o.inward.x, o.corner.y + inset*o.inward.y}, o.inward}
}

// outside is what lies outward of it.
func (o neighbor) outside(inset float64) half {
	h := o.inside(inset)
	h.in = vec{-o.inward.x, -o.inward.y}
	return h
}

// miter is what lies on the own side of the bisector of the corner.
func (o neighbor) miter(starts bool) half {
	x, y := 1+o.along.x, o.along.y
	h := math.Hypot(x, y)
	if !starts {
		h = -h
	}
	return half{o.corner, vec{x / h, y / h}}
}

// platedAtStart tells whether a plate reaches the corner where s starts: there is
// a wall and no opening.
func (t *site) platedAtStart(s side) bool {
	free := t.freeOfDoors(s, true)
	return t.edge(s).Wall != "" && len(free) > 0 && free[0].from == 0
}

func (t *site) platedAtEnd(s side) bool {
	free := t.freeOfDoors(s, true)
	return t.edge(s).Wall != "" && len(free) > 0 && free[len(free)-1].to == s.length
}

// leastPlate is the shortest piece that is cut by choice: common practice, no
// source.
const leastPlate = 4 * geometry.Foot

// cutPlate cuts a run of plate into pieces of at most the stock length.
func (t *site) cutPlate(run shape, s side) []Plate {
	lo, hi := run.extent()
	var out []Plate
	for _, p := range byStock(round(hi-lo), t.spec.Bolts.Stock, leastPlate, t.step()) {
		from, to := lo+float64(p.from), lo+float64(p.to)
		piece := run.keep(half{vec{from, 0}, vec{1, 0}}).keep(half{vec{to, 0}, vec{-1, 0}})
		plate := Plate{From: round(from), To: round(to)}
		plate.Outline = make([]geometry.Point, 0, len(piece))
		for _, v := range piece {
			plate.Outline = append(plate.Outline, s.at(round(v.x), round(v.y)))
		}
		out = append(out, plate)
	}
	return out
}

var rulePlates = Rule{"Plates clear of each other", "geometry"}

// checkPlates reports plates that lie on each other, as those of opposite walls
// where the slab is narrower than both.
func (t *site) checkPlates(walls []Wall) {
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
				on = append(on, vec{float64(q.X), float64(q.Y)})
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
			t.find(rulePlates, true, common.center(), "The plates of %s and %s lie on each other here.", a.wall.Name, b.wall.Name)
		}
	})
}

// byStock cuts a run into whole stock lengths and a rest of at least least, for
// which the piece before gives way.
func byStock(run, stock, least, grain geometry.Length) []interval {
	if stock <= 0 || run <= stock {
		return []interval{{0, run}}
	}
	var out []interval
	at := geometry.Length(0)
	for run-at > stock {
		end := at + stock
		if rest := run - end; rest < least && rest > 0 {
			end = max(at+stock/2, run-min(least, stock/2)).Round(grain)
		}
		out = append(out, interval{at, end})
		at = end
	}
	return append(out, interval{at, run})
}

// wallName counts A to Z, then AA, AB and on.
func wallName(i int) string {
	name := ""
	for i++; i > 0; i = (i - 1) / 26 {
		name = string(rune('A'+(i-1)%26)) + name
	}
	return "Wall " + name
}
