package window

import (
	"fmt"
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// sections is the small library of edge sections, with a picture to scale.
func (p *editPanel) sections() {
	chosen := 0
	var fill func()
	fill = func() {
		refocus := p.w.keepFocus(p.scroll)
		all := p.w.doc.Plan().Sections
		chosen = max(0, min(chosen, len(all)-1))
		f := newForm()
		p.form = f
		f.heading("Edge sections")
		if len(all) == 0 {
			f.note("No sections yet. A section is a thickened edge: a depth for a flat width, then a taper up to the field.")
		} else {
			p.section(f, &chosen, fill)
		}
		add := newButton("New section", func() {
			s := plan.Section{Name: freeSectionName(p.w.doc.Plan()), Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 6 * geometry.Inch}
			if p.units() == geometry.Millimeters {
				s.Depth, s.Bottom, s.Taper = 300*geometry.Millimeter, 300*geometry.Millimeter, 150*geometry.Millimeter
			}
			s.Depth = max(s.Depth, p.w.doc.Plan().Field)
			p.report(p.shareSection("New section", "", s))
			chosen = len(p.w.doc.Plan().Sections) - 1
			if p.w.machine.NewEdge.Section == "" {
				p.w.machine.NewEdge.Section = s.Name
				p.w.machine.Brush.Section = s.Name
			}
			fill()
		})
		f.buttons(newButton("Back", func() { p.turn(selection) }), add)
		p.scroll.Content = container.NewPadded(f.box)
		p.scroll.Refresh()
		refocus(p.scroll)
	}
	fill()
}

func freeSectionName(p plan.Plan) string {
	for i := len(p.Sections) + 1; ; i++ {
		name := fmt.Sprintf("Edge %d", i)
		if _, taken := p.SectionNamed(name); !taken {
			return name
		}
	}
}

// section is the form of one section.
func (p *editPanel) section(f *form, chosen *int, fill func()) {
	doc := p.w.doc
	names := func() []string { return p.sectionNames()[1:] }
	f.choice("Section", names, func() string {
		if n := names(); *chosen < len(n) {
			return n[*chosen]
		}
		return ""
	}, func(v string) {
		for i, n := range names() {
			if n == v {
				*chosen = i
			}
		}
		fill()
	})
	get := func() plan.Section {
		if s := doc.Plan().Sections; *chosen < len(s) {
			return s[*chosen]
		}
		return plan.Section{}
	}
	put := func(s plan.Section) error {
		return p.shareSection("Change section "+s.Name, get().Name, s)
	}
	pic := newSectionPicture(p.w.fonts, func() (plan.Section, geometry.Length, geometry.Units) {
		return get(), doc.Plan().Field, p.units()
	})
	f.add(pic, pic.Refresh)
	f.text("Name", func() string { return get().Name }, func(v string) error {
		s := get()
		s.Name = v
		return put(s)
	}, nil)
	if len(get().Profile) > 0 {
		f.note("This section has a profile of its own, point by point, from a job file.")
	} else {
		for _, fl := range []struct {
			label string
			at    func(*plan.Section) *geometry.Length
		}{
			{"Depth from top", func(s *plan.Section) *geometry.Length { return &s.Depth }},
			{"Flat bottom", func(s *plan.Section) *geometry.Length { return &s.Bottom }},
			{"Taper", func(s *plan.Section) *geometry.Length { return &s.Taper }},
		} {
			f.length(fl.label, p.units, func() geometry.Length { s := get(); return *fl.at(&s) }, func(l geometry.Length) error {
				s := get()
				*fl.at(&s) = l
				return put(s)
			})
		}
	}
	f.buttons(
		newButton("Use on all edges", func() {
			p.report(p.commit("Section on all edges", doc.Plan().SetAllSections(get().Name), nil))
		}),
		newButton("Remove", func() {
			slabs, err := plan.DropSection(doc.Base().Slabs, doc.Slab(), get().Name)
			p.report(p.commitSlabs("Remove section", slabs, err))
			fill()
		}),
	)
}

// shareSection puts a section into the library of all slabs.
func (p *editPanel) shareSection(label, old string, s plan.Section) error {
	slabs, err := plan.ShareSection(p.w.doc.Base().Slabs, p.w.doc.Slab(), old, s)
	return p.commitSlabs(label, slabs, err)
}

// commitSlabs makes changed slabs a step of the history.
func (p *editPanel) commitSlabs(label string, slabs []plan.Plan, err error) error {
	if err == nil {
		j := p.w.doc.Base()
		j.Slabs = slabs
		p.w.doc.Commit(label, j)
	}
	return err
}

// sectionPicture draws a section to scale.
type sectionPicture struct {
	widget.BaseWidget
	brush  paint.Brush
	get    func() (plan.Section, geometry.Length, geometry.Units)
	raster *canvas.Raster
}

func newSectionPicture(fonts *paint.Fonts, get func() (plan.Section, geometry.Length, geometry.Units)) *sectionPicture {
	s := &sectionPicture{get: get}
	s.brush.Fonts = fonts
	s.raster = canvas.NewRaster(s.picture)
	s.raster.SetMinSize(fyne.NewSize(200, 150))
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer implements fyne.Widget.
func (s *sectionPicture) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(s.raster)
}

// Refresh implements fyne.CanvasObject.
func (s *sectionPicture) Refresh() { s.raster.Refresh() }

func (s *sectionPicture) picture(w, h int) image.Image {
	sec, field, u := s.get()
	pal := palette()
	s.brush.Reset(w, h, pal.Paper)
	k := 1.0
	if width := s.Size().Width; width > 0 {
		k = float64(w) / float64(width)
	}
	st := sec.Stations(field)
	reach, deep := sec.Reach(), max(sec.Deepest(), field)
	if reach <= 0 || deep <= 0 || reach > geometry.MaxLength || deep > geometry.MaxLength {
		return s.brush.Img
	}
	beyond := reach / 2
	left, top, right, bottom := 58*k, 26*k, 14*k, 24*k
	scale := math.Min((float64(w)-left-right)/float64(reach+beyond), (float64(h)-top-bottom)/float64(deep))
	pt := func(x, d geometry.Length) paint.Point {
		return paint.Point{X: left + float64(x)*scale, Y: top + float64(d)*scale}
	}
	ring := []paint.Point{pt(0, 0)}
	for _, q := range st {
		ring = append(ring, pt(q.Inset, q.Depth))
	}
	ring = append(ring, pt(reach+beyond, field), pt(reach+beyond, 0))
	s.brush.Fill([][]paint.Point{ring}, pal.Slab)
	s.brush.Polyline(ring[:len(ring)-1], false, 1.8*k, pal.Ink)
	s.brush.Line(pt(0, 0), pt(reach+beyond, 0), 1.8*k, pal.Ink)
	size := scene.TextSize * k
	write := func(l geometry.Length, at paint.Point) { s.brush.Text(l.Text(u), at, size, false, pal.Text) }
	rule := func(a, b paint.Point) {
		s.brush.Line(a, b, k, pal.Dim)
		for _, p := range []paint.Point{a, b} {
			s.brush.Line(paint.Point{X: p.X - 3*k, Y: p.Y + 3*k}, paint.Point{X: p.X + 3*k, Y: p.Y - 3*k}, 1.2*k, pal.Dim)
		}
	}
	a, b := pt(0, 0), pt(0, sec.Deepest())
	a.X, b.X = a.X-10*k, b.X-10*k
	rule(a, b)
	write(sec.Deepest(), paint.Point{X: a.X - 24*k, Y: (a.Y + b.Y) / 2})
	if sec.Bottom > 0 && len(sec.Profile) == 0 {
		a, b = pt(0, sec.Depth), pt(sec.Bottom, sec.Depth)
		a.Y, b.Y = a.Y+8*k, b.Y+8*k
		rule(a, b)
		write(sec.Bottom, paint.Point{X: (a.X + b.X) / 2, Y: a.Y + 9*k})
	}
	if sec.Taper > 0 && len(sec.Profile) == 0 {
		a, b = pt(sec.Bottom, 0), pt(reach, 0)
		a.Y, b.Y = a.Y-7*k, b.Y-7*k
		rule(a, b)
		write(sec.Taper, paint.Point{X: (a.X + b.X) / 2, Y: a.Y - 10*k})
	}
	end := pt(reach+beyond/2, 0)
	write(field, paint.Point{X: end.X, Y: end.Y + float64(field)*scale/2})
	return s.brush.Img
}
