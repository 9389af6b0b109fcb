package sheet

import (
	"fmt"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// sectionBlock is a section drawing in a column.
type sectionBlock struct {
	spec  sectionSpec
	units geometry.Units
}

func (b sectionBlock) height(width float64) float64 { return b.spec.layout(b.units, width).tall }

func (b sectionBlock) draw(d *draft, x, top, width float64) float64 {
	return d.section(b.spec, b.units, x, top, width)
}

// sectionPages draws the sections in use, to scale.
func (s *set) sectionPages() {
	blocks := s.edgeSections()
	blocks = append(blocks, s.padSections()...)
	if len(blocks) == 0 {
		return
	}
	blocks = append(blocks, s.underNotes(), s.frostNote(), s.allFindings(ruleHas("cover", "edge bars", "haunch", "form boards")), cautionBlock())
	s.columns("Sections and details", blocks, "as written,", 2)
}

// underNotes says what lies under the slab.
func (s *set) underNotes() block {
	b, u := s.job.Spec.Base, s.job.Units
	n := notes{title: "Under the slab", size: sizeSmall, bullet: "•"}
	if b.Gravel > 0 {
		n.items = append(n.items, b.Gravel.Text(u)+" of compacted gravel")
	}
	if b.Foam > 0 {
		n.items = append(n.items, b.Foam.Text(u)+" of foam")
	}
	if b.Retarder > 0 {
		n.items = append(n.items, fmt.Sprintf("vapor retarder %s, laps %s", mils(b.Retarder, u), b.Lap.Text(u)))
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

// frostNote says which sections reach the frost depth, where it is known: IRC
// R403.1.4 wants footings below the frost line, or a protected shallow one by
// R403.3.
func (s *set) frostNote() block {
	if s.options.Frost <= 0 {
		return nothing{}
	}
	u := s.job.Units
	n := notes{title: "Frost depth " + s.options.Frost.Text(u), size: sizeSmall, bullet: "•"}
	for i, l := range s.letters {
		text := "reaches it"
		if deep := l.section.Deepest(); deep < s.options.Frost {
			text = fmt.Sprintf("is %s short of it", (s.options.Frost - deep).Text(u))
		}
		n.items = append(n.items, fmt.Sprintf("%s %s, %s deep, %s", letter(i), l.section.Name, l.section.Deepest().Text(u), text))
	}
	n.items = append(n.items, "Below the frost line, or protected from frost: IRC R403.1.4, R403.3; the local code decides.")
	return n
}

// mils writes the thickness of a sheet, in thousandths of an inch: 25.4 µm.
func mils(n int, u geometry.Units) string {
	if u == geometry.Millimeters {
		return fmt.Sprintf("%.2f mm (%d mil)", float64(n)*0.0254, n)
	}
	return fmt.Sprintf("%d mil", n)
}

// padSections draws each shape of pad and strip once.
func (s *set) padSections() []block {
	u := s.job.Units
	var out []block
	seen := map[string]bool{}
	for _, slab := range s.takeoff.Slabs {
		p := slab.Plan
		add := func(name, shape string, width, depth, taper geometry.Length) {
			if key := shape + p.Field.Text(u); !seen[key] {
				seen[key] = true
				out = append(out, sectionBlock{sectionSpec{
					title: slab.Called(name), field: p.Field, inside: true,
					under: []plan.Station{{Inset: 0, Depth: p.Field}, {Inset: taper, Depth: depth}, {Inset: taper + width, Depth: depth}, {Inset: 2*taper + width, Depth: p.Field}},
					notes: []string{shape},
				}, u})
			}
		}
		for i, d := range p.Pads {
			add("Pad "+padName(d, i), fmt.Sprintf("%s × %s, %s deep, sides out %s", d.Width.Text(u), d.Length.Text(u), d.Depth.Text(u), d.Taper.Text(u)), d.Width, d.Depth, d.Taper)
		}
		for i, d := range p.Strips {
			add("Strip "+stripName(d, i), fmt.Sprintf("%s wide, %s deep, sides out %s", d.Bottom.Text(u), d.Depth.Text(u), d.Taper.Text(u)), d.Bottom, d.Depth, d.Taper)
		}
	}
	return out
}

// edgeSections gives a drawing for each edge section in use.
func (s *set) edgeSections() []block {
	var out []block
	for i, l := range s.letters {
		out = append(out, sectionBlock{s.edgeSection(l, letter(i)), s.job.Units})
	}
	return out
}

// edgeSection gathers what the drawing of an edge section shows.
func (s *set) edgeSection(l lettered, letter string) sectionSpec {
	sec, u := l.section, s.job.Units
	spec := s.job.Spec.Place
	out := sectionSpec{
		title:  sectionTitle(letter, sec.Name, len(s.letters) == 1),
		under:  sec.Stations(l.field),
		field:  l.field,
		gravel: s.job.Spec.Base.Gravel,
		foam:   s.job.Spec.Base.Foam,
	}
	if len(s.takeoff.Slabs) > 1 {
		var names []string
		for _, slab := range l.slabs {
			names = append(names, slab.Name)
		}
		out.notes = append(out.notes, "of "+strings.Join(names, ", "))
	}
	for _, r := range spec.Bars.Rows {
		size := r.Size
		if size == 0 {
			size = spec.Bars.Size
		}
		b, ok := bars.Numbered(size)
		if !ok {
			continue
		}
		dot := barDot{inset: r.Face + b.Diameter/2, diameter: b.Diameter, face: r.Face, bottom: r.Bottom, top: r.Top}
		if dot.depth = r.Top + b.Diameter/2; r.Bottom > 0 {
			dot.depth = depthAt(out.under, l.field, dot.inset) - r.Bottom - b.Diameter/2
		}
		out.bars = append(out.bars, dot)
	}
	if n := len(out.bars); n > 0 {
		out.notes = append(out.notes, rowNotes(spec.Bars, u)...)
		out.barName = fmt.Sprintf("No. %d bars", spec.Bars.Size)
	}
	out.mesh = s.fieldSteel(l.field)
	out.plate, out.lip = l.onIt()
	if shape, said := s.bolt(out.plate); shape != nil {
		out.bolt, out.notes = shape, append(out.notes, said...)
	}
	if out.lip.Drop > 0 {
		out.notes = append(out.notes, fmt.Sprintf("door lip: %s lower, %s in from the face", out.lip.Drop.Text(u), out.lip.Inset.Text(u)))
	}
	if len(out.under) > 0 {
		b, _ := lumber.ForDepth(out.under[0].Depth)
		out.board = b.Name
		if spec.Forms.Board != "" {
			out.board = spec.Forms.Board
		}
	}
	return out
}

// fieldSteel gives the steel in a field of a thickness; nil for none.
func (s *set) fieldSteel(thickness geometry.Length) *fieldSteel {
	f := s.job.Spec.Place.Field
	out := &fieldSteel{depth: f.Depth, cover: f.Cover}
	if out.depth == 0 {
		out.depth = thickness / 2
	}
	switch f.Kind {
	case field.Mesh:
		out.name = f.Style
	case field.Grid:
		out.name = fmt.Sprintf("No. %d, %s both ways", f.Size, f.Spacing.Text(s.job.Units))
	default:
		return nil
	}
	return out
}

// onIt gives the plate and the door lip that stand on edges of the section, the
// first of each.
func (l lettered) onIt() (plate string, lip plan.Lip) {
	for _, slab := range l.slabs {
		for _, loop := range slab.Plan.Loops() {
			for i, e := range loop {
				for _, sp := range loop.Spans(i) {
					switch {
					case sp.Section != l.section.Name || e.Joint:
					case sp.Door < 0 && plate == "":
						plate = e.Wall
					case sp.Door >= 0 && lip.Drop == 0:
						lip = e.Doors[sp.Door].Lip
					}
				}
			}
		}
	}
	return plate, lip
}

func sectionTitle(letter, name string, only bool) string {
	if only {
		return "Edge section: " + name
	}
	return "Section " + letter + ": " + name
}

// rowNotes says what the edge bars are and their covers.
func rowNotes(b bars.Spec, u geometry.Units) []string {
	parts := []string{}
	for _, r := range b.Rows {
		size := r.Size
		if size == 0 {
			size = b.Size
		}
		s := fmt.Sprintf("No. %d, %s from face, ", size, r.Face.Text(u))
		if r.Bottom > 0 {
			s += r.Bottom.Text(u) + " up"
		} else {
			s += r.Top.Text(u) + " down"
		}
		parts = append(parts, s)
	}
	return parts
}

// depthAt reads the depth of an underside at an inset.
func depthAt(st []plan.Station, field, at geometry.Length) geometry.Length {
	for i := 1; i < len(st); i++ {
		a, b := st[i-1], st[i]
		if at <= b.Inset && b.Inset > a.Inset {
			return a.Depth + geometry.Length(float64(b.Depth-a.Depth)*float64(at-a.Inset)/float64(b.Inset-a.Inset))
		}
	}
	return field
}
