package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
)

// pourPages draws the plan of the pour, a drawing for each slab, and its record
// sheet.
func (s *set) pourPages() {
	if s.day == nil {
		return
	}
	day := *s.day
	s.plans(work{
		title: "Pour",
		draw:  func(g *drawing) { g.pour(day) },
		details: func() []block {
			out := []block{bayTable(day, s.slab.Number)}
			if text := day.CallText(); text != "" && s.slab.Number == s.takeoff.Slabs[0].Number {
				out = append(out, notes{title: "Last load", items: []string{text}, size: sizeSmall})
			}
			out = append(out, workTable(day, s.slab.Number, s.job.Units), pourKey)
			return append(out, s.padTable(day)...)
		},
	})
	s.columns("Pour record", s.record(day), "", 3)
	s.columns("Pour notes", s.pourNotes(day), "", 3)
}

var (
	penBay   = Pen{Width: 0.25, Color: blue}
	penReach = Pen{Width: 0.2, Color: gray, Dash: []float64{1.2, 1.2}}
	pourKey  = legend{
		{pen: penBay, text: "bay, numbered in order"},
		{pen: penSaw, text: "saw cut"},
		{pen: penReach, text: "reach of the chute or the hose"},
	}
)

// pour draws one slab's part of the day.
func (g *drawing) pour(day pour.Day) {
	for _, p := range day.Pads {
		if p.Slab == g.of.Number {
			g.marks = append(g.marks, box{g.view.at(p.At), Point{1, 0}, 1.4, 1.4})
		}
	}
	g.slab()
	g.bays(day)
	g.sawCuts()
	g.wetPads(day)
	g.places(day)
	g.cornerMarks()
	g.furniture()
	g.falls()
	g.wetPadNames(day)
	g.bayNumbers(day)
}

// bays draws the bays' rims, each a little inside, so that no two lines coincide.
func (g *drawing) bays(day pour.Day) {
	for _, b := range day.Bays {
		if b.Slab != g.of.Number {
			continue
		}
		for _, r := range b.Shape {
			rim := make([]Point, len(r))
			for i, p := range r {
				rim[i] = g.view.at(p)
			}
			rim = inset(rim, 1.1)
			g.soft(Notes, penBay, append(rim, rim[0])...)
		}
	}
}

// inset moves each side of a ring to its left by d, or by a quarter of the
// shorter side beside it where that is less.
func inset(ring []Point, d float64) []Point {
	n := len(ring)
	out := make([]Point, n)
	for i, p := range ring {
		a, b := p.sub(ring[(i+n-1)%n]), ring[(i+1)%n].sub(p)
		u, w := a.unit(), b.unit()
		m := u.left().add(w.left()) // along the bisector
		by := min(d, a.length()/4, b.length()/4)
		// A corner moves by d over the cosine of half its turn, at most by 2 d.
		out[i] = p.toward(m.unit(), min(2*by, 2*by/max(m.length(), 1e-9)))
	}
	return out
}

func (g *drawing) bayNumbers(day pour.Day) {
	for i, b := range day.Bays {
		if b.Slab != g.of.Number {
			continue
		}
		number := strconv.Itoa(b.Number)
		if b.Station >= 0 && !b.Reached {
			number = "! " + number
		}
		lines := []string{number, fmt.Sprintf("%.1f %s", day.Times[i].Volume, day.Unit)}
		if day.Call.Needed && b.Number == day.Call.Bay {
			lines = append(lines, "call "+day.Call.At.String())
		}
		size := float64(sizeTitle)
		if len(day.Bays) > 16 {
			size = sizeHead
		}
		l := label{layer: Notes, size: size, bold: true, color: blue, lines: lines, at: g.view.at(b.Middle), limit: 80, near: 12}
		_, h := l.extent()
		l.at.Y -= h / 2 // labels stand above their place
		g.mustLabel(l)
	}
}

func (g *drawing) sawCuts() {
	for _, c := range g.of.Layout.SawCuts {
		g.soft(SawCut, penSaw, g.view.at(c.A), g.view.at(c.B))
	}
}

// wetPads marks the wet pads with a cross in a square.
func (g *drawing) wetPads(day pour.Day) {
	for _, p := range day.Pads {
		c := g.view.at(p.At)
		if p.Slab != g.of.Number || !g.clip.has(c) {
			continue
		}
		g.ring(Notes, penRule, white, c.add(Point{-1.3, -1.3}), c.add(Point{1.3, -1.3}), c.add(Point{1.3, 1.3}), c.add(Point{-1.3, 1.3}))
		g.page.Items = append(g.page.Items, Line{Layer: Notes, Pen: penHatch, Points: []Point{c.add(Point{-1.3, -1.3}), c.add(Point{1.3, 1.3})}})
		g.obs.add(box{c, Point{1, 0}, 1.6, 1.6}, false)
	}
}

func (g *drawing) wetPadNames(day pour.Day) {
	for _, p := range day.Pads {
		if p.Slab == g.of.Number {
			g.mustLabel(label{layer: Notes, size: sizeSmall, color: black, lines: []string{wetPadName(p, g.j.Units)},
				at: g.view.at(p.At), prefer: Point{0.7, 0.7}, start: 1.6, limit: 40, near: 6})
		}
	}
}

// places marks where the truck or the pump stands with its reach; off the sheet,
// an arrow points there.
func (g *drawing) places(day pour.Day) {
	for i, p := range day.Places {
		name := "truck or pump " + pour.PlaceMark(i).String()
		c := g.view.at(p.At)
		if r := g.view.Scale.paperOf(p.Reach); r > 0 {
			var arc []Point
			for k := range 181 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 90)
				arc = append(arc, c.add(Point{r * cos, r * sin}))
			}
			for _, part := range clipChain(arc, g.area) {
				g.soft(Notes, penReach, part...)
			}
		}
		if g.area.inset(4).has(c) {
			g.ring(Notes, penHeavy, noFill, c.add(Point{-2.5, -1.5}), c.add(Point{2.5, -1.5}), c.add(Point{2.5, 1.5}), c.add(Point{-2.5, 1.5}))
			g.mustLabel(label{layer: Notes, size: sizeSmall, bold: true, color: black, lines: []string{name},
				at: c, prefer: Point{0, -1}, start: 2.5, limit: 40, near: 6})
			continue
		}
		rim := g.area.inset(4)
		at := Point{max(rim.x0, min(rim.x1, c.X)), max(rim.y0, min(rim.y1, c.Y))}
		way := c.sub(at).unit()
		g.line(Notes, penHeavy, at.toward(way, -6), at)
		g.arrow(Notes, black, at.toward(way, 1), way)
		g.mustLabel(label{layer: Notes, size: sizeSmall, bold: true, color: black, lines: []string{name},
			at: at.toward(way, -3), prefer: way.times(-1), start: 3.5, limit: 40, near: 12})
	}
}

// wetPadName names a pad, with its height where the top falls.
func wetPadName(p pour.Pad, u geometry.Units) string {
	name := p.Mark().String()
	if !p.Level {
		name += " +" + p.Height.Text(u)
	}
	return name
}

// orderNotes says what to order.
func (s *set) orderNotes(day pour.Day) block {
	items := []string{fmt.Sprintf("%s %s; loads: %d", day.Order, day.Unit, len(day.Loads)), upper(day.NeedText(s.job.Spec.Order.Waste)) + "."}
	for _, i := range pour.MixItems(s.job.Spec.Mix, s.job.Pour, s.job.Units) {
		items = append(items, i.Name+": "+i.Text)
	}
	return notes{title: "Concrete, ASTM C94/C94M", items: items, size: sizeSmall, bullet: "•"}
}

// upper begins a text with a capital.
func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// reachNotes says who reaches what, and how the joints are cut.
func (s *set) reachNotes(day pour.Day) block {
	n := notes{title: "Reach and saw cuts", size: sizeSmall, bullet: "•"}
	for i := range day.Places {
		n.items = append(n.items, "Truck or pump "+day.PlaceText(i, s.job.Units)+".")
	}
	for _, slab := range s.takeoff.Slabs {
		of := ""
		if slab.Name != "" {
			of = slab.Name + ": "
		}
		n.items = append(n.items, upper(of+day.FloatText(slab.Number, s.job.Pour.Reach, s.job.Units))+".")
		if j := slab.Layout.SawCuts; len(j) > 0 {
			n.items = append(n.items, upper(fmt.Sprintf("%ssaw cuts: %d, %s deep.", of, len(j), j[0].Depth.Text(s.job.Units))))
		}
	}
	if slices.ContainsFunc(day.Pads, func(p pour.Pad) bool { return !p.Level }) {
		n.items = append(n.items, "Height of a wet pad: of the top over its lowest point.")
	}
	return n
}

// bayTable lists what each bay of a slab takes and when it is done.
func bayTable(day pour.Day, slab int) block {
	tb := table{
		title: "Bays, " + day.Unit + " with waste", head: []string{"Bay", day.Unit, "Used", "Min", "Done", "Load"},
		right: []bool{true, true, true, true, true, true}, size: sizeBody,
	}
	for i, b := range day.Bays {
		if b.Slab == slab {
			t := day.Times[i]
			tb.rows = append(tb.rows, []string{strconv.Itoa(b.Number), fmt.Sprintf("%.2f", t.Volume), fmt.Sprintf("%.2f", t.Used),
				fmt.Sprintf("%.0f", t.Minutes), t.Done.String(), strconv.Itoa(t.Load)})
		}
	}
	return tableBlock{table: tb}
}

// workTable lists what is done in each bay of a slab while it is soft.
func workTable(day pour.Day, slab int, u geometry.Units) block {
	tb := table{title: "In each bay", head: []string{"Bay", "Bolts", "Edge"}, right: []bool{true, true, true}}
	for _, b := range day.Bays {
		if b.Slab == slab {
			tb.rows = append(tb.rows, []string{strconv.Itoa(b.Number), strconv.Itoa(b.Bolts), pour.Coarse(b.Edge, u)})
		}
	}
	return tableBlock{tb, 2}
}

// padTable lists where the wet pads of a slab stand, from its corner 1, and how
// high where the top falls.
func (s *set) padTable(day pour.Day) []block {
	tb := table{title: "Wet pads, from corner 1", head: []string{"Pad", "Along 1–2", "Square off", "Height"}, right: []bool{true, true, true, true}}
	for _, p := range day.Pads {
		if p.Slab != s.slab.Number {
			continue
		}
		height := "level"
		if !p.Level {
			height = "+" + p.Height.Text(s.job.Units)
		}
		tb.rows = append(tb.rows, []string{p.Mark().String(), pour.Coarse(p.From.X, s.job.Units), pour.Coarse(p.From.Y, s.job.Units), height})
	}
	if len(tb.rows) == 0 {
		return nil
	}
	if s.slab.Name != "" {
		tb.title += " of " + s.slab.Name
	}
	return []block{tableBlock{tb, 2}}
}

func pourFindings(day pour.Day) block {
	n := notes{title: "Watch", size: sizeSmall, bullet: "•"}
	for _, f := range day.Findings {
		text := f.Name + ": " + f.Text
		if f.Severe {
			text = "LIMIT. " + text
		}
		n.items = append(n.items, text+" ("+f.Source+")")
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

// record gives the order, each load with lines to fill in, and what to watch.
func (s *set) record(day pour.Day) []block {
	out := []block{s.orderNotes(day)}
	for i, l := range day.Loads {
		out = append(out, ticket(i+1, l, day.Unit))
	}
	return append(out, ruled{"Weather on the day", []string{"air, start", "air, end", "wind", "sky"}},
		ruled{"Used", []string{"ordered", "placed", "left over", "signed"}},
		s.reachNotes(day), pourFindings(day), s.allFindings(ruleHas("joint", "panel", "saw", "mix", "strength", "air")))
}

// pourNotes gives the weather expected, what may be done when, and the cautions of
// each step.
func (s *set) pourNotes(day pour.Day) []block {
	var out []block
	if len(day.Hours) > 0 {
		out = append(out, s.weather(day))
	}
	cure := notes{title: "Curing and loading", size: sizeBody, bullet: "•"}
	for _, c := range day.Cure {
		t := c.Name + ": " + c.From
		if c.Note != "" {
			t += "; " + c.Note
		}
		cure.items = append(cure.items, t+" ("+c.Source+")")
	}
	cure.items = append(cure.items, "Ranges, not promises: the mix's supplier and the engineer decide; strength and not time is what counts.")
	caution := notes{title: "Cautions", size: sizeBody, bullet: "!"}
	for _, c := range pour.Cautions() {
		caution.items = append(caution.items, fmt.Sprintf("%s: %s (%s)", c.Step, c.Text, c.Source))
	}
	return append(out, cure, caution)
}

// weather lists the hours expected and what they mean.
func (s *set) weather(day pour.Day) block {
	u := s.job.Units
	n := notes{title: "Weather expected", size: sizeBody, bullet: "•"}
	for _, h := range day.Hours {
		n.items = append(n.items, fmt.Sprintf("%s: air %s, concrete %s, humidity %.0f %%, wind %s, evaporation %s (limit %s), trowel after %s", h.Hour.Time,
			h.Hour.Air.Text(u), h.Hour.Concrete.Text(u), 100*h.Humidity, h.Hour.Wind.Text(u), h.Rate.Text(u), pour.EvaporationLimit.Text(u), h.Trowel.Text()))
	}
	n.items = append(n.items, day.TrowelText(), pour.TrowelBasis(u))
	return n
}

// ticket is the lines to fill in for one load.
func ticket(n int, l pour.Load, unit string) block {
	return ruled{fmt.Sprintf("Load %d: %s %s, due %s", n, l.Volume, unit, l.Due),
		[]string{"ticket no.", "batched", "arrived", "slump", "temperature", "discharged by", "water added"}}
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
