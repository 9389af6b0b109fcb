package solid

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Face is a convex part of the underside, other than the field, that lies in
// one plane. Faces do not overlap.
type Face struct {
	Corners []geometry.Point  // counter-clockwise
	Depths  []geometry.Length // below the top, at each corner
	Part    Part              // the thickening it belongs to
}

// Line is a straight line on the plan.
type Line struct{ A, B geometry.Point }

// Contour is a line of equal depth on the underside.
type Contour struct {
	Depth geometry.Length
	Line
}

// faceIndex indexes the faces; it is built once, when first asked for.
func (s *Solid) faceIndex() *plane.Index {
	s.once.Do(func() { s.index = plane.NewIndex(boxesOf(s.faces)) })
	return s.index
}

// Faces gives the underside where it is deeper than the field.
func (s *Solid) Faces() []Face {
	out := make([]Face, len(s.faces))
	for i, f := range s.faces {
		face := Face{Part: s.parts[f.feature]}
		for _, v := range f.poly {
			face.Corners = append(face.Corners, s.region.Out(v))
			face.Depths = append(face.Depths, geometry.FromMeters(f.depth.At(v)))
		}
		out[i] = face
	}
	return out
}

// DepthAt gives the depth of the underside below the design top at q, and false
// off the slab. On the line of a step it gives the deeper side.
func (s *Solid) DepthAt(q geometry.Point) (geometry.Length, bool) {
	if !s.region.on.Contains(q) {
		return 0, false
	}
	return geometry.FromMeters(s.depthAt(s.region.In(q))), true
}

func (s *Solid) depthAt(v plane.Vec) float64 {
	d := s.field
	var room [16]int32
	for _, i := range s.faceIndex().Near(plane.BoxAround(v).Grown(tiny), room[:0]) {
		if f := s.faces[i]; plane.InConvex(f.poly, v, tiny) {
			d = max(d, f.depth.At(v))
		}
	}
	return d
}

// stretch is a part of a straight line over one face.
type stretch struct {
	t0, t1 float64 // fractions of the line
	face   int32   // -1 for the field
}

// along cuts the line a-b where it passes from one face to another, the field
// between them; it does not look whether the line is on the slab. Where it runs
// on the border of two faces the deeper counts, as in DepthAt.
func (s *Solid) along(a, b plane.Vec, dst []stretch) []stretch {
	whole := b.Sub(a).Length()
	if whole <= tiny {
		return dst
	}
	var hits []stretch
	ends := []float64{0, 1}
	for _, i := range s.faceIndex().Near(plane.BoxAround(a, b).Grown(tiny), nil) {
		if t0, t1 := plane.LineInConvex(s.faces[i].poly, a, b, tiny); (t1-t0)*whole > tiny {
			hits = append(hits, stretch{t0, t1, i})
			ends = append(ends, t0, t1)
		}
	}
	slices.Sort(ends)
	at, from := 0.0, len(dst)
	for _, end := range ends[1:] {
		if (end-at)*whole <= tiny {
			continue
		}
		m, face := (at+end)/2, int32(-1)
		for _, h := range hits {
			if h.t0 <= m && m <= h.t1 && (face < 0 || s.faces[h.face].depth.Minus(s.faces[face].depth).At(plane.Lerp(a, b, m)) > level) {
				face = h.face
			}
		}
		if n := len(dst); n > from && dst[n-1].face == face {
			dst[n-1].t1 = end
		} else {
			dst = append(dst, stretch{at, end, face})
		}
		at = end
	}
	return dst
}

func (s *Solid) depthOf(face int32) plane.Linear {
	if face < 0 {
		return plane.Linear{C: s.field}
	}
	return s.faces[face].depth
}

// Profile is a stretch of a section cut through the slab, with a straight
// underside.
type Profile struct {
	From, To   geometry.Length // along the cut
	Start, End geometry.Length // depth of the underside there
}

// Cut gives the underside along the line from a to b, where it is on the slab.
func (s *Solid) Cut(a, b geometry.Point) []Profile {
	whole := float64(geometry.Distance(a, b))
	va, vb := s.region.In(a), s.region.In(b)
	var out []Profile
	var parts []stretch
	for _, on := range s.region.on.Stretches(a, b, plane.Touching, nil) {
		from, to := float64(on.From)/whole, float64(on.To)/whole
		parts = s.along(plane.Lerp(va, vb, from), plane.Lerp(va, vb, to), parts[:0])
		for _, st := range parts {
			f := s.depthOf(st.face)
			t0, t1 := between(from, to, st.t0), between(from, to, st.t1)
			out = append(out, Profile{
				geometry.Length(math.Round(t0 * whole)), geometry.Length(math.Round(t1 * whole)),
				geometry.FromMeters(f.At(plane.Lerp(va, vb, t0))), geometry.FromMeters(f.At(plane.Lerp(va, vb, t1))),
			})
		}
	}
	return out
}

// Contours gives the lines at which the underside has the given depths. A flat
// face at one of them has none.
func (s *Solid) Contours(depths ...geometry.Length) []Contour {
	var out []Contour
	for _, f := range s.faces {
		for _, d := range depths {
			if a, b, ok := zeroLine(f.poly, f.depth.Plus(-d.Meters())); ok {
				out = append(out, Contour{d, Line{s.region.Out(a), s.region.Out(b)}})
			}
		}
	}
	return out
}

// zeroLine gives where f is zero on a convex polygon, if that is a line.
func zeroLine(poly []plane.Vec, f plane.Linear) (a, b plane.Vec, ok bool) {
	if f.G.Length() < level {
		return a, b, false
	}
	var ends []plane.Vec
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		if fp, fq := f.At(p), f.At(q); (fp < 0) != (fq < 0) {
			ends = append(ends, plane.Lerp(p, q, fp/(fp-fq)))
		}
	}
	if len(ends) != 2 || ends[1].Sub(ends[0]).Length() <= tiny {
		return a, b, false
	}
	return ends[0], ends[1], true
}

// aside is how far beyond the edge of a face its neighbor is looked up.
const aside = 1e-7

// borders calls visit for every stretch of the border of every face, with the
// face beyond it, -1 for the field. Borders on the outline are left out.
func (s *Solid) borders(visit func(face, beyond int32, a, b plane.Vec)) {
	var parts []stretch
	for i, f := range s.faces {
		for k, a := range f.poly {
			b := f.poly[(k+1)%len(f.poly)]
			if b.Sub(a).Length() <= 2*aside {
				continue
			}
			out := b.Sub(a).Left().Times(-aside / b.Sub(a).Length())
			parts = s.along(a.Add(out), b.Add(out), parts[:0])
			for _, st := range parts {
				p, q := plane.Lerp(a, b, st.t0), plane.Lerp(a, b, st.t1)
				if st.face == int32(i) || st.face < 0 && !s.region.contains(plane.Lerp(p, q, 0.5).Add(out)) {
					continue
				}
				visit(int32(i), st.face, p, q)
			}
		}
	}
}

// Ridges gives the lines at which the underside bends or steps, for drawing.
func (s *Solid) Ridges() []Line {
	var out []Line
	s.borders(func(face, beyond int32, a, b plane.Vec) {
		if beyond >= 0 && alike(s.parts[s.faces[face].feature], s.parts[s.faces[beyond].feature]) && s.faces[face].feature != s.faces[beyond].feature {
			return // where two chords of one arc meet
		}
		d := s.depthOf(face).Minus(s.depthOf(beyond))
		same := math.Abs(d.At(a)) < aside && math.Abs(d.At(b)) < aside && d.G.Length() < 1e-9
		if same || beyond >= 0 && beyond < face && d.At(plane.Lerp(a, b, 0.5)) < aside {
			return // one plane, or drawn from the other side
		}
		out = append(out, Line{s.region.Out(a), s.region.Out(b)})
	})
	return out
}

// Underside gives the area, in m², of all that bears on the ground but for
// steps: field, flats and slopes. Base and foam follow it.
func (s *Solid) Underside() float64 {
	if s.fine != nil {
		return s.fine.Underside()
	}
	sum := s.Area
	for _, f := range s.faces {
		sum += plane.Area(f.poly) * (math.Hypot(1, f.depth.G.Length()) - 1)
	}
	return sum
}

// FieldArea gives the area in plan, in m², where the slab is as thick as its field.
func (s *Solid) FieldArea() float64 {
	if s.fine != nil {
		return s.fine.FieldArea()
	}
	sum := s.Area
	for _, f := range s.faces {
		sum -= plane.Area(f.poly)
	}
	return max(0, sum)
}

// Steps gives the area, in m², of the vertical faces of the underside inside the
// outline, to about 1e-6 of their size.
func (s *Solid) Steps() float64 {
	if s.fine != nil {
		return s.fine.Steps()
	}
	sum := 0.0
	s.borders(func(face, beyond int32, a, b plane.Vec) {
		d := s.depthOf(face).Minus(s.depthOf(beyond))
		da, db := d.At(a), d.At(b)
		switch n := b.Sub(a).Length(); {
		case da > 0 && db > 0:
			sum += n * (da + db) / 2
		case da > 0:
			sum += n * da / 2 * da / (da - db)
		case db > 0:
			sum += n * db / 2 * db / (db - da)
		}
	})
	return sum
}

// Sides gives the areas, in m², of the vertical faces along the outline and the
// holes, from the design top to the underside: formed, and against the slab that
// is there.
func (s *Solid) Sides() (formed, joint float64) {
	if s.fine != nil {
		return s.fine.Sides()
	}
	n := 0
	for _, l := range s.plan.Loops() {
		for i := range l {
			f := s.faceOf(s.region.sides[n+i][0], s.region.sides[n+i][1])
			if l[i].Joint {
				joint += f
			} else {
				formed += f
			}
		}
		n += len(l)
	}
	return formed, joint
}

// faceOf gives the area of the vertical face along a side.
func (s *Solid) faceOf(a, b plane.Vec) float64 {
	if b.Sub(a).Length() <= 2*aside {
		return 0
	}
	in := b.Sub(a).Left().Times(aside / b.Sub(a).Length())
	a, b = a.Add(in), b.Add(in)
	sum := 0.0
	for _, st := range s.along(a, b, nil) {
		f := s.depthOf(st.face)
		sum += (st.t1 - st.t0) * b.Sub(a).Length() * f.At(plane.Lerp(a, b, (st.t0+st.t1)/2))
	}
	return sum
}

// Excavation gives the ground, in m³, to be dug or filled within the outline so
// that the slab stands on layers (base and foam), which are so thick under the
// field and under what is thickened, with its lowest top at height above the ground
// that is there. fill is what is missing where the underside of the layers lies
// above the ground.
func (s *Solid) Excavation(underField, underThick, height geometry.Length) (dig, fill float64) {
	if s.fine != nil {
		return s.fine.Excavation(underField, underThick, height)
	}
	var c []plane.Vec
	var parts plane.Clipper
	book := func(poly []plane.Vec, f plane.Linear) {
		c = plane.Clip(c[:0], poly, f)
		dig += plane.Integral(c, f)
		c = plane.Clip(c[:0], poly, f.Negated())
		fill -= plane.Integral(c, f)
	}
	// Over the field as it would be without thickenings, then each thickening in
	// its place. A graded base rises with the top.
	field := plane.Linear{C: s.field + (underField - height).Meters()}
	lift, frame := []plane.Linear{{}}, s.region.frame()
	if s.top != nil && s.plan.Base == plan.Graded {
		lift = s.top.planes
	}
	for k, h := range lift {
		where := frame
		if len(lift) > 1 {
			if where = s.top.counts(frame, k); len(where) < 3 {
				continue
			}
		}
		for _, loop := range s.region.loops {
			book(parts.Within(loop, where, tiny), field.Minus(h))
		}
		for _, f := range s.faces {
			p := parts.Within(f.poly, where, tiny)
			d0, f0 := dig, fill
			book(p, field.Minus(h))
			dig, fill = 2*d0-dig, 2*f0-fill // take the field back out
			book(p, f.depth.Plus((underThick - height).Meters()).Minus(h))
		}
	}
	return dig, fill
}
