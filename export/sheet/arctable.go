package sheet

import (
	"haunchbook.example/app/takeoff"
)

// arcTable lists how the arcs of a slab are set out: swung from their centers, or off their
// chords, which fix them too.
func (s *set) arcTable(slab takeoff.Slab) []block {
	u, datum := s.job.Units, slab.Plan.Datum()
	tb := table{
		title: slab.Called("Arcs"),
		head:  []string{"Side", "R", "Chord", "M.O.", "Along it", "On chord from both ends", "Off it", "Center, along " + datum.Side(), "Square off"},
		right: []bool{false, true, true, true, true, true, true, true, true}, names: true,
	}
	for _, b := range slab.Layout.Bows {
		at, along, off := datum.Of(b.Center), "", ""
		if b.Reached {
			along, off = at.X.Text(u), at.Y.Text(u)
		}
		tb.rows = append(tb.rows, []string{sideName(slab, b.Loop, b.Edge), b.Radius.Text(u), b.Chord.Text(u), b.Middle.Abs().Text(u), b.Length.Text(u), b.Quarter.Text(u), b.Off.Text(u), along, off})
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return []block{tableBlock{table: tb}}
}
