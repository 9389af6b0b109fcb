package solid

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/testdata/exact"
)

var rewrite = flag.Bool("rewrite-plans", false, "write a new testdata/solids/plans.txt; then run reference.cpp over it")

var live = flag.Bool("live", false, "build and run the reference program too")

const corpus = "../../testdata/solids/"

// corpusSize is how many generated plans are kept.
const corpusSize = 400

// TestReference compares the volume of generated plans with that of an
// independent program, testdata/exact/cgal/reference.cpp, which builds the same
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
	want := readVolumes(t, strings.Split(string(data), "\n"))
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

// kept gives the kept plans as the reference program reads them.
func kept(tb testing.TB) []string {
	tb.Helper()
	data, err := os.ReadFile(corpus + "plans.txt")
	if err != nil {
		tb.Fatal(err)
	}
	plans := strings.SplitAfter(string(data), "\nend\n")
	return plans[:len(plans)-1]
}

// readVolumes reads a volume per line.
func readVolumes(tb testing.TB, lines []string) []float64 {
	tb.Helper()
	var all []float64
	for _, line := range lines {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		v, err := strconv.ParseFloat(line, 64)
		if err != nil {
			tb.Fatal(err)
		}
		all = append(all, v)
	}
	return all
}

// TestReferenceProgram builds and runs the reference program: the kept volumes, all
// of them, are what it computes.
func TestReferenceProgram(t *testing.T) {
	if os.Getenv("CI") == "" && !*live {
		t.Skip("takes a minute: give -live")
	}
	t.Parallel()
	got := readVolumes(t, exact.Run(t, kept(t)))
	data, err := os.ReadFile(corpus + "volumes.txt")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range readVolumes(t, strings.Split(string(data), "\n")) {
		if math.Abs(got[i]-want) > 1e-14*want {
			t.Errorf("plan %d: computed %.17g, kept %.17g", i, got[i], want)
		}
	}
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
