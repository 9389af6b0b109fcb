package layout

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/blockouts"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/construction"
	"haunchbook.example/geometry/layout/curbs"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/embeds"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/lines"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/layout/stakeout"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// Slab is one slab of a job to lay out.
type Slab struct {
	Name  string       // for people; "" where the job has but one
	Plan  plan.Plan    // sound, its outline counter-clockwise; its arcs are parted here
	Solid *solid.Solid // of the plan; nil where heights and depths beside the edges do not matter
	Curbs plan.Curbs   // on its edges
}

// Of places everything on the slabs of a job, by a sound specification, and
// makes the lists to cut from for all of them together. Marks are counted through
// all slabs. The same input gives the same layouts. The error is the context's.
func Of(ctx context.Context, slabs []Slab, s Spec) ([]Layout, Lists, error) {
	out := make([]Layout, len(slabs))
	seen := make([]*slab.Slab, len(slabs))
	plans := make([]plan.Plan, len(slabs))
	drawn := make([]plan.Plan, len(slabs))
	for k := range slabs {
		drawn[k], plans[k] = slabs[k].Plan, slabs[k].Plan.Chorded()
	}
	meetings := plan.Meetings(plans)
	for i := range meetings {
		settle(&meetings[i], plans, slabs)
	}
	work := make([]func(), len(slabs))
	var asDrawn []mark.Names
	if slices.ContainsFunc(drawn, plan.Plan.Curved) {
		asDrawn = mark.Of(drawn...)
	}
	for k, names := range mark.Of(plans...) {
		work[k] = func() {
			t := slab.New(slabs[k].Name, plans[k], slabs[k].Solid, s.Units, s.Concrete)
			t.Marks, t.Layers = names, s.Layers
			over := false // once seen it is not looked for again
			t.Stopped = func() bool {
				over = over || ctx.Err() != nil
				return over
			}
			t.Curbs = slabs[k].Curbs
			met := meetingsOf(k, meetings, slabs)
			for _, m := range met {
				t.Meetings = append(t.Meetings, m.Meeting)
			}
			t.Upstands = upstands(met, plans, slabs)
			seen[k], out[k] = t, one(ctx, t, s)
			out[k].Meetings = met
			if drawn[k].Curved() {
				out[k].asDrawn(plans[k])
				out[k].Marks = asDrawn[k]
			}
		}
	}
	if s.Each == nil {
		s.Each = func(all ...func()) {
			for _, f := range all {
				f()
			}
		}
	}
	if s.Each(work...); ctx.Err() != nil {
		return nil, Lists{}, ctx.Err()
	}
	count(out)
	cut := lists(ctx, seen, out, s)
	return out, cut, ctx.Err()
}

// meetingsOf gives the stretches at which a slab lies against others.
func meetingsOf(k int, all []plan.Meeting, slabs []Slab) (out []Meeting) {
	for _, m := range plan.OfSlab(all, k) {
		out = append(out, Meeting{Meeting: m, Name: slabs[m.Other].Name})
	}
	return out
}

// one places everything on one slab; nothing where the context ended.
func one(ctx context.Context, t *slab.Slab, s Spec) Layout {
	l := Layout{Marks: t.Marks, Curbs: t.Curbs}
	var met *bars.Segments
	around := blockouts.Around(t)
	l.Outs = around.Outs
	for _, place := range []func(){
		func() { l.Parts, l.Construction = construction.Lay(t) },
		func() {
			l.Bars, l.Laps = bars.Lay(t, s.Bars, s.Pads, s.Strips)
			if !t.Curbs.None() {
				in, laps := bars.InCurbs(t, s.Bars, s.Curbs)
				l.Bars, l.Laps = append(l.Bars, in...), append(l.Laps, laps...)
			}
			curbs.Check(t)
		},
		func() {
			within := field.Lay(around, s.Field, s.Bars, construction.Unbroken(around))
			l.Bars, l.Laps = append(l.Bars, construction.Stop(t, within.Bars, l.Construction)...), append(l.Laps, within.Laps...)
			l.Mesh, l.MeshCount, l.MeshOptimal, l.Chairs = within.Mesh, within.MeshCount, within.MeshOptimal, within.Chairs
		},
		func() {
			near := max(s.Dowels.Used().Length, max(s.Bolts.Offset, geometry.Foot)+s.Bolts.Hook+s.Bolts.Diameter)
			reached := l.Bars
			if len(t.Plan.Walls) == 0 {
				reached = bars.NearEdges(t, l.Bars, near)
			}
			met = bars.NewSegments(reached)
			l.Dowels = joints.Dowels(t, s.Dowels, met)
		},
		func() { l.SawCuts = curbs.Saw(t, construction.Saw(t, s.Cuts.Lay(around, s.SawCuts), l.Construction)) },
		func() { l.Walls = bolts.Lay(t, s.Bolts, met, sawn(l.SawCuts)) },
		func() {
			l.Forms = slices.Concat(forms.Lay(t, s.Forms), forms.Curbs(t, s.Forms), forms.Steps(t, s.Forms), forms.Bulkheads(t, s.Forms, bulkheads(l.Construction)), forms.BlockOuts(t, s.Forms))
		},
		func() { l.Walls = append(l.Walls, bolts.Within(t, s.Bolts, l.Walls, met, kept(l))...) },
		func() { construction.Check(t, l.Construction, l.Walls, s.Bolts.Diameter) },
		func() {
			l.LaidLines = lines.Lay(t)
			lines.Check(t, l.LaidLines, lines.Placed{Bars: l.Bars, Dowels: l.Dowels, Thick: s.Dowels.Used().Thick(), Walls: l.Walls, Bolts: s.Bolts, Cuts: l.SawCuts, Joints: l.Construction})
			embeds.Check(t, embeds.Placed{Bars: l.Bars, Dowels: l.Dowels, Thick: s.Dowels.Used().Thick(), Walls: l.Walls, Diameter: s.Bolts.Diameter, Cuts: l.SawCuts})
		},
		func() {
			l.Isolation, l.StakeOut = append(joints.Isolate(t, s.Dowels), blockouts.Isolate(t)...), stakeout.Of(t, s.StakeOut)
			blockouts.Check(t, blockouts.Placed{Bars: l.Bars, Dowels: l.Dowels, Walls: l.Walls})
			blockouts.Told(t, around)
		},
	} {
		if ctx.Err() != nil {
			return Layout{}
		}
		place()
	}
	l.Findings = rule.Once(t.Findings)
	for i := range l.Findings {
		f := &l.Findings[i]
		if f.Text += also(t, f.Also); t.Name != "" {
			f.Text = t.Name + ": " + f.Text
		}
	}
	return l
}

// sawn gives saw cuts as lines that bolts are kept off.
func sawn(cuts []sawcuts.Cut) (out []bolts.Line) {
	for _, c := range cuts {
		out = append(out, bolts.Line{A: c.A, B: c.B})
	}
	return out
}

// kept gives what bolts of walls within the slab are kept off.
func kept(l Layout) []bolts.Line {
	out := sawn(l.SawCuts)
	for _, j := range l.Construction {
		for _, f := range j.Lines {
			out = append(out, bolts.Line{A: f.A, B: f.B})
		}
	}
	return out
}

// bulkheads gives what of construction joints is formed.
func bulkheads(joints []construction.Joint) (out []forms.Bulkhead) {
	for _, j := range joints {
		for _, l := range j.Lines {
			out = append(out, forms.Bulkhead{Joint: j.Index, A: l.A, B: l.B})
		}
	}
	return out
}

// mostPlaces is how many other places of a finding are told.
const mostPlaces = 4

// also tells the other places of a finding, as they are measured on the ground.
func also(t *slab.Slab, at []geometry.Point) string {
	if len(at) == 0 {
		return ""
	}
	var places []string
	datum := t.Plan.Datum()
	for _, p := range at[:min(len(at), mostPlaces)] {
		q := datum.Of(p)
		places = append(places, fmt.Sprintf("%s along side %s and %s off it", t.Text(q.X.Round(t.Step())), datum.Side(), t.Text(q.Y.Round(t.Step()))))
	}
	if more := len(at) - len(places); more > 0 {
		places = append(places, fmt.Sprintf("%d more places", more))
	}
	return " Also at " + strings.Join(places, "; ") + "."
}

// count marks what is placed on all slabs.
func count(ls []Layout) {
	last := map[mark.Kind]int{}
	next := func(k mark.Kind) mark.Mark {
		last[k]++
		return mark.Mark{Kind: k, N: last[k]}
	}
	var all []*bars.Bar
	for _, l := range ls {
		all = slices.Grow(all, len(l.Bars))
		for i := range l.Bars {
			all = append(all, &l.Bars[i])
		}
		for _, w := range l.Walls {
			for i := range w.Bolts {
				w.Bolts[i].Mark = next(mark.Bolt)
			}
		}
		for i := range l.SawCuts {
			l.SawCuts[i].Mark = next(mark.SawCut)
		}
		for i := range l.Forms {
			l.Forms[i].Mark = next(mark.Form)
		}
	}
	bars.Number(all)
}

// DowelMark is what dowels are called among the bars to cut: they are all alike.
var DowelMark = mark.Mark{Kind: mark.Dowel, N: 1}

// wooden gives a length of a board or plate as it is cut: as it is printed, so that a
// piece has one, and no longer than its stock.
func (s Spec) wooden(l, stock geometry.Length) geometry.Length {
	step := geometry.Sixteenth
	if s.Units == geometry.Millimeters {
		step = geometry.Millimeter
	}
	return min(stock, l.Round(step))
}

// lists makes the lists to cut from.
func lists(ctx context.Context, seen []*slab.Slab, ls []Layout, s Spec) Lists {
	if len(seen) == 0 {
		return Lists{}
	}
	bars, boards, plates := make([][]cutlist.Wanted, len(ls)), make([][]cutlist.Wanted, len(ls)), make([][]cutlist.Wanted, len(ls))
	for k, l := range ls {
		bars[k], boards[k], plates[k] = barsToCut(l, s), boardsToCut(l, s), platesToCut(l, s)
	}
	c := cutlist.Cutter{At: seen[0].Home(), Units: s.Units}
	var out Lists
	for _, list := range []func(){
		func() { out.Cuts = c.Together(bars, s.Bars.Stock, s.Bars.Yard, s.Bars.Size, s.Bars.Kerf) },
		func() { out.Lumber = c.Together(boards, s.Forms.Stock, nil, 0, 0) },
		func() { out.Plates = c.Together(plates, []geometry.Length{s.Bolts.Stock}, nil, 0, 0) },
	} {
		if list(); ctx.Err() != nil {
			return Lists{}
		}
	}
	out.Findings = rule.Once(c.Findings)
	return out
}

// barsToCut gives the bars and dowels to cut for a slab.
func barsToCut(l Layout, s Spec) []cutlist.Wanted {
	var out []cutlist.Wanted
	of, last := map[mark.Mark]int{}, 0 // by mark: alike in size and length
	for i := range l.Bars {
		b := &l.Bars[i]
		if i > 0 && b.Mark == l.Bars[i-1].Mark {
			out[last].Count++
			continue
		}
		k, ok := of[b.Mark]
		if !ok {
			k = len(out)
			of[b.Mark] = k
			out = append(out, cutlist.Wanted{Name: b.Size.String(), Size: b.Size, Count: 0, Piece: cutlist.Piece{Mark: b.Mark, Length: b.Cut}})
		}
		out[k].Count++
		last = k
	}
	if n, d := len(l.Dowels), s.Dowels; n > 0 && d.Kind == joints.Tied {
		out = append(out, cutlist.Wanted{Name: d.Size.String(), Size: d.Size, Count: n, Piece: cutlist.Piece{Mark: DowelMark, Length: d.Length}})
	}
	return out
}

// boardsToCut gives the form boards to cut for a slab.
func boardsToCut(l Layout, s Spec) []cutlist.Wanted {
	var out []cutlist.Wanted
	longest := slices.Max(s.Forms.Stock)
	for _, f := range l.Forms {
		for i, b := range f.Boards {
			out = append(out, cutlist.Wanted{Name: f.Board.Name, Count: 1, Piece: cutlist.Piece{Mark: f.Mark.Piece(i + 1), Length: s.wooden(b, longest)}})
		}
	}
	return out
}

// platesToCut gives the pieces of sill plate to cut for a slab.
func platesToCut(l Layout, s Spec) []cutlist.Wanted {
	var out []cutlist.Wanted
	for _, w := range l.Walls {
		for i, p := range w.Pieces {
			out = append(out, cutlist.Wanted{Name: w.Plate.Name, Count: 1, Piece: cutlist.Piece{Mark: w.Mark.Piece(i + 1), Length: s.wooden(p.To-p.From, s.Bolts.Stock)}})
		}
	}
	return out
}
