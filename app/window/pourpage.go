package window

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
)

// pourPage is the day of the pour: the order, the trucks, the lanes with their
// running yards, the weather, and what may be done afterwards.
type pourPage struct {
	w      *Window
	work   latest
	day    pour.Day
	ready  bool
	failed error
	asked  string

	state    *widget.Label
	findings *fyne.Container
	need     *widget.Label
	order    *widget.Label
	loads    *fyne.Container
	picture  *pourPicture
	bays     *fyne.Container
	weather  *weatherTable
	cure     *fyne.Container
	shown    *fyne.Container // hidden until there is a day
	form     *pageForm
	root     fyne.CanvasObject
}

func newPourPage(w *Window) pageView {
	p := &pourPage{
		w: w, work: latest{scheduler: w.scheduler}, state: widget.NewLabel(""),
		findings: container.NewVBox(), loads: container.NewVBox(), bays: container.NewVBox(), cure: container.NewVBox(),
	}
	p.state.Wrapping = fyne.TextWrapWord
	p.need = wrapped("", fyne.TextStyle{})
	p.order = widget.NewLabel("")
	p.order.TextStyle.Monospace = true
	p.order.Selectable = true
	p.order.Wrapping = fyne.TextWrapWord
	p.picture = newPourPicture(p)
	p.weather = newWeatherTable(p)
	copied := newPageButton(w, "Copy the order", func() {
		w.app.Clipboard().SetContent(p.order.Text)
		w.tell("The order is on the clipboard")
		p.w.pages.show()
	})
	p.shown = container.NewVBox(
		p.findings,
		container.NewBorder(nil, nil, title("Order"), copied), p.need, p.order,
		title("Trucks"), p.loads, p.cautions("Before the truck", "Chute and pump", "Backing up"),
		title("Lanes, bays and wet pads"), p.picture,
		caption("Bays are numbered in the order they are placed, with the concrete used by their end and the bolts to set. P: wet pad, with its height where the top falls. T: truck or pump, with its reach.", false),
		p.bays, p.cautions("Placing"),
	)
	after := container.NewVBox(title("After the pour"), p.cure, p.cautions("Sawing", "Wash-out"))
	p.form = p.fields()
	p.root = twoParts(container.NewVBox(p.state, p.shown,
		title("Weather"), p.weather.box, p.cautions("Finishing", "Hot days"), after), p.form.box, 340)
	return p
}

func title(text string) fyne.CanvasObject {
	l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	l.SizeName = theme.SizeNameSubHeadingText
	return l
}

func (p *pourPage) object() fyne.CanvasObject { return p.root }

// cautions lists the warnings of some steps, where the steps are.
func (p *pourPage) cautions(steps ...string) fyne.CanvasObject {
	box := container.NewVBox()
	for _, c := range pour.Cautions() {
		if slices.Contains(steps, c.Step) {
			l := wrapped("⚠ "+c.Step+": "+c.Text+"  ("+c.Source+")", fyne.TextStyle{})
			l.SizeName = theme.SizeNameCaptionText
			l.Importance = widget.WarningImportance
			box.Add(l)
		}
	}
	return box
}

// show brings the page up to date and asks for the day to be planned anew.
func (p *pourPage) show() {
	t, stale := p.w.doc.Takeoff()
	sound := t != nil && !stale && !p.w.doc.Blank() && len(p.w.doc.Faults()) == 0
	if sound {
		p.ask(*t)
	}
	say := ""
	switch {
	case p.w.doc.Blank():
		say = "Draw an outline first: then its pour is planned here."
	case p.failed != nil:
		say = "! " + p.failed.Error()
	case len(p.w.doc.Faults()) > 0:
		say = "! No plan of the pour: see Checks beside the plan."
	case !p.ready:
		say = "computing…"
	}
	set(p.state, say)
	if say == "" {
		p.state.Hide()
	} else {
		p.state.Show()
	}
	if p.ready && p.failed == nil && !p.w.doc.Blank() {
		p.shown.Show()
	} else {
		p.shown.Hide()
	}
	p.form.sync()
	p.weather.show()
}

func (p *pourPage) ask(t takeoff.Takeoff) {
	key := fmt.Sprint(p.w.id, p.w.doc.Version())
	if key == p.asked {
		return
	}
	p.asked = key
	j := p.w.doc.Job()
	short := p.w.prices().ShortLoad()
	p.work.run(func() func() {
		day, err := dayOf(j, t, short)
		return func() { p.fill(j, day, err) }
	})
}

// dayOf plans the day at a plant that charges a fee for loads below short, and turns a fault of the program itself into an error.
func dayOf(j job.Job, t takeoff.Takeoff, short decimal.Decimal) (day pour.Day, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the pour could not be planned (%v); please report it with the job file", r)
		}
	}()
	in := pour.From(j.Spec, t, j.Pour)
	in.ShortLoad = short
	return pour.Of(in)
}

// fill shows a day.
func (p *pourPage) fill(j job.Job, day pour.Day, err error) {
	p.failed, p.ready = err, err == nil
	if err == nil {
		p.day = day
		set(p.need, capitalized(day.NeedText(j.Spec.Order.Waste))+".")
		set(p.order, strings.TrimRight(day.OrderText(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units), "\n"))
		p.showFindings()
		p.showLoads()
		p.showBays(j)
		p.showCure()
		p.picture.Refresh()
		p.weather.day = day
	}
	p.w.refresh()
}

func (p *pourPage) showFindings() {
	p.findings.RemoveAll()
	for _, f := range p.day.Findings {
		sign, importance := "• ", widget.MediumImportance
		if f.Severe {
			sign, importance = "⚠ ", widget.WarningImportance
		}
		l := wrapped(sign+f.Name+": "+f.Text+"  ("+f.Source+")", fyne.TextStyle{})
		l.Importance = importance
		p.findings.Add(l)
	}
	p.findings.Refresh()
}

// tableRow is a row of figures; the first starts at the left.
func tableRow(l *columns, texts ...string) fyne.CanvasObject {
	os := make([]fyne.CanvasObject, len(texts))
	for i, t := range texts {
		align := fyne.TextAlignTrailing
		if i == 0 {
			align = fyne.TextAlignLeading
		}
		os[i] = figure(t, align)
	}
	l.tight = true
	return container.New(l, os...)
}

// clock prints a time of the simulated day.
func clock(minutes float64) string { return pour.Clock(minutes + 0.5).String() }

func (p *pourPage) showLoads() {
	p.loads.RemoveAll()
	cols := func() *columns { return &columns{widths: []float32{48, 84, 78, 64, 64, 74, 56, 76}, gap: 4} }
	p.loads.Add(headings([]string{"Truck", ">Load", ">Asked for", ">Starts", ">Empty", ">Age, min", ">Waits", ">Crew idle"}, cols()))
	for i, l := range p.day.Loads {
		v := l.Visit
		p.loads.Add(tableRow(cols(), strconv.Itoa(i+1), l.Volume.String()+" "+p.day.Unit, l.Due.String(), clock(v.Starts), clock(v.Ends),
			fmt.Sprintf("%.0f", v.Age()), fmt.Sprintf("%.0f", v.Waits), fmt.Sprintf("%.0f", v.Idle)))
	}
	pace := fmt.Sprintf("The crew places %.1f to %.1f %s an hour.", p.day.Slow, p.day.Fast, p.day.Unit)
	if p.day.Slow == p.day.Fast {
		pace = fmt.Sprintf("The crew places %.1f %s an hour, as set.", p.day.Slow, p.day.Unit)
	}
	p.loads.Add(caption(pace+" Age: from batching to empty. Times are as expected, not promised.", false))
	if text := p.day.CallText(); text != "" {
		p.loads.Add(wrapped("☎ "+text, fyne.TextStyle{Bold: true}))
	}
	p.loads.Refresh()
}

func (p *pourPage) showBays(j job.Job) {
	p.bays.RemoveAll()
	u, unit := j.Units, p.day.Unit
	cols := func() *columns { return &columns{widths: []float32{40, 72, 84, 50, 62, 50, 50, 46, 76, 92}, gap: 4} }
	p.bays.Add(headings([]string{"Bay", ">Takes", ">Used so far", ">Left", ">Minutes", ">Done", ">Truck", ">Bolts", ">Edge", ">From truck"}, cols()))
	for _, s := range p.day.Lanes {
		name := fmt.Sprintf("Lane %d, %s wide", s.Number, pour.Coarse(s.Width, u))
		if s.Name != "" {
			name = s.Name + ": lane " + strings.TrimPrefix(name, "Lane ")
		}
		head := widget.NewLabelWithStyle(name, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
		head.SizeName = theme.SizeNameCaptionText
		p.bays.Add(head)
		for _, i := range s.Bays {
			p.bays.Add(tableRow(cols(), p.bayTexts(i, u)...))
		}
		if text := p.day.LaneText(s.Number); text != "" {
			l := wrapped(capitalized(text)+".", fyne.TextStyle{})
			l.Importance = widget.HighImportance
			p.bays.Add(l)
		}
	}
	p.bays.Add(caption("In "+unit+" with the waste of the order. Edge: form to run the edger along. Bolts: to set while it is soft. !: farther than the chute or hose reaches.", false))
	for i := range p.day.Places {
		p.bays.Add(wrapped("Truck or pump "+p.day.PlaceText(i, u)+".", fyne.TextStyle{}))
	}
	slab := -1
	for _, s := range p.day.Lanes {
		if s.Slab != slab {
			slab = s.Slab
			p.bays.Add(wrapped(capitalized(p.day.FloatText(slab, j.Pour.Reach, u))+".", fyne.TextStyle{}))
		}
	}
	p.showPads(u)
	p.bays.Refresh()
}

// bayTexts is a bay's row.
func (p *pourPage) bayTexts(i int, u geometry.Units) []string {
	b, t := p.day.Bays[i], p.day.Times[i]
	away := "–"
	if b.Station >= 0 {
		away = pour.Coarse(b.Away, u)
		if !b.Reached {
			away = "! " + away
		}
	}
	return []string{strconv.Itoa(b.Number), fmt.Sprintf("%.2f %s", t.Volume, p.day.Unit), fmt.Sprintf("%.1f", t.Used), fmt.Sprintf("%.1f", t.Left),
		fmt.Sprintf("%.0f", t.Minutes), t.Done.String(), strconv.Itoa(t.Load), strconv.Itoa(b.Bolts), pour.Coarse(b.Edge, u), away}
}

// showPads lists where the wet pads stand and how high.
func (p *pourPage) showPads(u geometry.Units) {
	if len(p.day.Pads) == 0 {
		return
	}
	cols := func() *columns { return &columns{widths: []float32{150, 84, 84, 84}, gap: 4} }
	p.bays.Add(headings([]string{"Wet pad", ">Along 1–2", ">Square off", ">Height"}, cols()))
	for _, pad := range p.day.Pads {
		height := "level"
		if !pad.Level {
			height = "+" + pad.Height.Text(u)
		}
		p.bays.Add(tableRow(cols(), strings.TrimSpace(pad.Mark().String()+" "+pad.Name), pour.Coarse(pad.From.X, u), pour.Coarse(pad.From.Y, u), height))
	}
	p.bays.Add(caption("From corner 1 of the slab, along its first side and square off it. Height: of the top over its lowest point; shoot it with the laser.", false))
}

func (p *pourPage) showCure() {
	p.cure.RemoveAll()
	for _, s := range p.day.Cure {
		text := s.From
		if s.Note != "" {
			text += "; " + s.Note
		}
		l := wrapped(text+"  ("+s.Source+")", fyne.TextStyle{})
		name := widget.NewLabelWithStyle(s.Name, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
		name.Wrapping = fyne.TextWrapWord
		p.cure.Add(container.New(&columns{widths: []float32{230, 0}, gap: 4, tight: true}, name, l))
	}
	p.cure.Add(caption("Ranges, not promises: the mix's supplier and the engineer decide; strength and not time is what counts.", true))
	p.cure.Refresh()
}

// changePour changes the plan of the pour.
func (w *Window) changePour(label string, change func(*pour.Spec)) error {
	return w.change(label, func(j *job.Job) {
		j.Pour.Weather, j.Pour.Stations = slices.Clone(j.Pour.Weather), slices.Clone(j.Pour.Stations)
		change(&j.Pour)
	})
}

func (p *pourPage) report(err error) {
	if err != nil {
		p.w.say(err.Error())
	}
}

// text is what reads and writes itself.
type text interface {
	MarshalText() ([]byte, error)
	UnmarshalText([]byte) error
}

func written(v text) string {
	b, err := v.MarshalText()
	if err != nil {
		return ""
	}
	return string(b)
}

// fields is the form beside the day.
func (p *pourPage) fields() *pageForm {
	w := p.w
	f := newPageForm(w)
	spec := func() *pour.Spec { s := w.doc.Base().Pour; return &s }
	put := func(label string, change func(*pour.Spec)) error {
		return w.changePour("Set "+strings.ToLower(label), change)
	}
	choice := func(label string, options []string, at func(*pour.Spec) text) {
		f.choice(label, options, func() string { return written(at(spec())) }, func(v string) {
			p.report(put(label, func(s *pour.Spec) { _ = at(s).UnmarshalText([]byte(v)) }))
		})
	}
	word := func(label string, at func(*pour.Spec) text) {
		f.text(label, func() string { return written(at(spec())) }, func(v string) (err error) {
			try := spec()
			if err := at(try).UnmarshalText([]byte(v)); err != nil {
				return fmt.Errorf("found %q; %w", v, plainer(err))
			}
			return put(label, func(s *pour.Spec) { _ = at(s).UnmarshalText([]byte(v)) })
		})
	}
	volume := func(label string, at func(*pour.Spec) *decimal.Decimal) {
		f.text(label, func() string {
			d := *at(spec())
			if d.IsZero() {
				return "0"
			}
			return d.String() + " " + pour.VolumeUnit(w.doc.Units())
		}, func(v string) error {
			d, err := amount(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(v), pour.VolumeUnit(w.doc.Units()))))
			if err != nil {
				return err
			}
			return put(label, func(s *pour.Spec) { *at(s) = d })
		})
	}
	whole := func(label string, at func(*pour.Spec) *int) {
		f.text(label, func() string { return strconv.Itoa(*at(spec())) }, func(v string) error {
			n, err := strconv.Atoi(strings.TrimSpace(v))
			if err != nil {
				return fmt.Errorf("found %q; write a whole number", v)
			}
			return put(label, func(s *pour.Spec) { *at(s) = n })
		})
	}
	length := func(label string, at func(*pour.Spec) *geometry.Length) {
		f.text(label, func() string { return lengthText(*at(spec()), w.doc.Units()) }, func(v string) error {
			l, err := geometry.ParseLength(v, w.doc.Units().Foot())
			if err != nil {
				return err
			}
			return put(label, func(s *pour.Spec) { *at(s) = l })
		})
	}
	f.heading("Site")
	choice("Weathering", []string{"unstated", "negligible", "moderate", "severe"}, func(s *pour.Spec) text { return &s.Weathering })
	choice("Use of the slab", []string{"garage", "interior"}, func(s *pour.Spec) text { return &s.Use })
	f.heading("Crew")
	word("First truck at", func(s *pour.Spec) text { return &s.Start })
	whole("People", func(s *pour.Spec) *int { return &s.Crew.People })
	volume("Rate per hour", func(s *pour.Spec) *decimal.Decimal { return &s.Crew.Rate })
	f.note("Rate: what your crew places in an hour; 0 to take it from the number of people.")
	f.heading("Trucks")
	whole("Drive, min", func(s *pour.Spec) *int { return &s.Trucks.Travel })
	whole("Loading, min", func(s *pour.Spec) *int { return &s.Trucks.Loading })
	whole("Setting up, min", func(s *pour.Spec) *int { return &s.Trucks.SetUp })
	whole("Empty within, min", func(s *pour.Spec) *int { return &s.Trucks.Limit })
	whole("Trucks in turn", func(s *pour.Spec) *int { return &s.Trucks.Fleet })
	f.note("Trucks in turn: how many go back and forth; 0 for one a load.")
	f.text("Ask for °", func() string { return spec().Trucks.AskTemp.Text(w.doc.Units()) }, func(v string) error {
		var t pour.Temperature
		if err := t.UnmarshalText([]byte(p.degrees(v))); err != nil {
			return fmt.Errorf("found %q; %w", v, err)
		}
		return put("Temperature asked", func(s *pour.Spec) { s.Trucks.AskTemp = t })
	})
	f.heading("Reach")
	choice("Placed by", []string{"chute", "pump", "buggy"}, func(s *pour.Spec) text { return &s.Reach.Method })
	length("Chute or hose", func(s *pour.Spec) *geometry.Length { return &s.Reach.Chute })
	length("Straightedge", func(s *pour.Spec) *geometry.Length { return &s.Reach.Straightedge })
	length("Its overlap", func(s *pour.Spec) *geometry.Length { return &s.Reach.Overlap })
	length("Bull float", func(s *pour.Spec) *geometry.Length { return &s.Reach.Float })
	length("Longest bay", func(s *pour.Spec) *geometry.Length { return &s.Reach.Bay })
	f.text("Lanes at, °", func() string {
		if s := spec(); s.Reach.Turned {
			return strconv.FormatFloat(s.Reach.Turn, 'g', -1, 64)
		}
		return ""
	}, func(v string) error {
		v = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(v), "°"))
		if v == "" {
			return put("Direction of lanes", func(s *pour.Spec) { s.Reach.Turn, s.Reach.Turned = 0, false })
		}
		d, err := strconv.ParseFloat(v, 64)
		if err != nil {
			return fmt.Errorf("found %q; write degrees from the X axis, or nothing for the fewest lanes", v)
		}
		return put("Direction of lanes", func(s *pour.Spec) { s.Reach.Turn, s.Reach.Turned = d, true })
	})
	f.note("Empty: the direction with the fewest lanes.")
	f.heading("Places for the truck or pump")
	f.add(p.places())
	return f
}

// degrees adds the job's unit to a bare temperature.
func (p *pourPage) degrees(s string) string { return p.inUnit(s, "°F", "°C") }

// inUnit adds the job's unit to a bare number.
func (p *pourPage) inUnit(s, us, si string) string {
	s = strings.TrimSpace(s)
	if _, err := strconv.ParseFloat(s, 64); err != nil {
		return s
	}
	if p.w.doc.Units() == geometry.Millimeters {
		return s + " " + si
	}
	return s + " " + us
}

// places edits where a truck or pump may stand.
func (p *pourPage) places() (box fyne.CanvasObject, show func()) {
	w := p.w
	var rows *rowList[geometry.Point]
	rows = newRowList(func() []geometry.Point { return w.doc.Base().Pour.Stations }, func(i int) (fyne.CanvasObject, func()) {
		note := faultNote()
		axis := func(at func(*geometry.Point) *geometry.Length) *cell {
			return newCell(w, note, func() string {
				q := rows.item(i)
				return lengthText(*at(&q), w.doc.Units())
			}, func(s string) error {
				v, err := geometry.ParseLength(s, w.doc.Units().Foot())
				if err != nil {
					return err
				}
				return w.changePour("Move a truck's place", func(s *pour.Spec) {
					changeItem(s.Stations, i, func(q *geometry.Point) { *at(q) = v })
				})
			})
		}
		x := axis(func(q *geometry.Point) *geometry.Length { return &q.X })
		y := axis(func(q *geometry.Point) *geometry.Length { return &q.Y })
		remove := newRemoveButton(w, func() {
			p.report(w.changePour("Remove a truck's place", func(s *pour.Spec) { removeItem(&s.Stations, i) }))
		})
		row := container.NewVBox(container.New(&columns{widths: []float32{34, 0, 0, 34}, gap: 4},
			figure(pour.PlaceMark(i).String(), fyne.TextAlignLeading), x.entry, y.entry, remove), note)
		return row, func() { x.sync(); y.sync() }
	})
	add := newPageButton(w, "Add a place: click on the picture", func() {
		p.picture.armed = true
		w.tell("Click on the picture of the lanes where the truck can stand")
		w.pages.show()
	})
	// With the keys alone: before the first corner, to be typed where it is.
	typed := newPageButton(w, "Add a place: type its distances", func() {
		at := geometry.Point{}
		if lo, _, ok := document.Bounds(w.doc.Job().Slabs); ok {
			at = lo.Sub(geometry.Point{Y: 8 * geometry.Foot})
		}
		p.report(p.place(at))
	})
	return container.NewVBox(rows.box, add, typed), rows.show
}

// place adds a place for a truck.
func (p *pourPage) place(at geometry.Point) error {
	if len(p.w.doc.Base().Pour.Stations) >= 20 {
		return errors.New("found 20 places; remove one first")
	}
	return p.w.changePour("Place a truck", func(s *pour.Spec) { s.Stations = append(s.Stations, at) })
}
