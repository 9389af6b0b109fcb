package sheet

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/field"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// WriteRecord writes what was written down after a pour as a short document to file: what
// came, load by load, strengths, and the estimate beside what it took.
func WriteRecord(ctx context.Context, w io.Writer, h *handover.Handover, r actual.Record, o Options) error {
	pages, err := RecordPages(ctx, h, r, o)
	if err != nil {
		return err
	}
	return writePDF(ctx, w, "Record "+h.Job().Name, pages, o)
}

// RecordPages gives the pages that WriteRecord writes.
func RecordPages(ctx context.Context, h *handover.Handover, r actual.Record, o Options) ([]Page, error) {
	a, err := h.After(ctx, r)
	if err != nil {
		return nil, err
	}
	all, err := unpaged(ctx, h, o)
	var out []Page
	for _, s := range all {
		s.say = s.in.Speaker(append(own(s.job, o), ownOf(r)...))
		p := s.paged()
		p.record(a)
		out = append(out, p.done()...)
	}
	return out, err
}

// ownOf lists the texts of a record that are the user's.
func ownOf(r actual.Record) []string {
	out := []string{r.Poured, r.Weather, r.Notes}
	for _, l := range r.Loads {
		out = append(out, l.Ticket)
	}
	for _, c := range r.Cylinders {
		out = append(out, c.Ticket)
	}
	return out
}

const recordTitle = "After the pour"

func (p *paged) record(a handover.After) {
	p.turn(recordTitle)
	r, u := a.Record, p.job.Units
	for _, t := range []struct{ head, text string }{{"Poured on", r.Poured}, {"Weather", r.Weather}, {"Notes", r.Notes}} {
		if t.text != "" {
			p.top = p.page().paragraph(p.r.X0, p.top, p.r.Width(), sizeSmall, false, p.say.Say(t.head)+": "+t.text) - 1
		}
	}
	p.top -= 2
	if loads := loadTable(a, u); len(loads.rows) > 0 {
		p.put(recordTitle, loads, 1)
	}
	if len(r.Cylinders) > 0 {
		t := table{title: "Cylinders, psi", head: []string{"Ticket", "After 7 days", "After 28 days"}, right: []bool{false, true, true}}
		broke := some
		if u == geometry.Millimeters {
			t.title, broke = "Cylinders", func(psi int) string {
				if psi == 0 {
					return ""
				}
				return takeoff.StrengthText(psi, u)
			}
		}
		for _, c := range r.Cylinders {
			t.rows = append(t.rows, []string{c.Ticket, broke(c.Seven), broke(c.TwentyEight)})
		}
		p.put(recordTitle, t, 1)
	}
	if len(a.Causes) > 0 {
		t := table{title: "Where the concrete went", head: []string{"", string(a.Unit), "% of the plan"}, right: []bool{false, true, true}}
		for _, c := range a.Causes {
			t.rows = append(t.rows, []string{c.Name, c.Volume.StringFixed(2), c.Percent.StringFixed(1)})
		}
		p.put(recordTitle, t, 1)
	}
	if len(a.Rows) > 0 {
		t := table{title: "Estimate against actual", head: []string{"", "Unit", "Estimated", "Actual"}, right: []bool{false, false, true, true}}
		for _, row := range a.Rows {
			t.rows = append(t.rows, []string{row.Name, row.Unit, row.Estimated.String(), row.Actual.String()})
		}
		p.put(recordTitle, t, 1)
	}
	for _, f := range a.Findings {
		p.top = p.page().paragraph(p.r.X0, p.top, p.r.Width(), sizeSmall, false, "• "+p.say.Say(f.Said())) - 1
	}
}

// loadTable lists loads.
func loadTable(a handover.After, u geometry.Units) table {
	t := table{title: "Loads", size: sizeFine,
		head:  []string{"No.", "Ticket", string(a.Unit), "Batched", "Arrived", "Started", "Emptied", "Age, min", "Slump", "Air, %", "Temperature", "Water, " + field.Water.Unit(u), "Bay", ""},
		right: []bool{true, false, true, true, true, true, true, true, true, true, true, true, true, false}}
	for i, l := range a.Record.Loads {
		age, slump, back := "", "", ""
		if m, ok := l.Age(); ok {
			age = strconv.Itoa(m)
		}
		if l.Slump > 0 {
			slump = l.Slump.Text(u)
		}
		if l.Rejected {
			back = "sent back"
		}
		t.rows = append(t.rows, []string{strconv.Itoa(i + 1), l.Ticket, written(l.Volume, 2), l.Batched.String(), l.Arrived.String(), l.Started.String(), l.Emptied.String(), age, slump, written(l.Air, 1), l.Temperature.Text(u), written(l.Water, 1), some(l.Bay), back})
	}
	return t
}

// written prints a figure that somebody may have written down, with so many decimals.
func written(d decimal.Decimal, places int32) string {
	if d.IsZero() {
		return ""
	}
	return d.StringFixed(places)
}

func some(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}

// WriteLoads writes the loads as CSV (RFC 4180), in the first of the options' languages. A
// text that a spreadsheet would take for a formula gets an apostrophe before it.
func WriteLoads(ctx context.Context, w io.Writer, h *handover.Handover, r actual.Record, o Options) error {
	a, err := h.After(ctx, r)
	if err != nil {
		return err
	}
	say := o.languages()[0].Speaker(append(own(h.Job(), o), ownOf(r)...))
	t := loadTable(a, h.Job().Units)
	c := csv.NewWriter(w)
	for _, row := range append([][]string{say.Each(t.head)}, t.rows...) {
		cells := make([]string, len(row))
		for i, text := range row {
			cells[i] = plainCell(text)
		}
		if err := c.Write(cells); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}
