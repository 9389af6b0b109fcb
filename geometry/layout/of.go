package layout

import (
	"slices"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// Slab is one slab of a job to lay out.
type Slab struct {
	Name  string       // for people; "" where the job has but one
	Plan  plan.Plan    // sound, its outline counter-clockwise
	Solid *solid.Solid // of the plan; nil where heights and depths beside the edges do not matter
}

// Of places everything on the slabs of a job, by a sound specification, and
// makes the lists to cut from for all of them together. Marks of bars and bolts
// and names of walls are counted through all slabs. The same input gives the
// same layouts.
func Of(slabs []Slab, s Spec) ([]Layout, Lists) {
	out := make([]Layout, len(slabs))
	sites := make([]*site, len(slabs))
	walls := 0
	for k, slab := range slabs {
		sites[k] = newSite(slab.Plan, s, slab.Solid)
		sites[k].name, sites[k].wallsBefore = slab.Name, walls
		out[k] = sites[k].layout()
		walls += len(out[k].Walls)
	}
	count(out)
	return out, lists(sites, out)
}

// layout places everything on one slab.
func (t *site) layout() Layout {
	var l Layout
	l.Bars = t.edgeBars()
	l.Bars = append(l.Bars, t.padBars()...)
	l.Bars = append(l.Bars, t.stripBars()...)
	t.field(&l)
	l.Laps = t.laps
	met := newSegments(t.nearEdges(l.Bars))
	l.Dowels = t.dowels(met)
	l.Walls = t.walls()
	t.bolts(l.Walls)
	t.hits(l.Walls, met)
	l.Forms = t.forms()
	l.SawCuts = t.sawCuts()
	l.Isolation = t.isolation()
	l.Diagonals = t.diagonals()
	l.Squares = t.squares()
	l.Lines = t.lines()
	l.Grades = t.grades()
	for i := range t.findings {
		if t.name != "" {
			t.findings[i].Text = t.name + ": " + t.findings[i].Text
		}
	}
	l.Findings = t.findings
	return l
}

// count marks the bars and bolts of all slabs.
func count(ls []Layout) {
	n, bolts := 0, 0
	for _, l := range ls {
		n += len(l.Bars)
	}
	bars := make([]*Bar, 0, n)
	for _, l := range ls {
		for i := range l.Bars {
			bars = append(bars, &l.Bars[i])
		}
		for _, w := range l.Walls {
			for i := range w.Bolts {
				bolts++
				w.Bolts[i].Mark = bolts
			}
		}
	}
	mark(bars)
}

// boardStep is what lengths of boards are rounded up to on their cut lists.
func (s Spec) boardStep() geometry.Length {
	if s.Units == geometry.Millimeters {
		return geometry.Millimeter
	}
	return geometry.Inch / 8
}

// lists makes the lists to cut from.
func lists(sites []*site, ls []Layout) Lists {
	if len(sites) == 0 {
		return Lists{}
	}
	bars, boards, plates := make([][]wanted, len(ls)), make([][]wanted, len(ls)), make([][]wanted, len(ls))
	for k, l := range ls {
		t := sites[k]
		bars[k], boards[k], plates[k] = t.bars(l), t.boards(l), t.plates(l)
	}
	t, spec := sites[0], sites[0].spec
	t.findings = nil // those of the layout are taken
	out := Lists{
		Cuts:   t.cutTogether(bars, spec.Bars.Stock, spec.Bars.Yard, spec.Bars.Size, spec.Bars.Kerf),
		Lumber: t.cutTogether(boards, spec.Forms.Stock, nil, 0, 0),
		Plates: t.cutTogether(plates, []geometry.Length{spec.Bolts.Stock}, nil, 0, 0),
	}
	out.Findings = t.findings
	return out
}

// bars gives the bars and dowels to cut for a slab.
func (t *site) bars(l Layout) []wanted {
	var out []wanted
	of, last := map[string]int{}, 0 // by mark: alike in size and length
	for i := range l.Bars {
		b := &l.Bars[i]
		if i > 0 && b.Mark == l.Bars[i-1].Mark {
			out[last].count++
			continue
		}
		k, ok := of[b.Mark]
		if !ok {
			k = len(out)
			of[b.Mark] = k
			out = append(out, wanted{barName(b.Size), b.Size, 0, Piece{b.Mark, b.Cut}})
		}
		out[k].count++
		last = k
	}
	if n, d := len(l.Dowels), t.spec.Dowels; n > 0 {
		out = append(out, wanted{barName(d.Size), d.Size, n, Piece{"D1", d.Length}})
	}
	return out
}

// boards gives the form boards to cut for a slab.
func (t *site) boards(l Layout) []wanted {
	var out []wanted
	most, step, slab := slices.Max(t.spec.Forms.Stock), t.spec.boardStep(), ""
	if t.name != "" {
		slab = t.name + ", "
	}
	for _, f := range l.Forms {
		edge := slab + t.sides[f.Loop][f.Edge].name() + "."
		for i, b := range f.Boards {
			out = append(out, wanted{name: f.Board, count: 1, Piece: Piece{edge + strconv.Itoa(i+1), min(most, roundUp(b, step))}})
		}
	}
	return out
}

// plates gives the pieces of sill plate to cut for a slab.
func (t *site) plates(l Layout) []wanted {
	var out []wanted
	for _, w := range l.Walls {
		for i, p := range w.Pieces {
			out = append(out, wanted{name: w.Plate, count: 1, Piece: Piece{w.Name + "." + strconv.Itoa(i+1), min(t.spec.Bolts.Stock, roundUp(p.To-p.From, t.spec.boardStep()))}})
		}
	}
	return out
}
