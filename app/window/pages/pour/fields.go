package pour

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
)

// fields is the form beside the day.
func (p *Page) fields() *form.Form {
	f := form.New(p.frame)
	s := bind.Of(f, func() pour.Spec { return p.frame.Base().Pour }, func(what string, change func(*pour.Spec)) error {
		return p.frame.ChangePour("Set "+strings.ToLower(what[:1])+what[1:], change)
	})
	f.Heading("Site")
	s.Pick("Weathering", func(s *pour.Spec) bind.Spelled { return &s.Weathering })
	s.Pick("Use of the slab", func(s *pour.Spec) bind.Spelled { return &s.Use })
	f.Heading("Crew")
	s.Spelled("First truck at", func(s *pour.Spec) bind.Spelled { return &s.Start }, nil)
	const most = 1000
	s.Whole("People", func(s *pour.Spec) *int { return &s.Crew.People }, 0, most)
	f.Text("Rate per hour", bind.Text{Get: func() string {
		d := s.Get().Crew.Rate
		if d.IsZero() {
			return "0"
		}
		return d.String() + " " + pour.VolumeUnit(p.frame.Units())
	}, Set: func(v string) error {
		d, err := bind.ReadAmount(strings.TrimSuffix(strings.TrimSpace(v), pour.VolumeUnit(p.frame.Units())))
		if err != nil {
			return err
		}
		return s.Put("Rate per hour", func(s *pour.Spec) { s.Crew.Rate = d })
	}})
	f.Explain("Rate: what your crew places in an hour; 0 to take it from the number of people.")
	f.Heading("Trucks")
	s.Whole("Drive, min", func(s *pour.Spec) *int { return &s.Trucks.Travel }, 0, most)
	s.Whole("Loading, min", func(s *pour.Spec) *int { return &s.Trucks.Loading }, 0, most)
	s.Whole("Setting up, min", func(s *pour.Spec) *int { return &s.Trucks.SetUp }, 0, most)
	s.Whole("Empty within, min", func(s *pour.Spec) *int { return &s.Trucks.Limit }, 0, most)
	s.Whole("Trucks in turn", func(s *pour.Spec) *int { return &s.Trucks.Fleet }, 0, most)
	f.Explain("Trucks in turn: how many go back and forth; 0 for one a load.")
	f.Text("Ask for °", bind.Text{Get: func() string { return s.Get().Trucks.AskTemp.Text(p.frame.Units()) }, Set: func(v string) error {
		var t pour.Temperature
		if err := bind.Read(&t, p.degrees(v)); err != nil {
			return err
		}
		return s.Put("Temperature asked", func(s *pour.Spec) { s.Trucks.AskTemp = t })
	}})
	f.Heading("Reach")
	s.Pick("Placed by", func(s *pour.Spec) bind.Spelled { return &s.Reach.Method })
	s.Length("Chute or hose", func(s *pour.Spec) *geometry.Length { return &s.Reach.Chute })
	s.Length("Straightedge", func(s *pour.Spec) *geometry.Length { return &s.Reach.Straightedge })
	s.Length("Its overlap", func(s *pour.Spec) *geometry.Length { return &s.Reach.Overlap })
	s.Length("Bull float", func(s *pour.Spec) *geometry.Length { return &s.Reach.Float })
	s.Length("Longest bay", func(s *pour.Spec) *geometry.Length { return &s.Reach.Bay })
	f.Text("Lanes at, °", bind.Text{Get: func() string {
		if r := s.Get().Reach; r.Turned {
			return bind.Number(r.Turn)
		}
		return ""
	}, Set: func(v string) (err error) {
		turn := 0.0
		v = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(v), "°"))
		if v != "" {
			if turn, err = strconv.ParseFloat(v, 64); err != nil {
				return fmt.Errorf("found %q; write degrees from the X axis, or nothing for the fewest lanes", v)
			}
		}
		return s.Put("Direction of lanes", func(s *pour.Spec) { s.Reach.Turn, s.Reach.Turned = turn, v != "" })
	}})
	f.Explain("Empty: the direction with the fewest lanes.")
	f.Heading("Places for the truck or pump")
	f.Add(p.places(f))
	return f
}

// degrees adds the job's unit to a bare temperature.
func (p *Page) degrees(s string) string { return bind.UnitAfter(s, p.unit("°F", "°C")) }

// unit chooses by the job's units.
func (p *Page) unit(feet, metric string) string {
	if p.frame.Units() == geometry.Millimeters {
		return metric
	}
	return feet
}

// places edits where a truck or pump may stand.
func (p *Page) places(f *form.Form) (fyne.CanvasObject, func()) {
	all := bind.Items[geometry.Point]{
		Get: func() []geometry.Point { return p.frame.Base().Pour.Stations },
		Put: func(what string, change func(*[]geometry.Point)) error {
			return p.frame.ChangePour(what, func(s *pour.Spec) { change(&s.Stations) })
		},
	}
	rows := form.NewList(func() int { return len(all.Get()) }, func(i int) (fyne.CanvasObject, func()) {
		cells := form.NewCells(p.frame)
		cells.Add(form.Figure(pour.PlaceMark(i).String(), fyne.TextAlignLeading), nil)
		get, put := all.Item(i)
		at := bind.Of(cells, get, func(_ string, change func(*geometry.Point)) error { return put("Move a truck's place", change) })
		at.Length("Right (x)", func(q *geometry.Point) *geometry.Length { return &q.X })
		at.Length("Up (y)", func(q *geometry.Point) *geometry.Length { return &q.Y })
		cells.Add(form.NewRemove(f.Act(func() error { return all.Remove("Remove a truck's place", i) })), nil)
		return cells.Row(form.Table{34, 0, 0, 34}), cells.Sync
	})
	return container.NewVBox(rows.Box,
		form.Do("Add a place: click on the picture", func() {
			p.picture.armed = true
			p.frame.Tell("Click on the picture of the lanes where the truck can stand")
		}),
		// With the keys alone: before the first corner, to be typed where it is.
		form.Do("Add a place: type its distances", f.Act(func() error {
			at := geometry.Point{}
			if lo, _, ok := document.Bounds(p.frame.Job().Slabs); ok {
				at = lo.Sub(geometry.Point{Y: 8 * geometry.Foot})
			}
			return p.place(at)
		})),
	), rows.Sync
}

// hours is the weather of the day, hour by hour.
func (p *Page) hours() bind.Items[pour.Hour] {
	return bind.Items[pour.Hour]{
		Get: func() []pour.Hour { return p.frame.Base().Pour.Weather },
		Put: func(what string, change func(*[]pour.Hour)) error {
			return p.frame.ChangePour(what, func(s *pour.Spec) { change(&s.Weather) })
		},
	}
}
