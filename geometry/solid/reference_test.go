package solid

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

var rewrite = flag.Bool("rewrite-plans", false, "write a new testdata/solids/plans.txt; then run reference.cpp over it")

var live = flag.Bool("live", false, "build and run the reference program too")

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
	want := readVolumes(t, string(data))
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

// buildReference compiles the reference program, or skips where its compiler and
// library are not installed; `go run ./cmd/dev test` installs them.
func buildReference(tb testing.TB) string {
	tb.Helper()
	if _, err := os.Stat("/usr/include/CGAL/version.h"); err != nil && os.Getenv("CI") == "" {
		tb.Skip("needs libcgal-dev")
	}
	program := filepath.Join(tb.TempDir(), "reference")
	if out, err := exec.Command("g++", "-O2", "-o", program, corpus+"reference.cpp", "-lgmp", "-lmpfr").CombinedOutput(); err != nil {
		tb.Fatalf("g++: %v\n%s", err, out)
	}
	return program
}

// runReference gives what the reference program prints for the first n plans,
// and the time it says it took, in ms per plan.
func runReference(tb testing.TB, program string, n int) (volumes []float64, each float64) {
	tb.Helper()
	data, err := os.ReadFile(corpus + "plans.txt")
	if err != nil {
		tb.Fatal(err)
	}
	plans := strings.SplitAfterN(string(data), "\nend\n", n+1)
	cmd := exec.Command(program)
	cmd.Stdin = strings.NewReader(strings.Join(plans[:n], ""))
	var said strings.Builder
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		tb.Fatal(err)
	}
	var count int
	if _, err := fmt.Sscanf(said.String(), "%d plans, %f ms each", &count, &each); err != nil || count != n {
		tb.Fatalf("the reference program said %q", said.String())
	}
	return readVolumes(tb, string(out)), each
}

// readVolumes reads a volume per line.
func readVolumes(tb testing.TB, text string) []float64 {
	tb.Helper()
	var all []float64
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(line), 64)
		if err != nil {
			tb.Fatal(err)
		}
		all = append(all, v)
	}
	return all
}

// TestReferenceProgram builds and runs the reference program: the kept volumes
// are what it computes.
func TestReferenceProgram(t *testing.T) {
	if os.Getenv("CI") == "" && !*live {
		t.Skip("takes two minutes: give -live")
	}
	const n = 60
	got, _ := runReference(t, buildReference(t), n)
	data, err := os.ReadFile(corpus + "volumes.txt")
	if err != nil {
		t.Fatal(err)
	}
	want := readVolumes(t, string(data))
	for i, v := range got {
		if math.Abs(v-want[i]) > 1e-14*want[i] {
			t.Errorf("plan %d: computed %.17g, kept %.17g", i, v, want[i])
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
