package pour

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/field"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// fields is the form beside the day.
func (p *Page) fields() *form.Form {
	f := form.New(p.frame)
	s := bind.Of(f, func() pour.Spec { return p.frame.Base().Pour }, func(what string, change func(*pour.Spec)) error {
		return p.frame.ChangePour("Set "+field.Lower(what), change)
	}).At("pour")
	label := func(part string) string { return bind.Row("pour", part).Label }
	f.Heading("Site")
	s.Rows("weathering", "use", "finish")
	f.Heading(label("crew"))
	s.Rows("start", "crew.people", "crew.rate")
	f.Heading(label("trucks"))
	s.Rows("trucks.travel", "trucks.loading", "trucks.setup", "trucks.limit", "trucks.fleet", "trucks.temperature")
	f.Heading(label("reach"))
	s.Rows("reach.method", "reach.chute", "reach.rake", "reach.straightedge", "reach.overlap", "reach.float", "reach.bay")
	f.Text(s.Label("reach.turn"), bind.Text{Unit: func() string { return "°" }, Get: func() string {
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

// unit chooses by the job's units.
func (p *Page) unit(feet, metric string) string {
	if p.frame.Units() == geometry.Millimeters {
		return metric
	}
	return feet
}

// placeColumns are wide enough for the mark of a place.
var placeColumns = form.Table{48, 0, 0, 34}

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
		at.From(bind.FromDatum(func() plan.Plan { return p.frame.Job().Slabs[0] })).Place(func(q *geometry.Point) *geometry.Point { return q })
		cells.Add(form.NewRemove(f.Act(func() error { return all.Remove("Remove a truck's place", i) })), nil)
		return cells.Row(placeColumns), cells.Sync
	})
	rows.Head = placeColumns.Head("", "Along", "Square off", "")
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
