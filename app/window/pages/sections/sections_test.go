package sections

import (
	"testing"

	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

func TestLibrary(t *testing.T) {
	d := hands.NewDesk(t, hands.Shop(), nil)
	p := NewLibrary(d, d.Machine, d.Fonts)
	d.Beside(p)
	sections := func() []plan.Section { return d.Plan().Sections }
	d.Fill("Depth from top", `14"`)
	d.Fill("Flat bottom", `10"`)
	d.Fill("Taper", `8"`)
	d.Fill("Name", "Deep edge")
	if s := sections()[0]; s.Name != "Deep edge" || s.Depth != 14*geometry.Inch || s.Bottom != 10*geometry.Inch || s.Taper != 8*geometry.Inch {
		t.Errorf("the section is %+v", s)
	}
	if e := d.Plan().Outline[0]; e.Section != "Deep edge" {
		t.Errorf("the edges have %q", e.Section)
	}
	d.Press("New section")
	d.Press("New section")
	if len(sections()) != 3 || p.chosen != 2 {
		t.Fatalf("sections %+v", sections())
	}
	d.Press("Use on all edges")
	if e := d.Plan().Outline[2]; e.Section != sections()[2].Name {
		t.Errorf("the edges have %q", e.Section)
	}
	d.Press("Remove") // in use
	d.Select("Section", "Deep edge")
	d.Press("Remove")
	if len(sections()) != 2 {
		t.Errorf("sections %+v; it says %q", sections(), d.Told)
	}
	d.Fill("Depth from top", "none")
	d.Reads("! ")
	d.Press("Back")
	if d.Last() != "back" {
		t.Errorf("asked %v", d.Asked)
	}
}

func TestFirstSection(t *testing.T) {
	j := shelf.Blank(geometry.Millimeters)
	j.Slabs[0].Sections = nil
	d := hands.NewDesk(t, j, nil)
	d.Machine.NewEdge.Section = ""
	d.Beside(NewLibrary(d, d.Machine, d.Fonts))
	d.Reads("No sections yet")
	d.Press("New section")
	if s := d.Plan().Sections; len(s) != 1 || d.Machine.NewEdge.Section != s[0].Name {
		t.Errorf("sections %+v; next is drawn %q", s, d.Machine.NewEdge.Section)
	}
}

// The pictures of a section and of a cut show their sizes.
func TestPictures(t *testing.T) {
	d := hands.NewDesk(t, hands.Shop(), nil)
	p := NewLibrary(d, d.Machine, d.Fonts)
	d.Beside(p)
	if d.Inked() < 100 {
		t.Errorf("the picture of the section has %d dark pixels", d.Inked())
	}
	c := NewCut(d, d.Fonts)
	c.Along(geometry.Point{X: 6 * ft, Y: -ft}, geometry.Point{X: 6 * ft, Y: 21 * ft})
	d.Beside(c)
	d.Reads("Cut through the slab")
	if d.Inked() < 100 {
		t.Errorf("the picture of the cut has %d dark pixels", d.Inked())
	}
	c.Along(geometry.Point{X: 60 * ft}, geometry.Point{X: 66 * ft})
	d.Beside(c)
	d.Press("Back")
	if d.Last() != "back" {
		t.Errorf("asked %v", d.Asked)
	}
	j := hands.Shop()
	j.Slabs[0].Sections[0] = plan.Section{Name: "Edge 12", Profile: []plan.Station{{Depth: ft}, {Inset: ft, Depth: ft}, {Inset: 2 * ft, Depth: ft / 2}}}
	d.Commit("Profile", j)
	d.Beside(p)
	d.Reads("a profile of its own")
}
