package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// List shows something row by row. Rows are made anew when their number changes, and
// brought up to date otherwise, so that a field keeps the focus.
type List struct {
	Box   *fyne.Container
	Head  fyne.CanvasObject // above the rows; nil for none
	None  fyne.CanvasObject // in the place of rows; nil for nothing
	count func() int
	row   func(i int) (row fyne.CanvasObject, sync func())
	made  int
	syncs []func()
}

// NewList gives a list of so many rows.
func NewList(count func() int, row func(i int) (fyne.CanvasObject, func())) *List {
	return &List{Box: container.NewVBox(), count: count, row: row, made: -1}
}

// Len gives how many rows are shown.
func (l *List) Len() int { return max(0, l.made) }

// Sync brings the rows up to date.
func (l *List) Sync() {
	if n := l.count(); n != l.made {
		l.made, l.syncs = n, nil
		l.Box.RemoveAll()
		switch {
		case n > 0 && l.Head != nil:
			l.Box.Add(l.Head)
		case n == 0 && l.None != nil:
			l.Box.Add(l.None)
		}
		for i := range n {
			row, sync := l.row(i)
			l.Box.Add(row)
			if sync != nil {
				l.syncs = append(l.syncs, sync)
			}
		}
	}
	for _, sync := range l.syncs {
		sync()
	}
}
