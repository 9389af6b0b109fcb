package window

import (
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/look"
)

// monkey uses the window at random: whatever can be clicked, dragged, typed or pressed.
type monkey struct {
	t      *testing.T
	w      *Window
	random *rand.Rand
	did    []string // lately
}

// does notes an action before it is done, so that a fault can be told with what led to it.
func (m *monkey) does(format string, args ...any) {
	m.did = append(m.did, fmt.Sprintf(format, args...))
	if len(m.did) > 25 {
		m.did = m.did[1:]
	}
}

// typed is what people and cats type.
var typed = []string{"", "0", "4", "12", "14 1/2", "24'", "3'-4 1/2\"", "-6\"", "=12 + 2", "+2'", "1:50", "2 %", "9999 m", "abc", "75 °F", "2026-02-30", "1,234.50", "éß水🏗", strings.Repeat("long ", 80), "\t", "+-1'", "12' right", "12' at 30°"}

// pick takes one of several that are shown.
func pick[T fyne.CanvasObject](m *monkey, in fyne.CanvasObject) (T, bool) {
	var shown []T
	for _, o := range hands.Every[T](hands.On(m.t, in)) {
		if o.Visible() {
			shown = append(shown, o)
		}
	}
	if len(shown) == 0 {
		var none T
		return none, false
	}
	return shown[m.random.IntN(len(shown))], true
}

// ends are what a button does that ends the play: it opens what the toolkit or the system
// draws, or the window itself.
var ends = []string{"Quit", "folder", "Folder", "Choose", "Open file", "browser"}

// step does something.
func (m *monkey) step() {
	w, c := m.w, m.w.win.Canvas()
	in := c.Content()
	if top := c.Overlays().Top(); top != nil {
		in = top
		if m.random.IntN(4) == 0 {
			m.does("take the sheet away")
			w.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
			if c.Overlays().Top() == top {
				c.Overlays().Remove(top)
			}
			return
		}
	}
	at := func() fyne.Position {
		s := w.plan.Size()
		return fyne.NewPos(m.random.Float32()*s.Width, m.random.Float32()*s.Height)
	}
	mouse := func(p fyne.Position) *desktop.MouseEvent {
		e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
		e.Position = p
		return e
	}
	switch n := m.random.IntN(100); {
	case n < 30 && w.pages.at == planPage: // the plan
		p := at()
		m.does("click %v", p)
		w.plan.MouseMoved(mouse(p))
		w.plan.MouseDown(mouse(p))
		if m.random.IntN(3) == 0 {
			for range 4 {
				q := at()
				m.does("drag to %v", q)
				w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: q}})
			}
			w.plan.DragEnd()
		}
		w.plan.MouseUp(mouse(p))
		if m.random.IntN(8) == 0 {
			w.plan.DoubleTapped(&fyne.PointEvent{Position: p})
		}
	case n < 50: // a key on the plan
		if m.random.IntN(2) == 0 {
			const runes = "vlrdkpahbfmwentxjogszu+-0123456789'\"/ <="
			r := rune(runes[m.random.IntN(len(runes))])
			m.does("key %q", r)
			w.plan.TypedRune(r)
			return
		}
		keys := []fyne.KeyName{fyne.KeyEscape, fyne.KeyReturn, fyne.KeyDelete, fyne.KeyBackspace, fyne.KeyTab, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight, fyne.KeyF6, fyne.KeyF1, fyne.KeyF10}
		k := keys[m.random.IntN(len(keys))]
		m.does("key %s", k)
		w.key(&fyne.KeyEvent{Name: k})
	case n < 62: // a field
		if e, ok := pick[*form.Entry](m, in); ok && !e.Disabled() {
			text := typed[m.random.IntN(len(typed))]
			m.does("type %.20q", text)
			hands.On(m.t, in).Type(e, text)
		}
	case n < 70:
		if s, ok := pick[*form.Select](m, in); ok && len(s.Options) > 0 && !s.Disabled() {
			o := s.Options[m.random.IntN(len(s.Options))]
			m.does("choose %q", o)
			s.SetSelected(o)
		}
	case n < 74:
		if k, ok := pick[*widget.Check](m, in); ok && !k.Disabled() {
			m.does("tick %q", k.Text)
			k.SetChecked(!k.Checked)
		}
	case n < 84:
		if b, ok := pick[*form.Button](m, in); ok && !b.Disabled() {
			for _, no := range ends {
				if strings.Contains(b.Text, no) {
					return
				}
			}
			m.does("press %q", b.Text)
			b.Tapped(&fyne.PointEvent{})
		}
	case n < 88:
		m.does("undo or redo")
		if m.random.IntN(2) == 0 {
			w.doc.Undo()
		} else {
			w.doc.Redo()
		}
	case n < 93:
		p := m.random.IntN(len(w.pages.list))
		m.does("page %d", p)
		w.pages.turn(p)
	case n < 96:
		tab := m.random.IntN(len(w.side.sheets))
		m.does("panel %d", tab)
		w.side.tab(tab)
	case n < 98:
		s := fyne.NewSize(800+800*m.random.Float32(), 600+600*m.random.Float32())
		m.does("size %v", s)
		w.win.Resize(s)
	default:
		m.does("another look")
		w.setAppearance([]look.Appearance{look.Light, look.Dark}[m.random.IntN(2)])
	}
}

// heap gives how much is held, in bytes.
func heap() uint64 {
	runtime.GC()
	debug.FreeOSMemory()
	var s runtime.MemStats
	runtime.ReadMemStats(&s)
	return s.HeapAlloc
}

// TestMonkey uses the window at random. Nothing ends it; what it shows is the takeoff of
// the job as it is; and what it holds levels off.
func TestMonkey(t *testing.T) {
	exhaustive(t)
	steps := 60
	if n, err := strconv.Atoi(os.Getenv("HAUNCHBOOK_TRIES")); err == nil {
		steps = n
	}
	w := withBook(t)
	w.Show()
	m := &monkey{t: t, w: w, random: rand.New(rand.NewPCG(7, 77))}
	defer func() {
		if r := recover(); r != nil {
			t.Fatalf("%v\nafter %s\n%s", r, strings.Join(m.did, "\n      "), debug.Stack())
		}
	}()
	const parts = 10
	var held [parts]uint64
	for part := range parts {
		for range steps / parts {
			m.step()
		}
		held[part] = heap()
		w.refresh()
		w.win.Canvas().Capture()
		j := w.doc.Job()
		want, err := takeoff.Of(t.Context(), j.Slabs, j.Spec, j.Units)
		got, stale := w.doc.Takeoff()
		if err == nil && (stale || got == nil) {
			t.Errorf("the window shows no takeoff of a job that has one after\n%s", strings.Join(m.did, "\n"))
		} else if err == nil && !reflect.DeepEqual(got.Lines, want.Lines) {
			t.Errorf("the window shows another takeoff than the job's after\n%s", strings.Join(m.did, "\n"))
		}
	}
	t.Logf("%d actions; held, in MB:", steps)
	for _, h := range held {
		t.Logf("%6.1f", float64(h)/1e6)
	}
	// The history of undoing grows up to its bound, and so does what is remembered of texts.
	if first, last := held[parts/2], held[parts-1]; steps >= 5000 && last > 2*first+50e6 {
		t.Errorf("holds %.0f MB half way and %.0f MB at the end", float64(first)/1e6, float64(last)/1e6)
	}
}
