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

	"haunchbook/app/job"
	"haunchbook/app/pour"
	"haunchbook/app/takeoff"
	"haunchbook/geometry"
)

// pourPage is the day of the pour: the order, the trucks, the strips with their
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
	order    *widget.Label
	loads    *fyne.Container
	picture  *pourPicture
	bays     *fyne.Container
	weather  *weatherTable
	cure     *fyne.Container
	shown    *fyne.Container // hidden until there is a day
	form     *pageForm
	stations *stationList
	root     fyne.CanvasObject
}

func newPourPage(w *Window) pageView {
	p := &pourPage{
		w: w, work: latest{scheduler: w.scheduler}, state: widget.NewLabel(""),
		findings: container.NewVBox(), loads: container.NewVBox(), bays: container.NewVBox(), cure: container.NewVBox(),
	}
	p.state.Wrapping = fyne.TextWrapWord
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
		container.NewBorder(nil, nil, title("Order"), copied), p.order,
		title("Trucks"), p.loads, p.cautions("Before the truck", "Chute and pump", "Backing up"),
		title("Strips, bays and wet pads"), p.picture, p.bays, p.cautions("Placing"),
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
			l := widget.NewLabel("⚠ " + c.Step + ": " + c.Text + "  (" + c.Source + ")")
			l.Wrapping = fyne.TextWrapWord
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
	p.work.run(func() func() {
		day, err := dayOf(j, t)
		return func() { p.fill(j, day, err) }
	})
}

// dayOf plans the day, and turns a fault of the program itself into an error.
func dayOf(j job.Job, t takeoff.Takeoff) (day pour.Day, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the pour could not be planned (%v); please report it with the job file", r)
		}
	}()
	return pour.Of(pour.From(j.Spec, t, j.Pour))
}

// fill shows a day.
func (p *pourPage) fill(j job.Job, day pour.Day, err error) {
	p.failed, p.ready = err, err == nil
	if err == nil {
		p.day = day
		set(p.order, strings.TrimRight(day.OrderText(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units), "\n"))
		p.showFindings()
		p.showLoads()
		p.showBays(j.Units)
		p.showCure()
		p.picture.Refresh()
		p.weather.day = day
	}
	p.w.refresh()
}

func (p *pourPage) showFindings() {
	p.findings.RemoveAll()
	for _, severe := range []bool{true, false} {
		for _, f := range p.day.Findings {
			if f.Severe != severe {
				continue
			}
			sign, importance := "• ", widget.MediumImportance
			if severe {
				sign, importance = "⚠ ", widget.WarningImportance
			}
			l := widget.NewLabel(sign + f.Name + ": " + f.Text + "  (" + f.Source + ")")
			l.Wrapping = fyne.TextWrapWord
			l.Importance = importance
			p.findings.Add(l)
		}
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
		l := widget.NewLabel("☎ " + text)
		l.Wrapping = fyne.TextWrapWord
		l.TextStyle.Bold = true
		p.loads.Add(l)
	}
	p.loads.Refresh()
}

func (p *pourPage) showBays(u geometry.Units) {
	p.bays.RemoveAll()
	cols := func() *columns { return &columns{widths: []float32{38, 78, 84, 54, 62, 52, 48, 46, 64, 78}, gap: 4} }
	unit := p.day.Unit
	p.bays.Add(headings([]string{"Bay", ">Takes", ">Used so far", ">Left", ">Minutes", ">Done", ">Truck", ">Bolts", ">Edge", ">From truck"}, cols()))
	for _, s := range p.day.Strips {
		head := widget.NewLabelWithStyle(fmt.Sprintf("Strip %d, %s wide", s.Number, s.Width.Round(geometry.Sixteenth).Text(u)), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
		head.SizeName = theme.SizeNameCaptionText
		p.bays.Add(head)
		for _, i := range s.Bays {
			b, t := p.day.Bays[i], p.day.Times[i]
			away := "–"
			switch {
			case b.Station >= 0 && b.Reached:
				away = b.Away.Round(geometry.Inch).Text(u)
			case b.Station >= 0:
				away = "! " + b.Away.Round(geometry.Inch).Text(u)
			}
			p.bays.Add(tableRow(cols(), strconv.Itoa(b.Number), fmt.Sprintf("%.2f %s", t.Volume, unit), fmt.Sprintf("%.1f", t.Used), fmt.Sprintf("%.1f", t.Left),
				fmt.Sprintf("%.0f", t.Minutes), t.Done.String(), strconv.Itoa(t.Load), strconv.Itoa(b.Bolts), b.Edge.Round(geometry.Inch).Text(u), away))
		}
		if text := p.day.StripText(s.Number); text != "" {
			l := widget.NewLabel(strings.ToUpper(text[:1]) + text[1:] + ".")
			l.Wrapping = fyne.TextWrapWord
			l.Importance = widget.HighImportance
			p.bays.Add(l)
		}
	}
	p.bays.Add(caption("Volumes hold the waste of the order. Edge: form to run the edger along. Bolts: to set while it is soft. !: farther than the chute or hose reaches.", false))
	if len(p.day.Pads) > 0 {
		var parts []string
		for _, pad := range p.day.Pads {
			height := "level"
			if pad.Height != 0 {
				height = "+" + pad.Height.Round(geometry.Sixteenth).Text(u)
			}
			parts = append(parts, fmt.Sprintf("P%d %s", pad.Number, height))
		}
		l := widget.NewLabel("Wet pads, with the height of the top above its lowest point: " + strings.Join(parts, ", "))
		l.Wrapping = fyne.TextWrapWord
		p.bays.Add(l)
	}
	p.bays.Refresh()
}

func (p *pourPage) showCure() {
	p.cure.RemoveAll()
	for _, s := range p.day.Cure {
		text := s.From
		if s.Note != "" {
			text += "; " + s.Note
		}
		l := widget.NewLabel(text + "  (" + s.Source + ")")
		l.Wrapping = fyne.TextWrapWord
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
	word := func(label string, at func(*pour.Spec) text, complete func(string) string) {
		f.text(label, func() string { return written(at(spec())) }, func(v string) (err error) {
			try := spec()
			if err := at(try).UnmarshalText([]byte(complete(v))); err != nil {
				return fmt.Errorf("found %q; %w", v, plainer(err))
			}
			return put(label, func(s *pour.Spec) { _ = at(s).UnmarshalText([]byte(complete(v))) })
		})
	}
	same := func(s string) string { return strings.TrimSpace(s) }
	zero := func(s string) string {
		if s = same(s); s == "" {
			return "0"
		}
		return s
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
			l, err := geometry.ParseLength(v, w.doc.Units())
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
	word("First truck at", func(s *pour.Spec) text { return &s.Start }, same)
	whole("People", func(s *pour.Spec) *int { return &s.Crew.People })
	word("Rate per hour", func(s *pour.Spec) text { return &s.Crew.Rate }, zero)
	f.note("Rate: what your crew places in an hour; 0 to take it from the number of people.")
	f.heading("Trucks")
	choice("Loads", []string{"balanced", "full"}, func(s *pour.Spec) text { return &s.Trucks.Loads })
	whole("Drive, min", func(s *pour.Spec) *int { return &s.Trucks.Travel })
	whole("Loading, min", func(s *pour.Spec) *int { return &s.Trucks.Loading })
	whole("Setting up, min", func(s *pour.Spec) *int { return &s.Trucks.SetUp })
	whole("Empty within, min", func(s *pour.Spec) *int { return &s.Trucks.Limit })
	whole("Trucks in turn", func(s *pour.Spec) *int { return &s.Trucks.Fleet })
	f.note("Trucks in turn: how many go back and forth; 0 for one a load.")
	word("Fee below", func(s *pour.Spec) text { return &s.Trucks.ShortLoad }, zero)
	word("Ask for °", func(s *pour.Spec) text { return &s.Trucks.AskTemp }, p.degrees)
	f.heading("Reach")
	choice("Placed by", []string{"chute", "pump", "buggy"}, func(s *pour.Spec) text { return &s.Reach.Method })
	length("Chute or hose", func(s *pour.Spec) *geometry.Length { return &s.Reach.Chute })
	length("Straightedge", func(s *pour.Spec) *geometry.Length { return &s.Reach.Straightedge })
	length("Its overlap", func(s *pour.Spec) *geometry.Length { return &s.Reach.Overlap })
	length("Bull float", func(s *pour.Spec) *geometry.Length { return &s.Reach.Float })
	length("Longest bay", func(s *pour.Spec) *geometry.Length { return &s.Reach.Bay })
	f.text("Strips at, °", func() string {
		if s := spec(); s.Reach.Turned {
			return strconv.FormatFloat(s.Reach.Turn, 'g', -1, 64)
		}
		return ""
	}, func(v string) error {
		v = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(v), "°"))
		if v == "" {
			return put("Direction of strips", func(s *pour.Spec) { s.Reach.Turn, s.Reach.Turned = 0, false })
		}
		d, err := strconv.ParseFloat(v, 64)
		if err != nil {
			return fmt.Errorf("found %q; write degrees from the X axis, or nothing for the fewest strips", v)
		}
		return put("Direction of strips", func(s *pour.Spec) { s.Reach.Turn, s.Reach.Turned = d, true })
	})
	f.note("Empty: the direction with the fewest strips.")
	f.heading("Places for the truck or pump")
	p.stations = newStationList(p)
	f.add(p.stations.box, p.stations.show)
	return f
}

// degrees adds the job's unit to a bare temperature.
func (p *pourPage) degrees(s string) string {
	s = strings.TrimSpace(s)
	if _, err := strconv.ParseFloat(s, 64); err != nil {
		return s
	}
	if p.w.doc.Units() == geometry.Millimetres {
		return s + " °C"
	}
	return s + " °F"
}

// stationList edits where a truck or pump may stand.
type stationList struct {
	p    *pourPage
	box  *fyne.Container
	rows *fyne.Container
	made int
	sync []func()
}

func newStationList(p *pourPage) *stationList {
	l := &stationList{p: p, rows: container.NewVBox(), made: -1}
	l.box = container.NewVBox(l.rows, newPageButton(p.w, "Add a place: click on the picture", func() {
		p.picture.armed = true
		p.w.tell("Click on the picture of the strips where the truck can stand")
		p.w.pages.show()
	}))
	return l
}

func (l *stationList) show() {
	n := len(l.p.w.doc.Base().Pour.Stations)
	if n != l.made {
		l.made, l.sync = n, nil
		l.rows.RemoveAll()
		for i := range n {
			l.rows.Add(l.row(i))
		}
	}
	for _, s := range l.sync {
		s()
	}
}

func (l *stationList) row(i int) fyne.CanvasObject {
	w := l.p.w
	note := faultNote()
	axis := func(at func(*geometry.Point) *geometry.Length) *entry {
		c := newCell(w, note, func() string {
			ps := w.doc.Base().Pour.Stations
			if i >= len(ps) {
				return ""
			}
			return lengthText(*at(&ps[i]), w.doc.Units())
		}, func(s string) error {
			v, err := geometry.ParseLength(s, w.doc.Units())
			if err != nil {
				return err
			}
			return w.changePour("Move a truck's place", func(s *pour.Spec) {
				if i < len(s.Stations) {
					*at(&s.Stations[i]) = v
				}
			})
		})
		l.sync = append(l.sync, c.sync)
		return c.entry
	}
	remove := newPageButton(w, "", func() {
		l.p.report(w.changePour("Remove a truck's place", func(s *pour.Spec) {
			if i < len(s.Stations) {
				s.Stations = slices.Delete(s.Stations, i, i+1)
			}
		}))
	})
	remove.Icon = theme.DeleteIcon()
	remove.Importance = widget.LowImportance
	return container.NewVBox(container.New(&columns{widths: []float32{34, 0, 0, 34}, gap: 4}, figure("T"+strconv.Itoa(i+1), fyne.TextAlignLeading),
		axis(func(p *geometry.Point) *geometry.Length { return &p.X }), axis(func(p *geometry.Point) *geometry.Length { return &p.Y }), remove), note)
}

// place adds a place for a truck.
func (p *pourPage) place(at geometry.Point) error {
	if len(p.w.doc.Base().Pour.Stations) >= 20 {
		return errors.New("found 20 places; remove one first")
	}
	return p.w.changePour("Place a truck", func(s *pour.Spec) { s.Stations = append(s.Stations, at) })
}
