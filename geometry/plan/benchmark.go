package plan

import (
	"haunchbook.example/geometry"
)

// Benchmark is a fixed point on the site that heights are measured from. The
// heights of all are over one datum, which is the first of them where that has
// height zero.
type Benchmark struct {
	Name   string          `json:"name"` // "BM 1, nail in the curb"
	At     geometry.Point  `json:"at"`
	Height geometry.Length `json:"height,omitzero"` // over the datum
}

// KindBenchmark is the kind of benchmarks.
const KindBenchmark Kind = "benchmark"

func init() {
	at := func(b *Benchmark) []*geometry.Point { return []*geometry.Point{&b.At} }
	register(KindBenchmark, 51, 11, list[Benchmark]{
		kind: KindBenchmark,
		in:   func(s *Site) *[]Benchmark { return &s.Survey.Benchmarks },
		body: at,
		lies: func(b Benchmark) Outline { return Outline{Grips: []Grip{{At: b.At}}} },
	})
}
