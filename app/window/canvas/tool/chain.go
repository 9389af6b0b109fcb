package tool

import (
	"fmt"
	"math"

	"haunchbook.example/app/window/canvas/snap"
	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Draws says what a chain of points becomes.
type Draws uint8

const (
	Outline Draws = iota
	Hole
	Band   // a thickened strip
	Piping // a line along or under the slab
)

// open tells whether it is no loop, but runs from its first point to its last.
func (d Draws) open() bool { return d == Band || d == Piping }

// Chain draws point after point by clicking, or by pointing a direction and
// typing a length.
type Chain struct {
	still
	What   Draws
	Points []geometry.Point
	arcs   []geometry.Length // middle ordinates of the legs from the points; 0, or none, of a straight one
	bows   bool              // the next leg is an arc
	by     *geometry.Point   // which passes this point, once that is there
	held   *float64          // a direction held by a key, degrees counter-clockwise from right
	heldAt view.XY           // where the pointer was then: moving it lets go
	gap    gap               // what becomes of a misclosure
}

// Name implements State.
func (c *Chain) Name() string {
	return [...]string{"Draw outline", "Draw hole", "Draw thickened strip", "Draw line"}[c.What]
}

// Help implements State.
func (c *Chain) Help(m *Machine) Help {
	n := len(c.Points)
	h := Help{Enter: "Go that far", Esc: "Remove the last point"}
	switch {
	case n == 0:
		o := m.origin(c.What)
		h = Help{"Click the first corner, or type its place", "Start at " + o.X.Text(m.Units()) + ", " + o.Y.Text(m.Units()), "Stop drawing"}
		h.Do += m.replaces(c.What)
	case c.bows && m.Text == "":
		h.Do, h.Enter, h.Esc = "Click a point that the arc passes, or type how far and which way it lies", "", "Draw a straight edge"
		if c.by != nil {
			h.Enter = "Back to start"
			h.Do, h.Esc = "Click where the arc ends, or type how far and which way from its start", "Choose the point on it again"
		}
	case m.Text != "":
		h.Do, h.Esc = "Say which way (12' right, back 4'), or point there", "Clear what is typed"
	case n >= c.least():
		h.Do = c.goOn()
		h.Enter = "Back to start"
		if t, open := c.misclosed(); open {
			h.Do = "Misses the start by " + t.Misclosure().Text(m.Units()) + "; Tab: " + c.gap.name(t)
		}
		if c.What.open() {
			h.Enter = "Finish"
		}
	default:
		h.Do = c.goOn()
		h.Enter = ""
	}
	return h
}

// goOn says how the next point is given.
func (c *Chain) goOn() string {
	if c.What.open() {
		return "Click, or type how far and which way; Shift frees the angle"
	}
	return "Click, or type how far and which way; Shift frees the angle; ( for an arc"
}

// least is how many points make the thing.
func (c *Chain) least() int {
	if c.What.open() {
		return 2
	}
	return 3
}

// snap finds where the next point would go.
func (c *Chain) snap(m *Machine) {
	r := m.request()
	r.Extra = c.Points
	if n := len(c.Points); n > 0 {
		r.Anchor = &c.Points[n-1]
	}
	r.Square = r.Square && !c.bows // an arc bulges where it will
	if c.held != nil && r.Anchor != nil {
		to := r.Anchor.Add(plan.Turn(geometry.Point{X: m.View.Length(120)}, *c.held))
		m.Snap = snap.Result{At: to, Name: "pointing " + wayText(*c.held)}
		return
	}
	m.Snap = snap.To(r)
}

// Move implements State.
func (c *Chain) Move(m *Machine) {
	m.Hover = Target{}
	if c.held != nil && view.Distance(c.heldAt, m.Pointer) > 6 {
		c.held = nil
	}
	c.snap(m)
}

// Drag implements State.
func (c *Chain) Drag(m *Machine) { c.snap(m) }

// Press implements State.
func (c *Chain) Press(m *Machine) {
	c.held = nil
	c.snap(m)
	c.take(m, m.Snap.At)
}

// Key implements State.
func (c *Chain) Key(m *Machine, key string) bool {
	switch key {
	case Backspace:
		return c.Back(m)
	case ArcKey:
		return c.bow(m)
	case Tab:
		t, open := c.misclosed()
		if open {
			c.gap = c.gap.next(t, m.Mods.Shift)
		}
		return true
	case Up, Down, Left, Right:
		if len(c.Points) == 0 {
			return false
		}
		c.hold(m, map[string]float64{Right: 0, Up: 90, Left: 180, Down: 270}[key])
		return true
	}
	return false
}

// hold points in a direction until the pointer moves. A second arrow with Ctrl,
// square to the first, makes a diagonal.
func (c *Chain) hold(m *Machine, degrees float64) {
	if c.held != nil && m.Mods.Ctrl {
		if by := math.Mod(degrees-*c.held+540, 360) - 180; math.Abs(by) == 90 {
			degrees = math.Mod(*c.held+by/2+360, 360)
		}
	}
	c.held, c.heldAt = &degrees, m.Pointer
	c.snap(m)
}

// Takes implements State.
func (c *Chain) Takes(_ *Machine, r rune) bool {
	return startsNumber(r) || len(c.Points) > 0 && (r == 'b' || r == 'a') // back 4', at 30°
}

// Meaning says how what is typed is read.
func (c *Chain) Meaning(m *Machine, text string) (string, error) {
	if len(c.Points) == 0 {
		return placeMeaning(m, text)
	}
	to, aim, err := m.typedLeg(c.Points, text)
	if aim != nil {
		return "points " + wayText(*aim), err
	}
	return legText(m, c.Points[len(c.Points)-1], to), err
}

// Enter implements State.
func (c *Chain) Enter(m *Machine, text string) {
	n := len(c.Points)
	switch {
	case n == 0 && text == "":
		c.add(m, m.origin(c.What))
	case n == 0:
		p, ok := typedPlace(m, text)
		if !ok {
			return
		}
		c.add(m, p)
	case text == "" && c.by != nil:
		c.end(m, c.Points[0])
		return
	case text == "":
		c.finish(m)
		return
	default:
		to, aim, err := m.typedLeg(c.Points, text)
		switch {
		case err != nil:
			m.say(err)
			return
		case aim != nil:
			c.hold(m, *aim)
		default:
			c.take(m, to)
		}
	}
	m.Text = ""
}

// add takes a point; the first point again closes the loop.
func (c *Chain) add(m *Machine, p geometry.Point) {
	n := len(c.Points)
	switch {
	case n >= c.least() && !c.What.open() && p == c.Points[0]:
		c.finish(m)
		return
	case n > 0 && p == c.Points[n-1]:
		return
	}
	c.Points = append(c.Points, p)
	m.Text, c.held, c.gap = "", nil, 0
	c.snap(m)
}

// finish makes the thing.
func (c *Chain) finish(m *Machine) {
	c.halve()
	if len(c.Points) < c.least() {
		m.Notice = fmt.Sprintf("Give at least %d points", c.least())
		return
	}
	p := m.Plan()
	sel := Target{}
	switch c.What {
	case Outline:
		p = p.WithOutline(c.bowed(plan.Like(c.ring(), m.NewEdge)))
	case Hole:
		p = p.AddHole("", c.bowed(plan.Like(c.ring(), plan.Edge{})))
		sel = Target{Kind: Slab, Loop: len(p.Holes)}
	case Band:
		s := m.NewBand
		s.Path = c.Points
		strips.put(m, c.Name(), s)
		return
	case Piping:
		l := m.NewLine
		l.Path = c.Points
		lines.put(m, c.Name(), l)
		return
	}
	m.commit(c.Name(), p, nil)
	m.Use(&Select{})
	m.Selected = sel
}

// Back implements State.
func (c *Chain) Back(m *Machine) bool {
	if len(c.Points) == 0 {
		return false
	}
	c.held, c.gap = nil, 0
	switch {
	case c.by != nil:
		c.by = nil
	case c.bows:
		c.bows = false
	default:
		c.Points = c.Points[:len(c.Points)-1]
		c.arcs = c.arcs[:min(len(c.arcs), max(len(c.Points)-1, 0))]
	}
	c.snap(m)
	return true
}

// Length gives how far and which way the next point would lie.
func (c *Chain) Length(m *Machine) string {
	n := len(c.Points)
	if n == 0 || !m.Inside && c.held == nil {
		return ""
	}
	return legText(m, c.Points[n-1], m.Snap.At)
}

// Overlay implements State.
func (c *Chain) Overlay(m *Machine, o *Overlay) {
	m.path(o, c.drawn(), Draft)
	for i, p := range c.Points {
		r := 3.5
		if i == 0 && len(c.Points) >= c.least() && !c.What.open() {
			r = 7
		}
		o.ring(m, p, r, Draft)
	}
	n := len(c.Points)
	if n > 0 && (m.Inside || c.held != nil) {
		a, to := c.Points[n-1], m.Snap.At
		if m.Text != "" {
			if p, aim, err := m.typedLeg(c.Points, m.Text); err == nil && aim == nil {
				to = p
			}
		}
		if c.overArc(m, o, a, to) {
			m.snapped(o)
			return
		}
		o.line(m, a, to, Draft)
		sa, sb := m.View.Screen(a), m.View.Screen(to)
		mid := view.XY{X: (sa.X + sb.X) / 2, Y: (sa.Y + sb.Y) / 2}
		if m.Text == "" {
			o.label(geometry.Distance(a, to).Text(m.Units()), mid, Value)
		}
	}
	if m.Text != "" {
		at := offset(m.Pointer, 16, -18)
		if n > 0 {
			at = offset(m.View.Screen(m.Snap.At), 16, -18)
		}
		o.label(m.Typing(), at, Typing)
	}
	if t, open := c.misclosed(); open && m.Text == "" {
		a := c.Points[0]
		o.line(m, c.Points[n-1], a, Guide)
		text := "misses the start by " + t.Misclosure().Text(m.Units()) + ": " + c.gap.name(t) + " (Tab)"
		o.label(text, offset(m.View.Screen(a), 0, -34), Question)
	}
	m.snapped(o)
}

// Describe gives what the edges about to be drawn get, or the strip.
func (c *Chain) Describe(m *Machine, s Sheet) {
	if c.What == Piping {
		nextLine(m, s)
		return
	}
	if c.What == Band {
		s.Heading("Next thickened strip")
		stripSizes(nextOf(s, &m.NewBand))
		s.Buttons(m.tool("Wall on the slab (Y)", func() State { return &PlaceWall{} }))
		s.Buttons(m.tool("Construction joint between two pours (C)", func() State { return &PlaceConstruction{} }))
		s.Explain("Click its line point by point; Enter finishes it.")
		return
	}
	m.newEdges(s)
	s.Buttons(Do{"Next edge an arc (()", func() error {
		c.bow(m)
		m.focus()
		m.changed()
		return nil
	}})
	s.Explain("Click corner by corner. Or type how far and which way, and press Enter: 24-6 right, 8' up left, 12' at 30° to the last side, back 4'. Without a way it goes where you point. Enter alone goes back to the start.")
	s.Buttons(m.page("From a list of legs…", Legs), m.page("Shapes…", Shapes))
}

// newEdges adds what the edges about to be drawn get.
func (m *Machine) newEdges(s Sheet) {
	s.Heading("New edges get")
	m.onEdge(nextOf(s, &m.NewEdge))
}
