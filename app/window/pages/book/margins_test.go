package book

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
)

// Bars are as long as margins are large, to the right of the line what was earned, to the
// left what was lost, and each says how much; a job without a price has none.
func TestMarginChart(t *testing.T) {
	test.NewTempApp(t)
	sum := decimal.NewFromInt
	jobs := []actual.Margin{
		{Name: "Garage", Price: sum(10000), Cost: sum(8000)},
		{Name: "A porch whose name is longer than anybody would ever have room for beside a bar", Price: sum(2000), Cost: sum(2200)},
		{Name: "No price yet", Cost: sum(100)},
		{Name: "Shed", Price: sum(1000), Cost: sum(600)},
	}
	c := marginChart(jobs)
	for _, width := range []float32{320, 900} {
		c.Resize(fyne.NewSize(width, c.MinSize().Height))
		var bars []*canvas.Rectangle
		var line *canvas.Line
		texts := map[string]*canvas.Text{}
		for _, o := range test.WidgetRenderer(c).Objects() {
			switch o := o.(type) {
			case *canvas.Rectangle:
				bars = append(bars, o)
			case *canvas.Line:
				line = o
			case *canvas.Text:
				texts[o.Text] = o
				if o.Position().X < 0 || o.Position().X+o.MinSize().Width > width {
					t.Errorf("%q is cut off at a width of %g", o.Text, width)
				}
			}
		}
		if len(bars) != 3 || line == nil {
			t.Fatalf("%d bars", len(bars))
		}
		zero := line.Position1.X
		per := bars[2].Size().Width / 40
		for i, want := range []float32{20, -10, 40} {
			from, to := bars[i].Position().X-zero, bars[i].Position().X+bars[i].Size().Width-zero
			if want < 0 && (to > 0.5 || from-want*per > 0.5 || want*per-from > 0.5) || want > 0 && (from < -0.5 || to-want*per > 0.5 || want*per-to > 0.5) {
				t.Errorf("bar %d is from %g to %g of the line, want %g percent at %g each", i, from, to, want, per)
			}
		}
		for _, s := range []string{"20.0 %", "-10.0 %", "40.0 %"} {
			if texts[s] == nil {
				t.Errorf("no %s", s)
			}
		}
	}
	if marginChart(jobs[:1]) != nil || marginChart(jobs[2:]) != nil {
		t.Error("a chart of less than two margins")
	}
}
