package sheet

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/assets"
	"haunchbook/geometry"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/plan"
	"haunchbook/geometry/solid"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

var fixedDate = time.Date(2024, 4, 12, 0, 0, 0, 0, time.UTC)

func demoJob(t testing.TB) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// byHand gives a takeoff with a plain layout: plates between doors, bolts at 1 ft
// and each 4 ft, all diagonals of a quadrilateral.
func byHand(t testing.TB, j job.Job) takeoff.Takeoff {
	t.Helper()
	s, err := solid.Of(j.Slab)
	if err != nil {
		t.Fatal(err)
	}
	out := takeoff.Takeoff{Solid: s}
	mark := 0
	for li, l := range j.Slab.Loops() {
		for i, e := range l {
			if e.Wall == "" {
				continue
			}
			w := layout.Wall{Loop: li, Edge: i, Plate: e.Wall, Name: "Wall " + letter(len(out.Layout.Walls)), Length: l.Length(i)}
			for _, sp := range l.Spans(i) {
				if sp.Door >= 0 {
					continue
				}
				w.Pieces = append(w.Pieces, layout.Plate{From: sp.From, To: sp.To})
				for at := sp.From + ft; at < sp.To; at += 4 * ft {
					a, b := l.Ends(i)
					mark++
					p := geometry.Along(a, b, at)
					q := geometry.Point{X: p.X - (b.Y-a.Y)*2750/geometry.Length(l.Length(i)/in*1000), Y: p.Y + (b.X-a.X)*2750/geometry.Length(l.Length(i)/in*1000)}
					w.Bolts = append(w.Bolts, layout.Bolt{Mark: mark, Along: at, At: q})
				}
			}
			out.Layout.Walls = append(out.Layout.Walls, w)
		}
	}
	c := j.Slab.Outline.Corners()
	for i := range c {
		for k := i + 2; k < len(c); k++ {
			if i > 0 || k < len(c)-1 {
				out.Layout.Diagonals = append(out.Layout.Diagonals, layout.Diagonal{I: i, J: k, Length: geometry.Distance(c[i], c[k])})
			}
		}
	}
	return out
}

// show writes a document where HAUNCH_SHOW says, to look at.
func show(t testing.TB, name string, data []byte) {
	if dir := os.Getenv("HAUNCH_SHOW"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

func rectangle(w, h geometry.Length) plan.Loop {
	return plan.Loop{{At: geometry.Point{}}, {At: geometry.Point{X: w}}, {At: geometry.Point{X: w, Y: h}}, {At: geometry.Point{Y: h}}}
}

func TestDemo(t *testing.T) {
	j := demoJob(t)
	var b bytes.Buffer
	if err := Write(&b, j, byHand(t, j), Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	show(t, "demo.pdf", b.Bytes())
}
