package window

import (
	"fmt"
	"math"
	"slices"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// star is a slab of n edges with walls, sections and a door on every tenth.
func star(n int) plan.Plan {
	ring := make(geometry.Ring, n)
	for i := range ring {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := 120 * ft.Feet()
		if i%2 == 1 {
			r *= 0.93
		}
		ring[i] = pt(geometry.Length(r*c*float64(ft)), geometry.Length(r*s*float64(ft)))
	}
	p := plan.Plan{Field: ft / 2, Sections: []plan.Section{{Name: "edge", Depth: ft, Bottom: ft, Taper: ft / 2}}}
	p = p.WithOutline(plan.Like(ring, plan.Edge{Section: "edge", Wall: "2x6"}))
	for i := 0; i < n; i += 10 {
		p.Outline[i].Doors = []plan.Door{{Name: "D", From: ft, Width: 3 * ft}}
	}
	return p
}

// BenchmarkPointerMove is the time from a move of the pointer to the content of
// the frame, on plans of 200 and of 1,000 edges with all layers on: hovering, and
// dragging a corner, which draws the plan anew. The takeoff is computed beside the
// window and is not in it.
func BenchmarkPointerMove(b *testing.B) {
	for _, edges := range []int{200, 1000} {
		b.Run(fmt.Sprintf("edges=%d", edges), func(b *testing.B) { pointerMoves(b, edges) })
	}
}

func pointerMoves(b *testing.B, edges int) {
	a := test.NewTempApp(b)
	w, err := New(a, Options{Job: shelf.Blank(geometry.FeetInches)})
	if err != nil {
		b.Fatal(err)
	}
	w.win.SetPadded(false)
	w.win.Resize(fyne.NewSize(1280, 900))
	j := w.doc.Job()
	j.Slabs[0] = star(edges)
	j.Spec.Base.Foam = ft / 6
	j.Spec.Place.Field.Kind = field.Mesh
	j.Pour.Stations = []geometry.Point{pt(130*ft, 0), pt(0, -130*ft)}
	// Two takeoffs take turns, so that each frame of a drag has a new one, as it has
	// where takeoffs are fast. They are computed beside the window, not here.
	var ready [2]*takeoff.Takeoff
	for i := range ready {
		if ready[i], err = document.Taken(handover.Of(handover.From{Job: j})); err != nil {
			b.Fatal(err)
		}
		w.plan.Shapes.Make(ready[i])
	}
	days, err := handover.Of(handover.From{Job: j}).Days(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	turn := 0
	w.doc = document.New(j, func(*handover.Handover) (*takeoff.Takeoff, error) {
		turn = 1 - turn
		return ready[turn], nil
	}, document.Scheduler{})
	w.machine.Doc = w.doc
	var results []func() // panels whose turn has come: they are part of a frame
	var mu sync.Mutex
	w.scheduler = document.Scheduler{Go: func(f func()) { go f() }, Post: func(f func()) {
		mu.Lock()
		results = append(results, f)
		mu.Unlock()
	}}
	turns := func() {
		mu.Lock()
		due := results
		results = nil
		mu.Unlock()
		for _, f := range due {
			f()
		}
	}
	w.doc.Changed = w.refresh
	w.plan.Layers = scene.All
	w.plan.Pour = handover.PoursDrawn(days, j.Units)
	w.machine.Fit()
	size := w.plan.Size()
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	frame := func(at fyne.Position) {
		e.Position = at
		before := w.plan.Frame()
		w.plan.MouseMoved(e)
		if w.plan.Frame() != before {
			w.plan.Picture(int(size.Width), int(size.Height))
		}
	}
	b.Run("hover", func(b *testing.B) {
		var times []time.Duration
		b.ReportAllocs()
		for i := range b.N {
			start := time.Now()
			frame(fyne.NewPos(100+float32(i%600), 100+float32(i%500)))
			times = append(times, time.Since(start))
		}
		slowest(b, times)
	})
	b.Run("drag", func(b *testing.B) {
		from := w.at(w.doc.Plan().Outline[0].At) // drawn out of the star to the right, which stays sound
		e.Position = from
		w.plan.MouseMoved(e)
		w.plan.MouseDown(e)
		var times []time.Duration
		b.ReportAllocs()
		b.ResetTimer()
		for i := range b.N {
			start := time.Now()
			out := float64(25 + i%9) // farther than a corner beside it catches
			w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(float32(out), 0)}})
			turns()
			w.plan.Picture(int(size.Width), int(size.Height))
			times = append(times, time.Since(start))
		}
		b.StopTimer()
		if f := w.doc.Faults(); len(f) > 0 {
			b.Fatalf("the star is drawn with its faults, not with its layers: %v", f)
		}
		slowest(b, times)
		w.machine.Key(tool.Escape, tool.Mods{})
	})
	b.Run("zoom", func(b *testing.B) {
		var times []time.Duration
		b.ReportAllocs()
		for i := range b.N {
			start := time.Now()
			w.machine.Zoom(math.Pow(1.1, float64(1-2*(i%2))))
			w.plan.Picture(int(size.Width), int(size.Height))
			times = append(times, time.Since(start))
		}
		slowest(b, times)
	})
}

// slowest reports the middle time and the slowest in a hundred, which is what one feels.
func slowest(b *testing.B, times []time.Duration) {
	slices.Sort(times)
	for _, p := range []int{50, 99} {
		b.ReportMetric(float64(times[len(times)*p/100].Microseconds())/1000, fmt.Sprintf("p%d-ms", p))
	}
}

// BenchmarkTyping is the time of a key in fields beside the plan and on pages: a letter
// typed, with what is said about it below the field. Painting is the graphics driver's.
func BenchmarkTyping(b *testing.B) {
	for _, c := range []struct {
		name  string
		field func(w *Window) fyne.CanvasObject
	}{
		{"beside the plan", func(w *Window) fyne.CanvasObject { w.sideTab(editTab); return w.side.sheets[editTab].Scroll }},
		{"specification", func(w *Window) fyne.CanvasObject { w.sideTab(specTab); return w.side.tabs.Items[specTab].Content }},
		{"price", func(w *Window) fyne.CanvasObject { w.pages.turn(pricePage); return w.pages.list[pricePage].root }},
		{"options", func(w *Window) fyne.CanvasObject { w.pages.turn(optionsPage); return w.pages.list[optionsPage].root }},
	} {
		b.Run(c.name, func(b *testing.B) {
			j, err := shelf.Demo()
			if err != nil {
				b.Fatal(err)
			}
			w, err := New(test.NewTempApp(b), Options{Job: j})
			if err != nil {
				b.Fatal(err)
			}
			w.win.SetPadded(false)
			w.win.Resize(fyne.NewSize(1280, 900))
			var fields []*form.Entry
			for _, e := range hands.On(b, c.field(w)).Entries() {
				if e.Visible() && !e.Disabled() && !e.MultiLine {
					fields = append(fields, e)
				}
			}
			if len(fields) == 0 {
				b.Fatal("no field")
			}
			var times []time.Duration
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				e := fields[i/4%len(fields)]
				if i%4 == 0 {
					w.win.Canvas().Focus(e)
					e.SetText("")
				}
				start := time.Now()
				e.TypedRune(rune('1' + i%4))
				times = append(times, time.Since(start))
			}
			b.StopTimer()
			slowest(b, times)
		})
	}
}
