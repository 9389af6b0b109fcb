package window

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/document"
)

// takeoffPanel lists the quantities beside the plan. A click on one opens how it
// was computed, below it.
type takeoffPanel struct {
	state  *widget.Label
	list   *fyne.Container
	object fyne.CanvasObject
	rows   map[takeoff.ID]*quantity
	keys   string
	open   map[takeoff.ID]bool
	of     any              // what it was shown for
	faint  bool             // as figures of an earlier plan
	next   int              // row to go on with in the next turn
	round  *takeoff.Takeoff // what the round of turns began with
	lookup func(takeoff.ID) (takeoff.Line, bool)
}

// quantity is one row, with its working.
type quantity struct {
	row     *quantityRow
	working *fyne.Container
	steps   string
}

func newTakeoffPanel() *takeoffPanel {
	p := &takeoffPanel{state: widget.NewLabel(""), list: container.NewVBox(), rows: map[takeoff.ID]*quantity{}, open: map[takeoff.ID]bool{}}
	p.state.Wrapping = fyne.TextWrapWord
	p.state.SizeName = theme.SizeNameCaptionText
	head := widget.NewLabelWithStyle("Takeoff", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	p.object = container.NewBorder(container.NewVBox(container.NewBorder(nil, nil, head, nil, p.state)), nil, nil, nil, container.NewVScroll(p.list))
	return p
}

// show brings the list up to date with the document.
func (p *takeoffPanel) show(d *document.Document) {
	t, stale := d.Takeoff()
	of := [5]any{d, d.Version(), t, stale, d.Err() != nil}
	if of == p.of {
		return
	}
	p.of = of
	say, importance := "live; click a figure to see how it comes about", widget.MediumImportance
	switch {
	case d.Blank():
		t, say = nil, "Draw an outline to see quantities"
	case d.Err() != nil:
		say, importance = "! "+d.Err().Error(), widget.DangerImportance
	case len(d.Faults()) > 0 && t != nil:
		say, importance = "! As of the last sound plan: see Checks", widget.WarningImportance
	case len(d.Faults()) > 0:
		say, importance = "! No figures yet: see Checks", widget.WarningImportance
	case stale:
		say = "computing…"
	}
	if p.state.Importance != importance {
		p.state.Importance = importance
		p.state.Refresh()
	}
	// A drag computes many times a second: that is no news.
	if say != "computing…" || t == nil {
		set(p.state, say)
	}
	if t == nil {
		if p.keys != "" {
			p.keys = ""
			p.list.RemoveAll()
		}
		return
	}
	p.fill(t, len(d.Faults()) > 0 || d.Err() != nil)
}

// some brings rows up to date until a time, and tells whether it goes on from
// there in the next turn. Between two calls the takeoff may change.
func (p *takeoffPanel) some(d *document.Document, until time.Time) (more bool) {
	t, stale := d.Takeoff()
	if t == nil || len(d.Faults()) > 0 || d.Err() != nil || p.faint || lineKeys(t) != p.keys {
		p.next = 0
		p.show(d)
		return false
	}
	if p.next == 0 && p.of == ([5]any{d, d.Version(), t, stale, false}) {
		return false // shown already
	}
	if p.next == 0 {
		p.round = t
	}
	for ; p.next < len(t.Lines); p.next++ {
		if time.Now().After(until) {
			return true
		}
		p.set(&t.Lines[p.next], false)
	}
	p.next = 0
	return t != p.round // rows before where it changed are of the one before
}

// set shows a line in its row.
func (p *takeoffPanel) set(l *takeoff.Line, faint bool) {
	q := p.rows[l.ID]
	q.row.set(l.Name, Quantity(l.Value, l.Unit), faint)
	if p.open[l.ID] {
		q.showWorking(l.Working)
	}
}

// lineKeys tells takeoffs of other lines apart.
func lineKeys(t *takeoff.Takeoff) string {
	var keys strings.Builder
	for _, l := range t.Lines {
		fmt.Fprintln(&keys, l.ID)
	}
	return keys.String()
}

// fill sets the rows; they are made anew only when there are others.
func (p *takeoffPanel) fill(t *takeoff.Takeoff, faint bool) {
	p.faint = faint
	if keys := lineKeys(t); keys != p.keys {
		p.keys = keys
		p.list.RemoveAll()
		p.rows = map[takeoff.ID]*quantity{}
		group := takeoff.Group("")
		for _, l := range t.Lines {
			if g := l.ID.Kind.Group(); g != group {
				group = g
				h := widget.NewLabelWithStyle(string(group), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
				h.SizeName = theme.SizeNameCaptionText
				p.list.Add(h)
			}
			p.list.Add(p.quantity(l.ID))
		}
	}
	for i := range t.Lines {
		p.set(&t.Lines[i], faint)
	}
}

func (p *takeoffPanel) quantity(id takeoff.ID) fyne.CanvasObject {
	q := &quantity{working: container.NewVBox()}
	q.row = newQuantityRow(func() {
		p.open[id] = !p.open[id]
		q.row.open = p.open[id]
		q.row.Refresh()
		if p.open[id] {
			q.working.Show()
			q.steps = ""
			p.refill(id)
		} else {
			q.working.Hide()
		}
	})
	q.row.open = p.open[id]
	if !p.open[id] {
		q.working.Hide()
	}
	p.rows[id] = q
	return container.NewVBox(q.row, q.working)
}

// refill is set by the window to show the working of a row that was opened.
func (p *takeoffPanel) refill(id takeoff.ID) {
	if p.lookup == nil {
		return
	}
	if l, ok := p.lookup(id); ok {
		p.rows[id].showWorking(l.Working)
	}
}

// showWorking lists the steps by which a figure was computed.
func (q *quantity) showWorking(steps []takeoff.Step) {
	text := fmt.Sprint(steps)
	if text == q.steps {
		return
	}
	q.steps = text
	q.working.RemoveAll()
	if len(steps) == 0 {
		q.working.Add(caption("Counted on the plan.", false))
	}
	for _, s := range steps {
		line := s.Text
		if s.Work != "" {
			line += ": " + s.Work
		}
		if s.Result != "" {
			line += " = " + s.Result
		}
		q.working.Add(caption(line, false))
		if s.Source != "" {
			q.working.Add(caption("Source: "+s.Source, true))
		}
	}
	q.working.Refresh()
}

func caption(text string, italic bool) fyne.CanvasObject {
	l := widget.NewLabel(text)
	l.SizeName = theme.SizeNameCaptionText
	l.Wrapping = fyne.TextWrapWord
	l.TextStyle.Italic = italic
	return container.NewBorder(nil, nil, strut(14, 1), nil, l)
}

// Quantity prints a figure: counts whole, volumes to the hundredth, the rest to
// the tenth where it is small.
func Quantity(v float64, u takeoff.Unit) string {
	digits := 1
	switch u {
	case takeoff.Each:
		digits = 0
	case takeoff.CubicYards, takeoff.CubicMeters, takeoff.Tons, takeoff.Tonnes:
		digits = 2
	case takeoff.Pounds, takeoff.Kilograms, takeoff.SquareFeet, takeoff.FluidOunces, takeoff.Millilitres:
		digits = 0
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	s := strconv.FormatFloat(v, 'f', digits, 64)
	return thousands(s) + " " + string(u)
}

// thousands puts a comma between thousands.
func thousands(s string) string {
	whole, rest, _ := strings.Cut(s, ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if rest != "" {
		whole += "." + rest
	}
	return sign + whole
}
