// Package ground has the panel of the ground that was shot: the readings, typed in walking
// order, the map, and the order that follows. Of a job without shots it shows one button.
package ground

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/field"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/shoot"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Frame is what the panel needs of the window.
type Frame interface {
	form.Desk
	Tell(text string)
	Base() job.Job
	Edition() string // tells states of the open job apart
	Handover() (h *handover.Handover, stale bool)
	Change(label string, change func(*job.Job)) error
	Window() fyne.Window
	Refresh()
}

// Panel is the panel.
type Panel struct {
	Box   *fyne.Container
	frame Frame
	work  document.Latest
	asked string
	of    handover.Ground
	next  int    // of the places to shoot
	again string // what was asked about: typed once more, it counts
	typed string // what is typed: rodReadings, overDatum, or over one of the benchmarks

	open    *form.Button
	opened  bool
	form    *form.Form
	place   *widget.Label
	reading *form.Entry
	asks    *widget.Label
	result  *widget.Label
	order   *fyne.Container
	picture *canvas.Image
	shown   *fyne.Container
}

// New gives the panel.
func New(f Frame, s document.Scheduler) *Panel {
	p := &Panel{frame: f, typed: rodReadings, work: document.Latest{Scheduler: s}, place: form.Wrapped(""), asks: form.Weighted(form.Wrapped(""), widget.WarningImportance), result: form.Wrapped(""), order: container.NewVBox()}
	p.open = form.Do("Shoot the ground…", func() {
		p.opened = true
		p.Update()
	})
	p.reading = form.NewEntry()
	p.reading.SetPlaceHolder("what is read; Enter for the next")
	p.reading.Commit = p.take
	p.reading.Done = func() { p.reading.SetText("") }
	p.picture = canvas.NewImageFromImage(nil)
	p.picture.FillMode = canvas.ImageFillContain
	p.picture.SetMinSize(fyne.NewSize(420, 540))
	p.form = p.fields()
	p.shown = container.NewVBox(
		form.Explanation("Shoot the base before the pour. The page of shots, under Print, says where, in walking order, with a blank for each."),
		p.form.Box,
		p.place, p.reading, p.asks,
		container.NewHBox(
			form.Do("Back", func() { p.step(-1) }), form.Do("Skip", func() { p.step(1) }),
			form.Do("Readings from a file…", p.file),
			form.NewTwice("Remove all shots", "Remove all", form.Act(f, p.clear)),
		),
		p.result, p.order, p.picture,
	)
	p.Box = container.NewVBox(form.Title("Ground"), p.open, p.shown)
	return p
}

// fields are those of how the ground is shot.
func (p *Panel) fields() *form.Form {
	f := form.New(p.frame)
	s := bind.Of(f, func() shoot.Spec { return p.frame.Base().Ground }, func(what string, change func(*shoot.Spec)) error {
		return p.frame.Change("Set "+field.Lower(what), func(j *job.Job) { change(&j.Ground) })
	}).At("ground")
	s.Rows("instrument")
	known := func(label string, height func() (geometry.Length, error)) {
		f.Text(label, bind.Text{Get: func() string { return "" }, Set: func(v string) error {
			if strings.TrimSpace(v) == "" {
				return nil
			}
			reading, err := field.Inches.ParseLength(v, p.frame.Units())
			if err != nil {
				return err
			}
			at, err := height()
			if err != nil {
				return err
			}
			return p.frame.Change("Set the instrument", func(j *job.Job) { j.Ground.Instrument = shoot.On(at, reading).Height })
		}})
	}
	known("Rod on the benchmark", func() (geometry.Length, error) {
		if b := p.frame.Base().Survey.Benchmarks; len(b) > 0 {
			return b[0].Height, nil
		}
		return 0, errors.New("there is no benchmark; put one on the plan, or read the rod on the top")
	})
	known("Rod on the lowest top", func() (geometry.Length, error) {
		j := p.frame.Base()
		return j.Spec.Place.StakeOut.Top(j.Slabs[0]), nil
	})
	known("Moved: rod on the last shot", func() (geometry.Length, error) {
		if s := p.frame.Base().Survey.Shots; len(s) > 0 {
			return s[len(s)-1].Height, nil
		}
		return 0, errors.New("nothing was shot yet")
	})
	f.Choice("What is typed", p.kinds, func() string { return p.typed }, func(kind string) error {
		p.typed = kind
		p.show()
		return nil
	})
	f.Explain("The height of the instrument may be typed, or found by what the rod reads on a height that is known; after it was moved, on the last shot.")
	s.Rows("accuracy", "gravel", "short", "left", "stray", "lost")
	return f
}

// Update brings the panel up to date.
func (p *Panel) Update() {
	shot := len(p.frame.Base().Survey.Shots) > 0
	form.Seen(p.open, !p.opened && !shot)
	form.Seen(p.shown, p.opened || shot)
	if !p.shown.Visible() {
		return
	}
	p.form.Sync()
	h, stale := p.frame.Handover()
	if h == nil || stale || p.asked == p.frame.Edition() {
		return
	}
	p.asked = p.frame.Edition()
	var of handover.Ground
	var page *sheet.Page
	p.work.Run("working out the ground", func(ctx context.Context) (err error) {
		if of, err = h.Ground(ctx); err != nil || !of.Shot {
			return err
		}
		pages, err := sheet.ShotPages(ctx, h, sheet.Options{})
		if n := len(pages); err == nil && n > 0 {
			i := slices.IndexFunc(pages, func(p sheet.Page) bool { return p.Name == "Ground" })
			page = &pages[max(i, 0)]
		}
		return err
	}, func(err error) {
		if err != nil {
			form.Set(p.result, "! "+err.Error())
			return
		}
		p.of = of
		p.picture.Image = nil
		if page != nil {
			p.picture.Image = page.Picture(840)
		}
		form.Seen(p.picture, page != nil)
		p.picture.Refresh()
		p.show()
		p.frame.Refresh()
	})
}

// wanted are the places to shoot, through all slabs.
func (p *Panel) wanted() (out []handover.WantedShot) {
	for _, s := range p.of.Slabs {
		out = append(out, s.Wanted...)
	}
	return out
}

// shotAt gives the shot at a place.
func shotAt(shots []plan.Shot, at geometry.Point) int {
	return slices.IndexFunc(shots, func(s plan.Shot) bool { return s.At == at })
}

func (p *Panel) step(by int) {
	p.next = max(0, min(p.next+by, len(p.wanted())))
	p.again = ""
	form.Set(p.asks, "")
	p.show()
}

// show says which place is next, and what the shots come to.
func (p *Panel) show() {
	u := p.frame.Units()
	all := p.wanted()
	j := p.frame.Base()
	switch {
	case len(all) == 0:
		form.Set(p.place, "There is nothing to shoot yet.")
	case p.next >= len(all):
		form.Set(p.place, fmt.Sprintf("All %d places were gone through.", len(all)))
	default:
		w := all[p.next]
		text := fmt.Sprintf("Place %d of %d: %s, %s along and %s square off", w.Number, len(all), w.What, w.From.X.Text(u), w.From.Y.Text(u))
		wants, known := p.wants(w)
		if !known {
			text += ". First say how high the instrument stands"
		} else {
			text += "; wanted " + wants.Text(u)
		}
		if i := shotAt(j.Survey.Shots, w.At); i >= 0 && known {
			is := w
			is.Height = j.Survey.Shots[i].Height
			read, _ := p.wants(is)
			text += "; read " + read.Text(u)
		}
		form.Set(p.place, text+".")
	}
	if !p.of.Shot {
		form.Set(p.result, "")
		form.Refill(p.order)
		return
	}
	form.Set(p.result, p.said())
	form.Refill(p.order, p.orders()...)
}

// said is what the shots come to.
func (p *Panel) said() string {
	d, unit := p.of.Decision, p.of.Unit
	text := fmt.Sprintf("Concrete by the plan %.2f %s, down to the ground %.2f, give or take %.2f. With yield and spill %.2f to %.2f are needed, 9 times in 10.", p.of.Plan, unit, d.Need.Fill.Mean, d.Need.Fill.Within(), d.Low, d.High)
	text += " " + p.of.Base.Said(unit)
	if p.of.Unshot > 0.005 {
		text += fmt.Sprintf(" Of %.0f %% of the area nothing was shot: there the plan holds.", 100*p.of.Unshot)
	}
	if p.of.Stray > 0 {
		text += fmt.Sprintf(" Shots that lie under no slab: %d.", p.of.Stray)
	}
	for _, s := range p.of.Slabs {
		for _, t := range s.Taken {
			if t.Ask != "" {
				text += fmt.Sprintf(" At %s along and %s square off %s", t.From.X.Text(p.frame.Units()), t.From.Y.Text(p.frame.Units()), t.Ask)
			}
		}
	}
	return text
}

func (p *Panel) orders() []fyne.CanvasObject {
	table := form.Table{80, 110, 80, 80, 0}
	os := []fyne.CanvasObject{form.Bold("What to order"), table.Head(">Order, "+string(p.of.Unit), ">Short, of 100", ">Left", ">Costs", "")}
	d := p.of.Decision
	for i, c := range d.Choices {
		if d.Telling(i) {
			os = append(os, table.Figures(c.Amount.String(), fmt.Sprintf("%.1f", 100*c.Short), fmt.Sprintf("%.2f", c.Left), fmt.Sprintf("%.0f", c.Cost), d.Note(i)))
		}
	}
	return append(os, form.Caption(fmt.Sprintf("Left and costs on average. Running short is taken to cost %.0f once, what is left %.0f a %s: own figures, unless you give yours.", d.Short, d.Each, p.of.Unit)))
}

// take takes a reading at the place that is next; false where it is asked about.
func (p *Panel) take(text string) bool {
	all, u := p.wanted(), p.frame.Units()
	text = strings.TrimSpace(text)
	if text == "" || p.next >= len(all) {
		p.step(1)
		return true
	}
	w := all[p.next]
	typed, err := field.Inches.ParseLength(text, u)
	height := geometry.Length(0)
	if err == nil {
		height, err = p.height(typed)
	}
	if err != nil {
		form.Set(p.asks, field.Upper(err.Error())+".")
		return false
	}
	if ask := shoot.Ask(w.Height, height, u); ask != "" && p.again != text {
		p.again = text
		form.Set(p.asks, field.Upper(ask)+" Type another reading, or press Enter once more to keep it.")
		return false
	}
	if err := p.put(fmt.Sprintf("Shot %d", w.Number), []plan.Shot{{At: w.At, Height: height}}); err != nil {
		form.Set(p.asks, err.Error())
		return false
	}
	p.step(1)
	return true
}

// put puts shots into the job, each in place of one that is there.
func (p *Panel) put(label string, shots []plan.Shot) error {
	return p.frame.Change(label, func(j *job.Job) {
		for _, s := range shots {
			if i := shotAt(j.Survey.Shots, s.At); i >= 0 {
				j.Survey.Shots[i] = s
			} else {
				j.Survey.Shots = append(j.Survey.Shots, s)
			}
		}
	})
}

func (p *Panel) clear() error {
	p.next = 0
	return p.frame.Change("Remove all shots", func(j *job.Job) { j.Survey.Shots = nil })
}

// file reads readings from a file.
func (p *Panel) file() {
	form.OpenFile(p.frame.Window(), func(err error) {
		if err != nil {
			p.frame.Say(err.Error())
		}
	}, []string{".csv", ".txt"}, func(f fyne.URIReadCloser) {
		defer f.Close()
		rows, err := shoot.ReadCSV(f, p.frame.Units())
		if err == nil {
			err = p.rows(rows)
		}
		if err != nil {
			p.frame.Say(err.Error())
			return
		}
		p.frame.Tell(fmt.Sprintf("%d readings were taken from the file", len(rows)))
	})
}

// rows takes the readings of a file.
func (p *Panel) rows(rows []shoot.Row) error {
	all, level := p.wanted(), shoot.Level{Height: p.frame.Base().Ground.Instrument}
	var shots []plan.Shot
	for _, r := range rows {
		s := plan.Shot{At: r.At, Height: r.Value}
		if r.Number > 0 {
			if r.Number > len(all) {
				return fmt.Errorf("point %d: there are %d places on the page of shots", r.Number, len(all))
			}
			s.At = all[r.Number-1].At
		}
		if !r.Height {
			if level.Height == 0 {
				return errors.New("these are readings: say first how high the instrument stands")
			}
			s.Height = level.Ground(r.Value)
		}
		if r.Over {
			marks := p.frame.Base().Survey.Benchmarks
			if len(marks) == 0 {
				return errors.New("these are heights over a benchmark: put it on the plan first")
			}
			s.Height += marks[0].Height
		}
		shots = append(shots, s)
	}
	return p.put("Readings from a file", shots)
}
