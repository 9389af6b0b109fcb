package form

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/look"
)

// drawn gives the rectangles that a widget is drawn of.
func drawn(w fyne.Widget) (rs []*canvas.Rectangle) {
	for _, o := range test.WidgetRenderer(w).Objects() {
		if r, ok := o.(*canvas.Rectangle); ok {
			rs = append(rs, r)
		}
	}
	return rs
}

// A list has the frame of a field, all round it, and a button that has the keys a light
// ring instead of another ground.
func TestFrames(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{Choice: look.Light})
	s, b := NewSelect([]string{"one", "two"}, nil), Do("Do it", func() {})
	w := test.NewTempWindow(t, container.NewVBox(s, b))
	w.Resize(fyne.NewSize(200, 100))
	rim := func(o fyne.Widget) *canvas.Rectangle { rs := drawn(o); return rs[len(rs)-1] }
	if r := rim(s); r.StrokeColor != look.Shade(theme.ColorNameInputBorder) || r.StrokeWidth <= 0 || r.Size() != s.Size() {
		t.Errorf("the list has a rim of %v, %v wide, %v of %v", r.StrokeColor, r.StrokeWidth, r.Size(), s.Size())
	}
	w.Canvas().Focus(s)
	if r := rim(s); r.StrokeColor != look.Shade(theme.ColorNamePrimary) {
		t.Errorf("with the keys the list has a rim of %v", r.StrokeColor)
	}
	ground := drawn(b)[0].FillColor
	w.Canvas().Focus(b)
	if r := rim(b); r.StrokeColor != look.Shade(theme.ColorNameFocus) || drawn(b)[0].FillColor != ground {
		t.Errorf("with the keys the button has a rim of %v on %v, without on %v", r.StrokeColor, drawn(b)[0].FillColor, ground)
	}
	w.Canvas().Unfocus()
	if _, _, _, a := rim(b).StrokeColor.RGBA(); a != 0 {
		t.Error("without the keys the button has a ring")
	}
}

// Rows of figures have a line under them, which takes no room.
func TestRowsAreRuled(t *testing.T) {
	test.NewTempApp(t)
	row := Table{0, 80}.Figures("Concrete", "12")
	plain := container.New(&Columns{Widths: Table{0, 80}, Tight: true}, Figure("Concrete", fyne.TextAlignLeading), Figure("12", fyne.TextAlignTrailing))
	if row.MinSize() != plain.MinSize() {
		t.Errorf("a ruled row takes %v, without the line %v", row.MinSize(), plain.MinSize())
	}
	row.Resize(fyne.NewSize(400, 20))
	lines := 0
	Visit(row, func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Separator); ok {
			lines++
			if l.Size().Width != 400 || l.Position().Y+l.Size().Height != 20 {
				t.Errorf("the line is %v at %v", l.Size(), l.Position())
			}
		}
	})
	if lines != 1 {
		t.Errorf("%d lines", lines)
	}
}
