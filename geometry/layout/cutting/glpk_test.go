package cutting

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// glpsol gives the path of GLPK's solver. Without it a test is skipped, but not
// where the tests of every change run.
func glpsol(t testing.TB) string {
	path, err := exec.LookPath("glpsol")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("glpsol is missing; install glpk-utils")
		}
		t.Skip("glpsol is not installed (Debian: glpk-utils)")
	}
	return path
}

// lp writes an instance as an integer program in CPLEX LP form: a yes or no for
// each bar that may be opened, a number of each piece for each bar.
func (in instance) lp(bars int) string {
	var cost, rows, whole strings.Builder
	open := func(s, k int) string { return fmt.Sprintf("o_%d_%d", s, k) }
	for s, st := range in.stock {
		if st.Hand == 0 {
			for k := range bars {
				fmt.Fprintf(&cost, " + %d %s", st.Length, open(s, k))
			}
		}
	}
	for s, st := range in.stock {
		n := bars
		if st.Hand > 0 {
			n = st.Hand
		}
		for k := range n {
			for i, d := range in.demands {
				fmt.Fprintf(&rows, " + %d n_%d_%d_%d", d.Length, i, s, k)
				fmt.Fprintf(&whole, " n_%d_%d_%d\n", i, s, k)
			}
			fmt.Fprintf(&rows, " - %d %s <= 0\n", st.Length, open(s, k))
			fmt.Fprintf(&rows, " %s <= 1\n", open(s, k))
			fmt.Fprintf(&whole, " %s\n", open(s, k))
			if k > 0 { // bars alike are opened in order
				fmt.Fprintf(&rows, " %s - %s <= 0\n", open(s, k), open(s, k-1))
			}
		}
	}
	for i, d := range in.demands {
		for s, st := range in.stock {
			n := bars
			if st.Hand > 0 {
				n = st.Hand
			}
			for k := range n {
				fmt.Fprintf(&rows, " + n_%d_%d_%d", i, s, k)
			}
		}
		fmt.Fprintf(&rows, " >= %d\n", d.Count)
	}
	return "Minimize\n cost:" + cost.String() + "\nSubject To\n" + rows.String() + "General\n" + whole.String() + "End\n"
}

func (in instance) byGLPK(t testing.TB, path string, bars int) int64 {
	dir := t.TempDir()
	model, report := filepath.Join(dir, "m.lp"), filepath.Join(dir, "m.txt")
	if err := os.WriteFile(model, []byte(in.lp(bars)), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(path, "--lp", model, "--cuts", "-o", report).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	text, err := os.ReadFile(report)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), "INTEGER OPTIMAL") {
		t.Fatalf("no optimum:\n%.300s", text)
	}
	_, value, _ := strings.Cut(string(text), "cost = ")
	v, err := strconv.ParseFloat(strings.Fields(value)[0], 64)
	if err != nil {
		t.Fatal(err)
	}
	return int64(v + 0.5)
}

// drawn gives an instance of a job's kind: a few bars from stock of 20 ft and
// 10 ft, in quarter inches.
func drawn(r *rand.Rand) instance {
	in := instance{stock: []Stock{{Length: 960}, {Length: 480}}}
	if r.IntN(2) == 0 {
		in.stock = append(in.stock, Stock{Length: 200 + r.Int64N(500), Hand: 1})
	}
	for range 2 + r.IntN(3) {
		in.demands = append(in.demands, Demand{150 + r.Int64N(800), 1 + r.IntN(2)})
	}
	return in
}

// Each instance is solved by GLPK from a model that knows no patterns.
func TestSolveAgainstGLPKNow(t *testing.T) {
	path := glpsol(t)
	r := rand.New(rand.NewPCG(8, 15))
	for range 12 {
		in := drawn(r)
		got, err := Solve(in.demands, in.stock, 0, 100_000)
		if err != nil {
			t.Fatal(err)
		}
		if want := in.byGLPK(t, path, 8); got.Bought != want || !got.Optimal() {
			t.Errorf("%v from %v: bought %d, bound %d; GLPK %d", in.demands, in.stock, got.Bought, got.Bound, want)
		}
	}
}

// BenchmarkGLPK is the same work as BenchmarkSolveDrawn by glpsol, its start and
// its files included.
func BenchmarkGLPK(b *testing.B) {
	path := glpsol(b)
	r := rand.New(rand.NewPCG(8, 15))
	in := drawn(r)
	for b.Loop() {
		in.byGLPK(b, path, 6)
	}
}

func BenchmarkSolveDrawn(b *testing.B) {
	r := rand.New(rand.NewPCG(8, 15))
	in := drawn(r)
	for b.Loop() {
		Solve(in.demands, in.stock, 0, 100_000)
	}
}
