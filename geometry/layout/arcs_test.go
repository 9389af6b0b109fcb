package layout_test

import (
	"math"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/plan"
)

// roundSlab is a slab of a radius round the origin, of four arcs, without walls.
func roundSlab(r geometry.Length) plan.Plan {
	x := r.Feet()
	p := ring(x, 0, 0, x, -x, 0, 0, -x)
	for i := range p.Outline {
		p.Outline[i].Wall = ""
		p.Outline[i].Middle = geometry.Rounded(float64(r) * (1 - math.Sqrt2/2))
	}
	return p
}

func fromOrigin(p geometry.Point) geometry.Length { return geometry.Distance(geometry.Point{}, p) }

// On a round slab of 12 ft everything keeps its distance from the center: bars at their inset,
// stakes at the boards' outer face. Each arc is one edge of its list: a form of a quarter of
// the way round, stakes half as far apart as along a straight edge.
func TestRoundSlab(t *testing.T) {
	const r = 12 * foot
	s := spec(nil)
	l := lay(t, roundSlab(r), s)
	for _, f := range broken(l) {
		if !strings.Contains(f.Text, "panel") { // saw cuts make no rectangles of a round slab
			t.Error(f.Text)
		}
	}
	edge, around := 0, map[geometry.Length]geometry.Length{}
	for _, b := range l.Bars {
		if b.Of.Kind != bars.EdgeRow {
			continue
		}
		edge++
		row := s.Bars.Rows[b.Of.N-1]
		inset := row.Face + s.Bars.Size.Diameter()/2
		if b.Radius != r-inset || len(b.Bends) > 0 {
			t.Errorf("a bar of row %d is bent to %v with %d bends, want %v", b.Of.N, b.Radius, len(b.Bends), r-inset)
		}
		for _, p := range b.Path {
			if off := (fromOrigin(p) - (r - inset)).Abs(); off > geometry.Sixteenth*2 {
				t.Errorf("a bar of row %d lies %v off its circle", b.Of.N, off)
			}
		}
		around[inset] += b.Cut
	}
	for inset, long := range around {
		once := geometry.Rounded(2 * math.Pi * float64(r-inset))
		if laps := long - once; laps < 2*foot || laps > 20*foot {
			t.Errorf("bars of %v in all lie %v round: %v of laps", long, once, laps)
		}
	}
	if len(around) != len(s.Bars.Rows) || edge == 0 {
		t.Errorf("%d rows with %d bars", len(around), edge)
	}
	if len(l.Forms) != 4 {
		t.Fatalf("%d forms of 4 arcs", len(l.Forms))
	}
	quarter := geometry.Rounded(math.Pi / 2 * float64(r))
	for i, f := range l.Forms {
		if f.Edge != i || f.Board.Name != "1x12" || f.Length < quarter-1 || f.Length > quarter+2*geometry.Inch {
			t.Errorf("form %d: edge %d, %s, %v long, want %v", i, f.Edge, f.Board.Name, f.Length, quarter)
		}
		for k := 1; k < len(f.Stakes); k++ {
			if d := f.Stakes[k] - f.Stakes[k-1]; d > s.Forms.Stakes/2 || d <= 0 {
				t.Errorf("stakes %v apart", d)
			}
		}
		for _, at := range f.Place().Stakes {
			if off := (fromOrigin(at) - r - f.Board.Thickness).Abs(); off > geometry.Micrometer {
				t.Errorf("a stake %v off", off)
			}
		}
		for _, b := range f.Place().Boards {
			for _, p := range b {
				if d := fromOrigin(p); d < r-geometry.Sixteenth || d > r+f.Board.Thickness+geometry.Sixteenth {
					t.Errorf("a board reaches %v from the center", d)
				}
			}
		}
	}
	if len(l.Lines) != 0 || len(l.Grades) != 4 || len(l.Diagonals) != 2 || len(l.Bows) != 4 {
		t.Errorf("%d string lines, %d heights, %d diagonals, %d arcs", len(l.Lines), len(l.Grades), len(l.Diagonals), len(l.Bows))
	}
	for _, b := range l.Bows {
		// At a quarter of a chord c it lies off by √(r²-(c/4)²) - √(r²-(c/2)²).
		c, q := float64(b.Chord), float64(b.Chord)/2-float64(b.Quarter)
		off := math.Sqrt(float64(r)*float64(r)-q*q) - math.Sqrt(float64(r)*float64(r)-c*c/4)
		if (b.Radius-r).Abs() > 2 || fromOrigin(b.Center) > 4 || !b.Reached || (b.Off-geometry.Rounded(off)).Abs() > 2 {
			t.Errorf("%+v, want %v off its chord", b, geometry.Rounded(off).Text(geometry.FeetInches))
		}
	}
}

// Walls stand on the straight edges between rounded corners as they did; nothing is told of
// an edge that is not drawn.
func TestRoundedCorners(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	var err error
	for k := 3; k >= 0; k-- {
		if p, err = p.RoundCorner(0, k, 3*foot); err != nil {
			t.Fatal(err)
		}
	}
	l := lay(t, p, spec(nil))
	for _, f := range broken(l) {
		t.Error(f.Text)
	}
	if len(l.Walls) != 4 || len(l.Forms) != 8 {
		t.Errorf("%d walls, %d forms", len(l.Walls), len(l.Forms))
	}
	for _, w := range l.Walls {
		if a, b := p.Outline.Ends(w.Edge); w.Side.A != a || w.Side.B != b || p.Outline[w.Edge].Wall == "" {
			t.Errorf("%s stands on edge %d", w.Name(), w.Edge+1)
		}
	}
	for _, f := range l.Forms {
		if a, b := p.Outline.Ends(f.Edge); f.A != a || f.B != b || f.Middle != p.Outline[f.Edge].Middle {
			t.Errorf("form %v on edge %d", f.Mark, f.Edge+1)
		}
	}
	for _, d := range l.Diagonals {
		if d.I >= 8 || d.J >= 8 || d.Length != geometry.Distance(p.Outline[d.I].At, p.Outline[d.J].At) {
			t.Errorf("diagonal %+v", d)
		}
	}
	for _, line := range l.Lines {
		if p.Outline[line.Edge].Middle != 0 {
			t.Errorf("a string along the arc of edge %d", line.Edge+1)
		}
	}
	for _, f := range l.Findings {
		for _, w := range []string{"edge 9", "edge 1" + "0", "edge 2" + "0"} {
			if strings.Contains(f.Text, w) {
				t.Errorf("it speaks of an edge that is not drawn: %s", f.Text)
			}
		}
	}
}

// A corner too tight for the rows: they say that they find no room, and nothing is laid
// outside the slab.
func TestTightCorner(t *testing.T) {
	p, err := ring(0, 0, 12, 0, 12, 10, 0, 10).RoundCorner(0, 2, 3*inch)
	if err != nil {
		t.Fatal(err)
	}
	l := lay(t, p, spec(nil))
	told := false
	for _, f := range l.Findings {
		told = told || strings.Contains(f.Text, "finds no room") && strings.Contains(f.Text, "edge 3")
	}
	if !told {
		t.Error("rows that find no room on a tight arc are not told of")
	}
	in := p.Region()
	for _, b := range l.Bars {
		for _, q := range b.Path {
			if lo, hi := p.Outline.Rim().Bounds(); q.X < lo.X || q.Y < lo.Y || q.X > hi.X || q.Y > hi.Y || len(in) == 0 {
				t.Errorf("a bar at %v", q)
			}
		}
	}
}
