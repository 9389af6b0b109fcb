package tool

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var walls = &list[plan.Wall]{
	called: "wall on the slab",
	help:   "Drag to move; Delete removes it; arrows nudge",
	rank:   rankPoint,
	in:     func(j *job.Job, slab int) *[]plan.Wall { return &j.Slabs[slab].Walls },
	own:    func(w *plan.Wall) { w.Doors, w.Bolts = slices.Clone(w.Doors), slices.Clone(w.Bolts) },
	whole:  wallEnds,
	points: wallEnds,
	near: func(o On, w plan.Wall, r *Reach, t Target) {
		half := max(o.View.Pixels(w.Board().Width)/2, edgeReach)
		r.Offer(rankBody, r.segment(o, w.From, w.To)/half, 1, t)
	},
	outline: func(m *Machine, o *Overlay, w plan.Wall, sub int, s Style) {
		o.line(m, w.From, w.To, s)
		if sub >= 0 {
			o.ring(m, *wallEnds(&w)[sub], 7, s)
		}
	},
	clear: func(w plan.Wall, sub int) geometry.Ring {
		if sub == 1 {
			return geometry.Ring{w.To}
		}
		return geometry.Ring{w.From}
	},
	describe: func(m *Machine, f bind.Fields[plan.Wall], s Sheet) {
		f.At("slabs[].walls[]").Rows("name")
		wallSizes(f)
		u := m.Units
		s.Text("Doors", listed(u, func() []plan.Opening { return f.Get().Doors }, func(doors []plan.Opening) error {
			return f.Put("Doors", func(w *plan.Wall) { w.Doors = doors })
		}, doorText, func(text string) ([]plan.Opening, error) { return readDoors(f.Get(), text, u()) }))
		s.Text("Bolts at", listed(u, func() []plan.BoltMark { return f.Get().Bolts }, func(marks []plan.BoltMark) error {
			return f.Put("Bolts", func(w *plan.Wall) { w.Bolts = marks })
		}, boltText, func(text string) ([]plan.BoltMark, error) {
			return readBolts(text, u(), func(along geometry.Length) error {
				if long := f.Get().Length(); along < 0 || along > long {
					return fmt.Errorf("found %s on a wall of %s", along.Full(u()), long.Full(u()))
				}
				return nil
			})
		}))
		s.Explain("Doors from its one end: 4' to 7', 12' to 15'. Bolts as the builder gives them: 1', 5'-6\", 11' H (H for a hold-down); none for the spacing of the specification.")
		s.Buttons(Do{"Strip under it", func() error {
			strip := m.NewBand
			w := f.Get()
			strip.Path = []geometry.Point{w.From, w.To}
			strips.put(m, "Strip under a wall", strip)
			m.changed()
			return nil
		}})
	},
}

// Wall is the kind of walls along lines of their own.
var Wall Kind = walls

func wallEnds(w *plan.Wall) []*geometry.Point { return []*geometry.Point{&w.From, &w.To} }

func wallSizes(f bind.Fields[plan.Wall]) {
	f = f.At("slabs[].walls[]")
	f.Rows("kind")
	named(f, f.Label("plate"), "none", func() []string { return wallNames()[1:] }, func(w *plan.Wall) *string { return &w.Plate })
}

// listed is a list that is typed in one line.
func listed[T any](u func() geometry.Units, get func() []T, set func([]T) error, write func([]T, geometry.Units) string, read func(string) ([]T, error)) bind.Text {
	return bind.Text{
		Get: func() string { return write(get(), u()) },
		Set: func(text string) error {
			v, err := read(text)
			if err != nil {
				return err
			}
			return set(v)
		},
		Meaning: func(text string) (string, error) {
			v, err := read(text)
			return write(v, u()), err
		},
	}
}

// doorText writes doors in one line, as readDoors reads them.
func doorText(doors []plan.Opening, u geometry.Units) string {
	texts := make([]string, len(doors))
	for i, d := range doors {
		texts[i] = d.From.Full(u) + " to " + (d.From + d.Width).Full(u)
	}
	return strings.Join(texts, ", ")
}

// readDoors reads the doors of a wall, with commas between: "4' to 7'".
func readDoors(w plan.Wall, text string, u geometry.Units) (out []plan.Opening, err error) {
	for _, part := range strings.Split(text, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		from, to, ok := strings.Cut(strings.ToLower(part), "to")
		if !ok {
			return nil, fmt.Errorf("found %q; say from where to where: 4' to 7'", part)
		}
		a, err := field.Feet.ParseLength(strings.TrimSpace(from), u)
		if err != nil {
			return nil, err
		}
		b, err := field.Feet.ParseLength(strings.TrimSpace(to), u)
		if err != nil {
			return nil, err
		}
		switch long := w.Length(); {
		case a < 0 || b <= a || b > long:
			return nil, fmt.Errorf("found %s to %s on a wall of %s", a.Full(u), b.Full(u), long.Full(u))
		case slices.ContainsFunc(out, func(d plan.Opening) bool { return a < d.From+d.Width && d.From < b }):
			return nil, errors.New("two doors overlap: move one of them or make it narrower")
		}
		out = append(out, plan.Opening{From: a, Width: b - a})
	}
	return out, nil
}

// PlaceWall draws a wall on the slab.
type PlaceWall struct{ byEnds }

// Name implements State.
func (*PlaceWall) Name() string { return "Wall on the slab" }

// Help implements State.
func (w *PlaceWall) Help(*Machine) Help {
	if w.from == nil {
		return Help{"Click where the wall begins, or type the place: 12' along, 0 off", "Set its one end", "Stop"}
	}
	return Help{"Click where the wall ends; both ends on an edge put it along that edge", "Set its other end", "Choose the one end again"}
}

// Press implements State.
func (w *PlaceWall) Press(m *Machine) { w.press(m, w.put(m)) }

// Enter implements State.
func (w *PlaceWall) Enter(m *Machine, text string) { w.typed(m, text, w.put(m)) }

func (*PlaceWall) put(m *Machine) func(a, b geometry.Point) {
	return func(a, b geometry.Point) {
		w := m.NewWall
		w.From, w.To = a, b
		walls.put(m, "Wall on the slab", w)
	}
}

// Describe gives the fields of the next wall.
func (*PlaceWall) Describe(m *Machine, s Sheet) {
	s.Heading("Next wall on the slab")
	wallSizes(nextOf(s, &m.NewWall))
	s.Explain("A bearing or braced wall within the slab: click where the middle of its plate begins and ends. Along an edge it stands flush with the face, so that several stand on one edge. Its plate ends at doors and at the plates that it meets.")
}
