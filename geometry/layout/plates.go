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

// walls gives the walls with their plates: cut at rough openings and at stock
// lengths. Where two walls meet at an outside corner, the plate of the edge that
// ends there runs through and the next one butts against it.
func (t *site) walls() []Wall {
	var out []Wall
	for _, l := range t.sides {
		for _, s := range l {
			e := t.edge(s)
			if e.Wall == "" {
				continue
			}
			w := Wall{Loop: s.loop, Edge: s.edge, Plate: e.Wall, Name: wallName(t.wallsBefore + len(out)), Length: s.length}
			from := t.butt(s)
			for _, free := range t.freeOfDoors(s, true) {
				if free.from > 0 {
					free.from += t.spec.Bolts.Jamb
				}
				if free.to < s.length {
					free.to -= t.spec.Bolts.Jamb
				}
				free.from = max(free.from, from)
				if free.to > free.from {
					w.Pieces = append(w.Pieces, t.cutPlate(free)...)
				}
			}
			out = append(out, w)
		}
	}
	return out
}

// butt gives where the plate on s starts: at the corner, or clear of a plate
// that runs through there.
func (t *site) butt(s side) geometry.Length {
	r := t.before(s)
	angle := interior(r, s)
	wide := plateWidth(t.edge(r).Wall)
	if wide == 0 || !outside(angle) || math.Sin(angle) < 0.1 {
		return 0
	}
	own := float64(plateWidth(t.edge(s).Wall))
	face := float64(wide) / math.Sin(angle)
	return min(s.length, round(max(face, face+own/math.Tan(angle))))
}

// leastPlate is the shortest piece that is cut by choice: common practice, no
// source.
const leastPlate = 4 * geometry.Foot

// cutPlate cuts a stretch into pieces of at most the stock length.
func (t *site) cutPlate(free interval) []Plate {
	stock := t.spec.Bolts.Stock
	var out []Plate
	for _, p := range byStock(free.to-free.from, stock, leastPlate, t.step()) {
		out = append(out, Plate{free.from + p.from, free.from + p.to})
	}
	return out
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
