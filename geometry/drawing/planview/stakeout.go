package planview

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/stakeout"
)

var (
	_ = add(kind{layer: drawing.StakeOut, stage: placed, order: 10, sound: true, draw: (*Maker).stakeOut, write: (*Maker).checks})
	_ = add(kind{layer: drawing.Forms, stage: placed, order: 12, sound: true, draw: func(m *Maker) {
		if !m.o.Screen {
			m.strings() // a sheet has them with the forms
		}
	}})
)

// mostDiagonals is how many diagonals are drawn at once: with more, none can be
// followed. A table lists all.
const mostDiagonals = 10

// fewDiagonals is how many a sheet has; where there are more it has the 3-4-5 check of
// the datum corner in their stead.
const fewDiagonals = 2

// strings draws string lines to their stakes.
func (m *Maker) strings() {
	l := m.s.Layout
	if l == nil {
		return
	}
	every := m.everyString()
	for n, t := range l.Lines {
		if n%every > 0 || m.small(geometry.Distance(t.A, t.B), 20) || !m.seen(t.A, t.B) {
			continue // too short to be told from its neighbors, or too many
		}
		k := drawing.Pencil{Layer: drawing.StakeOut, Style: drawing.StringLine}
		m.d.Stroke(k, t.A, t.B)
		m.d.Mark(k, drawing.StringStake, t.A, geometry.Point{})
		m.d.Mark(k, drawing.StringStake, t.B, geometry.Point{})
	}
}

// stakeOut draws the diagonals and the 3-4-5 checks of right angles, on a screen with
// the string lines.
func (m *Maker) stakeOut() {
	l := m.s.Layout
	if l == nil {
		return
	}
	if m.o.Screen {
		m.strings()
	}
	o := m.s.Plan.Outline
	for _, d := range m.diagonals() {
		m.d.Stroke(drawing.Pencil{Layer: drawing.StakeOut, Style: drawing.TapeLine}, o[d.I].At, o[d.J].At)
	}
	k := drawing.Pencil{Layer: drawing.StakeOut, Style: drawing.SquareLine}
	for i := range l.Squares {
		q := &l.Squares[i]
		corner, ok := m.square(q)
		if !ok {
			continue
		}
		m.d.Stroke(k, q.A, corner, q.B)
		m.d.Stroke(drawing.Pencil{Layer: drawing.StakeOut, Style: drawing.StringLine, Shade: 0.01}, q.A, q.B)
		m.d.Mark(k, drawing.Dot, q.A, geometry.Point{})
		m.d.Mark(k, drawing.Dot, q.B, geometry.Point{})
	}
}

// mostStrings is about how many string lines are drawn on a screen at once.
const mostStrings = 40

// everyString tells that every so many-th string line is drawn: of a thicket some,
// and each again on zooming in.
func (m *Maker) everyString() int {
	n := 0
	for i := range m.s.Layout.Lines {
		if t := &m.s.Layout.Lines[i]; m.seen(t.A, t.B) {
			n++
		}
	}
	if !m.o.Screen {
		return 1
	}
	return 1 + (n-1)/mostStrings
}

// square gives the corner of a 3-4-5 check, false where it is not drawn: on short
// edges, or too small to be read.
func (m *Maker) square(q *stakeout.Square) (geometry.Point, bool) {
	o := m.s.Plan.Outline
	if !m.o.Screen && (q.Corner != m.s.Plan.Datum().Corner || len(m.s.Layout.Diagonals) <= fewDiagonals) {
		return geometry.Point{}, false
	}
	if q.Corner >= len(o) || m.small(3*q.Unit, 8.7) || !m.seen(o[q.Corner].At, q.A, q.B) {
		return geometry.Point{}, false
	}
	return o[q.Corner].At, true
}

// diagonals gives those that are drawn: the longest, which tell most.
func (m *Maker) diagonals() []stakeout.Diagonal {
	m.picks = m.picks[:0]
	if !m.o.Screen && len(m.s.Layout.Diagonals) > fewDiagonals {
		return nil
	}
	n := len(m.s.Plan.Outline)
	var top [mostDiagonals]geometry.Length
	if len(m.s.Layout.Diagonals) > mostDiagonals { // the length that so many are longer than
		for i := range m.s.Layout.Diagonals {
			for k, at := 0, m.s.Layout.Diagonals[i].Length; k < len(top) && at > top[len(top)-1]; k++ {
				if at > top[k] {
					top[k], at = at, top[k]
				}
			}
		}
	}
	for _, d := range m.s.Layout.Diagonals {
		if d.I < n && d.J < n && d.Length >= top[len(top)-1] && len(m.picks) < mostDiagonals {
			m.picks = append(m.picks, d)
		}
	}
	return m.picks
}

// checks writes the lengths of diagonals and the sides of 3-4-5 checks.
func (m *Maker) checks() {
	l := m.s.Layout
	if l == nil {
		return
	}
	o := m.s.Plan.Outline
	label := func(text string, a, b geometry.Point, spots ...drawing.Spot) {
		m.lines = append(m.lines[:0], text)
		m.d.Label(drawing.Label{
			Layer: drawing.StakeOut, Style: drawing.StringLine, Type: drawing.Small, Of: "Check", At: drawing.Between(a, b, 0.5),
			Near: 2, Reach: m.reach(40), Weight: measureWeight, Optional: !m.o.Screen, // a table lists all
		}, m.lines, spots...)
	}
	on := func(a, b geometry.Point, at ...float64) (out [9]drawing.Spot) {
		for k := range out {
			out[k] = drawing.Spot{At: drawing.Between(a, b, at[min(k, len(at)-1)]), Line: b.Sub(a), Turned: !m.o.Screen}
		}
		return out
	}
	for _, d := range m.diagonals() {
		a, b := o[d.I].At, o[d.J].At
		if m.small(geometry.Distance(a, b), 30) {
			continue
		}
		spots := on(a, b, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.5, 0.15, 0.85)
		label(m.d.Join(m.said("diagonal "), m.d.Text(d.Length)), a, b, spots[:]...)
	}
	for i := range l.Squares {
		q := &l.Squares[i]
		corner, ok := m.square(q)
		if !ok {
			continue
		}
		spots := on(q.A, q.B, 0.5, 0.35, 0.65)
		label(m.d.Join("3-4-5: ", m.d.Text(5*q.Unit)), q.A, q.B, spots[:3]...)
		for k, leg := range [2]geometry.Point{q.A, q.B} {
			aside := float32(1.3)
			if leg == q.A { // the slab is left of the edge that begins at the corner
				aside = -aside
			}
			two := drawing.Beside(corner, leg, aside, 0.55, 0.8)
			m.lines = append(m.lines[:0], m.d.Text(geometry.Distance(corner, leg)))
			if !m.o.Screen {
				m.lines[0] = m.d.Join(m.number(q, k), m.lines[0])
			}
			m.d.Label(drawing.Label{
				Layer: drawing.StakeOut, Style: drawing.StringLine, Type: drawing.Small, At: drawing.Between(corner, leg, 0.5), Weight: measureWeight, Optional: !m.o.Screen,
			}, m.lines, two[:2]...)
		}
	}
}

// number says which of the three sides of a check a leg is: "3: ", "4: ".
func (m *Maker) number(q *stakeout.Square, leg int) string {
	at := m.s.Plan.Outline[q.Corner].At
	if (geometry.Distance(at, q.A) < geometry.Distance(at, q.B)) == (leg == 0) {
		return "3: "
	}
	return "4: "
}

// said gives a word that is written on a sheet and goes without saying on a screen.
func (m *Maker) said(word string) string {
	if m.o.Screen {
		return ""
	}
	return word
}

// reach gives how far a label goes on a sheet; on a screen it keeps to its spots.
func (m *Maker) reach(mm float32) float32 {
	if m.o.Screen {
		return 0
	}
	return mm
}
