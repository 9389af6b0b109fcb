package takeoff

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

var ruleLipSteel = rule.Rule{Name: "Cover under a door's lip", Source: "ACI 318-19 Table 20.5.1.3.1", Step: rule.Steel}

// Lip is the lowered strip of the top at a door.
type Lip struct {
	Loop, Edge, Number int // as they are drawn; the door's number on its edge
	Door               plan.Door
	Near, Far          geometry.Point // at its jambs, on the face
}

// Lips gives those of a slab, in the order of its edges.
func (s Slab) Lips() []Lip {
	var out []Lip
	for k, l := range s.Plan.Loops() {
		for i, e := range l {
			a, b := l.Ends(i)
			for n, d := range e.Doors {
				if d.Lip.Drop > 0 {
					out = append(out, Lip{k, i, n, d, geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)})
				}
			}
		}
	}
	return out
}

// DoorOf names the door of a lip for people.
func (s Slab) DoorOf(l Lip) string {
	return s.Layout.Marks.Door(l.Loop, l.Edge, l.Number).Called(l.Door.Name)
}

// lips is how wide the doors with a lip are together, in m.
func (b *builder) lips() float64 {
	return b.sum(func(s Slab) float64 {
		total := geometry.Length(0)
		for _, l := range s.Lips() {
			total += l.Door.Width
		}
		return total.Meters()
	})
}

// checkLips reports lips under which the slab is too thin, or whose steel of the field lies
// too near the lowered top.
func (b *builder) checkLips(s Slab) {
	steel := b.place.Field
	depth, half := steel.Depth, geometry.Length(0)
	if depth == 0 {
		depth = s.Plan.Field / 2
	}
	if steel.Kind == field.Grid {
		half = steel.Size.Diameter() / 2
	}
	exposed := bars.CoverExposed(steel.Size, b.m.u)
	for _, l := range s.Lips() {
		mid := geometry.Along(l.Near, l.Far, l.Door.Width/2)
		thin := l.leastDepth(s) - l.Door.Lip.Drop
		if thin < leastThickness && thin < s.Plan.Field { // of a thinner field it is told by itself
			b.findOn(s, ruleThickness, rule.Limit, mid, "Under the lip of door %s %s of concrete are left; a slab on ground is at least %s: deepen the section there, or lower the lip less.", s.DoorOf(l), b.m.text(thin), b.m.text(leastThickness))
		}
		if steel.Kind != field.Mesh && steel.Kind != field.Grid || l.Door.Lip.Inset <= steel.Cover {
			continue // none of it reaches under the lip
		}
		if left := depth - half - l.Door.Lip.Drop; left < exposed {
			b.findOn(s, ruleLipSteel, rule.Note, mid, "The steel of the field has %s of cover under the lip of door %s, where %s is asked against weather: cut it back behind the lip, or set it lower there.", b.m.text(max(0, left)), s.DoorOf(l), b.m.text(exposed))
		}
	}
}

// leastDepth gives how deep the underside lies at least under a lip, below the top of the slab.
func (l Lip) leastDepth(s Slab) geometry.Length {
	const places = 8
	in := plan.Turn(geometry.Along(l.Near, l.Far, min(l.Door.Lip.Inset, l.Door.Width)).Sub(l.Near), 90)
	least := geometry.Length(-1)
	for k := range geometry.Length(places + 1) {
		at := geometry.Along(l.Near, l.Far, l.Door.Width*k/places).Add(in)
		if d, ok := s.Solid.DepthAt(at); ok && (least < 0 || d < least) {
			least = d
		}
	}
	if least < 0 {
		return s.Plan.Field
	}
	return least
}
