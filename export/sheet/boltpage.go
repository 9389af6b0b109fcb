package sheet

import (
	"fmt"
	"slices"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/plan"
)

// boltTables lists the bolts of each wall by running distance, from both ends of
// the tape.
func (s *set) boltTables(slab takeoff.Slab) []block {
	u := s.job.Units
	var out []block
	for _, w := range slab.Layout.Walls {
		if len(w.Bolts) == 0 {
			continue
		}
		where, one, other := s.tape(slab, w)
		tb := table{
			title: fmt.Sprintf("%s%s, %s", w.Name(), where, w.Length.Text(u)),
			head:  []string{"Bolt", one, other},
			right: []bool{true, true, true},
			size:  sizeBody,
		}
		for _, bolt := range w.Bolts {
			name := bolt.Mark.String()
			switch {
			case bolt.HoldDown:
				name += " HD"
			case bolt.Builder:
				name += " *"
			}
			tb.rows = append(tb.rows, []string{name, bolt.Along.Text(u), bolt.Back.Text(u)})
		}
		out = append(out, tableBlock{tb, 2})
	}
	for _, w := range slab.Layout.Walls {
		for _, b := range w.Bolts {
			if b.HoldDown || b.Builder {
				return append(out, notes{title: "Marks", size: sizeSmall, items: []string{"HD: hold-down. *: given by the builder."}})
			}
		}
	}
	return out
}

// tape gives what a wall's title says of where it stands, and from where its tape is read
// both ways.
func (s *set) tape(slab takeoff.Slab, w bolts.Wall) (where, one, other string) {
	if w.Own > 0 {
		return "", "from one end", "from the other"
	}
	n := len(slab.Plan.Loops()[w.Loop])
	if w.Loop > 0 {
		where = " of " + slab.Layout.Marks.Hole(w.Loop-1).Called(slab.Plan.Holes[w.Loop-1].Name)
	}
	return where, fmt.Sprintf("from %d", w.Edge+1), fmt.Sprintf("from %d", (w.Edge+1)%n+1)
}

// dowelTables lists the dowels of each joint by running distance.
func (s *set) dowelTables(slab takeoff.Slab) []block {
	u := s.job.Units
	var out []block
	n := len(slab.Plan.Outline)
	for i := range slab.Plan.Outline {
		tb := table{
			title: slab.Called(fmt.Sprintf("Dowels, tape from %d to %d", i+1, (i+1)%n+1)),
			head:  []string{"Dowel", "Mark"}, right: []bool{true, true}, size: sizeBody,
		}
		for _, w := range slab.Layout.Dowels {
			if w.Edge == i {
				tb.rows = append(tb.rows, []string{fmt.Sprint(w.Number), w.Along.Text(u)})
			}
		}
		if len(tb.rows) > 0 {
			out = append(out, tableBlock{tb, 2})
		}
	}
	return out
}

// plateTable lists the pieces of sill plate.
func (s *set) plateTable(slab takeoff.Slab) []block {
	u := s.job.Units
	tb := table{
		title: slab.Called("Sill plate pieces"),
		head:  []string{"Plate", "From", "To", "Length"}, right: []bool{false, true, true, true},
	}
	for _, w := range slab.Layout.Walls {
		for i, p := range w.Pieces {
			tb.rows = append(tb.rows, []string{w.Mark.Piece(i + 1).String(), p.From.Text(u), p.To.Text(u), (p.To - p.From).Text(u)})
		}
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}

// boltDetail draws one bolt in its plate: on the section of the wall that has the
// first bolt, where no edge section shows it, and from above.
func (s *set) boltDetail(slab takeoff.Slab) []block {
	i := slices.IndexFunc(slab.Layout.Walls, func(w bolts.Wall) bool { return len(w.Bolts) > 0 })
	if i < 0 {
		return nil
	}
	w, spec, u := slab.Layout.Walls[i], s.job.Spec.Place.Bolts, s.job.Units
	b := handover.BoltIn(w.Plate, spec)
	var out []block
	if w.Own > 0 && b != nil {
		b.Inset = w.Offset
	}
	if w.Own == 0 && !slices.ContainsFunc(s.sections, func(e handover.EdgeSection) bool { return e.Bolt != nil }) {
		of := detail.Section{Field: slab.Plan.Field, Plate: w.Plate, Bolt: (*detail.Bolt)(b), Said: true}
		if sec, ok := slab.Plan.SectionNamed(slab.Plan.Loops()[w.Loop][w.Edge].Section); ok {
			of.Under = sec.Stations(slab.Plan.Field)
		}
		var notes []string
		if b != nil {
			notes = s.boltNotes(b, w.Plate.Name)
		}
		out = append(out, s.sectionBlock("Bolt in plate", notes, of))
	}
	if b != nil && spec.End > 0 {
		text := fmt.Sprintf("From each end of a piece %s to %s; bolts at most %s apart, 2 at least in a piece.",
			spec.LeastEnd().Text(u), spec.EndMax.Text(u), spec.Spacing.Text(u))
		out = append(out, detailBlock{"Bolt in plate, from above", []string{text}, detail.PlateEnd(u, w.Plate, detail.Bolt(*b), spec.End), s.scales(detailScales(u)), detailWide})
	}
	return out
}

// boltNotes says what a bolt in a plate is.
func (s *set) boltNotes(b *handover.Bolt, plate string) []string {
	u := s.job.Units
	what := fmt.Sprintf("%s × %s %s bolt", b.Diameter.Text(u), b.Length.Text(u), b.Shape)
	if b.Hook > 0 {
		what += ", hook " + b.Hook.Text(u)
	}
	set := "bolts held before the pour"
	if s.job.Spec.Place.Bolts.Setting == bars.Wet {
		set = "bolts set wet, if the inspector agrees"
	}
	return []string{what, boltSet(b, u), plate + " plate; " + set}
}

// boltSet says where in the edge a bolt stands.
func boltSet(b *handover.Bolt, u geometry.Units) string {
	return fmt.Sprintf("%s in concrete, %s up, %s from face", b.Deep().Text(u), b.Projection.Text(u), b.Inset.Text(u))
}

// dowelDetail draws a dowel in the joint.
func (s *set) dowelDetail(slab takeoff.Slab) []block {
	l, spec, u := slab.Layout, s.job.Spec.Place.Dowels.Used(), s.job.Units
	if len(l.Dowels) == 0 {
		return nil
	}
	d := l.Dowels[0]
	of := detail.Section{
		Field: slab.Plan.Field, Under: []plan.Station{{Inset: 0, Depth: slab.Plan.Field}, {Inset: spec.Length, Depth: slab.Plan.Field}},
		Dowel: &detail.Dowel{Depth: d.Depth, Embed: spec.Embed, Length: spec.Length, Diameter: spec.Thick(), OldSlab: d.Old},
	}
	if sec, ok := slab.Plan.SectionNamed(slab.Plan.Outline[d.Edge].Section); ok {
		of.Under = sec.Stations(slab.Plan.Field)
	}
	what, does := spec.Size.String(), "tied: deformed, keeps the joint level and shut"
	hole := fmt.Sprintf("hole %s over bar; adhesive by its maker's data", spec.Clearance.Text(u))
	switch spec.Kind {
	case joints.Sliding:
		what, does = what+" smooth", "sliding: sleeve or grease the half in the new slab; level, square to the joint"
	case joints.Plates:
		what, does = fmt.Sprintf("plate %s × %s", spec.Thickness.Text(u), spec.Width.Text(u)), "sliding: sleeve the half in the new slab; flat and level"
		hole = fmt.Sprintf("slot sawn %s over the plate; adhesive by its maker's data", spec.Clearance.Text(u))
	}
	return []block{s.sectionBlock("Dowel in joint", []string{
		fmt.Sprintf("%s × %s, %s in the old slab, %s deep", what, spec.Length.Text(u), spec.Embed.Text(u), d.Depth.Text(u)), hole, does,
	}, of)}
}
