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

// patternLP writes the instance over all its patterns: how many of each are cut.
// A pattern is a set of pieces that fit one piece of stock and leave room for no
// other piece that is wanted.
func (in instance) patternLP() string {
	var cost, whole strings.Builder
	cut := make([]strings.Builder, len(in.demands))
	hand := map[int]*strings.Builder{}
	n := 0
	for s, st := range in.stock {
		if st.Hand > 0 {
			hand[s] = &strings.Builder{}
		}
		in.patterns(s, func(counts []int) {
			name := fmt.Sprintf("p_%d", n)
			n++
			if st.Hand > 0 {
				fmt.Fprintf(hand[s], " + %s", name)
			} else {
				fmt.Fprintf(&cost, " + %d %s", st.Length, name)
			}
			for i, c := range counts {
				if c > 0 {
					fmt.Fprintf(&cut[i], " + %d %s", c, name)
				}
			}
			fmt.Fprintf(&whole, " %s\n", name)
		})
	}
	var rows strings.Builder
	for i, d := range in.demands {
		fmt.Fprintf(&rows, "%s >= %d\n", cut[i].String(), d.Count)
	}
	for s, uses := range hand {
		if uses.Len() > 0 {
			fmt.Fprintf(&rows, "%s <= %d\n", uses.String(), in.stock[s].Hand)
		}
	}
	return "Minimize\n cost:" + cost.String() + "\nSubject To\n" + rows.String() + "General\n" + whole.String() + "End\n"
}

// patterns calls visit with the maximal patterns of one stock.
func (in instance) patterns(stock int, visit func(counts []int)) {
	counts := make([]int, len(in.demands))
	var choose func(i int, room int64)
	choose = func(i int, room int64) {
		if i == len(in.demands) {
			some := false
			for k, d := range in.demands {
				if counts[k] < d.Count && d.Length <= room {
					return
				}
				some = some || counts[k] > 0
			}
			if some {
				visit(counts)
			}
			return
		}
		for n := min(int64(in.demands[i].Count), room/in.demands[i].Length); n >= 0; n-- {
			counts[i] = int(n)
			choose(i+1, room-n*in.demands[i].Length)
		}
	}
	choose(0, in.stock[stock].Length)
}

// byGLPK gives the least that must be bought, as glpsol finds it from a model.
func byGLPK(t testing.TB, path, lp string) int64 {
	dir := t.TempDir()
	model, report := filepath.Join(dir, "m.lp"), filepath.Join(dir, "m.txt")
	if err := os.WriteFile(model, []byte(lp), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(path, "--lp", model, "--cuts", "--tmlim", "60", "-o", report).CombinedOutput(); err != nil {
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

// drawn gives an instance of a job's kind: bars of some lengths from stock of
// 20 ft and 10 ft and now and then an offcut, in quarter inches.
func drawn(r *rand.Rand, lengths, counts int) instance {
	in := instance{stock: []Stock{{Length: 960}, {Length: 480}}}
	if r.IntN(2) == 0 {
		in.stock = append(in.stock, Stock{Length: 200 + r.Int64N(500), Hand: 1})
	}
	for range lengths {
		in.demands = append(in.demands, Demand{150 + r.Int64N(800), 1 + r.IntN(counts)})
	}
	return in
}

// Each instance is solved by GLPK from a model that knows no patterns, and larger
// ones, of a job's size, from one over all patterns.
func TestSolveAgainstGLPKNow(t *testing.T) {
	path := glpsol(t)
	r := rand.New(rand.NewPCG(8, 15))
	for k := range 24 {
		var in instance
		var lp string
		if k%2 == 0 {
			in = drawn(r, 2+r.IntN(3), 2)
			lp = in.lp(8)
		} else {
			in = drawn(r, 5+r.IntN(8), 9)
			lp = in.patternLP()
		}
		got, err := Solve(in.demands, in.stock, 0, 100_000)
		if err == nil {
			err = check(in.demands, in.stock, 0, got)
		}
		if err != nil {
			t.Fatal(err)
		}
		if want := byGLPK(t, path, lp); got.Bought != want || !got.Optimal() {
			t.Errorf("%v from %v: bought %d, bound %d; GLPK %d", in.demands, in.stock, got.Bought, got.Bound, want)
		}
	}
}

// BenchmarkSideBySide solves the same instances with this package and with glpsol
// over all patterns, whose start and files are included.
func BenchmarkSideBySide(b *testing.B) {
	for _, lengths := range []int{4, 8, 12} {
		in := drawn(rand.New(rand.NewPCG(8, 15)), lengths, 9)
		b.Run(fmt.Sprintf("lengths=%d/cutting", lengths), func(b *testing.B) {
			for b.Loop() {
				Solve(in.demands, in.stock, 0, 100_000)
			}
		})
		b.Run(fmt.Sprintf("lengths=%d/glpsol", lengths), func(b *testing.B) {
			path := glpsol(b)
			for b.Loop() {
				byGLPK(b, path, in.patternLP())
			}
		})
	}
}
