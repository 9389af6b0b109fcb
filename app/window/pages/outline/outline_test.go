package outline

import (
	"testing"

	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

// The legs of a sketch that do not close: the gap goes where it is put.
func TestLegs(t *testing.T) {
	rectangle := hands.Rectangle(0, 0, 24*ft, 20*ft)
	for choice, want := range map[string]geometry.Ring{
		"put in leg 4, of 19'-11\"": rectangle,
		"kept as a leg of its own":  append(rectangle[:4:4], geometry.Point{Y: geometry.Inch}),
		"spread over all legs":      nil,
	} {
		d := hands.NewDesk(t, shelf.Blank(geometry.FeetInches), nil)
		d.Beside(NewLegs(d, d.Machine))
		d.Hinted("24' right").SetText("24' right, 20' up, 24' left, 19'-11\" down")
		d.Reads("4 legs; misses the start by 1\"")
		hands.Every[*form.Select](d.Hands)[0].SetSelected(choice)
		d.Press("Draw it")
		got := d.Plan().Outline.Corners()
		if want == nil && len(got) == 4 {
			continue
		}
		if len(got) != len(want) {
			t.Errorf("%s: %v", choice, got)
			continue
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("%s: corner %d at %v, want %v", choice, i+1, got[i], want[i])
			}
		}
	}
}

func TestLegsThatDoNotRead(t *testing.T) {
	d := hands.NewDesk(t, shelf.Blank(geometry.FeetInches), nil)
	d.Beside(NewLegs(d, d.Machine))
	d.Hinted("24' right").SetText("24' over")
	d.Press("Draw it")
	d.Reads("! ")
	if !d.Blank() {
		t.Error("something was drawn")
	}
	d.Hinted("24' right").SetText("24' right, 20' up, 24' left, back to start")
	d.Reads("4 legs, back at the start exactly.")
	d.Press("Back")
	if d.Last() != "back" {
		t.Errorf("asked %v", d.Asked)
	}
}

// Every common shape is drawn from its sizes, where the slab belongs.
func TestShapes(t *testing.T) {
	for _, s := range plan.Shapes() {
		j := hands.Shop()
		j.Slabs = append(j.Slabs, plan.Plan{Name: "Next", Field: ft / 2})
		d := hands.NewDesk(t, j, nil)
		d.Choose(1)
		d.Beside(NewShapes(d, d.Machine))
		d.Select("Shape", s.Name)
		d.Press("Draw it")
		if lo, _ := d.Plan().Outline.Corners().Bounds(); lo != (geometry.Point{X: 28 * ft}) {
			t.Errorf("%s is at %v", s.Name, lo)
		}
		if f := d.Faults(); len(f) > 0 {
			t.Errorf("%s: %v", s.Name, f)
		}
		d.Reads("It replaces the outline")
	}
}

func TestSizesThatCannotBe(t *testing.T) {
	d := hands.NewDesk(t, hands.Shop(), nil)
	d.Beside(NewShapes(d, d.Machine))
	size := plan.Shapes()[0].Sizes[0]
	d.Fill(size.Name, "0")
	d.Reads("! ")
	d.Fill(size.Name, "50'")
	d.Press("Draw it")
	if w := d.Plan().Outline.Length(0); w != 50*ft {
		t.Errorf("drawn %v wide", w.Text(0))
	}
}
