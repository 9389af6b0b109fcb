// Package pour has the page of the day of the pour: the order, the trucks, the lanes
// with their running yards, the weather, and what may be done afterwards.
package pour

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/field"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/pages/ground"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Frame is what the page needs of the window.
type Frame interface {
	form.Desk
	Tell(text string)
	Copy(text string) // to the clipboard
	Job() job.Job
	Base() job.Job
	Edition() string // tells states of the open job apart
	Blank() bool
	Faults() plan.Faults
	Handover() (h *handover.Handover, stale bool)
	ChangePour(label string, change func(*pour.Spec)) error
	ground.Frame
}

// Page is the page.
type Page struct {
	frame  Frame
	work   document.Latest
	days   []pour.Day // of each pour
	which  int        // of them is shown
	day    pour.Day   // that one
	ready  bool
	failed error
	asked  string

	state    *widget.Label
	choice   *fyne.Container // between the pours, where there are several
	findings *fyne.Container
	need     *widget.Label
	order    *widget.Label
	loads    *fyne.Container
	picture  *picture
	timeline *timeline
	bays     *fyne.Container
	weather  *weather
	cure     *fyne.Container
	ground   *ground.Panel
	shown    *fyne.Container // hidden until there is a day
	ordered  job.Job         // of the order shown
	form     *form.Form
	root     fyne.CanvasObject
}

// New gives the page.
func New(f Frame, fonts *paint.Fonts, s document.Scheduler) *Page {
	p := &Page{
		frame: f, work: document.Latest{Scheduler: s}, state: form.Wrapped(""), need: form.Wrapped(""), order: form.Wrapped(""),
		choice: container.NewHBox(), findings: container.NewVBox(), loads: container.NewVBox(), bays: container.NewVBox(), cure: container.NewVBox(),
	}
	p.order.TextStyle.Monospace = true
	p.order.Selectable = true
	p.picture = newPicture(p, fonts)
	p.weather = newWeather(p)
	copied := container.NewHBox(form.Do("Copy the order", func() {
		f.Copy(p.order.Text)
		f.Tell("The order is on the clipboard")
	}))
	for _, l := range others() {
		copied.Add(form.Do(l.Name, func() {
			f.Copy(p.orderIn(l))
			f.Tell("The order is on the clipboard: " + l.Name)
		}))
	}
	p.timeline = newTimeline()
	p.ground = ground.New(f, s)
	p.choice.Hide()
	p.shown = container.NewVBox(
		p.choice,
		p.timeline.chart,
		p.findings,
		container.NewBorder(nil, nil, form.Title("Order"), copied), p.need, p.order, p.ground.Box,
		form.Title("Trucks"), p.loads, cautions("Before the truck", "Chute and pump", "Backing up"),
		form.Title("Lanes, bays and wet pads"), p.picture,
		form.Caption("Bays are numbered in the order they are placed, with the concrete used by their end and the bolts to set. WP: wet pad, with its height where the top falls; between pads, and from pads to forms, the crew strikes wet screeds. TR: truck or pump, with its reach."),
		p.bays, cautions("Placing"),
	)
	p.form = p.fields()
	p.root = form.Halves(container.NewVBox(
		p.state, p.shown,
		form.Title("Weather"), p.weather.box, cautions("Finishing", "Hot days"),
		form.Title("After the pour"), p.cure, cautions("Sawing", "Wash-out"),
	), p.form.Box, 340)
	return p
}

// Object gives what is shown.
func (p *Page) Object() fyne.CanvasObject { return p.root }

// cautions lists the warnings of some steps, where the steps are.
func cautions(steps ...string) fyne.CanvasObject {
	box := container.NewVBox()
	for _, c := range pour.Cautions() {
		if slices.Contains(steps, c.Step) {
			box.Add(form.Signed(look.Caution, form.Weighted(form.Small(c.Step+": "+c.Text+"  ("+c.Source+")"), widget.WarningImportance)))
		}
	}
	return box
}

// Update brings the page up to date and asks for the day to be planned anew.
func (p *Page) Update() {
	h, stale := p.frame.Handover()
	blank, faulty := p.frame.Blank(), len(p.frame.Faults()) > 0
	if h != nil && !stale && !blank && !faulty {
		p.ask(h)
	}
	say := ""
	switch {
	case blank:
		say = "Draw an outline first: then its pour is planned here."
	case p.failed != nil:
		say = "! " + p.failed.Error()
	case faulty:
		say = "! No plan of the pour: see Checks beside the plan."
	case !p.ready:
		say = "computing…"
	}
	form.State(p.state, say)
	form.Seen(p.shown, p.ready && p.failed == nil && !blank)
	p.form.Sync()
	p.weather.sync()
	p.ground.Update()
}

func (p *Page) ask(h *handover.Handover) {
	key := p.frame.Edition()
	if key == p.asked {
		return
	}
	p.asked = key
	var days []pour.Day
	p.work.Run("planning the pour", func(ctx context.Context) (err error) {
		days, err = h.Days(ctx)
		return err
	}, func(err error) {
		if p.failed, p.ready = err, err == nil; err == nil {
			p.days, p.which = days, min(p.which, len(days)-1)
			p.choose(h.Job())
			p.fill(h.Job(), days[p.which])
		}
		p.frame.Refresh()
	})
}

// choose makes the buttons by which one of several pours is shown.
func (p *Page) choose(j job.Job) {
	var os []fyne.CanvasObject
	for k, day := range p.days {
		b := form.Do(day.Called(), func() {
			p.which = k
			p.choose(j)
			p.fill(j, p.days[k])
		})
		if k == p.which {
			b.Importance = widget.HighImportance
		}
		os = append(os, b)
	}
	form.Refill(p.choice, os...)
	form.Seen(p.choice, len(p.days) > 1)
}

// others gives the languages besides English that the order may be copied in.
func others() []language.Language {
	all, err := language.All()
	if err != nil || len(all) == 0 {
		return nil // the page that prints says why
	}
	return all[1:]
}

// orderIn gives the order in a language.
func (p *Page) orderIn(l language.Language) string {
	j := p.ordered
	say := l.Speaker([]string{j.Name, j.Site, j.Date, j.Spec.Mix.Notes})
	return strings.TrimRight(pour.Lines(pour.Said(say, p.day.OrderItems(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units))), "\n")
}

// fill shows a day.
func (p *Page) fill(j job.Job, day pour.Day) {
	p.day, p.ordered, p.weather.day = day, j, day
	form.Set(p.need, field.Upper(day.NeedText(j.Spec.Order.Waste))+".")
	if text := p.orderIn(words.Spoken()); p.order.Text != text {
		p.order.SetText(text) // said already, so that it stands in columns
	}
	form.Refill(p.findings, p.findingsOf()...)
	form.Refill(p.loads, p.loadsOf()...)
	form.Refill(p.bays, append(p.baysOf(j), p.padsOf(j.Units)...)...)
	form.Refill(p.cure, p.cureOf()...)
	p.timeline.set(day.Timeline(j.Units))
	p.picture.Refresh()
}

func (p *Page) findingsOf() (os []fyne.CanvasObject) {
	for _, f := range p.day.Findings {
		if f.Broken() {
			os = append(os, form.Signed(look.Caution, form.Weighted(form.Wrapped(f.Said()), widget.WarningImportance)))
		} else {
			os = append(os, form.Wrapped("• "+f.Said()))
		}
	}
	return os
}

// clock prints a time of the simulated day.
func clock(minutes float64) string { return pour.Clock(minutes + 0.5).String() }

func whole(v float64) string { return fmt.Sprintf("%.0f", v) }

func (p *Page) loadsOf() []fyne.CanvasObject {
	table := form.Table{48, 84, 78, 64, 64, 74, 56, 76}
	os := []fyne.CanvasObject{table.Head("Truck", ">Load", ">Asked for", ">Starts", ">Empty", ">Age, min", ">Waits", ">Crew idle")}
	for i, l := range p.day.Loads {
		v := l.Visit
		os = append(os, table.Figures(strconv.Itoa(i+1), l.Volume.String()+" "+p.day.Unit, l.Due.String(), clock(v.Starts), clock(v.Ends), whole(v.Age()), whole(v.Waits), whole(v.Idle)))
	}
	pace := fmt.Sprintf("The crew places %.1f to %.1f %s an hour.", p.day.Slow, p.day.Fast, p.day.Unit)
	if p.day.Slow == p.day.Fast {
		pace = fmt.Sprintf("The crew places %.1f %s an hour, as set.", p.day.Slow, p.day.Unit)
	}
	os = append(os, form.Caption(pace+" Age: from batching to empty. Times are as expected, not promised."))
	if text := p.day.CallText(); text != "" {
		call := form.Wrapped(text)
		call.TextStyle.Bold = true
		os = append(os, form.Signed(look.Call, call))
	}
	return os
}

func (p *Page) baysOf(j job.Job) []fyne.CanvasObject {
	u := j.Units
	table := form.Table{40, 72, 84, 50, 62, 50, 50, 46, 76, 92}
	os := []fyne.CanvasObject{table.Head("Bay", ">Takes", ">Used so far", ">Left", ">Minutes", ">Done", ">Truck", ">Bolts", ">Edge", ">From truck")}
	for _, s := range p.day.Lanes {
		name := fmt.Sprintf("Lane %d, %s wide", s.Number, pour.Coarse(s.Width, u))
		if s.Name != "" {
			name = s.Name + ": lane " + strings.TrimPrefix(name, "Lane ")
		}
		head := form.Bold(name)
		head.SizeName = theme.SizeNameCaptionText
		os = append(os, head)
		for _, i := range s.Bays {
			os = append(os, table.Figures(p.bayTexts(i, u)...))
		}
		if text := p.day.LaneText(s.Number); text != "" {
			os = append(os, form.Weighted(form.Wrapped(field.Upper(text)+"."), widget.HighImportance))
		}
	}
	os = append(os, form.Caption("In "+p.day.Unit+" with the waste of the order. Edge: form to run the edger along. Bolts: to set while it is soft. !: farther than the chute or hose reaches."))
	for i := range p.day.Places {
		os = append(os, form.Wrapped("Truck or pump "+p.day.PlaceText(i, u)+"."))
	}
	slab := -1
	for _, s := range p.day.Lanes {
		if s.Slab != slab {
			slab = s.Slab
			os = append(os, form.Wrapped(field.Upper(p.day.FloatText(slab, j.Pour.Reach, u))+"."))
		}
	}
	return os
}

// bayTexts is a bay's row.
func (p *Page) bayTexts(i int, u geometry.Units) []string {
	b, t := p.day.Bays[i], p.day.Times[i]
	away := "–"
	if b.Station >= 0 {
		away = pour.Coarse(b.Away, u)
		if !b.Reached {
			away = "! " + away
		}
	}
	return []string{strconv.Itoa(b.Number), fmt.Sprintf("%.2f %s", t.Volume, p.day.Unit), fmt.Sprintf("%.1f", t.Used), fmt.Sprintf("%.1f", t.Left),
		whole(t.Minutes), t.Done.String(), strconv.Itoa(t.Load), strconv.Itoa(b.Bolts), pour.Coarse(b.Edge, u), away}
}

// padsOf lists where the wet pads stand and how high.
func (p *Page) padsOf(u geometry.Units) []fyne.CanvasObject {
	if len(p.day.Pads) == 0 {
		return nil
	}
	table := form.Table{150, 84, 84, 84}
	os := []fyne.CanvasObject{table.Head("Wet pad", ">Along", ">Square off", ">Height")}
	for _, pad := range p.day.Pads {
		height := "level"
		if !pad.Level {
			height = "+" + pad.Height.Text(u)
		}
		os = append(os, table.Figures(strings.TrimSpace(pad.Mark().String()+" "+pad.Name), pour.Coarse(pad.From.X, u), pour.Coarse(pad.From.Y, u), height))
	}
	return append(os, form.Caption("From the datum of the slab, the corner marked on the plan: along the side that starts there and square off it. Height: of the top over its lowest point; shoot it with the laser."))
}

func (p *Page) cureOf() (os []fyne.CanvasObject) {
	for _, s := range p.day.Cure {
		text := s.From
		if s.Note != "" {
			text += "; " + s.Note
		}
		name := form.Bold(s.Name)
		name.Wrapping = fyne.TextWrapWord
		os = append(os, form.Table{230, 0}.Tight(name, form.Wrapped(text+"  ("+s.Source+")")))
	}
	return append(os, form.Source("Ranges, not promises: the mix's supplier and the engineer decide; strength and not time is what counts."))
}

// place adds a place for a truck.
func (p *Page) place(at geometry.Point) error {
	if len(p.frame.Base().Pour.Stations) >= 20 {
		return errors.New("found 20 places; remove one first")
	}
	return p.frame.ChangePour("Place a truck", func(s *pour.Spec) { s.Stations = append(s.Stations, at) })
}
