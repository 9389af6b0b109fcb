package plan

// Survey is what stands on the drawing around the slabs, and what was measured.
type Survey struct {
	North      North       `json:"north,omitzero"`
	Benchmarks []Benchmark `json:"benchmarks,omitzero"`
	Notes      []Note      `json:"notes,omitzero"`
	Shots      []Shot      `json:"shots,omitzero"`
}
