package pour

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
)

func opened(t *testing.T, j job.Job) (*hands.Desk, *Page) {
	t.Helper()
	d := hands.NewDesk(t, j, nil)
	p := New(d, d.Fonts, document.Scheduler{})
	d.Show(p)
	return d, p
}

func TestTheDay(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	j := d.Job()
	to, _ := d.Takeoff()
	in := pour.From(j.Spec, *to, j.Pour)[0]
	in.ShortLoad = d.Prices().ShortLoad()
	day, err := pour.Of(in)
	if err != nil {
		t.Fatal(err)
	}
	order := strings.TrimSpace(day.OrderText(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units))
	d.Reads(order)
	bays := hands.On(t, p.bays)
	for i, b := range day.Bays {
		bays.Reads(fmt.Sprintf("%.2f %s", day.Times[i].Volume, day.Unit), fmt.Sprintf("%.1f", day.Times[i].Used), b.Edge.Round(geometry.Inch).Text(j.Units))
	}
	for _, s := range day.Lanes {
		bays.Reads(strings.TrimPrefix(day.LaneText(s.Number), "at"))
	}
	for _, f := range day.Findings {
		d.Reads(f.Text, f.Rule.Source)
	}
	for _, s := range day.Cure {
		d.Reads(s.Name, s.From)
	}
	for _, h := range day.Hours {
		d.Reads(h.Rate.Text(j.Units), h.Trowel.Text())
	}
	for _, c := range pour.Cautions() {
		d.Reads(c.Text)
	}
	d.Press("Copy the order")
	if got := fyne.CurrentApp().Clipboard().Content(); got != order || !strings.Contains(got, "Concrete to order:") {
		t.Errorf("the clipboard has %q", got)
	}
}

// Each field of the form reads and writes, and what cannot be is said.
func TestFieldsOfTheDay(t *testing.T) {
	d, _ := opened(t, hands.Demo(t))
	s := func() pour.Spec { return d.Job().Pour }
	for _, c := range []struct {
		label, text, bad string
		got              func() string
	}{
		{"First truck at", "06:30", "early", func() string { return s().Start.String() }},
		{"People", "5", "0", func() string { return fmt.Sprint(s().Crew.People) }},
		{"Rate", "9", "fast", func() string { return s().Crew.Rate.String() }},
		{"Drive", "35", "-1", func() string { return fmt.Sprint(s().Trucks.Travel) }},
		{"Trucks in turn", "3", "many", func() string { return fmt.Sprint(s().Trucks.Fleet) }},
		{"Temperature asked", "65 °F", "hot", func() string { return s().Trucks.AskTemp.Text(d.Units()) }},
		{"Chute or hose", `17'-0"`, "far", func() string { return s().Reach.Chute.Text(d.Units()) }},
		{"Lanes at", "90", "across", func() string { return fmt.Sprint(s().Reach.Turn) }},
	} {
		was := c.got()
		d.Fill(c.label, c.bad)
		d.Reads("! ")
		if got := c.got(); got != was {
			t.Errorf("%s: %q is taken as %q", c.label, c.bad, got)
		}
		d.Fill(c.label, c.text)
		if got := c.got(); got != c.text {
			t.Errorf("%s: the job has %q, want %q", c.label, got, c.text)
		}
	}
	d.Fill("Lanes at", "")
	if s().Reach.Turned {
		t.Error("an empty direction turns the lanes")
	}
}

func TestShorterBays(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	bays := len(p.day.Bays)
	d.Fill("Longest bay", "5'")
	if len(p.day.Bays) <= bays {
		t.Errorf("shorter bays leave %d of %d", len(p.day.Bays), bays)
	}
	d.Undo()
	if len(p.day.Bays) != bays {
		t.Errorf("after undo there are %d bays, there were %d", len(p.day.Bays), bays)
	}
}

func TestPlacesOfTrucks(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	places := func() []geometry.Point { return d.Job().Pour.Stations }
	n := len(places())
	p.picture.Resize(fyne.NewSize(600, 400))
	e := &fyne.PointEvent{Position: fyne.NewPos(300, 20)}
	p.picture.Tapped(e)
	if len(places()) != n {
		t.Error("a click places a truck that nobody asked for")
	}
	d.Press("Add a place: click on the picture")
	p.picture.Tapped(e)
	d.Press("Add a place: type its distances")
	if len(places()) != n+2 {
		t.Fatalf("places %v", places())
	}
	var rows []string
	for _, e := range d.Entries() {
		rows = append(rows, e.Text)
	}
	last := places()[n+1]
	for i, e := range d.Entries() {
		if rows[i] == last.X.Full(d.Units()) && i+1 < len(rows) && rows[i+1] == last.Y.Full(d.Units()) {
			d.Type(e, "3'")
		}
	}
	if got := places()[n+1].X; got != 3*geometry.Foot {
		t.Errorf("moved to %v", got.Text(0))
	}
	for len(places()) < 20 {
		d.Press("Add a place: type its distances")
	}
	d.Press("Add a place: type its distances")
	if len(places()) != 20 || !strings.Contains(d.Told, "20 places") {
		t.Errorf("%d places; it says %q", len(places()), d.Told)
	}
	if img := p.picture.draw(600, 400); img.Bounds().Dx() != 600 {
		t.Errorf("the picture is %v", img.Bounds())
	}
}

func TestWeather(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	hours := func() []pour.Hour { return d.Job().Pour.Weather }
	n := len(hours())
	d.Press("Add an hour")
	if got := hours(); len(got) != n+1 || got[n].Time <= got[n-1].Time {
		t.Fatalf("the weather is %+v", got)
	}
	p.weather.chart.Resize(fyne.NewSize(500, 200))
	hands.On(t, p.weather.chart).Reads(hours()[n].Time.String(), "limit")
	fields := hands.On(t, p.weather.rows.Box).Entries()
	row := fields[len(fields)-6:]
	for i, c := range []struct {
		text, bad string
		got       func(pour.Hour) string
	}{
		{"16:00", "late", func(h pour.Hour) string { return h.Time.String() }},
		{"88 °F", "hot", func(h pour.Hour) string { return h.Air.Text(d.Units()) }},
		{"79 °F", "warm", func(h pour.Hour) string { return h.Concrete.Text(d.Units()) }},
		{"31", "dry", func(h pour.Hour) string { return fmt.Sprint(h.Humidity) }},
		{"60 °F", "wet", func(h pour.Hour) string { return h.Dew.Text(d.Units()) }},
		{"12 mph", "gusts", func(h pour.Hour) string { return h.Wind.Text(d.Units()) }},
	} {
		was := c.got(hours()[n])
		d.Type(row[i], c.bad)
		if got := c.got(hours()[n]); got != was {
			t.Errorf("%q is taken as %q", c.bad, got)
		}
		d.Type(row[i], c.text)
		if got := c.got(hours()[n]); got != c.text {
			t.Errorf("%q is taken as %q", c.text, got)
		}
	}
	d.Type(row[4], "")
	hands.On(t, p.weather.box).Reads("give the relative humidity")
	for len(hours()) > 0 {
		hands.On(t, p.weather.rows.Box).Press("")
	}
	d.Reads("No weather yet")
	d.Press("Add an hour")
	if len(hours()) != 1 {
		t.Errorf("%d hours", len(hours()))
	}
}

func TestInMillimeters(t *testing.T) {
	d, p := opened(t, hands.Demo(t).In(geometry.Millimeters))
	d.Reads("m³", "kg/m²/h")
	foreign := regexp.MustCompile(`°F|mph|yd³|lb/|\d'|\d"`)
	for _, line := range strings.Split(d.Text(), "\n") {
		caution := slices.ContainsFunc(pour.Cautions(), func(c pour.Caution) bool { return strings.Contains(line, c.Text) })
		if foreign.MatchString(line) && !caution { // they name both
			t.Errorf("in a metric job the pour shows %q", line)
		}
	}
	if err := p.weather.addHour(); err != nil {
		t.Fatal(err)
	}
}

func TestBlankAndFaulty(t *testing.T) {
	d, p := opened(t, shelf.Blank(geometry.FeetInches))
	d.Reads("Draw an outline first")
	j := hands.Twice(t)
	d.Commit("Draw", j)
	d.Reads("Shop: lane 1", "Workshop: lane")
	j = hands.Demo(t)
	j.Slabs[0].Field = -geometry.Foot
	d.Commit("Spoil", j)
	d.Reads("No plan of the pour")
	p.work.Run("planning the pour", func(context.Context) error { panic("spoiled") }, func(err error) { p.failed = err; p.Update() })
	d.Reads("planning the pour failed (spoiled)")
}

// However narrow the chart of the day is, no figure in it is cut short: a rate without
// room for its unit is the number alone.
func TestTimelineCutsNoNumber(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	for _, wide := range []float32{320, 500, 660, 900, 1400} {
		p.timeline.chart.Resize(fyne.NewSize(wide, 220))
		p.timeline.chart.Refresh()
		found := 0
		hands.On(t, p.timeline.chart).Each(func(o fyne.CanvasObject) {
			l, ok := o.(*canvas.Text)
			if !ok {
				return
			}
			if strings.Contains(l.Text, "…") && strings.Contains(l.Text, "lb") {
				t.Errorf("%g wide: %q", wide, l.Text)
			}
			for _, h := range d.Job().Pour.Weather {
				if rate := h.Evaporation().Text(geometry.FeetInches); l.Text == rate || l.Text == strings.Fields(rate)[0] {
					found++
				}
			}
		})
		if want := len(d.Job().Pour.Weather); wide > 600 && found < want {
			t.Errorf("%g wide: %d of %d rates", wide, found, want)
		}
	}
}
