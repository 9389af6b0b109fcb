package planview

import (
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout"
)

var _ = add(kind{layer: drawing.Joint, stage: lines, order: 12, write: (*Maker).meetingNames})

// meetingNames says of each stretch at which the slab is poured against another of the job what
// is between them. A joint that is marked has a name already.
func (m *Maker) meetingNames() {
	if m.s.Layout == nil {
		return
	}
	for i := range m.s.Layout.Meetings {
		t := &m.s.Layout.Meetings[i]
		if !t.Later || t.Marked || t.Loop >= len(m.loops) || t.Edge >= len(m.loops[t.Loop]) {
			continue
		}
		a, b := m.loops[t.Loop].Ends(t.Edge)
		if a == b {
			continue
		}
		p, q := geometry.Along(a, b, t.From), geometry.Along(a, b, t.To)
		if !m.seen(p, q) || m.o.Screen && m.small(geometry.Distance(p, q), 47) {
			continue
		}
		m.lines = append(m.lines[:0], m.meetingText(t))
		near, far := drawing.Beside(p, q, 2.4, 0.5, 0.25, 0.75), drawing.Beside(p, q, -4.2, 0.5, 0.3, 0.7)
		l := drawing.Label{Layer: drawing.Joint, Style: drawing.JointLine, Type: drawing.Small, Of: "Joint", At: drawing.Between(p, q, 0.5), Weight: placeWeight - 1}
		if m.o.Screen {
			m.d.Label(l, m.lines, near[:3]...)
			continue
		}
		l.Prefer, l.Start, l.Near, l.Reach = inward(a, b), 5, 5, 60 // the other slab lies outward
		m.d.Label(l, m.lines, append(near[:3], far[:3]...)...)
	}
}

// stepText says how far down or up the other slab lies, along the meeting; "" for level with it.
func (m *Maker) stepText(t *layout.Meeting) string {
	down, up := m.d.Text(t.Lower), m.d.Text(-t.Least)
	switch {
	case t.Lower == 0 && t.Least == 0:
		return ""
	case m.d.Text(t.Least) == down && t.Lower > 0:
		return down + " down"
	case m.d.Text(t.Least) == down:
		return up + " up"
	case t.Least >= 0:
		return m.d.Text(t.Least) + " to " + down + " down"
	case t.Lower <= 0:
		return m.d.Text(-t.Lower) + " to " + up + " up"
	}
	return up + " up to " + down + " down"
}

// meetingText says what is between two slabs.
func (m *Maker) meetingText(t *layout.Meeting) string {
	n := 0
	for _, d := range m.s.Layout.Dowels {
		if t.Loop == 0 && d.Edge == t.Edge && d.Along >= t.From && d.Along <= t.To {
			n++
		}
	}
	text := "against " + t.Name
	if step := m.stepText(t); step != "" {
		text += ", " + step
	}
	if n == 0 {
		return text + " – isolation strip"
	}
	return text + " – " + strconv.Itoa(n) + " dowels, tape from " + strconv.Itoa(t.Edge+1) + " to " + strconv.Itoa((t.Edge+1)%len(m.loops[0])+1)
}
