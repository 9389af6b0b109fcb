package layout

import (
	"math"

	"haunchbook/geometry"
	"haunchbook/geometry/lumber"
)

// plateWidth gives the dressed width of a plate, 0 for an unknown one.
func plateWidth(name string) geometry.Length {
	b, _ := lumber.Named(name)
	return b.Width
}

// walls gives the walls with their plates: cut at rough openings, at stock
// lengths, and where they meet at corners.
func (t *site) walls() []Wall {
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
	ends := []meeting{t.meetingAtStart(s), t.meetingAtEnd(s)}
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
// that runs through and one that butts against it; others are mitred. Beyond
// sharpest, plates at an inside corner do not meet. Common practice, no source.
const (
	leastButt = math.Pi / 3
	mostButt  = 2 * math.Pi / 3
)

// meetingAtEnd gives how the plate on s ends at its end corner. It runs through:
// at an outside corner to the face of the next wall, at an inside one past the
// corner to the inner line of the next plate.
func (t *site) meetingAtEnd(s side) meeting {
	n := t.after(s)
	turn := math.Pi - interior(s, n)
	sin, cos := math.Sincos(turn)
	along, inward := vec{cos, sin}, vec{-sin, cos} // of the next edge, seen from this one
	corner := vec{float64(s.length), 0}
	other := float64(plateWidth(t.edge(n).Wall))
	return t.meeting(turn, t.platedAtEnd(s) && t.platedAtStart(n), half{corner, inward}, [2]half{
		{corner, inward},
		{vec{corner.x + other*inward.x, other * inward.y}, vec{-inward.x, -inward.y}},
	}, half{corner, unit(vec{-1 - along.x, -along.y})})
}

// meetingAtStart gives how the plate on s starts at its start corner. It butts
// against the one that runs through: at an outside corner against its inner
// line, at an inside one against its outer line.
func (t *site) meetingAtStart(s side) meeting {
	r := t.before(s)
	turn := math.Pi - interior(r, s)
	sin, cos := math.Sincos(turn)
	along, inward := vec{cos, -sin}, vec{sin, cos} // of the edge before, seen from this one
	other := float64(plateWidth(t.edge(r).Wall))
	return t.meeting(turn, t.platedAtEnd(r) && t.platedAtStart(s), half{vec{}, inward}, [2]half{
		{vec{other * inward.x, other * inward.y}, inward},
		{vec{}, vec{-inward.x, -inward.y}},
	}, half{vec{}, unit(vec{1 + along.x, along.y})})
}

func unit(v vec) vec {
	h := math.Hypot(v.x, v.y)
	return vec{v.x / h, v.y / h}
}

// meeting chooses how a plate ends at a corner: face keeps it within the face of
// the other wall, butt[0] and butt[1] are its end at an outside and at an inside
// corner, and mitre is the bisector.
func (t *site) meeting(turn float64, both bool, face half, butt [2]half, mitre half) meeting {
	size := math.Abs(turn)
	switch {
	case !both && turn > math.Pi/2: // a sharp corner of the slab
		return meeting{cuts: []half{face}}
	case !both || turn < -sharpest:
		return meeting{}
	case size < leastButt || size > mostButt:
		return meeting{true, []half{mitre}}
	case turn > 0:
		return meeting{true, []half{butt[0]}}
	}
	return meeting{true, []half{butt[1]}}
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
	var all []piece
	var boxes []geometry.Box
	for i := range walls {
		for _, p := range walls[i].Pieces {
			var on shape
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
			t.find(rulePlates, true, common.centre(), "The plates of %s and %s lie on each other here.", a.wall.Name, b.wall.Name)
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
