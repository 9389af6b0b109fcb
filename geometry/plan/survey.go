package plan

// Survey is what stands on the drawing around the slabs.
type Survey struct {
	North      North       `json:"north,omitzero"`
	Benchmarks []Benchmark `json:"benchmarks,omitzero"`
	Notes      []Note      `json:"notes,omitzero"`
}
