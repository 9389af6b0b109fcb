package book

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
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
	p  *Page
	at int // the row that the keys are at
}

func newJobList(p *Page) *jobList {
	l := &jobList{p: p}
	l.Length = func() int { return len(p.listed) }
	l.CreateItem = func() fyne.CanvasObject { return newJobRow(l) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < len(p.listed) {
			o.(*jobRow).set(i, p.listed[i], p.listed[i].ID == p.shelf.ID())
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
	case k.Name == fyne.KeyDown || k.Name == fyne.KeyUp:
		l.step(k.Name)
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) // choose
		l.p.open()
	default:
		l.List.TypedKey(k)
	}
}

// step moves the keys to the next row or the one before.
func (l *jobList) step(key fyne.KeyName) {
	l.List.TypedKey(&fyne.KeyEvent{Name: key})
	if key == fyne.KeyUp {
		l.at = max(0, l.at-1)
	} else {
		l.at = max(l.at, min(l.at+1, len(l.p.listed)-1))
	}
}

// tapped chooses a row and moves the keys to it. The toolkit's list does so for taps
// that its rows leave to it alone, and those of jobs take double taps.
func (l *jobList) tapped(i int) {
	l.p.Window().Canvas().Focus(l)
	was := l.GetScrollOffset()
	for l.at < i && i < len(l.p.listed) {
		l.step(fyne.KeyDown)
	}
	for l.at > i {
		l.step(fyne.KeyUp)
	}
	l.ScrollToOffset(was)
	l.Select(i)
}

// jobRow is a job's line in the list: its outline, its name, and the rest.
type jobRow struct {
	widget.BaseWidget
	list       *jobList
	i          int // which of the jobs listed
	dots       []storage.Dot
	outline    *form.Picture
	name, rest *widget.Label
}

func newJobRow(l *jobList) *jobRow {
	r := &jobRow{list: l, name: form.Figure("", fyne.TextAlignLeading), rest: form.Figure("", fyne.TextAlignLeading)}
	r.name.TextStyle.Bold = true
	r.rest.SizeName = theme.SizeNameCaptionText
	r.outline = form.NewPicture(l.p.fonts, fyne.NewSize(54, 44), r.draw)
	r.ExtendBaseWidget(r)
	return r
}

// MouseDown implements desktop.Mouseable: the job is chosen at once, not when it is
// clear that no second click follows.
func (r *jobRow) MouseDown(*desktop.MouseEvent) { r.list.tapped(r.i) }

// MouseUp implements desktop.Mouseable.
func (r *jobRow) MouseUp(*desktop.MouseEvent) {}

// Tapped implements fyne.Tappable.
func (r *jobRow) Tapped(*fyne.PointEvent) { r.list.tapped(r.i) }

// DoubleTapped implements fyne.DoubleTappable.
func (r *jobRow) DoubleTapped(*fyne.PointEvent) {
	r.list.tapped(r.i)
	r.list.p.open()
}

func (r *jobRow) set(i int, s storage.Summary, open bool) {
	r.i = i
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
