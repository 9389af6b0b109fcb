// Package sheet draws the printed sheets of a job: true to scale, dimensioned,
// for a crew on site. A sheet is drawn once, as a Page, and goes from there to
// PDF, to the preview in the window, to SVG and to DXF.
//
// No quantity is computed here: everything printed comes from the job and its
// takeoff. What is decided here is where on the paper it stands. Dimensions,
// labels and leaders look for a free place, so that no text stands on another
// or on a line; what finds none goes into a table.
package sheet

import (
	"errors"
	"io"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
)

// Write writes the sheets of a job as one PDF document.
func Write(w io.Writer, j job.Job, t takeoff.Takeoff, o Options) error {
	pages, err := Pages(j, t, o)
	if err != nil {
		return err
	}
	return writePDF(w, j.Name, pages, o)
}

// errEmpty is the error for a job without a slab to draw.
var errEmpty = errors.New("slabs: found no slab; draw at least three corners")

// Pages gives the sheets of a job, the ones it needs, in order.
func Pages(j job.Job, t takeoff.Takeoff, o Options) ([]Page, error) {
	if len(t.Slabs) == 0 {
		return nil, errEmpty
	}
	s := &set{job: j, takeoff: t, options: o, slab: t.Slabs[0], letters: lettersOf(t.Slabs)}
	s.keyPage()
	s.layoutPages()
	s.boltPages()
	s.steelPages()
	s.sectionPages()
	s.formPages()
	s.basePages()
	s.pourPages()
	return s.done(), nil
}

// set is the sheets of one job in the making.
type set struct {
	job     job.Job
	takeoff takeoff.Takeoff
	slab    takeoff.Slab // whose plan pages are made
	letters letters
	options Options
	made    []made
}

// made is a page whose title block waits for the number of pages.
type made struct {
	*draft
	titles titles
}

func (s *set) add(d *draft, t titles) { s.made = append(s.made, made{d, t}) }

// done fills in the title blocks and gives the pages.
func (s *set) done() []Page {
	pages := make([]Page, len(s.made))
	for i, m := range s.made {
		m.titles.n, m.titles.of = i+1, len(s.made)
		m.titleBlock(s.job, s.options, m.titles)
		pages[i] = m.finish()
	}
	return pages
}

// sheetArea gives the rectangle inside the frame of a page.
func sheetArea(w, h float64) rect {
	return rect{margin + 2, margin + titleBlock + 2, w - margin - 2, h - margin - 2}
}
