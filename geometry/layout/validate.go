package layout

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/forms"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/sawcuts"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// Validate gives the faults of the specification, by the fields' names in a job
// file: "bolts.spacing". Lengths are printed in u.
func (s Spec) Validate(u geometry.Units) plan.Faults {
	v := checker{u: u}
	v.bars(s.Bars)
	v.laps(s)
	v.thickenings(s)
	v.field(s.Field)
	v.dowels(s.Dowels)
	v.bolts(s.Bolts)
	v.forms(s.Forms)
	v.joints(s.SawCuts)
	v.length("stakeout.offset", s.StakeOut.Offset, 0, 100*geometry.Foot)
	v.length("stakeout.benchmark", s.StakeOut.Benchmark, -geometry.MaxLength, geometry.MaxLength)
	return v.faults
}

type checker struct {
	u      geometry.Units
	faults plan.Faults
}

func (v *checker) fault(path, found, want string) {
	v.faults = append(v.faults, plan.Fault{Path: path, Found: found, Want: want})
}

func (v *checker) length(path string, l, least, most geometry.Length) {
	if l < least || l > most {
		v.fault(path, l.Text(v.u), "must be from "+least.Text(v.u)+" to "+most.Text(v.u))
	}
}

func (v *checker) size(path string, n int, none bool) {
	if _, ok := bars.Numbered(n); ok || n == 0 && none {
		return
	}
	want := "write a bar number from 3 to 8"
	if none {
		want += ", or 0 for none"
	}
	v.fault(path, fmt.Sprint(n), want)
}

// stock checks a list of lengths on sale.
func (v *checker) stock(path string, ls []geometry.Length, least geometry.Length) {
	if len(ls) == 0 {
		v.fault(path, "an empty list", "give at least one stock length")
	}
	for i, l := range ls {
		v.length(fmt.Sprintf("%s[%d]", path, i), l, least, 200*foot)
	}
}

func (v *checker) bars(b bars.Spec) {
	v.size("bars.size", b.Size, false)
	for i, r := range b.Rows {
		path := fmt.Sprintf("bars.rows[%d]", i)
		v.length(path+".face", r.Face, 0, 10*foot)
		v.length(path+".bottom", r.Bottom, 0, 10*foot)
		v.length(path+".top", r.Top, 0, 10*foot)
		v.size(path+".size", r.Size, true)
		if (r.Bottom > 0) == (r.Top > 0) {
			v.fault(path, "bottom "+r.Bottom.Text(v.u)+" and top "+r.Top.Text(v.u), "give the cover to one of them, and 0 for the other")
		}
	}
	if len(b.Rows) > 20 {
		v.fault("bars.rows", fmt.Sprint(len(b.Rows)), "must be at most 20")
	}
	if !slices.Contains([]int{40, 60, 80}, b.Grade) {
		v.fault("bars.grade", fmt.Sprint(b.Grade), "write 40, 60 or 80 (ksi)")
	}
	if b.Lap.Rule == bars.LapByLength {
		v.length("bars.lap.length", b.Lap.Length, 6*inch, 20*foot)
	}
	v.length("bars.stagger", b.Stagger, 0, 20*foot)
	if b.Leg != 0 {
		v.length("bars.leg", b.Leg, 6*inch, 20*foot)
	}
	v.stock("bars.stock", b.Stock, 5*foot)
	for i, l := range b.Yard {
		v.length(fmt.Sprintf("bars.yard[%d]", i), l, inch, 200*foot)
	}
	v.length("bars.kerf", b.Kerf, 0, inch)
}

// laps checks that no lap is longer than half the stock: beyond, most of the
// steel would be laps.
func (v *checker) laps(s Spec) {
	if len(s.Bars.Stock) == 0 || len(v.faults) > 0 {
		return
	}
	half := slices.Max(s.Bars.Stock) / 2
	sizes := []int{s.Bars.Size}
	for _, r := range s.Bars.Rows {
		if r.Size != 0 {
			sizes = append(sizes, r.Size)
		}
	}
	if s.Field.Kind == field.Grid {
		sizes = append(sizes, s.Field.Size)
	}
	if s.Strips.Count > 0 {
		sizes = append(sizes, s.Strips.Size)
	}
	for i, r := range s.Bars.Rows {
		n := s.Bars.Size
		if r.Size != 0 {
			n = r.Size
		}
		if least := bars.LeastLeg(n, s.Bars.LapLength(n, r.Top > 0, s.Concrete)); s.Bars.Corner == bars.CornerBars && s.Bars.Leg != 0 && s.Bars.Leg < least {
			v.fault("bars.leg", s.Bars.Leg.Text(v.u), fmt.Sprintf("must be at least %s, the lap and the bend of row %d; or 0 for just that", least.Text(v.u), i+1))
			return
		}
	}
	for _, n := range sizes {
		if l := s.Bars.LapLength(n, true, s.Concrete); l > half {
			v.fault("bars.lap", fmt.Sprintf("a lap of %s for No. %d", l.Text(v.u), n),
				"must be at most half the longest stock, "+half.Text(v.u)+": choose another rule, smaller bars or longer stock")
			return
		}
	}
}

func (v *checker) thickenings(s Spec) {
	v.size("pads.size", s.Pads.Size, true)
	if s.Pads.Size != 0 {
		v.length("pads.spacing", s.Pads.Spacing, inch, 10*foot)
		v.length("pads.cover", s.Pads.Cover, 0, foot)
	}
	if s.Strips.Count < 0 || s.Strips.Count > 50 {
		v.fault("strips.count", fmt.Sprint(s.Strips.Count), "must be from 0 to 50")
	}
	if s.Strips.Count > 0 {
		v.size("strips.size", s.Strips.Size, false)
		v.length("strips.cover", s.Strips.Cover, 0, foot)
	}
}

func (v *checker) field(f field.Spec) {
	switch f.Kind {
	case field.Mesh:
		style, ok := cover.MeshNamed(f.Style)
		if !ok {
			var names []string
			for _, m := range cover.MeshStyles() {
				names = append(names, m.Name)
			}
			v.fault("field.style", fmt.Sprintf("%q", f.Style), "the styles are "+strings.Join(names, ", "))
		}
		v.length("field.width", f.Width, style.MeshLap()+foot, 20*foot)
		v.length("field.length", f.Length, style.MeshLap()+foot, 1000*foot)
	case field.Grid:
		v.size("field.size", f.Size, false)
		v.length("field.spacing", f.Spacing, 2*inch, 10*foot)
	default:
		return
	}
	v.length("field.cover", f.Cover, 0, 2*foot)
	v.length("field.depth", f.Depth, 0, 10*foot)
	if f.Chairs != 0 {
		v.length("field.chairs", f.Chairs, 6*inch, 20*foot)
	}
}

func (v *checker) dowels(d joints.Spec) {
	v.size("dowels.size", d.Size, true)
	if d.Size == 0 {
		return
	}
	v.length("dowels.length", d.Length, 2*inch, 10*foot)
	v.length("dowels.embed", d.Embed, inch, d.Length)
	v.length("dowels.spacing", d.Spacing, 2*inch, 20*foot)
	v.length("dowels.end", d.End, 0, 20*foot)
	v.length("dowels.oldslab", d.OldSlab, inch, 10*foot)
	v.length("dowels.clearance", d.Clearance, 0, 2*inch)
	if d.Waste < 0 || d.Waste > 500 {
		v.fault("dowels.waste", fmt.Sprint(d.Waste), "must be from 0 to 500 percent")
	}
}

func (v *checker) bolts(b bolts.Spec) {
	v.length("bolts.diameter", b.Diameter, inch/8, 4*inch)
	if b.Shape == bolts.Bent {
		v.length("bolts.hook", b.Hook, 0, foot)
	}
	v.length("bolts.length", b.Length, inch, 10*foot)
	v.length("bolts.projection", b.Projection, 0, b.Length)
	v.length("bolts.embed", b.Embed, 0, 10*foot)
	v.length("bolts.spacing", b.Spacing, 6*inch, 100*foot)
	v.length("bolts.endmin", b.EndMin, 0, b.EndMax)
	v.length("bolts.end", b.End, b.EndMin, b.EndMax)
	v.length("bolts.apart", b.Apart, 0, 2*foot)
	v.length("bolts.offset", b.Offset, 0, 2*foot)
	v.length("bolts.washer", b.Washer, 0, foot)
	v.length("bolts.jamb", b.Jamb, 0, 4*foot)
	v.length("bolts.stock", b.Stock, 2*foot, 200*foot)
	if b.Stud != 0 {
		v.length("bolts.stud", b.Stud, 6*inch, 10*foot)
	}
	v.length("bolts.shift", b.Shift, 0, 2*foot)
}

func (v *checker) forms(f forms.Spec) {
	if _, ok := lumber.Named(f.Board); !ok && f.Board != "" {
		var names []string
		for _, b := range lumber.Boards() {
			names = append(names, b.Name)
		}
		v.fault("forms.board", fmt.Sprintf("%q", f.Board), `the boards are `+strings.Join(names, ", ")+`; leave it out to go by the edge's depth`)
	}
	v.stock("forms.stock", f.Stock, 2*foot)
	v.length("forms.stakes", f.Stakes, 6*inch, 20*foot)
	v.length("forms.kickers", f.Kickers, 0, 100*foot)
	if f.Kickers != 0 && f.Kickers < 6*inch {
		v.fault("forms.kickers", f.Kickers.Text(v.u), `must be at least 6", or 0 for none`)
	}
}

func (v *checker) joints(j sawcuts.Spec) {
	if !(j.Ratio == 0 || j.Ratio >= 10 && j.Ratio <= 100) {
		v.fault("sawcuts.ratio", fmt.Sprint(j.Ratio), "must be from 10 to 100 times the thickness, or 0 for no saw cuts")
	}
	if j.Spacing != 0 {
		v.length("sawcuts.spacing", j.Spacing, 2*foot, 100*foot)
	}
	if !(j.Aspect >= 1 && j.Aspect <= 10) {
		v.fault("sawcuts.aspect", fmt.Sprint(j.Aspect), "must be from 1 to 10")
	}
}
