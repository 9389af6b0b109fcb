package book

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/storage"
)

// jobList is the list of jobs; only the rows in sight exist.
type jobList struct {
	widget.List
	p *Page
}

func newJobList(p *Page) *jobList {
	l := &jobList{p: p}
	l.Length = func() int { return len(p.listed) }
	l.CreateItem = func() fyne.CanvasObject { return newJobRow(p.fonts) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < len(p.listed) {
			o.(*jobRow).set(p.listed[i], p.listed[i].ID == p.shelf.ID())
		}
	}
	l.OnSelected = func(i widget.ListItemID) {
		if i < len(p.listed) {
			p.choose(p.listed[i].ID)
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// mark selects the chosen job's row.
func (l *jobList) mark() {
	if i := slices.IndexFunc(l.p.listed, func(s storage.Summary) bool { return s.ID == l.p.chosen }); i >= 0 {
		l.Select(i)
	} else {
		l.UnselectAll()
	}
}

// TypedKey implements fyne.Focusable.
func (l *jobList) TypedKey(k *fyne.KeyEvent) {
	switch {
	case form.HandOn(l, k.Name):
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) // choose
		l.p.open()
	default:
		l.List.TypedKey(k)
	}
}

// jobRow is a job's line in the list: its outline, its name, and the rest.
type jobRow struct {
	widget.BaseWidget
	dots       []storage.Dot
	outline    *form.Picture
	name, rest *widget.Label
}

func newJobRow(fonts *paint.Fonts) *jobRow {
	r := &jobRow{name: form.Figure("", fyne.TextAlignLeading), rest: form.Figure("", fyne.TextAlignLeading)}
	r.name.TextStyle.Bold = true
	r.rest.SizeName = theme.SizeNameCaptionText
	r.outline = form.NewPicture(fonts, fyne.NewSize(54, 44), r.draw)
	r.ExtendBaseWidget(r)
	return r
}

func (r *jobRow) set(s storage.Summary, open bool) {
	name := s.Name
	if name == "" {
		name = "Unnamed job"
	}
	if open {
		name += "   (open)"
	}
	parts := []string{s.ID.String(), s.State.String()}
	if s.Archived {
		parts = append(parts, "archived")
	}
	for _, t := range []string{s.Date, s.Customer, s.Site} {
		if t != "" {
			parts = append(parts, t)
		}
	}
	form.Set(r.name, name)
	form.Set(r.rest, strings.Join(parts, " · "))
	r.dots = s.Thumbnail
	r.outline.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *jobRow) CreateRenderer() fyne.WidgetRenderer {
	text := container.New(&tightRows{}, r.name, r.rest)
	return widget.NewSimpleRenderer(container.NewBorder(nil, nil, r.outline, nil, text))
}

func (r *jobRow) draw(d form.Drawing) {
	if len(r.dots) < 3 {
		return
	}
	x, y := uint8(0), uint8(0)
	for _, q := range r.dots {
		x, y = max(x, q.X), max(y, q.Y)
	}
	margin := d.H * 0.12
	k := min((d.W-2*margin)/float64(max(1, x)), (d.H-2*margin)/float64(max(1, y)))
	ring := make([]paint.Point, len(r.dots))
	for i, q := range r.dots {
		ring[i] = paint.Point{X: d.W/2 + (float64(q.X)-float64(x)/2)*k, Y: d.H/2 - (float64(q.Y)-float64(y)/2)*k}
	}
	d.Fill([][]paint.Point{ring}, look.Palette().Slab)
	d.Polyline(ring, true, max(1, d.H/40), look.Palette().Ink)
}

// tightRows stacks labels closer than a box does.
type tightRows struct{}

func (tightRows) Layout(os []fyne.CanvasObject, s fyne.Size) {
	step := s.Height / float32(len(os))
	for i, o := range os {
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(s.Width, h))
		o.Move(fyne.NewPos(0, step*float32(i)+(step-h)/2))
	}
}

func (tightRows) MinSize(os []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(120, float32(len(os))*22)
}
