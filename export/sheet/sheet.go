// Package sheet draws the printed sheets of a job: true to scale, dimensioned,
// for a crew on site. A sheet is drawn once, as a Page, and goes from there to
// PDF, to the preview in the window, to SVG and to DXF.
//
// No quantity is computed here: everything printed comes from the job's handover.
// What is decided here is where on the paper it stands. Dimensions,
// labels and leaders look for a free place, so that no text stands on another
// or on a line; what finds none goes into a table.
package sheet

import (
	"context"
	"errors"
	"io"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/export/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plane"
)

// Write writes the sheets of a job as one PDF document.
func Write(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	pages, err := Pages(ctx, h, o)
	if err != nil {
		return err
	}
	return writePDF(ctx, w, h.Job().Name, pages, o)
}

// errEmpty is the error for a job without a slab to draw.
var errEmpty = errors.New("slabs: found no slab; draw at least three corners")

// set is the sheets of one job in the making, with what they are made from.
type set struct {
	stopped  func() error // why nothing more need be made; nil while it must
	job      job.Job
	takeoff  takeoff.Takeoff
	heights  handover.Heights
	sections handover.EdgeSections
	trenches []handover.Trench
	frost    geometry.Length // depth that edges are to reach; 0 where it does not matter
	days     []pour.Day      // of each pour; none where it cannot be planned
	held     string          // what holds the pour back, in one line; "" for nothing
	options  Options
	paper    Paper                 // of all sheets
	firsts   []plot                // the plans of the first sheets
	ready    map[int]planview.Slab // what of the slabs is drawn, by their numbers
	aside    int                   // how many texts stand beside drawings for want of room on them
	fonts    drawing.Fonts
	made     []made
	in       language.Language
	say      *language.Speaker // of that language
	before   int               // how many sheets stand before the set
	boxes    *plane.Index      // of the slabs
}

// newSet takes from a handover what sheets are made from.
func newSet(ctx context.Context, h *handover.Handover, o Options) (*set, error) {
	t, err := h.Takeoff(ctx)
	if err != nil {
		return nil, err
	}
	if len(t.Slabs) == 0 {
		return nil, errEmpty
	}
	s := &set{stopped: ctx.Err, job: h.Job(), takeoff: t, held: hold.Line(h.Held()), frost: h.Frost(), options: o, ready: map[int]planview.Slab{}, fonts: drawing.Remember(look.Fonts{})}
	if s.heights, err = h.Heights(ctx); err != nil {
		return nil, err
	}
	if s.sections, err = h.EdgeSections(ctx); err != nil {
		return nil, err
	}
	if s.trenches, err = h.Trenches(ctx); err != nil {
		return nil, err
	}
	s.paper = s.papered()
	days, err := h.Days(ctx)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err == nil { // the window and the command say why there is none
		s.days = days
	}
	return s, nil
}

// made is a page whose title block waits for the number of pages.
type made struct {
	*draft
	titles titles
}

func (s *set) add(d *draft, t titles) {
	t.say, t.topics = s.say, s.words(t.topics)
	s.made = append(s.made, made{d, t})
}

// done fills in the title blocks, with how many sheets there are in all, and gives the
// pages.
func (s *set) done(of int) []Page {
	pages := make([]Page, len(s.made))
	all := make([]titles, len(s.made))
	for i, m := range s.made {
		all[i] = m.titles
	}
	for i, m := range s.made {
		if i == 0 {
			m.titles.index = []string{indexOf(all, s.before, false), indexOf(all, s.before, true)}
		}
		m.titles.n, m.titles.of = s.before+i+1, of
		if m.titles.packed {
			m.titleStrip(s.job, s.options, m.titles)
		} else {
			m.titleBlock(s.job, s.options, m.titles)
		}
		pages[i] = m.finish().grown(s.paper.grown())
	}
	return pages
}

// scales gives scales for what is drawn on the set's paper.
func (s *set) scales(all []Scale) []Scale { return scales(all, s.paper.grown()) }

// sheetArea gives the rectangle inside the frame of a page.
func sheetArea(w, h float64) rect {
	return rect{X0: margin + 2, Y0: margin + titleBlock + advised + 1, X1: w - margin - 2, Y1: h - margin - 2}
}

// packedArea gives it of a packed sheet.
func packedArea(w, h float64) rect {
	r := sheetArea(w, h)
	r.Y0 += strip - titleBlock
	return r
}
