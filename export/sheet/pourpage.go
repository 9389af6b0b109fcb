package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
)

// pour is the plan of each pour and its record.
func (s *set) pour() []block {
	if len(s.days) == 0 {
		return []block{s.findings(pourDay)}
	}
	shows := figureOf(drawing.SawCuts, drawing.Construction, drawing.Falls, drawing.Pour)
	shows.names, shows.pour = shows.names.Without(drawing.SawCuts), true
	out := s.figures("Pour", func(t takeoff.Slab) bool {
		return slices.ContainsFunc(s.days, func(day pour.Day) bool { return day.Drawn(t.Number) })
	}, shows)
	for _, day := range s.days {
		out = append(out, s.ofSlabs(func(slab takeoff.Slab) []block {
			return append([]block{s.bayTable(slab, day)}, s.padTable(slab, day)...)
		})...)
		if text := day.CallText(); text != "" {
			out = append(out, notes{title: ofPour(day, "Last load"), items: []string{text}, size: sizeSmall})
		}
		out = append(out, s.record(day)...)
	}
	return append(out, s.pourNotes(s.days[0])...)
}

// ofPour puts the pour before a title, where the job has several.
func ofPour(day pour.Day, title string) string {
	if day.Pours > 1 {
		return day.Called() + ": " + title
	}
	return title
}

// pourDrawn gives what of the pours is drawn on some slabs.
func (s *set) pourDrawn(of []takeoff.Slab) *planview.Pour {
	var out []pour.Day
	for _, day := range s.days {
		day.Lanes = slices.DeleteFunc(slices.Clone(day.Lanes), func(l pour.Lane) bool { return !numbered(of, l.Slab) })
		day.Pads = slices.DeleteFunc(slices.Clone(day.Pads), func(p pour.Pad) bool { return !numbered(of, p.Slab) })
		var times []pour.BayTime
		var bays []pour.Bay
		for i, b := range day.Bays {
			if numbered(of, b.Slab) {
				bays, times = append(bays, b), append(times, day.Times[i])
			}
		}
		day.Bays, day.Times = bays, times
		out = append(out, day)
	}
	return handover.PoursDrawn(out, s.job.Units)
}

// orderNotes says what to order.
func (s *set) orderNotes(day pour.Day) block {
	items := []string{fmt.Sprintf("%s %s; loads: %d", day.Order, day.Unit, len(day.Loads)), field.Upper(day.NeedText(s.job.Spec.Order.Waste)) + "."}
	var mix []string
	for i, m := range pour.MixItems(s.job.Spec.Mix, s.job.Pour, s.job.Units) {
		if i > 0 {
			m.Name = field.Lower(m.Name)
		}
		mix = append(mix, m.Name+": "+m.Text)
	}
	items = append(items, strings.Join(mix, "; ")+".")
	return notes{title: ofPour(day, "Concrete, ASTM C94/C94M"), items: items, size: sizeSmall, bullet: "•"}
}

// reachNotes says who reaches what, and how the joints are cut.
func (s *set) reachNotes(day pour.Day) block {
	n := notes{title: ofPour(day, "Reach and saw cuts"), size: sizeSmall, bullet: "•"}
	if slices.ContainsFunc(s.takeoff.Slabs, func(t takeoff.Slab) bool { return day.Drawn(t.Number) }) {
		n.items = append(n.items, "Full lines: bays, numbered in order. Dash-dot: saw cuts. Dots: reach.")
	}
	if day.Saw == pour.NoSaw {
		n.title = ofPour(day, "Reach")
	}
	for i := range day.Places {
		n.items = append(n.items, "Truck or pump "+day.PlaceText(i, s.job.Units)+".")
	}
	simple := len(day.Bays) == 1 && len(day.Lanes) == 1 // nobody needs to be told where to begin
	if len(day.Bays) == 1 && !simple {
		b, bolts := day.Bays[0], ""
		if b.Bolts > 0 {
			bolts = fmt.Sprintf("bolts in it: %d; ", b.Bolts)
		}
		n.items = append(n.items, fmt.Sprintf("One bay, done by %s; %sedge: %s.", day.Times[0].Done, bolts, pour.Coarse(b.Edge, s.job.Units)))
	}
	for _, slab := range s.takeoff.Slabs {
		of := ""
		if slab.Name != "" {
			of = slab.Name + ": "
		}
		if text := day.FloatText(slab.Number, s.job.Pour.Reach, s.job.Units); text != "" && !simple {
			n.items = append(n.items, field.Upper(of+text)+".")
		}
		if j := day.Cuts[slab.Number]; len(j) > 0 {
			n.items = append(n.items, field.Upper(fmt.Sprintf("%ssaw cuts: %d, %s deep.", of, len(j), j[0].Depth.Text(s.job.Units))))
		}
	}
	if slices.ContainsFunc(day.Pads, func(p pour.Pad) bool { return !p.Level }) {
		n.items = append(n.items, "Height of a wet pad: of the top over its lowest point.")
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

// bayTable lists what each bay of a slab takes, when it is done, and what
// is done in it while it is soft.
func (s *set) bayTable(slab takeoff.Slab, day pour.Day) block {
	tb := table{
		title: ofPour(day, slab.Called("Bays, "+day.Unit+" with waste")), head: []string{"Bay", day.Unit, "Used", "Min", "Done", "Load", "Edge", "Bolts"},
		right: []bool{true, true, true, true, true, true, true, true},
	}
	cells := len(tb.head)
	if !slices.ContainsFunc(day.Bays, func(b pour.Bay) bool { return b.Bolts > 0 }) {
		cells-- // none to set
	}
	tb.head, tb.right = tb.head[:cells], tb.right[:cells]
	for i, b := range day.Bays {
		if b.Slab == slab.Number {
			t := day.Times[i]
			tb.rows = append(tb.rows, []string{strconv.Itoa(b.Number), fmt.Sprintf("%.2f", t.Volume), fmt.Sprintf("%.2f", t.Used),
				fmt.Sprintf("%.0f", t.Minutes), t.Done.String(), strconv.Itoa(t.Load), pour.Coarse(b.Edge, s.job.Units), strconv.Itoa(b.Bolts)}[:cells])
		}
	}
	if len(day.Bays) == 1 || len(tb.rows) == 0 {
		return nothing{} // a line says it, or nothing of the slab is in this pour
	}
	return tableBlock{table: tb}
}

// padTable lists where the wet pads of a slab stand, from its datum, and how
// high where the top falls.
func (s *set) padTable(slab takeoff.Slab, day pour.Day) []block {
	datum := slab.Plan.Datum()
	tb := table{title: "Wet pads, from " + datum.Name(), head: []string{"Mark", "Along " + datum.Side(), "Square off", "Height"}, right: []bool{true, true, true, true}}
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
	tb.title = ofPour(day, slab.Called(tb.title))
	return []block{tableBlock{tb, 2}}
}

func pourFindings(day pour.Day) block {
	n := notes{title: ofPour(day, "Watch"), size: sizeSmall, bullet: "•"}
	for _, f := range day.Findings {
		if !f.Planning {
			n.items = append(n.items, f.Said())
		}
	}
	if len(n.items) == 0 {
		return nothing{}
	}
	return n
}

// record gives the order, each load with lines to fill in, and what to watch.
func (s *set) record(day pour.Day) []block {
	out := []block{s.orderNotes(day)}
	tickets := ledger{title: ofPour(day, "Loads"), head: []string{"ticket", "batched", "arrived", "slump", "temp.", "done by", "water"}}
	for i, l := range day.Loads {
		tickets.rows = append(tickets.rows, fmt.Sprintf("Load %d: %s %s, due %s", i+1, l.Volume, day.Unit, l.Due))
		if len(day.Loads) == 1 && len(day.Bays) == 1 {
			tickets.rows[i] += ", done " + day.Times[0].Done.String()
		}
	}
	out = append(out, tickets)
	told := block(nothing{})
	if day.Number == day.Pours {
		told = s.findings(pourDay)
	}
	return append(out, ruled{ofPour(day, "On the day"), []string{"air, start", "air, end", "wind", "sky", "ordered", "placed", "left over", "signed"}},
		s.reachNotes(day), pourFindings(day), told)
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
		cure.items = append(cure.items, c.Said())
	}
	cure.items = append(cure.items, "Ranges, not promises: the mix's supplier and the engineer decide; strength and not time counts. Where no source stands: common practice.")
	caution := notes{title: "Cautions", size: sizeFine, bullet: "!"}
	for _, c := range day.Cautions() {
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
