package solid

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/testdata/exact"
)

// Shapes of n edges whose edges keep their size as n grows, so that sections
// stay local.

func convexOf(n int) []geometry.Point {
	radius := float64(n) * 4 / (2 * math.Pi) // 4 ft edges
	ps := make([]geometry.Point, n)
	for i := range ps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ps[i] = feet(radius*cos, radius*sin)
	}
	return ps
}

func starOf(n int) []geometry.Point {
	ps := make([]geometry.Point, n)
	radius := float64(n) * 5 / (2 * math.Pi)
	for i := range ps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		d := radius
		if i%2 == 1 {
			d = radius * (1 - min(0.5, 6/radius))
		}
		ps[i] = feet(d*cos, d*sin)
	}
	return ps
}

func combOf(n int) []geometry.Point {
	teeth := max(1, n/4)
	ps := []geometry.Point{feet(0, 0), feet(float64(teeth)*8-4, 0)}
	for i := teeth - 1; i >= 0; i-- {
		x := float64(i) * 8
		ps = append(ps, feet(x+4, 20), feet(x, 20))
		if i > 0 {
			ps = append(ps, feet(x, 6), feet(x-4, 6))
		}
	}
	return ps
}

// randomOf walks out and back along two random lines.
func randomOf(n int) []geometry.Point {
	r := rand.New(rand.NewPCG(uint64(n), 9))
	var ps []geometry.Point
	for i := range n / 2 {
		ps = append(ps, feet(float64(i)*5, 3*r.Float64()))
	}
	for i := n/2 - 1; i >= 0; i-- {
		ps = append(ps, feet(float64(i)*5+2*r.Float64(), 12+6*r.Float64()))
	}
	return ps
}

func BenchmarkOf(b *testing.B) {
	for _, shape := range []struct {
		name string
		of   func(int) []geometry.Point
	}{{"convex", convexOf}, {"star", starOf}, {"comb", combOf}, {"random", randomOf}} {
		for _, n := range []int{4, 12, 100, 200, 1000, 10000} {
			p := haunched(12*in, 12*in, 12*in, shape.of(n)...).Oriented()
			b.Run(fmt.Sprintf("%s/%d", shape.name, n), func(b *testing.B) {
				if faults := p.Validate(0); len(faults) > 0 {
					b.Fatal(faults)
				}
				b.ReportAllocs()
				for b.Loop() {
					OfSound(p)
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(p.Outline)), "ns/edge")
			})
		}
	}
}

// BenchmarkDrag validates and solves a 200-edge plan, as each move of a dragged
// corner does.
func BenchmarkDrag(b *testing.B) {
	p := haunched(12*in, 12*in, 12*in, randomOf(200)...).Oriented()
	b.ReportAllocs()
	for b.Loop() {
		p.Outline[7].At.Y ^= 1
		if _, err := Of(p); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReference solves the kept plans and has the reference program solve
// them too: its time over ours is the ratio.
func BenchmarkReference(b *testing.B) {
	const n = 100
	f, err := os.Open(corpus + "plans.txt")
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	plans, err := readPlans(f)
	if err != nil {
		b.Fatal(err)
	}
	cmd := exec.Command(exact.Program(b))
	cmd.Stdin = strings.NewReader(strings.Join(kept(b)[:n], ""))
	var said strings.Builder
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil {
		b.Fatal(err)
	}
	var count int
	var theirs float64
	if _, err := fmt.Sscanf(said.String(), "%d plans, %f ms each", &count, &theirs); err != nil || count != n {
		b.Fatalf("the reference program said %q", said.String())
	}
	for b.Loop() {
		for _, p := range plans[:n] {
			OfSound(p)
		}
	}
	ours := b.Elapsed().Seconds() * 1000 / float64(b.N) / n
	b.ReportMetric(ours, "ms/plan")
	b.ReportMetric(theirs, "reference-ms/plan")
	b.ReportMetric(theirs/ours, "ratio")
}
