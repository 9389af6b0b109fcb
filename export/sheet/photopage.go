package sheet

import (
	"context"
	"errors"
	"io"
	"math"

	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/picture"
	"haunchbook.example/app/visit"
	"haunchbook.example/export/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
)

// errNoPhotos is the error for a job without photographs.
var errNoPhotos = errors.New("visit.photos: found no photograph; add one at the site visit of the job")

// WritePhotos writes the photographs of the site, each with what it shows and its mark on a
// plan of the slabs. The error is that of a job without any.
func WritePhotos(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	pages, err := PhotoPages(h, o)
	if err != nil {
		return err
	}
	return writePDF(ctx, w, pages[0].Name+": "+h.Job().Name, pages, o)
}

// PhotoPages gives the pages that WritePhotos writes.
func PhotoPages(h *handover.Handover, o Options) (out []Page, err error) {
	if len(h.Job().Visit.Photos) == 0 {
		return nil, errNoPhotos
	}
	for _, p := range offices(h, o) {
		p.photos()
		out = append(out, p.finished()...)
	}
	return out, nil
}

// Room for the plan and for a photograph with its words, mm.
const (
	photoPlan    = 60.0
	photoTall    = 56.0
	photoCaption = 9.0
)

// photos draws the plan, where any stands on it, and then all, two beside each other.
func (p *office) photos() {
	const title = "Photographs"
	p.open(title, date.On(p.options.Date))
	p.wherePhotos()
	wide := (p.r.Width() - columnGap) / 2
	for i, photo := range p.job.Visit.Photos {
		if i%2 == 0 && p.top-photoTall-photoCaption < p.r.Y0+4 {
			p.turn(title)
		}
		x := p.r.X0 + float64(i%2)*(wide+columnGap)
		p.photo(i, photo, rect{X0: x, X1: x + wide, Y1: p.top, Y0: p.top - photoTall})
		if i%2 == 1 {
			p.top -= photoTall + photoCaption + 3
		}
	}
}

// photo draws one, as large as fits, with its mark, its day and what it shows under it.
func (p *office) photo(n int, of visit.Photo, r rect) {
	d := p.page()
	if img, err := picture.Decode(of.Image, picture.Photo); err != nil {
		d.paragraph(r.X0, r.Y1-4, r.Width(), sizeSmall, false, p.say.Say("The picture cannot be shown: the file is damaged"))
	} else {
		size := img.Bounds().Size()
		k := math.Min(r.Width()/float64(size.X), r.Height()/float64(size.Y)) // mm a point
		at := Point{X: r.X0, Y: r.Y1 - k*float64(size.Y)}
		d.page.Items = append(d.page.Items, Picture{img, at, k * float64(size.X)})
		r.Y0 = at.Y
	}
	d.write(r.X0, r.Y0-4, sizeSmall, true, visit.Mark(n))
	right := r.X1
	if of.Date.Known() {
		day := of.Date.String()
		d.writeRight(r.X1, r.Y0-4, sizeFine, false, day)
		right -= textWidth(day, sizeFine, false) + 2
	}
	d.write(r.X0+10, r.Y0-4, sizeSmall, false, shorten(of.Name, right-r.X0-10, sizeSmall, false))
}

// wherePhotos draws the slabs with the marks of the photographs that were placed.
func (p *office) wherePhotos() {
	in := planview.Input{Photos: handover.Photos(p.job.Visit)}
	if len(in.Photos) == 0 {
		return
	}
	var shown geometry.Ring
	for _, q := range in.Photos {
		shown = append(shown, q.At)
	}
	for i, s := range p.job.Slabs {
		if s.Blank() {
			continue
		}
		name := ""
		if len(p.job.Slabs) > 1 {
			name = s.Called(i)
		}
		in.Beside = append(in.Beside, planview.Slab{Name: name, Plan: s})
		shown = append(shown, s.Outline.Rim()...)
	}
	lo, hi := shown.Bounds()
	room := rect{X0: p.r.X0 + 6, X1: p.r.X1 - 6, Y1: p.top - 6, Y0: p.top - photoPlan + 6}
	across := func(l geometry.Length) float64 { return max(l.Meters(), 1) }
	scale := math.Min(room.Width()/across(hi.X-lo.X), room.Height()/across(hi.Y-lo.Y)) // mm a m
	v := viewOf(Scale{Ratio: 1000 / scale}, lo, hi, room)
	area := rect{X0: p.r.X0, X1: p.r.X1, Y1: p.top, Y0: p.top - photoPlan}
	dr := planview.Plan(p.job.Units, in, planview.Options{Draw: drawing.LayersOf(drawing.Outline, drawing.Names, drawing.Survey), Names: drawing.LayersOf(drawing.Names, drawing.Survey), Worked: -1, Selected: planview.Selected{Edge: -1, Bolt: -1}})
	placed := drawing.Place(dr, drawing.Options{View: v.drawn(), Fonts: drawing.Remember(look.Fonts{}), Area: area, Clip: area})
	p.show(p.page(), placed, Point{})
	p.top -= photoPlan + 4
}
