package blockouts_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/blockouts"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

const (
	in = geometry.Inch
	ft = geometry.Foot
)

func at(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * ft, Y: y * ft} }

// column is a slab of 24 by 20 ft with a column on a pad of 2 by 2 ft in its middle.
func column(shape plan.Isolation, size geometry.Length) *slab.Slab {
	p := plan.Plan{Field: 4 * in}.WithOutline(plan.Like(geometry.Ring{at(0, 0), at(24, 0), at(24, 20), at(0, 20)}, plan.Edge{}))
	p.Pads = []plan.Pad{{Center: at(12, 10), Width: 2 * ft, Length: 2 * ft, Depth: ft, Isolation: shape, BlockOut: size}}
	return slab.New("", p, nil, geometry.FeetInches, slab.Concrete{})
}

// Filler round each shape: four sides, or a circle, by closed forms; and what is open is the
// slab less the shape.
func TestAround(t *testing.T) {
	for _, c := range []struct {
		shape        plan.Isolation
		around, area float64 // in, in²
	}{
		{plan.SquareOut, 4 * 30, 900}, {plan.DiamondOut, 4 * 30, 900}, {plan.RoundOut, 30 * math.Pi, 225 * math.Pi},
	} {
		s := column(c.shape, 30*in)
		long := 0.0
		for _, i := range blockouts.Isolate(s) {
			long += geometry.Distance(i.A, i.B).Inches()
			if i.Pad != 1 || i.Depth != 4*in {
				t.Errorf("%v: %+v", c.shape, i)
			}
		}
		if math.Abs(long-c.around) > 0.004*c.around {
			t.Errorf("%v: %.3f in of filler, want %.3f", c.shape, long, c.around)
		}
		open := blockouts.Around(s)
		got := s.Plan.Region().Area() - open.Plan.Region().Area()
		if want := c.area * 0.0254 * 0.0254; math.Abs(got-want) > 0.004*want {
			t.Errorf("%v: %.5f m² are open, want %.5f", c.shape, got, want)
		}
		if len(open.Outs) != 1 || len(open.Plan.Pads) != 0 || len(s.Plan.Pads) != 1 || len(s.Plan.Holes) != 0 {
			t.Errorf("%v: %+v", c.shape, open.Outs)
		}
	}
	if s := column(plan.NoIsolation, 30*in); blockouts.Around(s) != s || blockouts.Isolate(s) != nil {
		t.Error("a pad without isolation has a block-out")
	}
}

// A block-out that is not given a size has room for its pad, to the inch: 24 in, 24 × √2 and
// 24 × √2 up; one a sixteenth smaller is told of.
func TestSizes(t *testing.T) {
	for shape, want := range map[plan.Isolation]geometry.Length{plan.SquareOut: 24 * in, plan.DiamondOut: 34 * in, plan.RoundOut: 34 * in} {
		s := column(shape, 0)
		if got := s.Plan.BlockOuts()[0].Size; got != want {
			t.Errorf("%v: %v, want %v", shape, got, want)
		}
		if blockouts.Check(s, blockouts.Placed{}); len(s.Findings) > 0 {
			t.Errorf("%v: %v", shape, s.Findings)
		}
		s = column(shape, s.Plan.Pads[0].Around(shape)-in/16)
		if blockouts.Check(s, blockouts.Placed{}); len(s.Findings) != 1 || !strings.Contains(s.Findings[0].Text, "P1 reaches beyond") {
			t.Errorf("%v, smaller: %v", shape, s.Findings)
		}
	}
}

// A diamond of 34 in ends 24.04 in from its middle: bars, bolts and dowels nearer are told of,
// those of its own pad are not.
func TestMeets(t *testing.T) {
	for _, c := range []struct {
		p    blockouts.Placed
		told string
	}{
		{blockouts.Placed{Bars: []bars.Bar{{Path: []geometry.Point{at(0, 8), at(24, 8)}}}}, "Bars run into the block-out round P1: 1"},
		{blockouts.Placed{Bars: []bars.Bar{{Path: []geometry.Point{{X: 0, Y: 10*ft - 25*in}, {X: 24 * ft, Y: 10*ft - 25*in}}}}}, ""},
		{blockouts.Placed{Bars: []bars.Bar{{Of: bars.Part{Kind: bars.InPad}, Path: []geometry.Point{at(11, 10), at(13, 10)}}}}, ""},
		{blockouts.Placed{Bars: []bars.Bar{{Of: bars.Part{Kind: bars.InPad, N: 1}, Path: []geometry.Point{at(11, 10), at(13, 10)}}}}, "Bars run into"},
		{blockouts.Placed{Walls: []bolts.Wall{{Bolts: []bolts.Bolt{{At: at(12, 11)}}}}}, "stands in the block-out"},
		{blockouts.Placed{Walls: []bolts.Wall{{Bolts: []bolts.Bolt{{At: at(14, 11)}}}}}, ""},
		{blockouts.Placed{Dowels: []joints.Dowel{{Outer: at(12, 14), Inner: at(12, 11)}}}, "The dowel"},
	} {
		s := column(plan.DiamondOut, 34*in)
		blockouts.Check(s, c.p)
		if got := fmt.Sprint(s.Findings); (c.told == "") != (len(s.Findings) == 0) || !strings.Contains(got, c.told) {
			t.Errorf("%+v: %s, want %q", c.p, got, c.told)
		}
	}
}

func ExampleAround() {
	p := plan.Plan{Field: 4 * in}.WithOutline(plan.Like(geometry.Ring{at(0, 0), at(24, 0), at(24, 20), at(0, 20)}, plan.Edge{}))
	p.Pads = []plan.Pad{{Center: at(12, 10), Width: 2 * ft, Length: 2 * ft, Depth: ft, Isolation: plan.DiamondOut}}
	open := blockouts.Around(slab.New("", p, nil, geometry.FeetInches, slab.Concrete{}))
	fmt.Println(open.Outs[0].Shape, open.Outs[0].Size.Text(geometry.FeetInches), len(open.Plan.Holes))
	// Output: diamond 2'-10" 1
}
