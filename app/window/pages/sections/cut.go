package sections

import (
	"fyne.io/fyne/v2"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/solid"
)

// CutFrame is what a cut needs of the window.
type CutFrame interface {
	form.Desk
	Takeoff() (*takeoff.Takeoff, bool)
	Back() // to what is selected
}

// Cut is the page that shows the slab cut along a line.
type Cut struct {
	frame CutFrame
	fonts *paint.Fonts
	a, b  geometry.Point
}

// NewCut gives the page.
func NewCut(f CutFrame, fonts *paint.Fonts) *Cut { return &Cut{frame: f, fonts: fonts} }

// Along sets the line.
func (p *Cut) Along(a, b geometry.Point) { p.a, p.b = a, b }

// Name is how the status line calls the page.
func (*Cut) Name() string { return "Cut" }

// Key changes when the page is to be made anew.
func (*Cut) Key() string { return "" }

// Form makes the page.
func (p *Cut) Form() *form.Form {
	f := form.New(p.frame)
	f.Heading("Cut through the slab")
	pic := form.NewPicture(p.fonts, fyne.NewSize(200, 170), p.draw)
	f.Add(pic, pic.Refresh)
	f.Explain("Heights are drawn larger than widths, so that thicknesses can be read. Depths are from the top of the slab. Draw another line to cut elsewhere; Esc ends.")
	f.Buttons(form.Do("Back", p.frame.Back))
	return f
}

// draw draws the underside along the line.
func (p *Cut) draw(d form.Drawing) {
	k, pal := d.K, look.Palette()
	size := scene.TextSize * k
	t, _ := p.frame.Takeoff()
	if t == nil {
		return
	}
	var parts []solid.Profile
	for _, slab := range t.Slabs {
		parts = append(parts, slab.Solid.Cut(p.a, p.b)...)
	}
	if len(parts) == 0 {
		d.Text("The line does not meet the slab", paint.Point{X: d.W / 2, Y: d.H / 2}, size, false, pal.Text)
		return
	}
	lo, hi, deep := parts[0].From, parts[0].To, geometry.Length(0)
	for _, q := range parts {
		lo, hi, deep = min(lo, q.From), max(hi, q.To), max(deep, q.Start, q.End)
	}
	left, right, top, bottom := 14*k, 14*k, 30*k, 26*k
	sx := (d.W - left - right) / float64(max(hi-lo, 1))
	sy := min((d.H-top-bottom)/float64(max(deep, 1)), sx*8)
	at := func(x, depth geometry.Length) paint.Point {
		return paint.Point{X: left + float64(x-lo)*sx, Y: top + float64(depth)*sy}
	}
	for _, q := range parts {
		d.Fill([][]paint.Point{{at(q.From, 0), at(q.From, q.Start), at(q.To, q.End), at(q.To, 0)}}, pal.Slab)
	}
	ink := func(a, b paint.Point) { d.Line(a, b, 1.6*k, pal.Ink) }
	for i, q := range parts {
		ink(at(q.From, 0), at(q.To, 0))
		ink(at(q.From, q.Start), at(q.To, q.End))
		if i == 0 || parts[i-1].To != q.From {
			ink(at(q.From, 0), at(q.From, q.Start))
		} else if parts[i-1].End != q.Start {
			ink(at(q.From, parts[i-1].End), at(q.From, q.Start))
		}
		if i == len(parts)-1 || parts[i+1].From != q.To {
			ink(at(q.To, 0), at(q.To, q.End))
		}
	}
	u, last := p.frame.Units(), -1e9
	for _, q := range parts { // the depth of each level stretch with room for it
		if q.Start != q.End {
			continue
		}
		text, mid := q.Start.Text(u), at((q.From+q.To)/2, q.Start)
		wide := d.Fonts.Width(text, size)
		x := min(max(mid.X, wide/2+2*k), d.W-wide/2-2*k)
		if x-wide/2 < last+4*k {
			continue
		}
		last = x + wide/2
		d.Text(text, paint.Point{X: x, Y: mid.Y + 11*k}, size, false, pal.Text)
	}
	d.Text("length on the slab "+(hi-lo).Text(u), paint.Point{X: d.W / 2, Y: 12 * k}, size, false, pal.Dim)
}
