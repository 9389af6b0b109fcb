package sheet

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/plan"
)

// sectionBlock is a section in a column.
func (s *set) sectionBlock(title string, notes []string, of detail.Section) detailBlock {
	return detailBlock{title, notes, of.Drawing(s.job.Units), s.scales(detailScales(s.job.Units)), sectionWidth}
}

// underNotes says what lies under the slab, and how it is laid.
func (s *set) underNotes(how []string) block {
	b, u := s.job.Spec.Base, s.job.Units
	n := notes{title: "Under the slab", size: sizeSmall, bullet: "•"}
	if b.Gravel > 0 {
		n.items = append(n.items, b.Gravel.Text(u)+" of compacted gravel")
	}
	if b.Foam > 0 {
		n.items = append(n.items, b.Foam.Text(u)+" of foam")
	}
	if b.Retarder > 0 {
		n.items = append(n.items, fmt.Sprintf("vapor retarder %s, laps %s", takeoff.Mils(b.Retarder, u), b.Lap.Text(u)))
	}
	n.items = append(n.items, how...)
	if len(s.trenches) > 0 {
		n.items = append(n.items, "Rod reading on a dug bottom: that on the string + Dig.")
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

// frostNote says which sections reach the frost depth, where it is known.
func (s *set) frostNote() block {
	if s.frost <= 0 {
		return nothing{}
	}
	u := s.job.Units
	n := notes{title: "Frost depth " + s.frost.Text(u) + " below the ground", size: sizeSmall, bullet: "•"}
	for _, sec := range s.sections {
		if sec.Frost == nil {
			continue // along joints alone
		}
		text := "reaches it"
		if short := sec.Frost.Short(); short > 0 {
			text = fmt.Sprintf("is %s short of it", short.Text(u))
		}
		n.items = append(n.items, fmt.Sprintf("%s %s, %s deep, %s", sec.Letter, sec.Section.Name, sec.Frost.Deep.Text(u), text))
	}
	if b := s.job.Spec.Base; b.Insulated() {
		n.items = append(n.items, fmt.Sprintf("edges are insulated and asked %s below the ground instead: IRC R403.3, heated buildings only", b.ShallowDepth().Text(u)))
	}
	n.items = append(n.items, "Below the frost line, or protected from frost: IRC R403.1.4, R403.3; the local code decides.")
	return n
}

// padSections draws each shape of pad and strip once.
func (s *set) padSections() []block {
	u := s.job.Units
	var out []block
	seen := map[string]bool{}
	for _, slab := range s.takeoff.Slabs {
		p := slab.Plan
		add := func(name, shape string, width, depth, taper geometry.Length, steel handover.Thickening) {
			said := []string{shape}
			if len(steel.Ends) > 0 {
				said = append(said, fmt.Sprintf("%s, %s clear of the bottom; %s", steel.Ends[0].Size, steel.Ends[0].Bottom.Text(u), strings.Join(steel.Said, ", ")))
			}
			if key := fmt.Sprint(said, p.Field); !seen[key] {
				seen[key] = true
				b := s.sectionBlock(slab.Called(name), said, detail.Section{
					Field: p.Field, Inside: true, Bars: handover.BarsDrawn(steel.Ends), Lying: (*detail.LyingBar)(steel.Lying), Said: true,
					Under: []plan.Station{{Inset: 0, Depth: p.Field}, {Inset: taper, Depth: depth}, {Inset: taper + width, Depth: depth}, {Inset: 2*taper + width, Depth: p.Field}},
				})
				b.least = padWidth
				out = append(out, b)
			}
		}
		for i, d := range p.Pads {
			add("Pad "+slab.Layout.Marks.Pad(i).Called(d.Name), fmt.Sprintf("%s × %s, %s deep, sides out %s", d.Width.Text(u), d.Length.Text(u), d.Depth.Text(u), d.Taper.Text(u)), d.Width, d.Depth, d.Taper, handover.PadSteel(slab, i))
		}
		for i, d := range p.Strips {
			add("Thickened strip "+slab.Layout.Marks.Strip(i).Called(d.Name), fmt.Sprintf("%s wide, %s deep, sides out %s", d.Bottom.Text(u), d.Depth.Text(u), d.Taper.Text(u)), d.Bottom, d.Depth, d.Taper, handover.StripSteel(slab, i))
		}
	}
	return out
}

// edgeSections gives a drawing for each edge section in use.
func (s *set) edgeSections() []block {
	var out []block
	for _, sec := range s.sections {
		out = append(out, s.sectionBlock(sectionTitle(sec.Letter, sec.Section.Name, len(s.sections) == 1), s.sectionNotes(sec), sec.Detail(s.job.Spec.Place.Bars.Size)))
	}
	return out
}

// sectionNotes says what an edge section is made of.
func (s *set) sectionNotes(sec handover.EdgeSection) []string {
	u := s.job.Units
	var out []string
	if len(s.takeoff.Slabs) > 1 {
		var names []string
		for _, slab := range s.takeoff.Slabs {
			if slices.Contains(sec.Slabs, slab.Number) {
				names = append(names, slab.Name)
			}
		}
		out = append(out, "of "+strings.Join(names, ", "))
	}
	for _, r := range sec.Rows {
		text := fmt.Sprintf("%s, %s from face, ", r.Size, r.Face.Text(u))
		if r.Bottom > 0 {
			text += r.Bottom.Text(u) + " up"
		} else {
			text += r.Top.Text(u) + " down"
		}
		out = append(out, text)
	}
	if len(sec.Rows) > 0 && s.job.Spec.Place.Bars.Setting == bars.Wet {
		out = append(out, "bars set wet, if the inspector agrees")
	}
	if sec.Bolt != nil {
		out = append(out, s.boltNotes(sec.Bolt, sec.Plate.Name)...)
	}
	out = append(out, s.curbNotes(sec)...)
	if sec.Against != nil {
		out = append(out, "poured against "+againstNote(sec.Against, u))
	} else if sec.Step != nil {
		out = append(out, "in places poured against "+againstNote(sec.Step, u))
	}
	if f := sec.Foam; f != nil {
		out = append(out, s.frostFoamNotes(f)...)
	}
	if sec.Lip.Drop > 0 {
		out = append(out, fmt.Sprintf("door lip: %s lower, %s in from the face", sec.Lip.Drop.Text(u), sec.Lip.Inset.Text(u)))
	}
	return out
}

func sectionTitle(letter, name string, only bool) string {
	if only {
		return "Edge section: " + name
	}
	return "Section " + letter + ": " + name
}

// againstNote says how far below or above the top the slab lies that an edge is poured against,
// and what is between them.
func againstNote(a *handover.Against, u geometry.Units) string {
	how := "isolation strip between"
	if a.Doweled {
		how = "dowels between"
	}
	if a.Curb > 0 {
		how = "its curb stands " + a.Curb.Text(u) + " over it; " + how
	}
	board := ""
	if a.Board.Width > 0 {
		board = "; a board hangs over it"
	}
	span := func(least, most geometry.Length) string {
		if least.Text(u) == most.Text(u) {
			return most.Text(u)
		}
		return least.Text(u) + " to " + most.Text(u)
	}
	switch {
	case a.Lower > 0 && a.Least < 0:
		return fmt.Sprintf("%s, from %s above the top to %s below it; %s%s", a.Name, (-a.Least).Text(u), a.Lower.Text(u), how, board)
	case a.Lower > 0:
		return fmt.Sprintf("%s, %s below the top; %s%s", a.Name, span(a.Least, a.Lower), how, board)
	case a.Least < 0:
		return fmt.Sprintf("%s, %s above the top, with no board; %s", a.Name, span(-a.Lower, -a.Least), how)
	}
	return fmt.Sprintf("%s, with no board; %s", a.Name, how)
}
