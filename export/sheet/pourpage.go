package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// pour is the plan of the pour and its record.
func (s *set) pour() []block {
	if s.day == nil {
		return []block{s.findings(pourDay)}
	}
	day := *s.day
	out := s.figures("Pour", func(t takeoff.Slab) bool { return day.Drawn(t.Number) }, func(plans []*drawing) {
		for _, g := range plans {
			g.pourLines(day)
		}
		for _, g := range plans {
			g.pourNames(day)
		}
	})
	out = append(out, s.ofSlabs(func(slab takeoff.Slab) []block {
		return append([]block{s.bayTable(slab, day)}, s.padTable(slab, day)...)
	})...)
	if text := day.CallText(); text != "" {
		out = append(out, notes{title: "Last load", items: []string{text}, size: sizeSmall})
	}
	return append(append(out, s.record(day)...), s.pourNotes(day)...)
}

var (
	penBay   = Pen{Width: 0.25, Color: blue}
	penReach = Pen{Width: 0.2, Color: gray, Dash: []float64{1.2, 1.2}}
)

// pourLines draws one slab's part of the day.
func (g *drawing) pourLines(day pour.Day) {
	g.slab()
	g.bays(day)
	g.sawCuts()
	g.wetPads(day)
}

// pourNames writes what stands on it.
func (g *drawing) pourNames(day pour.Day) {
	if g.of.Number == g.all[0].Number {
		g.places(day)
	}
	g.cornerMarks()
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

// sawCutNames writes the mark of each saw cut beside it.
func (g *drawing) sawCutNames() {
	for _, c := range g.of.Layout.SawCuts {
		a, b := g.view.at(c.A), g.view.at(c.B)
		g.mustLabel(label{layer: SawCut, size: sizeSmall, color: black, lines: []string{c.Mark.String()},
			at: a.toward(b.sub(a).unit(), min(8, b.sub(a).length()/2)), start: 0.8, limit: 30, near: 4})
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
	n := notes{title: "Reach and saw cuts", size: sizeSmall, bullet: "•", items: []string{"Full lines: bays, numbered in order. Dash-dot: saw cuts. Dots: reach."}}
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

// bayTable lists what each bay of a slab takes, when it is done, and what
// is done in it while it is soft.
func (s *set) bayTable(slab takeoff.Slab, day pour.Day) block {
	tb := table{
		title: slab.Called("Bays, " + day.Unit + " with waste"), head: []string{"Bay", day.Unit, "Used", "Min", "Done", "Load", "Bolts", "Edge"},
		right: []bool{true, true, true, true, true, true, true, true},
	}
	for i, b := range day.Bays {
		if b.Slab == slab.Number {
			t := day.Times[i]
			tb.rows = append(tb.rows, []string{strconv.Itoa(b.Number), fmt.Sprintf("%.2f", t.Volume), fmt.Sprintf("%.2f", t.Used),
				fmt.Sprintf("%.0f", t.Minutes), t.Done.String(), strconv.Itoa(t.Load), strconv.Itoa(b.Bolts), pour.Coarse(b.Edge, s.job.Units)})
		}
	}
	return tableBlock{table: tb}
}

// padTable lists where the wet pads of a slab stand, from its corner 1, and how
// high where the top falls.
func (s *set) padTable(slab takeoff.Slab, day pour.Day) []block {
	tb := table{title: "Wet pads, from corner 1", head: []string{"Pad", "Along 1–2", "Square off", "Height"}, right: []bool{true, true, true, true}}
	for _, p := range day.Pads {
		if p.Slab != slab.Number {
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
	tb.title = slab.Called(tb.title)
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
	tickets := ledger{title: "Loads", head: []string{"ticket", "batched", "arrived", "slump", "temp.", "done by", "water"}}
	for i, l := range day.Loads {
		tickets.rows = append(tickets.rows, fmt.Sprintf("Load %d: %s %s, due %s", i+1, l.Volume, day.Unit, l.Due))
	}
	out = append(out, tickets)
	return append(out, ruled{"Weather on the day", []string{"air, start", "air, end", "wind", "sky"}},
		ruled{"Used", []string{"ordered", "placed", "left over", "signed"}},
		s.reachNotes(day), pourFindings(day), s.findings(pourDay))
}

// pourNotes gives the weather expected, what may be done when, and the cautions of
// each step.
func (s *set) pourNotes(day pour.Day) []block {
	var out []block
	if len(day.Hours) > 0 {
		out = append(out, s.weather(day))
	}
	cure := notes{title: "Curing and loading", size: sizeFine, bullet: "•"}
	for _, c := range day.Cure {
		t := c.Name + ": " + c.From
		if c.Note != "" {
			t += "; " + c.Note
		}
		cure.items = append(cure.items, t+" ("+c.Source+")")
	}
	cure.items = append(cure.items, "Ranges, not promises: the mix's supplier and the engineer decide; strength and not time is what counts.")
	caution := notes{title: "Cautions", size: sizeFine, bullet: "!"}
	for _, c := range pour.Cautions() {
		if c.Line != "" {
			caution.items = append(caution.items, c.Line)
		}
	}
	return append(out, cure, caution)
}

// weather lists the hours expected and what they mean.
func (s *set) weather(day pour.Day) block {
	u := s.job.Units
	n := notes{title: "Weather expected", size: sizeFine, bullet: "•"}
	for _, h := range day.Hours {
		n.items = append(n.items, fmt.Sprintf("%s: air %s, concrete %s, humidity %.0f %%, wind %s, evaporation %s (limit %s), trowel after %s", h.Hour.Time,
			h.Hour.Air.Text(u), h.Hour.Concrete.Text(u), 100*h.Humidity, h.Hour.Wind.Text(u), h.Rate.Text(u), pour.EvaporationLimit.Text(u), h.Trowel.Text()))
	}
	n.items = append(n.items, day.TrowelText(), pour.TrowelBasis(u))
	return n
}
