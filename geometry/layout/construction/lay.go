package construction

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

const (
	inch = geometry.Inch
	mm   = geometry.Millimeter
)

var (
	ruleParts = rule.Rule{Name: "Construction joints part the slab", Source: "geometry", Step: rule.Forms}
	ruleKey   = rule.Rule{Name: "Keyed joints in thick slabs", Source: "ACI 302.1R: not in slabs under 6 in, from memory", Step: rule.Forms}
	ruleThin  = rule.Rule{Name: "Smooth dowels fit the slab", Source: "an eighth of its thickness: AASHTO, from memory", Step: rule.Forms}
)

// Joint is a construction joint as it is made.
type Joint struct {
	Index  int // among the plan's
	Kind   plan.ConstructionKind
	Lines  []Line
	Length geometry.Length // of all its lines
	Face   float64         // m² of concrete against it
	Dowels []Dowel
	Bar    Bar // that its dowels are; the zero Bar of one without
	Key    Key // of a keyed one
}

// Dowel is a smooth dowel across a joint.
type Dowel struct {
	Line  int // among the joint's, from 0
	Along geometry.Length
	A, B  geometry.Point  // its ends, the one in the first pour first
	Depth geometry.Length // of its middle below the top
}

// Bar is what the dowels of a joint are.
type Bar struct{ Diameter, Length, Spacing geometry.Length }

// Key is the key of a keyed joint, in the middle of its face.
type Key struct {
	High, Deep geometry.Length // at its mouth; into the face
	Bevel      geometry.Length // by which each of its sides narrows inward, so that the strip comes off
}

// smooth are the smooth round dowels of ACI 302.1R by the slab's thickness, from memory; for
// slabs under 5 in an eighth of the thickness, of the same length in diameters.
var smooth = map[geometry.Units][]struct {
	slab geometry.Length // up to
	bar  Bar
}{
	geometry.FeetInches: {
		{5*inch - 1, Bar{inch / 2, 12 * inch, 12 * inch}}, {7*inch - 1, Bar{3 * inch / 4, 16 * inch, 12 * inch}},
		{9*inch - 1, Bar{inch, 18 * inch, 12 * inch}}, {geometry.MaxLength, Bar{5 * inch / 4, 18 * inch, 12 * inch}},
	},
	geometry.Millimeters: {
		{125*mm - 1, Bar{12 * mm, 300 * mm, 300 * mm}}, {175*mm - 1, Bar{20 * mm, 400 * mm, 300 * mm}},
		{225*mm - 1, Bar{25 * mm, 450 * mm, 300 * mm}}, {geometry.MaxLength, Bar{32 * mm, 450 * mm, 300 * mm}},
	},
}

// BarOf gives the dowels of a joint through a slab: what it says, else what is usual.
func BarOf(c plan.Construction, field geometry.Length, u geometry.Units) Bar {
	var bar Bar
	for _, s := range smooth[u] {
		if field <= s.slab {
			bar = s.bar
			break
		}
	}
	if c.Diameter > 0 {
		bar.Diameter = c.Diameter
	}
	if c.Length > 0 {
		bar.Length = c.Length
	}
	if c.Spacing > 0 {
		bar.Spacing = c.Spacing
	}
	return bar
}

// KeyOf gives the key of a slab: a quarter of its thickness high and a tenth deep, at least
// 3/4 in (a handbook of floors on ground, from memory). Its sides are beveled 1 in 4: common
// practice, no source.
func KeyOf(field geometry.Length, u geometry.Units) Key {
	grain, fine := inch/4, geometry.Sixteenth
	if u == geometry.Millimeters {
		grain, fine = 5*mm, mm
	}
	k := Key{High: (field / 4).Round(grain), Deep: max(3*grain, (field / 10).Round(grain))}
	k.Bevel = (k.Deep / 4).Round(fine)
	return k
}

// end is how far the first dowel lies off the slab's edge: half the usual spacing, common
// practice, no source.
const end = 6 * inch

// Lay divides a slab and places what its construction joints need.
func Lay(t *slab.Slab) ([]Part, []Joint) {
	d := Divide(t.Plan)
	for _, k := range d.Idle {
		c := t.Plan.Construction[k]
		t.Find(ruleParts, rule.Severe, c.From, "The construction joint %s divides nothing: draw it right across the slab, from edge to edge or to another joint.", t.Marks.Construction(k))
	}
	var out []Joint
	for k, c := range t.Plan.Construction {
		j := Joint{Index: k, Kind: c.Kind}
		for _, l := range d.Lines {
			if l.Joint == k {
				j.Lines = append(j.Lines, l)
				j.Length += l.Length()
				j.Face += face(t, l)
			}
		}
		if len(j.Lines) == 0 {
			continue
		}
		name := t.Marks.Construction(k)
		switch c.Kind {
		case plan.Keyed:
			j.Key = KeyOf(t.Plan.Field, t.Units)
			if t.Plan.Field < 6*inch {
				t.Find(ruleKey, rule.Note, j.Lines[0].A, "The construction joint %s is keyed in a slab of %s: the thin lips of a key break; dowels, or steel that goes through, hold such a slab level.", name, t.Text(t.Plan.Field))
			}
		case plan.Doweled:
			j.Bar = BarOf(c, t.Plan.Field, t.Units)
			if 8*j.Bar.Diameter > t.Plan.Field && c.Diameter > 0 {
				t.Find(ruleThin, rule.Limit, j.Lines[0].A, "The dowels of the construction joint %s, %s, are thicker than an eighth of the slab, %s: take thinner ones.", name, t.Text(j.Bar.Diameter), t.Text(t.Plan.Field))
			}
			for i, l := range j.Lines {
				j.Dowels = append(j.Dowels, dowels(t, i, l, j.Bar)...)
			}
		}
		out = append(out, j)
	}
	return d.Parts, out
}

// dowels places the dowels of one stretch: even, clear of its ends, in the middle of the
// field's thickness.
func dowels(t *slab.Slab, i int, l Line, bar Bar) []Dowel {
	s := slab.NewSide(-1, -1, l.A, l.B)
	if s.Length < 2*end || !t.Fits("Dowels", s.Length, bar.Spacing) {
		return nil
	}
	var out []Dowel
	for _, along := range slab.Evenly(end, s.Length-end, bar.Spacing, t.Step()) {
		out = append(out, Dowel{i, along, s.At(along, bar.Length/2), s.At(along, -bar.Length/2), t.Plan.Field / 2})
	}
	return out
}

// face gives the area of concrete against a stretch of a joint, in m².
func face(t *slab.Slab, l Line) (sum float64) {
	if t.Solid == nil {
		return l.Length().Meters() * t.Plan.Field.Meters()
	}
	for _, p := range t.Solid.Cut(l.A, l.B) {
		sum += (p.To - p.From).Meters() * (p.Start + p.End).Meters() / 2
	}
	return sum
}

// stopCover is how far bars that stop at a joint end off its face: ACI 318-19 20.5.1.3 has
// 1 1/2 in where no earth is; 2 in is common practice.
const stopCover = 2 * inch

// leastBar is the shortest piece of a bar that is laid.
const leastBar = geometry.Foot

// Stop cuts the straight bars of the field at the joints where they are to stop.
func Stop(t *slab.Slab, all []bars.Bar, joints []Joint) []bars.Bar {
	for _, j := range joints {
		if !t.Plan.Construction[j.Index].Stops() {
			continue
		}
		for _, l := range j.Lines {
			var out []bars.Bar
			for _, b := range all {
				if b.Of.Kind != bars.FieldGrid || len(b.Path) != 2 {
					out = append(out, b)
					continue
				}
				out = append(out, parted(t, b, l)...)
			}
			all = out
		}
	}
	return all
}

// parted gives what a joint leaves of a bar.
func parted(t *slab.Slab, b bars.Bar, l Line) []bars.Bar {
	s := slab.NewSide(-1, -1, l.A, l.B)
	keep := stopCover + b.Size.Diameter()/2
	p, q := b.Path[0], b.Path[1]
	along1, off1 := s.Project(p)
	along2, off2 := s.Project(q)
	long := geometry.Distance(p, q)
	if long == 0 || max(along1, along2) < 0 || min(along1, along2) > s.Length || min(off1, off2) >= keep || max(off1, off2) <= -keep {
		return []bars.Bar{b}
	}
	if rise := (off2 - off1).Abs(); rise < 2*keep && rise*4 < long { // it runs along the joint, beside its face
		return []bars.Bar{b}
	}
	share := float64(off1) / float64(off1-off2)
	if at := float64(along1) + share*float64(along2-along1); at < 0 || at > float64(s.Length) {
		return []bars.Bar{b}
	}
	gap := float64(keep) * float64(long) / float64((off2 - off1).Abs())
	cross := share * float64(long)
	var out []bars.Bar
	for _, piece := range [...]plane.Stretch{{From: 0, To: geometry.Rounded(cross - gap)}, {From: geometry.Rounded(cross + gap), To: long}} {
		step := t.CutStep()
		cut := min(piece.To, long) - max(piece.From, 0)
		cut -= cut % step // as it is cut; the rest is more cover
		if cut < leastBar {
			continue
		}
		one := b
		one.Cut = cut
		if piece.From <= 0 {
			one.Path = []geometry.Point{p, geometry.Along(p, q, cut)}
		} else {
			one.Path = []geometry.Point{geometry.Along(q, p, cut), q}
		}
		out = append(out, one)
	}
	return out
}
