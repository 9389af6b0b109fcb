package sheet

import (
	"fmt"
	"maps"
	"slices"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// squaring lists what squares the forms of a slab; what is read off its plan is not said
// again.
func (s *set) squaring(slab takeoff.Slab, on []plot) []block {
	u := s.job.Units
	var out []block
	if t := slab.Layout.Diagonals; len(t) > 0 && !s.diagonalsOn(on, slab) {
		tb := table{title: slab.Called("Square: diagonals"), head: []string{"Corners", "Length"}, right: []bool{false, true}}
		for _, d := range t {
			tb.rows = append(tb.rows, []string{fmt.Sprintf("%d–%d", d.I+1, d.J+1), d.Length.Text(u)})
		}
		out = append(out, tableBlock{tb, 2})
	}
	out = append(out, s.arcTable(slab)...)
	if t := slab.Layout.Squares; len(t) > 0 {
		tb := table{title: slab.Called("Square: 3-4-5"), head: []string{"Corner", "On", "", "On", "", "Across"}, right: []bool{false, false, true, false, true, true}}
		n := len(slab.Plan.Outline)
		for _, q := range t {
			tb.rows = append(tb.rows, []string{fmt.Sprint(q.Corner + 1), sideName(slab, 0, (q.Corner+n-1)%n), q.Back.Text(u), sideName(slab, 0, q.Corner), q.Forth.Text(u), (5 * q.Unit).Text(u)})
		}
		out = append(out, tableBlock{table: tb})
	}
	return out
}

// sawCutTable lists where the saw cuts of a slab begin and end, by tapes along its
// sides.
func (s *set) sawCutTable(slab takeoff.Slab) []block {
	u, cuts := s.job.Units, slab.Layout.SawCuts
	if len(cuts) == 0 {
		return nil
	}
	tb := table{
		title: slab.Called("Saw cuts, " + cuts[0].Depth.Text(u) + " deep"),
		head:  []string{"Cut", "From", "To"},
	}
	for _, c := range cuts {
		tb.rows = append(tb.rows, []string{c.Mark.String(), placeOn(slab, c.A, u), placeOn(slab, c.B, u)})
	}
	return []block{tableBlock{table: tb}}
}

// placeOn says where a place lies: by a tape along the side that it is on, else from
// the datum.
func placeOn(slab takeoff.Slab, p geometry.Point, u geometry.Units) string {
	if loop, edge, along, ok := slab.Plan.OnSide(p); ok {
		return sideName(slab, loop, edge) + " at " + along.Text(u)
	}
	datum := slab.Plan.Datum()
	at := datum.Of(p)
	return fmt.Sprintf("%s along %s, %s off", at.X.Text(u), datum.Side(), at.Y.Text(u))
}

// sectionList says what the letters on the edges stand for, and how they are shaped
// where no section is drawn.
func (s *set) sectionList(of []takeoff.Slab, inWords bool) block {
	n := notes{title: "Edge sections", size: sizeSmall}
	if len(s.sections) == 1 && !inWords { // no letter is on the plan
		return nothing{}
	}
	u, shapes := s.job.Units, map[string]string{}
	for _, slab := range of {
		on := s.sections.Letters(slab.Number)
		for _, sec := range slab.Plan.Sections {
			if l := on[sec.Name]; l != "" {
				text := fmt.Sprintf("%s  %s, %s deep", l, sec.Name, sec.Deepest().Text(u))
				shapes[text] = ""
				if (inWords || l != s.sections[0].Letter) && len(sec.Profile) == 0 { // only the first is sure to be drawn here
					shapes[text] = fmt.Sprintf("bottom %s, taper %s", sec.Bottom.Text(u), sec.Taper.Text(u))
				}
			}
		}
	}
	if len(shapes) == 0 {
		return nothing{}
	}
	for _, text := range slices.Sorted(maps.Keys(shapes)) {
		n.items = append(n.items, text)
		if shape := shapes[text]; shape != "" {
			n.items = append(n.items, shape)
		}
	}
	if i := slices.IndexFunc(s.sections, func(e handover.EdgeSection) bool { return e.Bolt != nil }); i >= 0 && inWords {
		n.items = append(n.items, "Bolts: "+boltSet(s.sections[i].Bolt, s.job.Units))
	}
	return n
}

// doorTable lists the openings of a slab: where each begins on its side,
// from the side's first corner, and how wide it is.
func (s *set) doorTable(slab takeoff.Slab) []block {
	u := s.job.Units
	tb := table{title: slab.Called("Rough openings"), head: []string{"Opening", "Side", "From", "Wide"}, right: []bool{false, false, true, true}}
	for li, l := range slab.Plan.Loops() {
		for i, e := range l {
			for k, d := range e.Doors {
				tb.rows = append(tb.rows, []string{
					slab.Layout.Marks.Door(li, i, k).Called(d.Name) + " " + d.Kind.String() + " door",
					sideName(slab, li, i), d.From.Text(u), d.Width.Text(u),
				})
			}
		}
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}

// diagonalsOn tells whether the length of each diagonal of a slab stands on a plan.
func (s *set) diagonalsOn(on []plot, slab takeoff.Slab) bool {
	left := map[string]int{}
	for _, p := range on {
		for _, it := range p.page.Items {
			if t, ok := it.(Text); ok && t.Layer == drawing.StakeOut {
				left[t.Text]++
			}
		}
	}
	for _, d := range slab.Layout.Diagonals {
		text := s.say.Say("diagonal " + d.Length.Text(s.job.Units))
		if left[text]--; left[text] < 0 {
			return false
		}
	}
	return true
}
