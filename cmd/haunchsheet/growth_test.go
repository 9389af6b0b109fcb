package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const (
	foot = geometry.Foot
	inch = geometry.Inch
)

// rectangle gives a slab with walls on all sides.
func rectangle(x, y, width, length geometry.Length) plan.Plan {
	p := plan.Plan{Field: 6 * inch, Sections: []plan.Section{{Name: "Edge", Depth: 12 * inch, Bottom: 12 * inch, Taper: 8 * inch}}}
	for _, c := range [][2]geometry.Length{{0, 0}, {width, 0}, {width, length}, {0, length}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: x + c[0], Y: y + c[1]}, Section: "Edge", Wall: "2x6"})
	}
	return p
}

// side gives the least square that is no less than n.
func side(n int) geometry.Length { return geometry.Length(math.Ceil(math.Sqrt(float64(n)))) }

// grown gives a job with n things of a kind.
var grown = map[string]func(n geometry.Length) job.Job{
	"edges": func(n geometry.Length) job.Job { // a comb
		teeth := (n - 2) / 4
		p := rectangle(0, 0, teeth*4*foot, 20*foot)
		e := p.Outline[0]
		p.Outline = p.Outline[:2]
		for x := teeth * 4; x > 0; x -= 4 {
			for _, c := range [][2]geometry.Length{{x, 20}, {x - 2, 20}, {x - 2, 12}, {x - 4, 12}} {
				e.At = geometry.Point{X: c[0] * foot, Y: c[1] * foot}
				p.Outline = append(p.Outline, e)
			}
		}
		return with(p)
	},
	"holes": func(n geometry.Length) job.Job {
		s := side(int(n))
		p := rectangle(0, 0, s*4*foot+2*foot, s*4*foot+2*foot)
		for i := range n {
			x, y := (i%s*4+2)*foot, (i/s*4+2)*foot
			var l plan.Loop
			for _, c := range [][2]geometry.Length{{0, 0}, {0, 1}, {1, 1}, {1, 0}} {
				l = append(l, plan.Edge{At: geometry.Point{X: x + c[0]*foot, Y: y + c[1]*foot}})
			}
			p.Holes = append(p.Holes, plan.Hole{Loop: l})
		}
		return with(p)
	},
	"doors": func(n geometry.Length) job.Job {
		each := (n + 3) / 4
		p := rectangle(0, 0, (each*6+4)*foot, (each*6+4)*foot)
		for i := range n {
			e := &p.Outline[i%4]
			e.Doors = append(e.Doors, plan.Door{Name: fmt.Sprint("D", i+1), Kind: plan.Walk, From: (i/4*6 + 2) * foot, Width: 3 * foot})
		}
		return with(p)
	},
	"bolts": func(n geometry.Length) job.Job { // one about every 5 ft
		return with(rectangle(0, 0, max(24*foot, n*3*foot/2), max(20*foot, n*foot)))
	},
	"slabs": func(n geometry.Length) job.Job {
		var all []plan.Plan
		s := side(int(n))
		for i := range n {
			p := rectangle(i%s*25*foot, i/s*25*foot, 16*foot, 16*foot)
			p.Name = fmt.Sprint("Slab ", i+1)
			all = append(all, p)
		}
		return with(all...)
	},
	"falls": func(n geometry.Length) job.Job {
		p := rectangle(0, 0, 400*foot, 300*foot)
		for i := range n {
			x := 390 * foot * i / n
			p.Top.Falls = append(p.Top.Falls, plan.Fall{From: geometry.Point{X: x, Y: 250 * foot}, To: geometry.Point{X: x + i%5*foot, Y: 8 * foot}, Drop: (2 + i%3) * inch})
		}
		return with(p)
	},
	"notes": func(n geometry.Length) job.Job {
		j := with(rectangle(0, 0, 40*foot, 30*foot))
		for i := range n {
			j.Survey.Notes = append(j.Survey.Notes, plan.Note{Text: fmt.Sprint("Note ", i+1), At: geometry.Point{X: i % 40 * foot, Y: i / 40 * foot}})
		}
		return j
	},
}

func with(slabs ...plan.Plan) job.Job {
	j := job.New()
	j.Name, j.Slabs = "Grown", slabs
	return j
}

// A job with many things of a kind gives its documents.
func TestGrown(t *testing.T) {
	if testing.Short() {
		t.Skip("thirty of each, for the race detector fewer do: run without -short")
	}
	for kind, of := range grown {
		code, said := outcome(string(of(30).Encode()), t.TempDir()+"/out")
		if code != 0 {
			t.Errorf("30 %s: exit code %d, %s", kind, code, said)
		}
	}
}

// What is too much is told before anything is worked out, in words that say what was
// likely meant.
func TestTooMuchIsTold(t *testing.T) {
	far := rectangle(0, 0, 40*foot, 30*foot)
	far.Outline[1].At.X = 9999 * geometry.Meter
	long := with(rectangle(0, 0, 40*foot, 30*foot))
	long.Survey.Notes = []plan.Note{{Text: strings.Repeat("word ", 6000)}}
	for want, j := range map[string]job.Job{
		"6.2 miles long; did you mean mm?": with(far),
		"keep it to 2000 letters":          long,
		"keep 500 at most":                 grown["notes"](501),
		"a job has at most 1000":           grown["slabs"](1001),
	} {
		if code, said := outcome(string(j.Encode()), t.TempDir()+"/out"); code != 1 || !strings.Contains(said, want) {
			t.Errorf("exit code %d, %.300s; want %q", code, said, want)
		}
	}
}

// BenchmarkGrowth prints how long all documents of a job take with so many things of a
// kind, and by which power of their number that grows: 1 is as much again for each.
func BenchmarkGrowth(b *testing.B) {
	for _, kind := range []string{"edges", "holes", "doors", "bolts", "slabs", "falls", "notes"} {
		b.Run(kind, func(b *testing.B) {
			for b.Loop() {
				last, exponent := 0.0, 0.0
				for _, n := range []geometry.Length{62, 125, 250, 500, 1000} {
					text := string(grown[kind](n).Encode())
					began := time.Now()
					if run([]string{"-quiet", "-out", b.TempDir(), "-"}, strings.NewReader(text), io.Discard, io.Discard) != 0 {
						continue // beyond the limit: told
					}
					took := time.Since(began).Seconds()
					if last > 0 {
						exponent = math.Log2(took / last)
					}
					last = took
					b.Logf("%4d %s: %6.2f s", n, kind, took)
				}
				b.ReportMetric(exponent, "exponent")
			}
		})
	}
}
