package sheet

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/handover"
)

// curbNotes says what the curb on an edge section is made of, and where it is.
func (s *set) curbNotes(sec handover.EdgeSection) []string {
	c := sec.Curb
	if c == nil {
		return nil
	}
	u := s.job.Units
	var on, others []string
	for _, r := range c.Runs {
		slab, ok := s.takeoff.Slab(r.Slab)
		if !ok {
			continue
		}
		to, name := &on, sideName(slab, r.Loop, r.Edge)
		if r.Height != c.Asked || r.Width != c.Width {
			over := "the top"
			if c.Level {
				over = "the highest place of the top"
			}
			to, name = &others, fmt.Sprintf("curb on %s: %s above %s, %s wide", name, r.Height.Text(u), over, r.Width.Text(u))
		}
		if !slices.Contains(*to, name) {
			*to = append(*to, name)
		}
	}
	out := []string{fmt.Sprintf("curb on %s; none at doors", strings.Join(on, ", "))}
	if c.Level {
		out = append(out, fmt.Sprintf("curb level, %s above the highest place of the top, %s wide", c.Asked.Text(u), c.Width.Text(u)))
		if low, high := c.Least.Text(u), c.Height.Text(u); low != high {
			out = append(out, fmt.Sprintf("curb %s to %s above the slab beside it; drawn where it is highest", low, high))
		}
	} else {
		out = append(out, fmt.Sprintf("curb %s above the top, %s wide", c.Height.Text(u), c.Width.Text(u)))
	}
	out = append(out, others...)
	for _, r := range c.Bars {
		out = append(out, fmt.Sprintf("in the curb: %s, %s from face, %s down", r.Size, r.Face.Text(u), r.Top.Text(u)))
	}
	if b := c.Upright; b != nil {
		out = append(out, fmt.Sprintf("upright %s at most %s apart, hooked along the edge", b.Size, b.Spacing.Text(u)))
	}
	return out
}

// rippedNotes says by how much the boards of curbs and steps are ripped.
func (s *set) rippedNotes() (out []string) {
	tapers := false
	for _, slab := range s.takeoff.Slabs {
		for _, f := range slab.Layout.Forms {
			if f.Curb != 0 && slab.Layout.Curbs.Level() { // the table tells
				tapers = true
				continue
			}
			if f.Of() == "" || f.Ripped == 0 {
				continue
			}
			one := fmt.Sprintf("%s of curbs and steps: ripped by %s to %s.", f.Board.Name, f.Ripped.Text(s.job.Units), f.Depth.Text(s.job.Units))
			if !slices.Contains(out, one) {
				out = append(out, one)
			}
		}
	}
	if tapers {
		out = append(out, "Level curbs: set boards level to a string at the curb's top, ripped to the depths of the table; where it has two, rip the lowest on a taper to the slab.")
	}
	return out
}
