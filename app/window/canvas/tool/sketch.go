package tool

import (
	"errors"

	"haunchbook.example/geometry"
)

// commitSketch moves the corners of the sketch, as a step of the history. While
// nothing is drawn over it yet, it is then seen whole, ready to be drawn over.
func (m *Machine) commitSketch(label string, corners []geometry.Point, err error) bool {
	j := m.Doc.Base()
	if err == nil && j.Sketch.Locked {
		err = errLocked
	}
	if err != nil {
		m.say(err)
		return false
	}
	j.Sketch.Corners = corners
	m.Doc.Commit(label, j)
	if m.Doc.Blank() {
		m.Fit()
	}
	return true
}

var errLocked = errors.New("the sketch is locked; unlock it to fit it")

var errNoPicture = errors.New("there is no sketch to fit; import one first")
