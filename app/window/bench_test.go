package window

import (
	"math"
	"slices"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/app/window/canvas/scene"
	"haunchbook/app/window/canvas/tool"
	"haunchbook/app/window/document"
	"haunchbook/geometry"
	"haunchbook/geometry/plan"
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
// the frame, on a plan of 200 edges with all layers on: hovering, and dragging a
// corner, which draws the plan anew. The takeoff is computed beside the window
// and is not in it.
func BenchmarkPointerMove(b *testing.B) {
	a := test.NewTempApp(b)
	w, err := New(a, Options{Job: Blank(geometry.FeetInches), Synchronous: true})
	if err != nil {
		b.Fatal(err)
	}
	w.win.SetPadded(false)
	w.win.Resize(fyne.NewSize(1280, 900))
	j := w.doc.Job()
	j.Slabs[0] = star(200)
	t, err := compute(j)
	if err != nil {
		b.Fatal(err)
	}
	// The takeoff is there for its layers to be drawn, and not computed again.
	w.doc = document.New(j, func(job.Job) (*takeoff.Takeoff, error) { return t, nil }, document.Scheduler{})
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
	w.plan.Layers = scene.Layers{Grid: true, Dims: true, Underside: true, Steel: true, Bolts: true, Dowels: true, Joints: true, Forms: true}
	w.machine.Fit()
	size := w.plan.Size()
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	frame := func(at fyne.Position) {
		e.Position = at
		before := w.plan.drawn
		w.plan.MouseMoved(e)
		if w.plan.drawn != before {
			w.plan.picture(int(size.Width), int(size.Height))
		}
	}
	// The slowest frame in a hundred is what one feels.
	slowest := func(b *testing.B, times []time.Duration) {
		slices.Sort(times)
		b.ReportMetric(float64(times[len(times)*99/100].Microseconds())/1000, "p99-ms")
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
		from := w.at(w.doc.Plan().Outline[17].At)
		e.Position = from
		w.plan.MouseMoved(e)
		w.plan.MouseDown(e)
		var times []time.Duration
		b.ReportAllocs()
		b.ResetTimer()
		for i := range b.N {
			start := time.Now()
			w.plan.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(float32(5+i%9), float32(5+i%7))}})
			turns()
			w.plan.picture(int(size.Width), int(size.Height))
			times = append(times, time.Since(start))
		}
		b.StopTimer()
		slowest(b, times)
		w.machine.Key(tool.Escape, tool.Mods{})
	})
	b.Run("zoom", func(b *testing.B) {
		b.ReportAllocs()
		for i := range b.N {
			w.machine.Zoom(1 + 0.1*float64(1-2*(i%2)))
			w.plan.picture(int(size.Width), int(size.Height))
		}
	})
}
