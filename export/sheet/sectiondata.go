package sheet

import (
	"fmt"
	"strings"

	"haunchbook/geometry"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/lumber"
	"haunchbook/geometry/plan"
)

// sectionBlock is a section drawing in a column.
type sectionBlock struct {
	spec  sectionSpec
	units geometry.Units
	tall  float64
}

func (b sectionBlock) height(float64) float64 { return b.tall }

func (b sectionBlock) draw(d *draft, x, top, width float64) float64 {
	d.section(b.spec, b.units, rect{x, top - b.tall, x + width, top})
	return top - b.tall
}

// sectionBlocks gives a drawing for each edge section in use.
func (s *set) sectionBlocks() []block {
	letters := sectionLetters(s.job.Slab)
	var out []block
	for i := range len(letters) {
		for name, l := range letters {
			if l != letter(i) {
				continue
			}
			sec, ok := s.job.Slab.SectionNamed(name)
			if !ok {
				continue
			}
			out = append(out, sectionBlock{s.edgeSection(sec, l), s.job.Units, 62})
		}
	}
	return out
}

// edgeSection gathers what the drawing of an edge section shows.
func (s *set) edgeSection(sec plan.Section, letter string) sectionSpec {
	p, u := s.job.Slab, s.job.Units
	spec := s.job.Spec.Place
	out := sectionSpec{
		title:  "Section " + letter + ": " + sec.Name,
		under:  sec.Stations(p.Field),
		field:  p.Field,
		gravel: s.job.Spec.Base.Gravel,
		foam:   s.job.Spec.Base.Foam,
	}
	for _, r := range spec.Bars.Rows {
		size := r.Size
		if size == 0 {
			size = spec.Bars.Size
		}
		b, ok := layout.BarNumbered(size)
		if !ok {
			continue
		}
		dot := barDot{inset: r.Face + b.Diameter/2, diameter: b.Diameter}
		if dot.depth = r.Top + b.Diameter/2; r.Bottom > 0 {
			dot.depth = depthAt(out.under, p.Field, dot.inset) - r.Bottom - b.Diameter/2
		}
		out.bars = append(out.bars, dot)
	}
	if n := len(out.bars); n > 0 {
		out.notes = append(out.notes, rowsNote(spec.Bars, u))
	}
	for _, l := range p.Loops() {
		for i, e := range l {
			for _, sp := range l.Spans(i) {
				if sp.Section != sec.Name || e.Joint {
					continue
				}
				if sp.Door < 0 && out.plate == "" {
					out.plate = e.Wall
				}
				if sp.Door >= 0 && out.lip.Drop == 0 {
					out.lip = e.Doors[sp.Door].Lip
				}
			}
		}
	}
	if b, ok := lumber.Named(out.plate); ok && spec.Bolts.Diameter > 0 {
		inset := spec.Bolts.Offset
		if inset == 0 {
			inset = b.Width / 2
		}
		out.bolt = &boltShape{inset, spec.Bolts.Diameter, spec.Bolts.Length, spec.Bolts.Projection}
		out.notes = append(out.notes, fmt.Sprintf("%s × %s bolt, %s in, %s up, %s plate",
			spec.Bolts.Diameter.Text(u), spec.Bolts.Length.Text(u), (spec.Bolts.Length-spec.Bolts.Projection).Text(u), spec.Bolts.Projection.Text(u), out.plate))
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

// rowsNote says what the edge bars are and their covers.
func rowsNote(b layout.BarSpec, u geometry.Units) string {
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
	return "Bars: " + strings.Join(parts, "; ")
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
