// Package sections has the pages of edge sections: the library of them, and the slab
// cut along a line.
package sections

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/plan"
)

// Frame is what the library needs of the window.
type Frame interface {
	form.Desk
	Plan() plan.Plan
	Slab() int
	Slabs() []plan.Plan
	CommitSlabs(label string, slabs []plan.Plan)
	CommitPlan(label string, p plan.Plan)
	Refresh() // shows the page as it is now
	Back()    // to what is selected
}

// Library is the page of the sections that edges and doors can have, with a picture
// to scale.
type Library struct {
	frame   Frame
	machine *tool.Machine
	fonts   *paint.Fonts
	chosen  int
}

// NewLibrary gives the page.
func NewLibrary(f Frame, m *tool.Machine, fonts *paint.Fonts) *Library {
	return &Library{frame: f, machine: m, fonts: fonts}
}

// Name is how the status line calls the page.
func (*Library) Name() string { return "Edge sections" }

// Key changes when the page is to be made anew.
func (p *Library) Key() string {
	all := p.frame.Plan().Sections
	p.chosen = max(0, min(p.chosen, len(all)-1))
	return fmt.Sprint(len(all), p.chosen, len(p.get().Profile))
}

// get gives the section that is chosen, one without a name where there is none.
func (p *Library) get() (s plan.Section) {
	if all := p.frame.Plan().Sections; p.chosen < len(all) {
		s = all[p.chosen]
	}
	return s
}

// share puts a section into the library of all slabs, in place of the one called so.
func (p *Library) share(label, old string, s plan.Section) error {
	slabs, err := plan.ShareSection(p.frame.Slabs(), p.frame.Slab(), old, s)
	if err == nil {
		p.frame.CommitSlabs(label, slabs)
	}
	return err
}

// Form makes the page.
func (p *Library) Form() *form.Form {
	f := form.New(p.frame)
	f.Heading(p.Name())
	if len(p.frame.Plan().Sections) == 0 {
		f.Explain("No sections yet. A section is a thickened edge: a depth for a flat width, then a taper up to the field.")
	} else {
		p.section(f)
	}
	f.Buttons(form.Do("Back", p.frame.Back), form.Do("New section", f.Act(p.add)))
	return f
}

// add adds a section; the first is what is drawn next.
func (p *Library) add() error {
	s := shelf.Edge(p.frame.Units())
	s.Name = free(p.frame.Plan())
	s.Depth = max(s.Depth, p.frame.Plan().Field)
	p.chosen = len(p.frame.Plan().Sections)
	if p.machine.NewEdge.Section == "" {
		p.machine.NewEdge.Section = s.Name
		p.machine.Brush.Section = s.Name
	}
	return p.share("New section", "", s)
}

// free gives a name that no section has.
func free(p plan.Plan) string {
	for i := len(p.Sections) + 1; ; i++ {
		name := fmt.Sprintf("Edge %d", i)
		if _, taken := p.SectionNamed(name); !taken {
			return name
		}
	}
}

// section adds the fields of the one that is chosen.
func (p *Library) section(f *form.Form) {
	names := func() []string {
		var out []string
		for _, s := range p.frame.Plan().Sections {
			out = append(out, s.Name)
		}
		return out
	}
	f.Choice("Section", names, func() string { return p.get().Name }, func(v string) error {
		p.chosen = max(0, slices.Index(names(), v))
		p.frame.Refresh()
		return nil
	})
	pic := form.NewPicture(p.fonts, fyne.NewSize(200, 150), p.draw)
	f.Add(pic, pic.Refresh)
	s := bind.Of(f, p.get, func(_ string, change func(*plan.Section)) error {
		was := p.get()
		is := was
		change(&is)
		return p.share("Change section "+is.Name, was.Name, is)
	})
	s = s.At("slabs[].sections[]")
	s.Rows("name")
	if len(p.get().Profile) > 0 {
		f.Explain("This section has a profile of its own, point by point, from a job file.")
	} else {
		s.Rows("depth", "bottom", "taper")
	}
	f.Buttons(
		form.Do("Use on all edges", func() {
			p.frame.CommitPlan("Section on all edges", p.frame.Plan().SetAllSections(p.get().Name))
		}),
		form.Do("Remove", f.Act(func() error {
			slabs, err := plan.DropSection(p.frame.Slabs(), p.frame.Slab(), p.get().Name)
			if err == nil {
				p.frame.CommitSlabs("Remove section", slabs)
			}
			return err
		})),
	)
}

// draw draws the section to scale, with its sizes.
func (p *Library) draw(d form.Drawing) {
	s, field := p.get(), p.frame.Plan().Field
	if reach, deep := s.Reach(), max(s.Deepest(), field); reach <= 0 || deep <= 0 || reach > geometry.MaxLength || deep > geometry.MaxLength {
		return
	}
	of := detail.Section{Under: s.Stations(field), Field: field}
	scene.Detail(d.Brush, of.Drawing(p.frame.Units()), look.Palette(), d.K, int(d.W), int(d.H))
}
