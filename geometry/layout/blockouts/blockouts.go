// Package blockouts keeps a slab off the columns that stand on its pads: what is left open
// round each when the slab is poured, the slab as it lies then, and what meets it. ACI 302.1R,
// from memory: isolation joints at columns are square, turned by 45°, or round.
package blockouts

import (
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

var (
	rulePad  = rule.Rule{Name: "Block-outs isolate the whole pad", Source: "ACI 302.1R, from memory", Step: rule.Forms}
	ruleBars = rule.Rule{Name: "Bars clear of block-outs", Source: "geometry", Step: rule.Steel}
	ruleBolt = rule.Rule{Name: "Bolts and dowels clear of block-outs", Source: "geometry"}
)

// Around gives a slab as it is poured, with its block-outs as holes, for what is laid and sawn
// round them: the slab itself where it has none. What is found there is to be told of the slab:
// see Told.
func Around(t *slab.Slab) *slab.Slab {
	outs := t.Plan.BlockOuts()
	if len(outs) == 0 {
		return t
	}
	p := t.Plan.Open()
	p.Pads = slices.Clone(p.Pads)
	for _, b := range slices.Backward(outs) { // a cut may run over the middle of one that is isolated
		p.Pads = slices.Delete(p.Pads, b.Pad, b.Pad+1)
	}
	out := slab.New(t.Name, p, t.Solid, t.Units, t.Concrete)
	out.Layers, out.Marks, out.Meetings, out.Stopped, out.Outs = t.Layers, t.Marks, t.Meetings, t.Stopped, outs
	return out
}

// Told moves what was found round the block-outs to the slab.
func Told(t, around *slab.Slab) {
	if t != around {
		t.Findings = append(t.Findings, around.Findings...)
		around.Findings = nil
	}
}

// Isolate gives the strips of joint filler that line the block-outs.
func Isolate(t *slab.Slab) (out []joints.Isolation) {
	for _, b := range t.Plan.BlockOuts() {
		ring := b.Ring()
		for i, p := range ring {
			out = append(out, joints.Isolation{Loop: -1, Edge: -1, Pad: b.Pad + 1, A: p, B: ring[(i+1)%len(ring)], Depth: t.Plan.Field})
		}
	}
	return out
}

// Placed is what lies in the slab besides.
type Placed struct {
	Bars   []bars.Bar
	Dowels []joints.Dowel
	Walls  []bolts.Wall
}

// Check reports block-outs that do not isolate the pad under them, and what runs into one.
func Check(t *slab.Slab, p Placed) {
	for _, b := range t.Plan.BlockOuts() {
		o := out{t, b, plane.Region{b.Ring()}, plane.BoxOf(b.Ring()...), t.Marks.Pad(b.Pad).String()}
		o.pad()
		o.bars(p.Bars)
		for _, w := range p.Walls {
			for _, bolt := range w.Bolts {
				if o.within.Contains(bolt.At) {
					t.Find(ruleBolt, rule.Limit, bolt.At, "%s: the bolt at %s stands in the block-out round %s.", w.Name(), t.Text(bolt.Along), o.name)
				}
			}
		}
		for _, d := range p.Dowels {
			if o.meets(d.Outer, d.Inner) {
				t.Find(ruleBolt, rule.Limit, d.At, "The dowel at %s on %s runs into the block-out round %s.", t.Text(d.Along), t.SideName(t.Sides[0][d.Edge]), o.name)
			}
		}
	}
}

// out is a block-out that is looked at.
type out struct {
	*slab.Slab
	plan.BlockOut
	within plane.Region
	box    plane.Box
	name   string
}

// pad reports a pad that sticks out from under its block-out: the slab is bound to it there.
func (o *out) pad() {
	asks := o.Plan.Pads[o.Pad].Around(o.Shape)
	const hair = 1000 // nanometers: corners are rounded
	if asks > o.Size+hair {
		o.Find(rulePad, rule.Note, o.Center, "The pad %s reaches beyond the block-out round its column, which is %s across: there the slab is bound to it. Make the block-out %s across, or the pad smaller.", o.name, o.Text(o.Size), o.Text((asks+o.Step()-1)/o.Step()*o.Step()))
	}
}

// bars reports bars that run into the block-out, but those of the pad itself.
func (o *out) bars(all []bars.Bar) {
	n := 0
	var at geometry.Point
	for i := range all {
		b := &all[i]
		if b.Of == (bars.Part{Kind: bars.InPad, N: o.Pad}) {
			continue
		}
		for k := 1; k < len(b.Path); k++ {
			if o.meets(b.Path[k-1], b.Path[k]) {
				if n == 0 {
					at = o.Center
				}
				n++
				break
			}
		}
	}
	if n > 0 {
		o.Find(ruleBars, rule.Limit, at, "Bars run into the block-out round %s: %d. Make it smaller, move the pad, or cut them and lay as many beside it.", o.name, n)
	}
}

// meets tells whether any of a segment lies in the block-out.
func (o *out) meets(a, b geometry.Point) bool {
	if !o.box.Overlaps(plane.BoxOf(a, b)) {
		return false
	}
	if o.within.Contains(a) || o.within.Contains(b) {
		return true
	}
	ring := o.within[0]
	for i, p := range ring {
		if _, ok := geometry.Meet(a, b, p, ring[(i+1)%len(ring)]); ok {
			return true
		}
	}
	return false
}
