package plan

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
)

// Survey is what stands on the drawing around the slabs.
type Survey struct {
	North      North       `json:"north,omitzero"`
	Benchmarks []Benchmark `json:"benchmarks,omitzero"`
	Notes      []Note      `json:"notes,omitzero"`
}

// North tells where north is on the drawing. The zero North is unknown.
type North struct {
	Known bool    `json:"known"`
	Turn  float64 `json:"turn"` // degrees clockwise from straight up the drawing
}

// Benchmark is a fixed point on the site that heights are measured from. The
// heights of all are over one datum, which is the first of them where that has
// height zero.
type Benchmark struct {
	Name   string          `json:"name"` // "BM 1, nail in the curb"
	At     geometry.Point  `json:"at"`
	Height geometry.Length `json:"height,omitzero"` // over the datum
}

// Note is a text on the drawing, with a leader from it to what it speaks of
// where Leader is set.
type Note struct {
	Text   string         `json:"text"`
	At     geometry.Point `json:"at"` // where the text stands: the middle of its left edge
	Leader bool           `json:"leader,omitzero"`
	To     geometry.Point `json:"to,omitzero"` // where the leader ends
}

// Limits of a survey, far beyond what a drawing needs.
const (
	maxNotes    = 500
	maxNoteText = 2000
)

// Validate gives the faults of the survey, with paths as in a job file.
func (s Survey) Validate(u geometry.Units) Faults {
	var fs Faults
	if !(s.North.Turn >= -360 && s.North.Turn <= 360) {
		fs = append(fs, Fault{Path: "north.turn", Found: fmt.Sprintf("%g°", s.North.Turn), Want: "must be from -360 to 360"})
	}
	if n := len(s.Notes) + len(s.Benchmarks); n > maxNotes {
		return append(fs, Fault{Path: "notes", Found: fmt.Sprintf("%d notes and benchmarks", n), Want: fmt.Sprintf("at most %d", maxNotes)})
	}
	for i, b := range s.Benchmarks {
		path := fmt.Sprintf("benchmarks[%d]", i)
		if b.Name == "" {
			fs = append(fs, Fault{Path: path + ".name", Found: "no name", Want: "say what it is: BM 1, nail in the curb", At: b.At})
		}
		fs = append(fs, far(path+".at", b.At, u)...)
		if tooFar(b.Height) {
			fs = append(fs, Fault{Path: path + ".height", Found: b.Height.Text(u), Want: "must be within " + geometry.MaxLength.Text(u) + " of the datum", At: b.At})
		}
	}
	for i, n := range s.Notes {
		path := fmt.Sprintf("notes[%d]", i)
		if n.Text == "" || len(n.Text) > maxNoteText {
			fs = append(fs, Fault{Path: path + ".text", Found: fmt.Sprintf("%d letters", len(n.Text)), Want: fmt.Sprintf("a note has 1 to %d letters", maxNoteText), At: n.At})
		}
		fs = append(fs, far(path+".at", n.At, u)...)
		fs = append(fs, far(path+".to", n.To, u)...)
	}
	return fs
}

// far faults a point beyond what a drawing may hold.
func far(path string, p geometry.Point, u geometry.Units) Faults {
	for _, c := range [...]geometry.Length{p.X, p.Y} {
		if tooFar(c) {
			return Faults{{Path: path, Found: c.Exact(u), Want: "must lie within " + geometry.MaxLength.Text(u) + " of the origin"}}
		}
	}
	return nil
}

// Clone gives a survey that shares no memory with s.
func (s Survey) Clone() Survey {
	s.Benchmarks = slices.Clone(s.Benchmarks)
	s.Notes = slices.Clone(s.Notes)
	return s
}
