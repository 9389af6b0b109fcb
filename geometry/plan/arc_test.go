package plan

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

func square(side geometry.Length) Plan {
	p := Plan{Field: 6 * geometry.Inch, Sections: []Section{{Name: "E", Depth: foot, Bottom: foot, Taper: 8 * geometry.Inch}}}
	for _, c := range [][2]geometry.Length{{0, 0}, {side, 0}, {side, side}, {0, side}} {
		p.Outline = append(p.Outline, Edge{At: geometry.Point{X: c[0], Y: c[1]}, Section: "E"})
	}
	return p
}

// A square of 20 ft with a corner rounded by 4 ft: 400 - (4-π)·16/4 ft².
func TestRoundCorner(t *testing.T) {
	p := square(20 * foot)
	p.Outline[1].Doors = []Door{{From: 8 * foot, Width: 3 * foot}}
	q, err := p.RoundCorner(0, 1, 4*foot)
	if err != nil {
		t.Fatal(err)
	}
	if len(q.Outline) != 5 || q.Outline[1].At != (geometry.Point{X: 16 * foot}) || q.Outline[2].At != (geometry.Point{X: 20 * foot, Y: 4 * foot}) {
		t.Fatalf("corners %v", q.Outline.Corners())
	}
	if r := q.Outline.Arc(1).Radius(); (r-4*foot).Abs() > 2 || q.Outline[1].Middle <= 0 || q.Outline[1].Section != "E" {
		t.Errorf("radius %v, middle %v", r, q.Outline[1].Middle)
	}
	if at := q.Outline[2].Doors[0].From; at != 4*foot {
		t.Errorf("the door is %v from the new corner: it stays where it is", at)
	}
	want := (400 - (4-math.Pi)*4) * 0.3048 * 0.3048
	if got := q.Outline.Area(); math.Abs(got-want) > 1e-6 {
		t.Errorf("area %.9f, want %.9f", got, want)
	}
	if want := 72*foot + geometry.Rounded(2*math.Pi*float64(foot)); (q.Outline.Perimeter() - want).Abs() > 2 {
		t.Errorf("perimeter %v, want %v", q.Outline.Perimeter(), want)
	}
	if faults := q.Validate(geometry.FeetInches); len(faults) > 0 {
		t.Error(faults)
	}
	if _, err := p.RoundCorner(0, 1, 9*foot); err == nil || !strings.Contains(err.Error(), "door") {
		t.Errorf("a radius that reaches into the door: %v", err)
	}
	if _, err := square(20*foot).RoundCorner(0, 1, 21*foot); err == nil || !strings.Contains(err.Error(), "room") {
		t.Errorf("a radius of more than the edges: %v", err)
	}
	if _, err := q.RoundCorner(0, 1, foot); err == nil {
		t.Error("a corner beside an arc was rounded")
	}
}

// However a slab is turned, mirrored or listed, its arc bows out of it.
func TestArcsStayOutside(t *testing.T) {
	p, err := square(20*foot).RoundCorner(0, 2, 5*foot)
	if err != nil {
		t.Fatal(err)
	}
	want := p.Outline.Area()
	back := p
	back.Outline = p.Outline.Reversed()
	for name, q := range map[string]Plan{
		"mirrored": p.Mirror(AcrossX, 3*foot), "turned": p.Rotate(geometry.Point{X: foot}, 33), "moved": p.Translate(geometry.Point{X: foot, Y: -foot}),
		"listed the other way": back.Oriented(), "chorded": p.Chorded(), "even": p.Even(),
	} {
		slack := 1e-6
		if name == "chorded" {
			slack = 0.02
		}
		if got := q.Outline.Area(); math.Abs(got-want) > slack {
			t.Errorf("%s: area %.9f, want %.9f", name, got, want)
		}
	}
}

func TestChordsKnowTheirArc(t *testing.T) {
	p, err := square(20*foot).RoundCorner(0, 2, 5*foot)
	if err != nil {
		t.Fatal(err)
	}
	l := p.Chorded().Outline
	n := 0
	for i := range l {
		if l.OfArc(i) {
			if n++; l.Drawn(i) != 2 || l.Within(i) == (l[i].At == p.Outline[2].At) {
				t.Errorf("chord %d is of edge %d", i, l.Drawn(i))
			}
		}
	}
	if a, parts := l.Whole(2); n < 8 || parts != n || a != p.Outline.Arc(2) {
		t.Errorf("%d chords, of %v", n, a)
	}
	if q := square(20 * foot); &q.Outline[0] != &q.Chorded().Outline[0] {
		t.Error("a plan without arcs was copied")
	}
}

// What cannot stand on an arc is a fault of its field; so is an arc that is none.
func TestFaultsOfArcs(t *testing.T) {
	for path, change := range map[string]func(*Edge){
		"outline[1].joint":  func(e *Edge) { e.Joint = true },
		"outline[1].wall":   func(e *Edge) { e.Wall = "2x6" },
		"outline[1].doors":  func(e *Edge) { e.Doors = []Door{{Width: foot}} },
		"outline[1].bolts":  func(e *Edge) { e.Bolts = []BoltMark{{Along: foot}} },
		"outline[1].middle": func(e *Edge) { e.Middle = 11 * foot },
	} {
		p := square(20 * foot)
		p.Outline[1].Middle = 2 * foot
		change(&p.Outline[1])
		if faults := p.Validate(geometry.FeetInches); !faults.Of(path) {
			t.Errorf("%s: %v", path, faults)
		}
	}
	p := square(20 * foot)
	p.Outline[0].Middle = -8 * foot // into the slab, past nothing
	if faults := p.Validate(geometry.FeetInches); len(faults) > 0 {
		t.Error(faults)
	}
	p.Outline[0].Middle, p.Outline[2].Middle = -9*foot, -10*foot
	p.Outline[2].Middle = -10 * foot
	if faults := p.Validate(geometry.FeetInches); len(faults) > 0 {
		t.Error("two arcs that do not meet: ", faults)
	}
	p.Outline[0].Middle = -10*foot + 1
	p.Outline[2].At.Y -= 2 * foot
	p.Outline[3].At.Y -= 2 * foot
	if faults := p.Validate(geometry.FeetInches); len(faults) == 0 {
		t.Error("arcs that cross are no fault")
	}
}

// A plan without arcs is written as before there were any.
func TestStraightEdgesAreWrittenAsBefore(t *testing.T) {
	p := square(20 * foot)
	b, err := json.Marshal(p)
	if err != nil || strings.Contains(strings.ToLower(string(b)), "middle") || strings.Contains(strings.ToLower(string(b)), "chord") {
		t.Errorf("%s, %v", b, err)
	}
	q, _ := p.SetMiddle(0, 1, foot)
	b, _ = json.Marshal(q)
	var back Plan
	if err := json.Unmarshal(b, &back); err != nil || back.Outline[1].Middle != foot {
		t.Errorf("%v, %v", back.Outline, err)
	}
}

func TestSetRadius(t *testing.T) {
	p, err := square(20*foot).SetRadius(0, 1, 10*foot)
	if err != nil || p.Outline[1].Middle != 10*foot {
		t.Errorf("%v, %v", p.Outline[1].Middle, err)
	}
	if p, err = p.SetRadius(0, 1, -12*foot); err != nil || p.Outline[1].Middle >= 0 {
		t.Errorf("a negative radius bows in: %v, %v", p.Outline[1].Middle, err)
	}
	if _, err = p.SetRadius(0, 1, 9*foot); err == nil {
		t.Error("a radius of less than half the chord")
	}
	q, err := p.ArcThrough(0, 0, geometry.Point{X: 10 * foot, Y: -3 * foot})
	if err != nil || (q.Outline[0].Middle-3*foot).Abs() > 1 {
		t.Errorf("through 3 ft below: %v, %v", q.Outline[0].Middle, err)
	}
}
