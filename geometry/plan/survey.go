package plan

import (
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
	Name   string          `json:"name"` // "BM 1, nail in the kerb"
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

// Clone gives a survey that shares no memory with s.
func (s Survey) Clone() Survey {
	s.Benchmarks = slices.Clone(s.Benchmarks)
	s.Notes = slices.Clone(s.Notes)
	return s
}
