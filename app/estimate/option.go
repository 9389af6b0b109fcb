package estimate

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"sync"

	"github.com/shopspring/decimal"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// MaxOptions is how many variations stand side by side.
const MaxOptions = 6

// Option is a variation of a job: what is changed, and nothing else.
type Option struct {
	Name     string `json:"name"`
	Edge     Change `json:"edge,omitzero"`     // depth of the main section, the others moving with it; see Apply
	Bottom   Change `json:"bottom,omitzero"`   // flat width of every haunch
	Taper    Change `json:"taper,omitzero"`    // run of its taper
	Field    Change `json:"field,omitzero"`    // thickness of the field
	Foam     Change `json:"foam,omitzero"`     // thickness under the slab; "0" for none
	Bolts    Change `json:"bolts,omitzero"`    // bolt spacing, at most
	Strength int    `json:"strength,omitzero"` // psi
	Bar      int    `json:"bar,omitzero"`      // size of the edge bars

	FieldSteel FieldChange `json:"fieldsteel,omitzero"` // what reinforces the field
	Fiber      DoseChange  `json:"fiber,omitzero"`      // dose of fibers, lb/yd³; "0" for none
}

// Change is a length to use instead; the zero Change keeps what is.
type Change struct {
	Set bool
	To  geometry.Length
}

// To is the change to l.
func To(l geometry.Length) Change { return Change{true, l} }

func (c Change) or(l geometry.Length) geometry.Length {
	if c.Set {
		return c.To
	}
	return l
}

// MarshalText gives the length; "" for no change.
func (c Change) MarshalText() ([]byte, error) {
	if !c.Set {
		return nil, nil
	}
	return []byte(c.To.Exact(geometry.FeetInches)), nil
}

// UnmarshalText reads what MarshalText gives, and any length with its unit.
func (c *Change) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Change{}
		return nil
	}
	l, err := geometry.ParseWritten(string(text))
	if err != nil {
		return err
	}
	*c = To(l)
	return nil
}

// FieldChange is another reinforcement of the field; the zero FieldChange keeps
// what is.
type FieldChange struct {
	Set bool
	To  field.Kind
}

// MarshalText gives the name of the kind; "" for no change.
func (c FieldChange) MarshalText() ([]byte, error) {
	if !c.Set {
		return nil, nil
	}
	return c.To.MarshalText()
}

// UnmarshalText reads what MarshalText gives.
func (c *FieldChange) UnmarshalText(text []byte) error {
	*c = FieldChange{Set: len(text) > 0}
	if !c.Set {
		return nil
	}
	return c.To.UnmarshalText(text)
}

// DoseChange is another dose of fibers; the zero DoseChange keeps what is.
type DoseChange struct {
	Set bool
	To  float64 // lb/yd³
}

// MarshalText gives the number; "" for no change.
func (c DoseChange) MarshalText() ([]byte, error) {
	if !c.Set {
		return nil, nil
	}
	return strconv.AppendFloat(nil, c.To, 'f', -1, 64), nil
}

// UnmarshalText reads a number of lb/yd³.
func (c *DoseChange) UnmarshalText(text []byte) error {
	*c = DoseChange{}
	if len(text) == 0 {
		return nil
	}
	v, err := strconv.ParseFloat(string(text), 64)
	if err != nil || !(v >= 0 && v <= mostFiber) {
		return fmt.Errorf("write a dose in lb/yd³ from 0 to %d", mostFiber)
	}
	*c = DoseChange{true, v}
	return nil
}

// mostFiber bounds a dose of fibers, lb/yd³.
const mostFiber = 200

// Apply gives the plan and the specification with the option's changes. The edge
// depth is that of the most used haunch: sections keep what they are deeper or
// shallower than it, as under a door. A section with a profile of its own, and
// one that would become shallower than the field, stays or stops at the field.
func (o Option) Apply(slabs []plan.Plan, s takeoff.Spec) ([]plan.Plan, takeoff.Spec) {
	main, ok := MainSection(slabs)
	shift := geometry.Length(0)
	if o.Edge.Set && ok {
		shift = o.Edge.To - main.Depth
	}
	usual := Field(slabs)
	slabs = slices.Clone(slabs)
	for k, p := range slabs {
		slabs[k] = o.slab(p, shift, usual)
	}
	s.Base.Foam = o.Foam.or(s.Base.Foam)
	s.Place.Bolts.Spacing = o.Bolts.or(s.Place.Bolts.Spacing)
	if o.Strength != 0 {
		s.Mix.Strength = o.Strength
	}
	if o.FieldSteel.Set {
		s.Place.Field.Kind = o.FieldSteel.To
	}
	if o.Fiber.Set {
		s.Mix.Fiber = o.Fiber.To
	}
	if o.Bar != 0 {
		s.Place.Bars.Size = o.Bar
		s.Place.Bars.Rows = slices.Clone(s.Place.Bars.Rows)
		for i := range s.Place.Bars.Rows {
			s.Place.Bars.Rows[i].Size = 0
		}
	}
	return slabs, s
}

// slab gives one slab with the option's changes: its haunches deeper by shift,
// and its field changed where it is as thick as usual.
func (o Option) slab(p plan.Plan, shift, usual geometry.Length) plan.Plan {
	p = p.Clone()
	if p.Field == usual {
		p.Field = o.Field.or(p.Field)
	}
	for i := range p.Sections {
		sec := &p.Sections[i]
		if len(sec.Profile) > 0 {
			continue
		}
		sec.Depth = max(sec.Depth+shift, p.Field)
		sec.Bottom = o.Bottom.or(sec.Bottom)
		sec.Taper = o.Taper.or(sec.Taper)
	}
	return p
}

// Field gives the thickness of the job's first slab that is drawn.
func Field(slabs []plan.Plan) geometry.Length {
	for _, p := range slabs {
		if !p.Blank() {
			return p.Field
		}
	}
	return 0
}

// MainSection gives the section without a profile that most of the outlines
// have: the edge depth people speak of.
func MainSection(slabs []plan.Plan) (plan.Section, bool) {
	best, most := plan.Section{}, geometry.Length(0)
	for _, p := range slabs {
		length := map[string]geometry.Length{}
		for i, e := range p.Outline {
			length[e.Section] += p.Outline.Length(i)
		}
		for _, s := range p.Sections {
			if len(s.Profile) == 0 && length[s.Name] > most {
				best, most = s, length[s.Name]
			}
		}
	}
	return best, most > 0
}

// Outcome is what an option comes to. Quantities are in the job's units.
type Outcome struct {
	Name       string
	Option     Option
	Err        error // why it cannot be built; the rest is zero then
	Takeoff    takeoff.Takeoff
	Estimate   Estimate
	Edge       geometry.Length // depth of the main section
	Field      geometry.Length
	Ordered    decimal.Decimal // concrete
	Volume     takeoff.Unit
	Trucks     int
	Steel      decimal.Decimal // weight of bars and mesh
	Weight     takeoff.Unit
	Boards     int
	Hours      decimal.Decimal
	Cost, Bid  decimal.Decimal
	Difference decimal.Decimal // of the bid, from the job as it is
	Frost      bool            // every edge reaches the frost depth below the ground
	Broken     int             // findings of the takeoff that break a limit
}

// Base is the job that options vary.
type Base struct {
	Slabs  []plan.Plan
	Spec   takeoff.Spec
	Units  geometry.Units
	Price  Spec
	Prices PriceList
	Frost  geometry.Length // depth to reach below the ground, IRC R403.1.4; 0 if it does not matter
}

// Compare works out the job as it is, first, and each of its options.
func Compare(b Base) []Outcome {
	options := append([]Option{{Name: "As drawn"}}, b.Price.Options...)
	out := make([]Outcome, len(options))
	var all sync.WaitGroup
	for i, o := range options {
		all.Go(func() { out[i] = b.outcome(o) })
	}
	all.Wait()
	for i := range out {
		if out[i].Err == nil && out[0].Err == nil {
			out[i].Difference = out[i].Bid.Sub(out[0].Bid)
		}
	}
	return out
}

func (b Base) outcome(o Option) Outcome {
	p, s := o.Apply(b.Slabs, b.Spec)
	c := Outcome{Name: o.Name, Option: o, Field: Field(p)}
	if main, ok := MainSection(p); ok {
		c.Edge = main.Depth
	}
	t, err := takeoff.Of(p, s, b.Units)
	if err != nil {
		return Outcome{Name: o.Name, Option: o, Err: err}
	}
	e := Of(t, s.Order, b.Price, b.Prices)
	c.Takeoff, c.Estimate = t, e
	c.Frost = !slices.ContainsFunc(t.Slabs, func(d takeoff.Slab) bool {
		return !b.frostLine(d.Plan, d.Solid, s.Base.Above).reached(d.Plan)
	})
	if l, ok := t.Line(takeoff.ConcreteOrder); ok {
		c.Ordered, c.Volume = need(l), l.Unit
	}
	if l, ok := t.Line(takeoff.ConcreteTrucks); ok {
		c.Trucks = int(l.Value)
	}
	for _, l := range t.Lines {
		switch {
		case l.ID.Kind.Group() == takeoff.Steel && (l.Unit == takeoff.Pounds || l.Unit == takeoff.Kilograms):
			c.Steel, c.Weight = c.Steel.Add(need(l)), l.Unit
		case l.ID.Kind == takeoff.FormBoards:
			c.Boards += int(l.Value)
		}
	}
	for _, f := range t.Findings {
		if f.Broken() {
			c.Broken++
		}
	}
	c.Steel = c.Steel.Round(1)
	c.Hours, c.Cost, c.Bid = e.Hours, e.Cost, e.Bid
	return c
}

// Threshold is an edge depth at which something changes.
type Threshold struct {
	Text  string
	Depth geometry.Length
	Found bool // false if it does not happen between the field and Deepest
}

// Deepest is as deep as thresholds are looked for.
const Deepest = 6 * geometry.Foot

// ErrNoEdge says that the plan has no haunch whose depth could vary.
var ErrNoEdge = errors.New("no edge has a section that can be made deeper")

// Thresholds finds the edge depths that matter: the deepest within the trucks
// the job takes now, the one at which the next truck is needed, the deepest
// within one truck, and the frost depth. Depths are whole sixteenths, or
// millimeters.
func Thresholds(b Base) ([]Threshold, error) {
	main, ok := MainSection(b.Slabs)
	if !ok {
		return nil, ErrNoEdge
	}
	step := geometry.Sixteenth
	if b.Units == geometry.Millimeters {
		step = geometry.Millimeter
	}
	trucks := func(d geometry.Length) (int, error) {
		p, s := Option{Edge: To(d)}.Apply(b.Slabs, b.Spec)
		return takeoff.Trucks(p, s, b.Units)
	}
	now, err := trucks(main.Depth)
	if err != nil {
		return nil, err
	}
	// deepest gives the greatest depth that takes n trucks at most. Deeper edges
	// never take less concrete, so that halving finds it.
	deepest := func(n int) (geometry.Length, bool, error) {
		lo, hi := Field(b.Slabs)/step, Deepest/step
		if at, err := trucks(lo * step); err != nil || at > n {
			return 0, false, err
		}
		if at, err := trucks(hi * step); err != nil || at <= n {
			return 0, false, err
		}
		for hi-lo > 1 {
			mid := (lo + hi) / 2
			at, err := trucks(mid * step)
			if err != nil {
				return 0, false, err
			}
			if at <= n {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo * step, true, nil
	}
	var out []Threshold
	within, found, err := deepest(now)
	if err != nil {
		return nil, err
	}
	out = append(out,
		Threshold{fmt.Sprintf("Deepest edge within %s", truckCount(now)), within, found},
		Threshold{fmt.Sprintf("The edge at which truck %d is needed", now+1), within + step, found})
	if now > 1 {
		one, found, err := deepest(1)
		if err != nil {
			return nil, err
		}
		out = append(out, Threshold{"Deepest edge within 1 truck", one, found})
	}
	if b.Frost > 0 {
		frost, err := b.frostThreshold(step)
		if err != nil {
			return nil, err
		}
		out = append(out, frost)
	}
	return out, nil
}

func truckCount(n int) string {
	if n == 1 {
		return "1 truck"
	}
	return fmt.Sprintf("%d trucks", n)
}

// EdgeOptions gives usual edge depths to compare, but for the one in use; none
// for a plan without a haunch.
func EdgeOptions(p []plan.Plan, u geometry.Units) []Option {
	main, ok := MainSection(p)
	if !ok {
		return nil
	}
	depths := []geometry.Length{8 * geometry.Inch, 12 * geometry.Inch, 16 * geometry.Inch, 20 * geometry.Inch, 24 * geometry.Inch}
	if u == geometry.Millimeters {
		depths = []geometry.Length{200 * geometry.Millimeter, 300 * geometry.Millimeter, 400 * geometry.Millimeter, 500 * geometry.Millimeter, 600 * geometry.Millimeter}
	}
	var out []Option
	for _, d := range depths {
		if d != main.Depth && d >= Field(p) {
			out = append(out, Option{Name: "Edge " + d.Text(u), Edge: To(d)})
		}
	}
	return out
}

// Choose makes option i the job's. The other options are kept, and in the place
// of the chosen one stands the job as it was, so that the choice can be turned
// round; where no option can say what the job was, none does.
func (s Spec) Choose(i int, p []plan.Plan, t takeoff.Spec) ([]plan.Plan, takeoff.Spec, Spec) {
	chosen := s.Options[i]
	back := chosen.reverse(p, t)
	q, u := chosen.Apply(p, t)
	s.Options = slices.Clone(s.Options)
	if was, spec := back.Apply(q, u); reflect.DeepEqual(was, p) && reflect.DeepEqual(spec, t) {
		s.Options[i] = back
	} else {
		s.Options = slices.Delete(s.Options, i, i+1)
	}
	return q, u, s
}

// reverse gives the option that undoes o on a job.
func (o Option) reverse(p []plan.Plan, t takeoff.Spec) Option {
	main, _ := MainSection(p)
	r := Option{Name: "Instead of " + o.Name}
	keep := func(c Change, was geometry.Length) Change {
		if !c.Set {
			return Change{}
		}
		return To(was)
	}
	r.Edge, r.Bottom, r.Taper = keep(o.Edge, main.Depth), keep(o.Bottom, main.Bottom), keep(o.Taper, main.Taper)
	r.Field, r.Foam, r.Bolts = keep(o.Field, Field(p)), keep(o.Foam, t.Base.Foam), keep(o.Bolts, t.Place.Bolts.Spacing)
	if o.Strength != 0 {
		r.Strength = t.Mix.Strength
	}
	if o.Bar != 0 {
		r.Bar = t.Place.Bars.Size
	}
	if o.FieldSteel.Set {
		r.FieldSteel = FieldChange{true, t.Place.Field.Kind}
	}
	if o.Fiber.Set {
		r.Fiber = DoseChange{true, t.Mix.Fiber}
	}
	return r
}
