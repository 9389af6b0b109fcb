package sheet

import (
	"context"
	"fmt"
	"io"
	"math"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// WriteShots writes the pages to shoot the ground by before the pour: where, what the rod
// should read, and a blank for what it does; the yards that are still wanted near the end;
// and where shots were taken, the map of the ground and the order that follows.
func WriteShots(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	pages, err := ShotPages(ctx, h, o)
	if err != nil {
		return err
	}
	return writePDF(ctx, w, "Shots "+h.Job().Name, pages, o)
}

// ShotPages gives the pages that WriteShots writes.
func ShotPages(ctx context.Context, h *handover.Handover, o Options) ([]Page, error) {
	g, err := h.Ground(ctx)
	if err != nil {
		return nil, err
	}
	last, err := h.LastLoad(ctx)
	if err != nil {
		return nil, err
	}
	all, err := unpaged(ctx, h, o)
	var out []Page
	for _, s := range all {
		out = append(out, s.shotPages(g, last)...)
	}
	return out, err
}

// shooting is the pages of shots in the making.
type shooting struct {
	*paged
	of handover.Ground
}

func (s *set) shotPages(g handover.Ground, last handover.LastLoad) []Page {
	p := &shooting{paged: s.paged(), of: g}
	for i, slab := range g.Slabs {
		p.turn("Shots")
		p.toShoot(slab, i == 0)
	}
	p.lastLoad(last)
	if g.Shot {
		for _, slab := range g.Slabs {
			if len(slab.Taken) > 0 {
				p.turn("Ground")
				p.ground(slab)
			}
		}
		p.tell(g.Base.Said(g.Unit))
		p.decision()
	}
	return p.done()
}

// view gives how a slab is drawn in what room is left down to a height, and takes that.
func (p *shooting) view(slab handover.SlabGround, tall float64) View {
	of := p.slabOf(slab)
	lo, hi := of.Plan.Outline.Rim().Bounds()
	room := rect{X0: p.r.X0 + 4, X1: p.r.X1 - 4, Y1: p.top - 3, Y0: p.top - tall}
	scale := math.Min(room.Width()/(hi.X-lo.X).Meters(), (room.Y1-room.Y0)/(hi.Y-lo.Y).Meters()) // mm a m
	p.top = room.Y0 - 3
	return viewOf(Scale{Ratio: 1000 / scale}, lo, hi, room)
}

// plan draws a slab.
func (p *shooting) plan(slab handover.SlabGround, v View) {
	d, of := p.page(), p.slabOf(slab)
	for _, l := range of.Solid.Ridges() {
		d.line(Notes, penHatch, v.at(l.A), v.at(l.B))
	}
	for _, loop := range of.Plan.Loops() {
		var ring []Point
		for _, c := range loop.Rim() {
			ring = append(ring, v.at(c))
		}
		d.line(Notes, penHeavy, append(ring, ring[0])...)
	}
	d.circle(Notes, penRule, black, v.at(slab.Datum.At()), 1.3)
}

// spot marks a place with a text beside it, on the side of the slab's middle.
func (p *shooting) spot(v View, at Point, slab handover.SlabGround, text string, bold bool) {
	d := p.page()
	lo, hi := p.slabOf(slab).Plan.Outline.Rim().Bounds()
	mid := v.at(lo).Add(v.at(hi)).Times(0.5)
	d.circle(Notes, penRule, black, at, 0.4)
	x, y := at.X+0.8, at.Y+0.5
	if at.X > mid.X {
		x = at.X - 0.8 - textWidth(text, sizeFine-1, bold)
	}
	if at.Y > mid.Y {
		y = at.Y - 0.5 - capHeight*(sizeFine-1)*mmPerPoint
	}
	d.write(x, y, sizeFine-1, bold, text)
}

func (p *shooting) slabOf(g handover.SlabGround) takeoff.Slab {
	for _, s := range p.takeoff.Slabs {
		if s.Number == g.Slab {
			return s
		}
	}
	return takeoff.Slab{}
}

// toShoot is where to shoot a slab.
func (p *shooting) toShoot(slab handover.SlabGround, first bool) {
	u := p.job.Units
	if len(p.of.Slabs) > 1 {
		p.tell(slab.Name + ".")
	}
	set := p.job.Ground.Instrument
	wants := "Below top"
	switch {
	case !first:
	case set != 0:
		p.tell(fmt.Sprintf("The instrument stands %s over the datum; the rod should read what is wanted.", set.Text(u)))
	default:
		p.tell("Read the rod on the finished height of the lowest place of the top, as on a form that is set: ________. There, the rod should read that and what is given as below the top.")
	}
	if set != 0 {
		wants = "Wanted"
	}
	if first {
		p.tell("Shoot the ground as it is ready for concrete, in this order. Where the rod reads less, the ground stands too high: the slab gets thin there. Where the instrument is moved, read the same place before and after.")
	}
	v := p.view(slab, 92)
	p.plan(slab, v)
	t := table{head: []string{"No.", "Where", "Along " + slab.Datum.Side(), "Square off", wants, "Read"}, right: []bool{true, false, true, true, true, false}}
	for _, w := range slab.Wanted {
		at := v.at(w.At)
		p.spot(v, at, slab, fmt.Sprint(w.Number), false)
		t.rows = append(t.rows, []string{fmt.Sprint(w.Number), w.What, w.From.X.Text(u), w.From.Y.Text(u), w.Read.Text(u), "________"})
	}
	p.tell("Places are measured from " + slab.Datum.Name() + ", marked on the plan, along side " + slab.Datum.Side() + " and square off it.")
	p.put("Shots", t, 2)
}

// contourStep is how far contours lie apart.
func contourStep(u geometry.Units) geometry.Length {
	if u == geometry.Millimeters {
		return 5 * geometry.Millimeter
	}
	return geometry.Inch / 4
}

// ground is the map of what was shot on a slab.
func (p *shooting) ground(slab handover.SlabGround) {
	u, d := p.job.Units, p.page()
	if len(p.of.Slabs) > 1 {
		p.tell(slab.Name + ".")
	}
	step := contourStep(u)
	p.tell(fmt.Sprintf("How far the ground lies above the plan (+, thin) or below it (–, fat), by shots. Contours each %s; gray where the slab gets thinner than the plan by more than %s.", step.Text(u), handover.ThinAverage.Text(u)))
	v := p.view(slab, 120)
	for _, z := range slab.Surface.Zones {
		if !z.Known {
			continue
		}
		for _, part := range z.Mesh.Above(z.Off, handover.ThinAverage.Meters()) {
			var ring []Point
			for _, q := range part {
				ring = append(ring, v.at(q))
			}
			d.fill(Notes, pale, ring...)
		}
		for k := -12; k <= 12; k++ {
			pen := penHatch
			if k == 0 {
				pen = penRule
			}
			for _, l := range z.Mesh.Contour(z.Off, (geometry.Length(k) * step).Meters()) {
				d.line(Notes, pen, v.at(l[0]), v.at(l[1]))
			}
		}
	}
	p.plan(slab, v)
	for _, s := range slab.Taken {
		at := v.at(s.At)
		p.spot(v, at, slab, signedText(s.Off, u), s.Off > handover.ThinSingle)
	}
	g := slab.Surface
	in := func(m3 float64) string { return fmt.Sprintf("%.2f %s", m3/p.of.Unit.SI(), p.of.Unit) }
	p.tell(fmt.Sprintf("Concrete by the plan %s; down to the ground %s, give or take %s.", in(g.Plan), in(g.Need.Mean), in(g.Need.Within())))
	p.tell(fmt.Sprintf("Ground to cut where it is high %s; to fill where it is low %s.", in(g.Cut), in(g.Fill)))
	p.tell(fmt.Sprintf("%.0f %% of the area gets thinner by more than %s, %.0f %% thicker by more than that. The ground lies %s off on average.", 100*g.ThinArea/g.Area, handover.ThinAverage.Text(u), 100*g.FatArea/g.Area, signedText(geometry.FromMeters(g.Mean), u)))
	if g.Unshot > 0 {
		p.tell(fmt.Sprintf("Of %.0f %% of the area nothing was shot: there the plan holds.", 100*g.Unshot/g.Area))
	}
	p.tell("Tolerance of the thickness: 3/8 in on average, 3/4 in at one place, downward only (ACI 117-10, 4.5.4).")
}

func signedText(l geometry.Length, u geometry.Units) string {
	if u == geometry.FeetInches {
		l = l.Round(geometry.Sixteenth)
	} else {
		l = l.Round(geometry.Millimeter)
	}
	switch {
	case l > 0:
		return "+" + l.Text(u)
	case l < 0:
		return "–" + (-l).Text(u)
	}
	return "0"
}

// decision is the table of what to order.
func (p *shooting) decision() {
	d := p.of.Decision
	t := table{title: "What to order", head: []string{"Order, " + string(p.of.Unit), "Runs short, of 100 pours", "Left over on average", "Costs on average", ""}, right: []bool{true, true, true, true, false}}
	for i, c := range d.Choices {
		if d.Telling(i) {
			t.rows = append(t.rows, []string{c.Amount.String(), fmt.Sprintf("%.1f", 100*c.Short), fmt.Sprintf("%.2f", c.Left), fmt.Sprintf("%.0f", c.Cost), d.Note(i)})
		}
	}
	if p.top-p.r.Y0 < float64(len(t.rows)+6)*t.rowHeight() {
		p.turn("Ground")
	}
	p.put("Ground", t, 1)
	lost := "up to 2 % of yield (NRMCA CIP 8) and 1 % of spill (own figure)"
	if p.of.Decision.Need.Lost.Stray > 0 {
		lost = fmt.Sprintf("%s %% of yield and spill on average (own jobs)", d.Need.Lost.Percent())
	}
	p.tell(fmt.Sprintf("Needed with 90 %%: %.2f to %.2f %s, with %s.", d.Low, d.High, p.of.Unit, lost),
		fmt.Sprintf("Running short is taken to cost %.0f once, what is left %.0f a %s, besides the concrete that goes in.", d.Short, d.Each, p.of.Unit))
}
