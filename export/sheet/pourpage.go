package sheet

import (
	"fmt"
	"strconv"

	"haunchbook/app/pour"
	"haunchbook/app/takeoff"
)

// pourPages draws the order of the pour and its record sheet.
func (s *set) pourPages() {
	day, err := pour.Of(pour.From(s.job.Spec, s.takeoff, s.job.Pour))
	if err != nil {
		return // the window and the command say why; there is no plan to draw
	}
	s.planSheets("Pour", func(g *drawing) {
		g.slab()
		g.bays(day)
		g.sawCuts()
		g.wetPads(day)
		g.stations()
		g.cornerMarks()
		g.furniture()
		g.falls()
		g.bayNumbers(day)
	}, func() []block {
		out := []block{s.mixNotes(day), bayTable(day)}
		out = append(out, s.padHeights(day)...)
		out = append(out, s.sawTable()...)
		return append(out, pourFindings(day), s.findings(ruleHas("joint", "panel", "saw", "mix", "strength", "air")), legend{
			{pen: penBay, text: "bay, numbered in order"},
			{pen: penSaw, text: "saw cut"},
		})
	})
	s.columns("Pour record", s.record(day), "", 3)
}

var penBay = Pen{Width: 0.25, Color: blue}

// bays draws the bays' rims.
func (g *drawing) bays(day pour.Day) {
	for _, b := range day.Bays {
		// Each a little inside its rectangle, so that no two lines coincide.
		mid := g.view.at(b.Corners[0]).add(g.view.at(b.Corners[2])).times(0.5)
		var pts []Point
		for _, c := range b.Corners {
			p := g.view.at(c)
			v := mid.sub(p)
			pts = append(pts, p.toward(v.unit(), min(1.1, v.length()/4)))
		}
		g.soft(Notes, penBay, append(pts, pts[0])...)
	}
}

func (g *drawing) bayNumbers(day pour.Day) {
	for i, b := range day.Bays {
		at := g.view.at(b.Corners[0]).add(g.view.at(b.Corners[2])).times(0.5)
		lines := []string{strconv.Itoa(b.Number)}
		if i < len(day.Times) {
			lines = append(lines, fmt.Sprintf("%.1f %s", day.Times[i].Volume, day.Unit))
		}
		size := float64(sizeTitle)
		if len(day.Bays) > 16 {
			size = sizeHead
		}
		g.mustLabel(label{layer: Notes, size: size, bold: true, color: blue, lines: lines, at: at, limit: 80, near: 12})
	}
}

func (g *drawing) sawCuts() {
	for _, c := range g.of.Layout.Joints {
		g.soft(SawCut, penSaw, g.view.at(c.A), g.view.at(c.B))
	}
}

// wetPads marks the wet pads with a cross in a square.
func (g *drawing) wetPads(day pour.Day) {
	for _, p := range day.Pads {
		c := g.view.at(p.At)
		if !g.clip.has(c) {
			continue
		}
		g.ring(Notes, penRule, white, c.add(Point{-1.3, -1.3}), c.add(Point{1.3, -1.3}), c.add(Point{1.3, 1.3}), c.add(Point{-1.3, 1.3}))
		g.page.Items = append(g.page.Items, Line{Layer: Notes, Pen: penHatch, Points: []Point{c.add(Point{-1.3, -1.3}), c.add(Point{1.3, 1.3})}})
		g.obs.add(box{c, Point{1, 0}, 1.6, 1.6}, false)
	}
	for _, p := range day.Pads {
		g.mustLabel(label{layer: Notes, size: sizeSmall, color: black, lines: []string{fmt.Sprintf("p%d", p.Number)},
			at: g.view.at(p.At), prefer: Point{0.7, 0.7}, start: 1.6, limit: 40, near: 6})
	}
}

// stations marks where the truck or the pump stands, if that is on the sheet.
func (g *drawing) stations() {
	for i, st := range g.j.Pour.Stations {
		c := g.view.at(st)
		if !g.area.inset(4).has(c) {
			continue
		}
		g.ring(Notes, penHeavy, noFill, c.add(Point{-2.5, -1.5}), c.add(Point{2.5, -1.5}), c.add(Point{2.5, 1.5}), c.add(Point{-2.5, 1.5}))
		g.mustLabel(label{layer: Notes, size: sizeSmall, bold: true, color: black, lines: []string{fmt.Sprintf("truck or pump %d", i+1)},
			at: c, prefer: Point{0, -1}, start: 2.5, limit: 40, near: 6})
	}
}

// mixNotes says what to order.
func (s *set) mixNotes(day pour.Day) block {
	m, u := s.job.Spec.Mix, s.job.Units
	items := []string{
		fmt.Sprintf("%s %s in %d loads", day.Order.String(), day.Unit, len(day.Loads)),
		fmt.Sprintf("%d psi at 28 days, slump %s, aggregate %s", m.Strength, m.Slump.Text(u), m.Aggregate.Text(u)),
	}
	if m.Air > 0 {
		items = append(items, fmt.Sprintf("air %g %%", m.Air))
	}
	if m.Fiber > 0 {
		items = append(items, fmt.Sprintf("fibers %g lb/yd³", m.Fiber))
	}
	if m.Reducer {
		items = append(items, "water reducer, ASTM C494")
	}
	if m.Notes != "" {
		items = append(items, m.Notes)
	}
	if day.Call.Needed {
		items = append(items, fmt.Sprintf("Call off the last load by %s, in bay %d: measure what is left.", day.Call.At, day.Call.Bay))
	}
	items = append(items, "Never add water on site without the plant's word.")
	return notes{title: "Concrete, ASTM C94/C94M", items: items, size: sizeBody, bullet: "•"}
}

func bayTable(day pour.Day) block {
	tb := table{
		title: "Bays, waste included", head: []string{"Bay", day.Unit, "Used", "Done", "Load", "Bolts"},
		right: []bool{true, true, true, true, true, true}, size: sizeBody,
	}
	for i, b := range day.Bays {
		row := []string{strconv.Itoa(b.Number), "", "", "", "", strconv.Itoa(b.Bolts)}
		if i < len(day.Times) {
			t := day.Times[i]
			row[1], row[2], row[3], row[4] = fmt.Sprintf("%.2f", t.Volume), fmt.Sprintf("%.2f", t.Used), t.Done.String(), strconv.Itoa(t.Load)
		}
		tb.rows = append(tb.rows, row)
	}
	return tableBlock{table: tb}
}

// padHeights lists the heights of the wet pads, where the top falls.
func (s *set) padHeights(day pour.Day) []block {
	tb := table{title: "Wet pads: top over the lowest point", head: []string{"Pad", "Height"}, right: []bool{true, true}}
	differ := false
	for _, p := range day.Pads {
		differ = differ || p.Height != 0
		tb.rows = append(tb.rows, []string{fmt.Sprintf("p%d", p.Number), p.Height.Text(s.job.Units)})
	}
	if !differ {
		return nil
	}
	return []block{tableBlock{tb, 3}}
}

// sawTable says how deep the joints are cut.
func (s *set) sawTable() []block {
	j := s.slab.Layout.Joints
	if len(j) == 0 {
		return nil
	}
	n := notes{title: "Saw cuts", size: sizeSmall, items: []string{fmt.Sprintf("%d cuts, %s deep.", len(j), j[0].Depth.Text(s.job.Units))}}
	if l, ok := s.takeoff.Line("joints.length"); ok {
		n.items = append(n.items, quantity(l)+" "+string(l.Unit)+" in all")
	}
	return []block{n}
}

func pourFindings(day pour.Day) block {
	n := notes{title: "Watch", size: sizeSmall, bullet: "•"}
	for _, f := range day.Findings {
		text := f.Text
		if f.Severe {
			text = "LIMIT: " + text
		}
		n.items = append(n.items, text+" ("+f.Source+")")
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

// record gives the lists of the day: loads with lines to fill in, weather,
// curing, and the cautions of each step.
func (s *set) record(day pour.Day) []block {
	loads := table{title: "Loads", head: []string{"Load", day.Unit, "Due"}, right: []bool{true, true, true}, size: sizeBody}
	for i, l := range day.Loads {
		loads.rows = append(loads.rows, []string{strconv.Itoa(i + 1), l.Volume.String(), l.Due.String()})
	}
	out := []block{tableBlock{table: loads}}
	for i := range day.Loads {
		out = append(out, ticket(i+1))
	}
	if len(day.Hours) > 0 {
		w := table{
			title: "Weather", head: []string{"Time", "Air", "Concrete", "Wind", "Evaporation", "Trowel after"},
		}
		for _, h := range day.Hours {
			rate := fmt.Sprintf("%.2f", h.Rate.US)
			if s.job.Units.String() == "mm" {
				rate = fmt.Sprintf("%.2f", h.Rate.SI)
			}
			w.rows = append(w.rows, []string{h.Hour.Time.String(), h.Hour.Air.String(), h.Hour.Concrete.String(), h.Hour.Wind.String(), rate, h.Trowel.Text()})
		}
		out = append(out, weatherTable(w))
	}
	out = append(out, ruled{"Weather on the day", []string{"air, start", "air, end", "wind", "sky"}})
	cure := notes{title: "Curing and loading", size: sizeSmall, bullet: "•"}
	for _, c := range day.Cure {
		t := c.Name + ": " + c.From
		if c.Note != "" {
			t += "; " + c.Note
		}
		cure.items = append(cure.items, t+" ("+c.Source+")")
	}
	caution := notes{title: "Cautions", size: sizeSmall, bullet: "!"}
	for _, c := range pour.Cautions() {
		caution.items = append(caution.items, fmt.Sprintf("%s: %s (%s)", c.Step, c.Text, c.Source))
	}
	return append(out, s.quantities("Concrete", takeoff.Concrete), cure, caution,
		ruled{"Used", []string{"ordered", "placed", "left over", "signed"}})
}

// weatherTable folds a wide table into lines a column can hold.
func weatherTable(t table) block {
	n := notes{title: "Weather expected", size: sizeSmall, bullet: "•"}
	for _, r := range t.rows {
		n.items = append(n.items, fmt.Sprintf("%s: air %s, concrete %s, wind %s, evaporation %s, trowel after %s", r[0], r[1], r[2], r[3], r[4], r[5]))
	}
	return n
}

// ticket is the lines to fill in for one load.
func ticket(n int) block {
	return ruled{fmt.Sprintf("Load %d", n), []string{"ticket no.", "batched", "arrived", "slump", "temperature", "discharged by", "water added"}}
}

// ruled is a heading with named blank lines to write on, two to a row.
type ruled struct {
	title  string
	blanks []string
}

const ruledRow = 8.0

func (r ruled) height(float64) float64 {
	return titleSkip + ruledRow*float64((len(r.blanks)+1)/2)
}

func (r ruled) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, r.title)
	top -= titleSkip
	half := (width - 4) / 2
	for i, b := range r.blanks {
		at := x + float64(i%2)*(half+4)
		y := top - ruledRow + 1.2
		d.write(at, y+0.3, sizeSmall, false, b)
		w := textWidth(b, sizeSmall, false) + 1
		d.line(Notes, penRule, Point{at + w, y}, Point{at + half, y})
		if i%2 == 1 || i == len(r.blanks)-1 {
			top -= ruledRow
		}
	}
	return top
}
