package solid

import (
	"fmt"
	"math"
	"sync"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Solid is the concrete of one plan. Its methods may be called from several
// goroutines at once.
type Solid struct {
	Volume    float64         // m³ in the slab: no waste
	Area      float64         // m² of the slab in plan, holes out
	Perimeter geometry.Length // of the outline
	Parts     []Part          // they add up to Volume
	Naive     float64         // m³: field plus length times section, corners ignored

	plan   plan.Plan
	region *region
	field  float64
	faces  []piece // the thickenings where they are deepest; elsewhere is field
	parts  []Part  // by feature
	once   sync.Once
	index  *plane.Index // of the faces
	lips   []piece
	top    *top

	setOut  sync.Once
	surface Surface

	fine *Solid // of a plan with arcs: by finer chords, for what is added up; nil of another
}

// Part is one summand of the volume.
type Part struct {
	Kind       Kind
	Loop, Edge int     // of an edge's part, as plan.Loops numbers them where it is drawn; else -1
	Arc        bool    // of an edge that is an arc
	Span       int     // of the edge's spans, of the pads or of the strips
	Length     float64 // m, of a haunch, strip or lip
	Section    float64 // m², the section's area beyond the field
	Volume     float64 // m³; negative where it is given back
}

// Kind tells what a part is.
type Kind uint8

const (
	Field     Kind = iota // field thickness over the slab's area
	Haunch                // an edge's length times its section beyond the field
	RunOut                // the ramp of a section at a door jamb
	PadPart               // a pad beyond the field
	StripPart             // a strip beyond the field
	Fill                  // what the haunches run on to the miters of inside corners
	Outside               // what of the thickenings would lie off the slab; negative
	Overlap               // where thickenings overlap, counted once; negative
	Wedge                 // level ground under a falling top
	LipPart               // the lowered top under a door; negative
)

// String names the kind for people.
func (k Kind) String() string {
	return [...]string{"Field", "Haunch", "Run-out", "Pad", "Strip", "Inside corners",
		"Off the slab", "Overlaps given back", "Wedge under the fall", "Door lip"}[k]
}

// Of computes the solid of a plan whose outline runs counter-clockwise, as
// plan.Oriented gives it. The error is a plan.Faults.
func Of(p plan.Plan) (*Solid, error) {
	if faults := p.Validate(geometry.FeetInches); len(faults) > 0 {
		return nil, faults
	}
	return OfSound(p), nil
}

// OfSound is Of for a plan that plan.Validate is known to pass, without looking
// again. It must not be given any other.
//
// Of a plan with arcs, what is added up is that of chords which enclose the arcs' very areas,
// as fine as plan.Even makes them; what is looked at place by place, and drawn, is that of
// chords within a sixteenth of an inch.
func OfSound(p plan.Plan) *Solid {
	if !p.Curved() {
		return of(p)
	}
	s, fine := of(p.Chorded()), of(p.Even())
	s.Volume, s.Area, s.Perimeter, s.Parts, s.Naive, s.fine = fine.Volume, fine.Area, p.Outline.Perimeter(), fine.Parts, fine.Naive, fine
	return s
}

// of gives the solid of a plan without arcs.
func of(p plan.Plan) *Solid {
	b := builder{plan: p, field: p.Field.Meters()}
	b.sweep.region = newRegion(p)
	n := len(b.sweep.region.sides)
	b.features = make([]feature, 0, n+len(p.Pads)+2*len(p.Strips))
	b.pieces = make([]piece, 0, 2*n)
	b.edges()
	b.pads()
	b.strips()
	s := &Solid{plan: p, region: b.sweep.region, field: b.field}
	s.faces = envelope(b.pieces, &b.mem)
	for _, f := range s.faces {
		b.features[f.feature].surviving += plane.Integral(f.poly, f.depth.Plus(-b.field))
	}
	s.top = newTop(p.Top, s.region)
	s.lips = lips(p, b.sweep.region)
	s.sum(&b)
	return s
}

// sum adds up the parts.
func (s *Solid) sum(b *builder) {
	s.Perimeter = s.plan.Outline.Perimeter()
	s.Area = s.region.integrate(nil, plane.Linear{C: 1})
	none := func(k Kind, volume float64) Part { return Part{Kind: k, Loop: -1, Edge: -1, Volume: volume} }
	field := none(Field, s.Area*s.field)
	field.Section = s.Area
	s.Parts = append(make([]Part, 0, len(b.features)+6), field)
	s.parts = make([]Part, len(b.features))
	var fill, outside, overlap float64
	for i, f := range b.features {
		f.part.Volume = f.naive
		s.parts[i] = f.part
		if last := &s.Parts[len(s.Parts)-1]; f.part.Kind == StripPart && last.Kind == StripPart && last.Span == f.part.Span || alike(*last, f.part) {
			last.Volume += f.naive
			last.Length += f.part.Length
		} else {
			s.Parts = append(s.Parts, f.part)
		}
		fill += f.fill
		outside += f.clipped - f.fill - f.naive
		overlap += f.surviving - f.clipped
	}
	s.Naive = 0
	for _, p := range s.Parts {
		s.Naive += p.Volume
	}
	lip := 0.0
	for _, f := range s.lips {
		lip -= plane.Integral(f.poly, f.depth)
	}
	for _, part := range [...]Part{none(Fill, fill), none(Outside, outside), none(Overlap, overlap), none(Wedge, s.wedge(nil)), none(LipPart, lip)} {
		if math.Abs(part.Volume) > nothing*s.Area {
			s.Parts = append(s.Parts, part)
		}
	}
	for _, p := range s.Parts {
		s.Volume += p.Volume
	}
}

// alike tells whether two parts are of chords of one arc, which are told as one.
func alike(a, b Part) bool {
	return a.Kind == Haunch && b.Kind == Haunch && a.Arc && b.Arc && a.Loop == b.Loop && a.Edge == b.Edge
}

// nothing is a depth, spread over the slab, that rounding may leave in a part
// which is exactly zero.
const nothing = 1e-12

// wedge gives the volume that level ground adds within a convex polygon, or
// under the whole slab for nil.
func (s *Solid) wedge(within []plane.Vec) float64 {
	if s.plan.Base != plan.Level || s.top == nil {
		return 0
	}
	return s.top.integrate(s.region, within)
}

// lips gives the lowered parts of the top, with their drop as the depth.
func lips(p plan.Plan, r *region) []piece {
	b := builder{plan: p, sweep: sweeper{region: r}}
	for li, loop := range p.Loops() {
		for i, e := range loop {
			for k, d := range e.Doors {
				if d.Lip.Drop == 0 {
					continue
				}
				a, z := loop.Ends(i)
				o := b.sweep.In(a)
				u := b.sweep.In(z).Sub(o)
				drop := d.Lip.Drop.Meters()
				bd := band{
					o: o, u: u.Times(1 / u.Length()), from: d.From.Meters(), to: (d.From + d.Width).Meters(),
					stations: []station{{0, drop}, {d.Lip.Inset.Meters(), drop}}, attached: true, onSide: true,
				}
				b.add(&bd, Part{Kind: LipPart, Loop: li, Edge: loop.Drawn(i), Span: k}, false)
			}
		}
	}
	if len(b.pieces) == 0 {
		return nil
	}
	return envelope(b.pieces, &b.mem)
}

// VolumeWithin gives the concrete, in m³, of the part of the slab inside a region,
// which must not overlap itself.
func (s *Solid) VolumeWithin(g plane.Region) float64 {
	if s.fine != nil {
		return s.fine.VolumeWithin(g)
	}
	sum := 0.0
	var w [3]plane.Vec
	for _, r := range g {
		// A fan of triangles covers a ring: those that turn back are taken off.
		for i := 2; i < len(r); i++ {
			w = [3]plane.Vec{s.region.In(r[0]), s.region.In(r[i-1]), s.region.In(r[i])}
			switch a := plane.Area(w[:]); {
			case a > sliver:
				sum += s.volumeWithin(w[:])
			case a < -sliver:
				w[1], w[2] = w[2], w[1]
				sum -= s.volumeWithin(w[:])
			}
		}
	}
	return sum
}

// volumeWithin is VolumeWithin for a convex polygon that runs counter-clockwise.
func (s *Solid) volumeWithin(w []plane.Vec) float64 {
	var c plane.Clipper
	var room [64]int32
	sum := s.region.integrate(w, plane.Linear{C: s.field}) + s.wedge(w)
	for _, i := range s.faceIndex().Near(plane.BoxAround(w...), room[:0]) {
		f := s.faces[i]
		sum += plane.Integral(c.Within(f.poly, w, tiny), f.depth.Plus(-s.field))
	}
	for _, f := range s.lips {
		sum -= plane.Integral(c.Within(f.poly, w, tiny), f.depth)
	}
	return sum
}

// Work prints how the part was computed, in meters.
func (p Part) Work() string {
	switch p.Kind {
	case Field:
		return fmt.Sprintf("%.4f m² × field thickness", p.Section)
	case Haunch, StripPart:
		return fmt.Sprintf("%.4f m × %.6f m²", p.Length, p.Section)
	}
	return ""
}
