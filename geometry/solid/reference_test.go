package solid

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
)

var rewrite = flag.Bool("rewrite-plans", false, "write a new testdata/solids/plans.txt; then run reference.cpp over it")

const corpus = "../../testdata/solids/"

// corpusSize is how many generated plans are kept.
const corpusSize = 400

// TestReference compares the volume of generated plans with that of an
// independent program, testdata/solids/reference.cpp, which builds the same
// solids from the rule in the package comment with CGAL's exact polygons
// (Debian package libcgal-dev; CGAL User Manual, 2D Regularized Boolean
// Set-Operations). Its volumes are kept beside the plans.
func TestReference(t *testing.T) {
	if *rewrite {
		writeCorpus(t)
	}
	f, err := os.Open(corpus + "plans.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	plans, err := readPlans(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(corpus + "volumes.txt")
	if err != nil {
		t.Fatal(err)
	}
	var want []float64
	for line := range strings.Lines(string(data)) {
		var v float64
		if strings.HasPrefix(line, "#") {
			continue
		}
		if _, err := fmt.Sscan(line, &v); err != nil {
			t.Fatal(err)
		}
		want = append(want, v)
	}
	if len(plans) != corpusSize || len(want) != len(plans) {
		t.Fatalf("%d plans, %d reference volumes, want %d of each", len(plans), len(want), corpusSize)
	}
	worst := 0.0
	for i, p := range plans {
		s, err := Of(p)
		if err != nil {
			t.Fatalf("plan %d: %v", i, err)
		}
		off := math.Abs(s.Volume-want[i]) / want[i]
		worst = max(worst, off)
		if off > 1e-9 {
			t.Errorf("plan %d: %.15g m³, reference %.15g m³: off by %.2g", i, s.Volume, want[i], off)
		}
	}
	t.Logf("largest relative difference over %d plans: %.2g", len(plans), worst)
}

func writeCorpus(t *testing.T) {
	f, err := os.Create(corpus + "plans.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	fmt.Fprintln(f, "# Generated plans: go test ./geometry/solid -run TestReference -rewrite-plans. Format: geometry/solid/corpus_test.go. Lengths in nm.")
	r := rand.New(rand.NewPCG(1, 2))
	for n := 0; n < corpusSize; {
		p := generate(r)
		if len(p.Validate(0)) == 0 {
			writePlan(f, p)
			n++
		}
	}
}
