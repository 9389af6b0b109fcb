package plan

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

const foot = geometry.Foot

// full is a site with a thing of every kind.
func full() Site {
	p := Plan{Field: foot / 2}.WithOutline(Like(geometry.Ring{{}, {X: 24 * foot}, {X: 24 * foot, Y: 20 * foot}, {Y: 20 * foot}}, Edge{Wall: "2x6"}))
	p.Sections = []Section{{Name: "Edge", Profile: []Station{{0, foot}, {foot, foot}}}}
	p.Outline[0].Doors = []Door{{Name: "D1", From: 2 * foot, Width: 3 * foot}, {From: 10 * foot, Width: 3 * foot}}
	p.Outline[1].Bolts = []BoltMark{{Along: foot}, {Along: 5 * foot, HoldDown: true}, {Along: 9 * foot}}
	p = p.AddHole("pit", Like(geometry.Ring{{X: 3 * foot, Y: 3 * foot}, {X: 5 * foot, Y: 3 * foot}, {X: 5 * foot, Y: 5 * foot}}, Edge{}))
	p.Holes[0].Loop[1].Doors = []Door{{From: foot / 2, Width: foot / 2}}
	p.Pads = []Pad{{Center: geometry.Point{X: 12 * foot, Y: 10 * foot}, Width: 2 * foot, Length: 3 * foot, Depth: foot, Turn: 30}, {Name: "P7", Center: geometry.Point{X: 9 * foot, Y: 15 * foot}, Width: foot, Length: foot, Depth: foot}}
	p.Embeds = []Embed{{Center: geometry.Point{X: 15 * foot, Y: 6 * foot}, Width: foot / 3}, {Kind: PostBase, Center: geometry.Point{X: 10 * foot, Y: 4 * foot}, Width: foot / 2, Length: foot / 3, Turn: 20, Deep: foot / 4}}
	p.Lines = []Line{{Kind: DrainLine, Path: []geometry.Point{{X: 15 * foot, Y: 6 * foot}, {X: 15 * foot, Y: -6 * foot}}, Diameter: foot / 4, Cover: foot}, {Kind: Tubing, Path: []geometry.Point{{X: foot, Y: foot}, {X: 9 * foot, Y: 9 * foot}}, Diameter: foot / 24, Cover: foot / 4, Spacing: foot}}
	p.Construction = []Construction{{From: geometry.Point{X: 20 * foot}, To: geometry.Point{X: 20 * foot, Y: 20 * foot}, Kind: Doweled, Days: 2}}
	p.Walls = []Wall{{Plate: "2x4", From: geometry.Point{X: 2 * foot, Y: 12 * foot}, To: geometry.Point{X: 16 * foot, Y: 12 * foot}, Doors: []Opening{{From: 3 * foot, Width: 3 * foot}}, Bolts: []BoltMark{{Along: foot}}}}
	p.Strips = []Strip{{Path: []geometry.Point{{X: 8 * foot, Y: 2 * foot}, {X: 8 * foot, Y: 18 * foot}, {X: 12 * foot, Y: 18 * foot}}, Bottom: foot, Depth: foot}}
	p.Top.Falls = []Fall{{From: geometry.Point{Y: 20 * foot}, Drop: foot / 6}}
	p.Top.Breaks = []Break{{From: geometry.Point{X: 24 * foot, Y: 4 * foot}, To: geometry.Point{Y: 4 * foot}, Drop: foot / 48, Over: foot}}
	return Site{Plan: p, Survey: Survey{
		North:      North{Known: true, Turn: 20},
		Benchmarks: []Benchmark{{Name: "BM 1", At: geometry.Point{X: -9 * foot}}},
		Notes:      []Note{{Text: "plain", At: geometry.Point{Y: -9 * foot}}, {Text: "led", At: geometry.Point{Y: -5 * foot}, Leader: true, To: geometry.Point{X: foot}}},
		Shots:      []Shot{{At: geometry.Point{X: 5 * foot, Y: 5 * foot}, Height: -foot}},
	}}
}

// Every kind can be listed, named, found, moved there and back, copied and taken
// away, and none of it changes the site that it is done to.
func TestThings(t *testing.T) {
	s := full()
	if faults := s.Plan.Validate(0); len(faults) > 0 {
		t.Fatal(faults)
	}
	seen := map[Kind]int{}
	for _, x := range append(s.Things(), s.Of(KindSlab)...) {
		seen[x.Kind]++
		before := s.Clone()
		name := fmt.Sprintf("%+v", x)
		by := geometry.Point{X: foot / 4, Y: foot / 8}
		moved, now, err := s.Move(x, by)
		if err != nil && x.Kind != KindNorth {
			t.Errorf("%s: %v", name, err)
		}
		if err == nil {
			if reflect.DeepEqual(moved.Outline(now), s.Outline(x)) {
				t.Errorf("%s does not move", name)
			}
			if back, again, err := moved.Move(now, geometry.Point{}.Sub(by)); err != nil || again != x || !reflect.DeepEqual(back, s) {
				t.Errorf("%s does not come back: %v, %+v", name, err, again)
			}
		}
		count := len(s.Of(x.Kind))
		if less, err := s.Remove(x); err == nil && x.Part == 0 {
			if n := len(less.Of(x.Kind)); n >= count {
				t.Errorf("%s is still one of %d", name, n)
			}
		} else if err != nil && x.Kind != KindEdge && x.Kind != KindSlab && !(x.Kind == KindCorner && x.Loop == 1) {
			t.Errorf("%s stays: %v", name, err)
		}
		if more, made, err := s.Copy(x, by); err == nil {
			if n := len(more.Of(x.Kind)); n <= count || !more.Has(made) || made == x {
				t.Errorf("the copy of %s, %+v, is one of %d", name, made, n)
			}
		}
		if !reflect.DeepEqual(s, before) {
			t.Fatalf("the site changed under %s", name)
		}
	}
	for _, k := range Kinds() {
		if seen[k] == 0 {
			t.Errorf("no %s was tried", k)
		}
	}
}

func TestThingsThatAreNotThere(t *testing.T) {
	s := full()
	for _, x := range []Thing{{}, {Kind: "none"}, {Kind: KindDoor, Index: 9}, {Kind: KindDoor, Sub: -1}, {Kind: KindEdge, Loop: 7}, {Kind: KindStrip, Part: 4}, {Kind: KindHole, Index: 1}, {Kind: KindPad, Index: -1}, {Kind: KindNote, Part: 1}} {
		if s.Has(x) || !reflect.DeepEqual(s.Outline(x), Outline{}) {
			t.Errorf("%+v is there", x)
		}
		if _, _, err := s.Move(x, geometry.Point{}); err == nil {
			t.Errorf("%+v moves", x)
		}
	}
}

// A part moves alone: a point of a strip, an end of a fall, a note from its leader;
// a bolt mark that passes another changes places with it; a door goes along its
// edge only.
func TestPartsOfThings(t *testing.T) {
	s := full()
	up := geometry.Point{X: 6 * foot, Y: foot}
	for _, c := range []struct {
		thing Thing
		now   Thing
		got   func(Site) any
		want  any
	}{
		{Thing{Kind: KindStrip, Part: 2}, Thing{Kind: KindStrip, Part: 2}, func(s Site) any { return s.Plan.Strips[0].Path },
			[]geometry.Point{{X: 8 * foot, Y: 2 * foot}, {X: 14 * foot, Y: 19 * foot}, {X: 12 * foot, Y: 18 * foot}}},
		{Thing{Kind: KindFall, Part: 1}, Thing{Kind: KindFall, Part: 1}, func(s Site) any { return s.Plan.Top.Falls[0] },
			Fall{From: geometry.Point{X: 6 * foot, Y: 21 * foot}, Drop: foot / 6}},
		{Thing{Kind: KindNote, Index: 1}, Thing{Kind: KindNote, Index: 1}, func(s Site) any { return s.Survey.Notes[1].To }, geometry.Point{X: foot}},
		{Thing{Kind: KindNote, Index: 1, Part: 1}, Thing{Kind: KindNote, Index: 1, Part: 1}, func(s Site) any { return s.Survey.Notes[1].To }, geometry.Point{X: 7 * foot, Y: foot}},
		{Thing{Kind: KindBolt, Index: 1, Sub: 0}, Thing{Kind: KindBolt, Index: 1, Sub: 0}, func(s Site) any { return s.Plan.Outline[1].Bolts[0].Along }, 2 * foot},
		{Thing{Kind: KindDoor}, Thing{Kind: KindDoor}, func(s Site) any { return s.Plan.Outline[0].Doors[0].From }, 8 * foot},
	} {
		got, now, err := s.Move(c.thing, up)
		if err != nil || now != c.now || !reflect.DeepEqual(c.got(got), c.want) {
			t.Errorf("%+v: %v, %+v, %v; want %v", c.thing, err, now, c.got(got), c.want)
		}
	}
	got, now, _ := s.Move(Thing{Kind: KindBolt, Index: 1}, geometry.Point{Y: 6 * foot})
	if now.Sub != 1 || got.Plan.Outline[1].Bolts[1].Along != 7*foot || !got.Plan.Outline[1].Bolts[0].HoldDown {
		t.Errorf("a mark that passes another is %+v of %+v", now, got.Plan.Outline[1].Bolts)
	}
	less, err := s.Remove(Thing{Kind: KindNote, Index: 1, Part: 1})
	if err != nil || len(less.Survey.Notes) != 2 || less.Survey.Notes[1].Leader {
		t.Errorf("without its leader: %v, %+v", err, less.Survey.Notes)
	}
}

// A new kind is what is written here: a list, its points and how it lies.
func TestANewKind(t *testing.T) {
	type post struct {
		At   geometry.Point
		Size geometry.Length
	}
	posts := []post{{At: geometry.Point{X: foot, Y: foot}, Size: foot / 2}}
	const kindPost Kind = "post"
	register(kindPost, 39, 6, list[post]{
		kind: kindPost, path: "posts",
		in:   func(*Site) *[]post { return &posts },
		body: func(p *post) []*geometry.Point { return []*geometry.Point{&p.At} },
		lies: func(p post) Outline { return Outline{Grips: []Grip{{At: p.At}}} },
		check: func(v *validator, path string, p *post) {
			if p.Size == 0 {
				v.fault(path+".size", p.At, v.text(p.Size), "a post has a size")
			}
		},
	})
	defer func() {
		delete(registry, kindPost)
		register(KindPad, registry[KindPad].rank, registry[KindPad].tab, registry[KindPad].kind)
	}()
	s := full()
	x := Thing{Kind: kindPost}
	if !s.Has(x) || len(s.Outline(x).Grips) != 1 {
		t.Error("it is not found")
	}
	if _, _, err := s.Move(x, geometry.Point{X: foot}); err != nil || posts[0].At.X != 2*foot {
		t.Errorf("it does not move: %v, %v", err, posts)
	}
	s.Plan.Rotate(geometry.Point{}, 90)
	if posts[0].At != (geometry.Point{X: -foot, Y: 2 * foot}) {
		t.Errorf("it does not turn with the slab: %v", posts)
	}
	posts[0].Size = 0
	if faults := s.Plan.Validate(0); len(faults) != 1 || !strings.HasPrefix(faults[0].Path, "posts[0]") {
		t.Errorf("it is not checked: %v", faults)
	}
}
