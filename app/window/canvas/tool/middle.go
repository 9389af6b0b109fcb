package tool

import "haunchbook.example/geometry"

// byMiddle is a state that puts a thing of a size by its middle, which is clicked or typed.
type byMiddle struct{ still }

// Takes implements State.
func (byMiddle) Takes(_ *Machine, r rune) bool { return startsNumber(r) }

// Meaning says how what is typed is read.
func (byMiddle) Meaning(m *Machine, text string) (string, error) { return placeMeaning(m, text) }

// help says what to do, and how to stop.
func (byMiddle) help(stop string) Help {
	return Help{"Click the middle, or type it: 12' along, 4' off", "Place it", stop}
}

// draft shows the rim of the thing, and its distances, where it would be put.
func (byMiddle) draft(m *Machine, o *Overlay, rim func(middle geometry.Point) geometry.Ring) {
	at := m.Snap.At
	typed, err := m.readPlace(m.Text)
	if err == nil {
		at = typed
	}
	if m.Inside || err == nil {
		m.closed(o, rim(at), Draft)
		m.clear(o, geometry.Ring{at})
	}
	if m.Text != "" {
		o.label(m.Typing(), offset(m.Pointer, 16, -18), Typing)
	}
	m.snapped(o)
}
