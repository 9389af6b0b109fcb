package options

import (
	"context"
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/layout/bars"
)

// depth shows the bid and the concrete over the depth of the edges, with a mark at one
// of the depths, what the job comes to there, and what moves the price.
type depth struct {
	p     *Page
	work  document.Latest
	of    handover.HowDeep
	bars  bars.Size // of the edges
	money string    // the currency
	tried string    // why there is no range of depths

	mark  int             // of the depths
	at    geometry.Length // the depth that was chosen; 0 for that as drawn
	chart *form.Chart
	pic   *form.Picture
	said  *widget.Label
	steps *widget.Label
	moves *fyne.Container
	box   *fyne.Container
}

func newDepth(p *Page, s document.Scheduler) *depth {
	d := &depth{p: p, work: document.Latest{Scheduler: s}, said: form.Wrapped(""), steps: form.Small(""), moves: container.NewVBox()}
	d.chart = form.NewChart(func() fyne.Size { return fyne.NewSize(320, 250) }, d.draw)
	d.pic = form.NewPicture(p.fonts, fyne.NewSize(200, 150), func(to form.Drawing) {
		if d.mark < len(d.of.At) {
			s := d.of.At[d.mark].Section.Detail(d.bars)
			scene.Detail(to.Brush, s.Drawing(p.frame.Units()), look.Palette(), to.K, int(to.W), int(to.H))
		}
	})
	use := form.Do("Use this depth", form.Act(p.frame, func() error { return d.take(true) })).Strong()
	keep := form.Do("Compare it", form.Act(p.frame, func() error { return d.take(false) }))
	beside := container.NewVBox(d.pic, d.said, container.NewHBox(use, keep))
	d.box = container.NewVBox(form.Table{0, 320}.Row(container.NewStack(d.chart, newHandle(d)), beside), d.steps, form.Rule())
	d.box.Hide()
	return d
}

// ask has the range computed anew.
func (d *depth) ask(h *handover.Handover) {
	var got handover.HowDeep
	d.work.Run("working out the price over the edge depth", func(ctx context.Context) (err error) {
		got, err = h.HowDeep(ctx)
		return err
	}, func(err error) {
		d.of, d.bars, d.money, d.tried = got, h.Job().Spec.Place.Bars.Size, h.Prices().Currency, ""
		if err != nil {
			d.of, d.tried = handover.HowDeep{}, err.Error()
		}
		d.mark = d.of.Drawn
		for i, a := range d.of.At {
			if a.Edge == d.at {
				d.mark = i
			}
		}
		d.showMoves()
		d.p.frame.Refresh()
	})
}

// show brings what stands over the table up to date.
func (d *depth) show(sound bool) {
	if on := sound && len(d.of.At) > 1; on != d.box.Visible() {
		form.Seen(d.box, on)
		d.p.body.Refresh()
	}
	if !d.box.Visible() {
		return
	}
	form.Set(d.steps, d.of.Deeper(d.p.frame.Units()))
	form.Seen(d.steps, d.steps.Text != "")
	d.refresh()
}

// move sets the mark.
func (d *depth) move(to int) {
	if len(d.of.At) == 0 {
		return
	}
	d.mark = max(0, min(to, len(d.of.At)-1))
	d.at = d.of.At[d.mark].Edge
	d.refresh()
}

// refresh has the mark, the section and the figures follow.
func (d *depth) refresh() {
	a, u := d.of.At[d.mark], d.p.frame.Units()
	text := fmt.Sprintf("Edges %s deep: %s", a.Edge.Text(u), d.amount(a))
	if d.mark == d.of.Drawn {
		text += ", as drawn"
	} else {
		text += " (" + signed(d.money, a.Difference) + ")"
	}
	text += fmt.Sprintf(". %s %s in %d trucks, %s of steel, %d form boards", a.Ordered, a.Volume, a.Trucks, a.Steel.StringFixed(0)+" "+string(a.Weight), a.Boards)
	if d.p.frame.Frost() > 0 {
		text += map[bool]string{true: ", below frost", false: ", not below frost"}[a.Frost]
	}
	if a.Broken > 0 {
		text += ". " + a.Findings()
	}
	form.Set(d.said, text+".")
	d.chart.Refresh()
	d.pic.Refresh()
}

// take makes the marked depth the job's, or an option.
func (d *depth) take(use bool) error {
	if d.mark >= len(d.of.At) || d.mark == d.of.Drawn {
		return errors.New("this is as drawn: drag the mark to another depth")
	}
	o := estimate.Option{Name: "Edge " + d.of.At[d.mark].Name, Edge: d.of.At[d.mark].Option.Edge}
	all := d.p.options()
	for i, is := range all {
		is.Name = o.Name
		switch {
		case is != o:
		case use:
			return d.p.choose(all, i)
		default:
			return fmt.Errorf("%s is compared already", o.Name)
		}
	}
	if use {
		all = append(append([]estimate.Option{}, all...), o)
		return d.p.choose(all, len(all)-1)
	}
	return d.p.add(o)
}

// showMoves lists what moves the price, each to be compared.
func (d *depth) showMoves() {
	var os []fyne.CanvasObject
	if d.tried != "" {
		os = append(os, form.Caption("Over the edge depth: "+d.tried+"."))
	}
	if len(d.of.Movers) > 0 {
		os = append(os, form.Title("What moves the price of this job most"))
	}
	for _, m := range d.of.Movers {
		add := form.Do("Compare", form.Act(d.p.frame, func() error { return d.p.add(m.Option) })).Faint()
		text := signed(d.money, m.Difference)
		if m.Open {
			text += " *"
		}
		os = append(os, form.Table{0, 110, 80}.Row(form.Figure(m.Option.Name, fyne.TextAlignLeading), form.Figure(text, fyne.TextAlignTrailing), add))
	}
	for _, m := range d.of.Movers {
		if m.Open {
			os = append(os, form.Caption("* Without what has no price of its own on the list."))
			break
		}
	}
	form.Refill(d.moves, os...)
}

// drawSection draws the edge of a column, all columns to the same scale.
func (p *Page) drawSection(to form.Drawing, i int) {
	pal := look.Palette()
	if i >= len(p.sections) || len(p.sections[i].Under) == 0 {
		to.Reset(int(to.W), int(to.H), pal.Paper)
		return
	}
	var lo, hi geometry.Point
	u := p.frame.Units()
	for _, s := range p.sections {
		if a, b, ok := plain(s).Drawing(u).Bounds(); ok {
			lo, hi = geometry.Point{X: min(lo.X, a.X), Y: min(lo.Y, a.Y)}, geometry.Point{X: max(hi.X, b.X), Y: max(hi.Y, b.Y)}
		}
	}
	scene.DetailIn(to.Brush, plain(p.sections[i]).Drawing(u), pal, to.K, int(to.W), int(to.H), 6, lo, hi)
}

// plain is a section as shown small.
func plain(s detail.Section) detail.Section {
	s.Plain = true
	return s
}
