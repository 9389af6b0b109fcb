package tool

import (
	"errors"

	"haunchbook.example/geometry"
)

// commitTrace moves the traced picture's corners, as a step of the history. While
// nothing is drawn over it yet, it is then seen whole, ready to be traced.
func (m *Machine) commitTrace(label string, corners []geometry.Point, err error) bool {
	j := m.Doc.Base()
	if err == nil && j.Trace.Locked {
		err = errLocked
	}
	if err != nil {
		m.say(err)
		return false
	}
	j.Trace.Corners = corners
	m.Doc.Commit(label, j)
	if m.Doc.Blank() {
		m.Fit()
	}
	return true
}

var errLocked = errors.New("the picture is locked; unlock it to fit it")

var errNoPicture = errors.New("there is no picture to fit; import one first")
