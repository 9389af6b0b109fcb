package handover

import (
	"context"
	"fmt"
	"reflect"
	"slices"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	fields "haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// EdgeSection is an edge section in use, with all that a drawing of it shows.
// Insets go from the face of the edge inward, depths from the top of the slab down.
type EdgeSection struct {
	Letter  string          // by which plans refer to it: A, B, … Z, AA, …
	Section plan.Section    // as it is called
	Field   geometry.Length // thickness of the slabs that have it
	Slabs   []int           // their numbers in the job
	Under   []plan.Station  // the underside, as it is dug
	Board   lumber.Board    // of the form; zero where no edge that has it is formed
	Against *Against        // what all edges that have it are poured against; nil where one is formed
	Step    *Against        // where one is formed, what lies lower or higher that another is poured against; nil for none
	Rows    []Row           // of edge bars
	Steel   *FieldSteel     // of the field; nil for none
	Layers  []Layer         // under the slab, from its underside down
	Plate   *Plate          // of the wall on it, the first; nil for none
	Bolt    *Bolt           // in that plate; nil for none
	Lip     plan.Lip        // of a door on it, the first; zero for none
	Frost   *estimate.FrostReach
	Foam    *detail.Frost // against frost; nil for none
	Curb    *Curb         // on the first of the edges that have one; nil for none
}

// Against is another slab of the job that edges are poured against.
type Against struct {
	Name      string
	Lower     geometry.Length // its top, below the slab's own, where it lies lowest; less than 0 for higher
	Least     geometry.Length // the same where it lies least so
	Thickness geometry.Length // of its field
	Curb      geometry.Length // on its edge, over its top, where that is highest; 0 for none
	Wide      geometry.Length // of the curb
	Doweled   bool            // else a strip of filler lies between
	Board     lumber.Board    // of the face over it, or over its curb, where that lies lower; zero for none
}

// Row is a row of edge bars, seen from its end.
type Row struct {
	Number   int // from 1
	Size     bars.Size
	Diameter geometry.Length
	Inset    geometry.Length // of its center
	Depth    geometry.Length // of its center
	Face     geometry.Length // clear of the face
	Bottom   geometry.Length // clear of the underside; 0 where Top rules
	Top      geometry.Length // clear of the top; 0 where Bottom rules
	Lap      geometry.Length // of its bars; 0 where none lies on a slab with this section
}

// FieldSteel is the mesh or the grid of the field.
type FieldSteel struct {
	Name  string          // "6x6-W1.4xW1.4", "No. 4, 1'-6\" both ways"
	Depth geometry.Length // of its center
	Cover geometry.Length // clear of the face
}

// Layer is foam or gravel under the slab, over the stretch that is drawn: from the
// face to Reach beyond the section.
type Layer struct {
	Kind      takeoff.Kind // FoamStock or GravelVolume
	Thickness geometry.Length
	Upper     []plan.Station // its upper side
	Lower     []plan.Station // its lower side
}

// Plate is a sill plate on the edge. It stands on the slab's top: in front of a
// door, where the top is lowered to a lip, there is none.
type Plate struct {
	lumber.Board
	Over geometry.Length // its underside over the lip of the door that is drawn; 0 where none is
}

// Bolt is an anchor bolt in the plate, as specified.
type Bolt struct {
	Diameter   geometry.Length
	Length     geometry.Length // over all, as bought
	Projection geometry.Length // above the slab's top
	Shape      bolts.Shape
	Hook       geometry.Length // of a bent one, from its shaft to its tip
	Inset      geometry.Length // of its shaft
	Washer     geometry.Length // side of its washer
}

// Deep gives how far the bolt goes below the slab's top.
func (b Bolt) Deep() geometry.Length { return b.Length - b.Projection }

// Reach gives how much of the field a drawing of a section shows beyond the taper.
func (s EdgeSection) Reach() geometry.Length { return beyond(s.Under) }

func beyond(under []plan.Station) geometry.Length {
	if n := len(under); n > 0 {
		return max(6*geometry.Inch, under[n-1].Inset/4)
	}
	return 6 * geometry.Inch
}

// EdgeSections are the edge sections in use, in the order of their letters. Those
// of several slabs that are built alike are one.
type EdgeSections []EdgeSection

// Letters gives the letter of each section of one slab, by its name.
func (ss EdgeSections) Letters(slab int) map[string]string {
	out := map[string]string{}
	for _, s := range ss {
		if slices.Contains(s.Slabs, slab) {
			out[s.Section.Name] = s.Letter
		}
	}
	return out
}

// EdgeSections gives the edge sections in use.
func (h *Handover) EdgeSections(ctx context.Context) (EdgeSections, error) {
	return h.sections.get(ctx, "the edge sections", func(ctx context.Context) (EdgeSections, error) {
		t, err := h.Takeoff(ctx)
		if err != nil {
			return nil, err
		}
		frost, err := h.FrostReaches(ctx)
		if err != nil {
			return nil, err
		}
		return edgeSections(t, h.from.Job.Spec, frost), nil
	})
}

// FrostReaches gives how deep the edges with each section go on each slab, against
// the frost depth; none where that does not matter.
func (h *Handover) FrostReaches(ctx context.Context) ([]estimate.FrostReach, error) {
	return h.frost.get(ctx, "the frost depth", func(ctx context.Context) ([]estimate.FrostReach, error) {
		t, err := h.Takeoff(ctx)
		if err != nil || h.from.Frost <= 0 {
			return nil, err
		}
		return estimate.FrostReaches(t.Slabs, h.from.Job.Spec.Base, h.from.Frost), nil
	})
}

func edgeSections(t takeoff.Takeoff, spec takeoff.Spec, frost []estimate.FrostReach) EdgeSections {
	var out EdgeSections
	for _, slab := range t.Slabs {
		for _, name := range sectionsUsed(slab) {
			sec, ok := slab.Plan.SectionNamed(name)
			on := used(slab, name)
			if name == "" { // an edge without a haunch, that has a curb
				sec, ok, on.under = plan.Section{Name: plainEdge}, true, []plan.Station{{Depth: slab.Plan.Field}}
			}
			if !ok {
				continue
			}
			foam := edgeFoam(on, slab, spec.Base)
			i := slices.IndexFunc(out, func(s EdgeSection) bool {
				return reflect.DeepEqual(s.Against, on.against) && reflect.DeepEqual(s.Foam, foam) && s.Field == slab.Plan.Field && reflect.DeepEqual(s.Section, sec) && reflect.DeepEqual(s.Under, on.under)
			})
			if i < 0 {
				i = len(out)
				out = append(out, edgeSection(mark.Mark{Kind: mark.Section, N: i + 1}.String(), sec, on, slab, spec, t.Units))
			}
			s := &out[i]
			if s.Curb == nil {
				s.Curb = curbOn(slab, name, spec.Place)
			}
			s.Slabs = append(s.Slabs, slab.Number)
			s.wear(on, spec.Place.Bolts)
			for _, r := range frost {
				if r.Slab == slab.Number && r.Section == name && (s.Frost == nil || r.Asked-r.Deep > s.Frost.Asked-s.Frost.Deep) {
					s.Frost = &r
				}
			}
		}
	}
	return out
}

// sectionsUsed names the sections of a slab's edges and doors, in order; "" among them where
// an edge without one has a curb.
func sectionsUsed(s takeoff.Slab) (names []string) {
	seen := map[string]bool{"": true}
	loops := s.Plan.Loops()
	for _, r := range s.Curbs.Runs {
		if loops[r.Loop][r.Edge].Section == "" {
			delete(seen, "")
		}
	}
	for _, l := range loops {
		for i := range l {
			for _, s := range l.Spans(i) {
				if !seen[s.Section] {
					seen[s.Section] = true
					names = append(names, s.Section)
				}
			}
		}
	}
	return names
}

// use is what stands on the edges of a plan that have a section.
type use struct {
	under   []plan.Station // as it is dug: along a form, where any edge has one
	wall    string
	lip     plan.Lip
	formed  bool     // one of them has a form somewhere
	free    bool     // nothing lies against one of them somewhere
	against *Against // the first that one of them is poured against, where none has
	step    *Against // the same, where one has, and the two tops are not level
}

func used(s takeoff.Slab, name string) use {
	var u use
	p, met, formed := s.Plan, s.Layout.Met(), false
	for k, loop := range p.Loops() {
		for i, e := range loop {
			for _, sp := range loop.Spans(i) {
				if sp.Section != name {
					continue
				}
				for _, f := range plan.Formed(met, e, k, i, loop.Length(i)) {
					u.formed = u.formed || min(f.To, sp.To)-max(f.From, sp.From) >= plan.LeastMeeting
				}
				if k == 0 {
					for _, f := range plan.Free(met, e, k, i, loop.Length(i)) {
						u.free = u.free || min(f.To, sp.To)-max(f.From, sp.From) >= plan.LeastMeeting
					}
				}
				if u.against == nil {
					u.against = poured(s, k, i, sp)
				}
				if u.under == nil || !formed && !e.Joint {
					sec, _ := p.SectionOn(e, name)
					u.under, formed = sec.Stations(p.Field), !e.Joint
				}
				switch {
				case e.Joint:
				case sp.Door < 0 && u.wall == "":
					u.wall = e.Wall
				case sp.Door >= 0 && u.lip.Drop == 0:
					u.lip = e.Doors[sp.Door].Lip
				}
			}
		}
	}
	if u.formed {
		if a := u.against; a != nil && (a.Lower != 0 || a.Least != 0) {
			u.step = a
		}
		u.against = nil
	}
	return u
}

// poured gives what a stretch of an edge is poured against; nil for none.
func poured(s takeoff.Slab, loop, edge int, on plan.Span) *Against {
	for _, m := range s.Layout.Meetings {
		if m.Laid(loop, edge) && m.From < on.To && on.From < m.To {
			out := &Against{Name: m.Name, Lower: m.Lower, Least: m.Least, Thickness: m.Field, Curb: m.Curb, Wide: m.CurbWide}
			out.Doweled = slices.ContainsFunc(s.Layout.Dowels, func(d joints.Dowel) bool { return loop == 0 && d.Edge == edge })
			for _, f := range s.Layout.Forms {
				if f.Step && f.Loop == loop && f.Edge == edge && (m.Curb == 0 || m.Lower > m.Curb) {
					out.Board = f.Board
					break
				}
			}
			return out
		}
	}
	return nil
}

// wear puts on a section what stands on it, where it has none yet.
func (s *EdgeSection) wear(on use, spec bolts.Spec) {
	if board, ok := lumber.Named(on.wall); ok && s.Plate == nil {
		s.Plate = &Plate{Board: board}
		s.Bolt = BoltIn(board, spec)
	}
	if s.Lip.Drop == 0 {
		s.Lip = on.lip
	}
	if s.Step == nil {
		s.Step = on.step
	}
	if s.Plate != nil {
		s.Plate.Over = s.Lip.Drop
	}
}

// BoltIn gives the specified bolt in a plate; nil where none is.
func BoltIn(plate lumber.Board, spec bolts.Spec) *Bolt {
	if spec.Diameter <= 0 {
		return nil
	}
	b := &Bolt{spec.Diameter, spec.Length, spec.Projection, spec.Shape, spec.Hook, spec.Offset, spec.Washer}
	if b.Inset == 0 {
		b.Inset = plate.Width / 2
	}
	if b.Shape != bolts.Bent {
		b.Hook = 0
	}
	return b
}

func edgeSection(letter string, sec plan.Section, on use, slab takeoff.Slab, spec takeoff.Spec, u geometry.Units) EdgeSection {
	s := EdgeSection{Letter: letter, Section: sec, Field: slab.Plan.Field, Under: on.under, Steel: FieldSteelIn(slab.Plan.Field, spec.Place.Field, u)}
	for i, r := range spec.Place.Bars.Rows {
		if sec.Name == plainEdge && sec.Reach() == 0 {
			break // they lie in haunches alone
		}
		if row, ok := edgeRow(i, r, spec.Place.Bars.Size, s.Under, s.Field); ok {
			for _, l := range slab.Layout.Laps {
				if l.Of == bars.EdgeLaps && l.Row == row.Number {
					row.Lap = l.Length
				}
			}
			s.Rows = append(s.Rows, row)
		}
	}
	s.Against = on.against
	if len(s.Under) > 0 && on.formed {
		s.Board, _ = lumber.ForDepth(s.Under[0].Depth)
	}
	for _, f := range slab.Layout.Forms {
		if on.formed && f.Loop >= 0 && f.Of() == "" && f.Depth == s.Under[0].Depth { // as it is set, whether chosen or ripped
			s.Board = f.Board
			break
		}
	}
	s.Layers = layers(s.Under, s.Field, spec.Base)
	s.Foam = edgeFoam(on, slab, spec.Base)
	return s
}

// edgeRow gives a row of edge bars as it lies in a section; false for a size that
// is not known.
func edgeRow(i int, r bars.Row, size bars.Size, under []plan.Station, field geometry.Length) (Row, bool) {
	if r.Size != 0 {
		size = r.Size
	}
	db := size.Diameter()
	row := Row{Number: i + 1, Size: size, Diameter: db, Inset: r.Face + db/2, Face: r.Face, Bottom: r.Bottom, Top: r.Top}
	row.Depth = r.Top + db/2
	if r.Top == 0 {
		row.Depth = max(depthAt(under, field, row.Inset)-r.Bottom-db/2, db/2)
	}
	return row, size.Known()
}

// depthAt reads the depth of an underside at an inset, the lesser one at a step.
func depthAt(st []plan.Station, field, at geometry.Length) geometry.Length {
	for i := 1; i < len(st); i++ {
		a, b := st[i-1], st[i]
		if at <= b.Inset && b.Inset > a.Inset {
			return a.Depth + geometry.Length(float64(b.Depth-a.Depth)*float64(at-a.Inset)/float64(b.Inset-a.Inset))
		}
	}
	return field
}

// FieldSteelIn gives the steel in a field of a thickness; nil for none.
func FieldSteelIn(field geometry.Length, f fields.Spec, u geometry.Units) *FieldSteel {
	out := &FieldSteel{Depth: f.Depth, Cover: f.Cover}
	if out.Depth == 0 {
		out.Depth = field / 2
	}
	switch f.Kind {
	case fields.Mesh:
		out.Name = f.Style
	case fields.Grid:
		out.Name = fmt.Sprintf("%s, %s both ways", f.Size, f.Spacing.Text(u))
	default:
		return nil
	}
	return out
}
