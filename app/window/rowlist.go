package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// rowList shows a list of the job, a row for each item. Rows are made anew when
// their number changes, and brought up to date otherwise, so that a field keeps
// the focus.
type rowList[T any] struct {
	box   *fyne.Container
	items func() []T
	row   func(i int) (row fyne.CanvasObject, sync func())
	head  fyne.CanvasObject // above the rows; nil for none
	none  fyne.CanvasObject // in the place of rows; nil for nothing
	made  int
	syncs []func()
}

func newRowList[T any](items func() []T, row func(i int) (fyne.CanvasObject, func())) *rowList[T] {
	return &rowList[T]{box: container.NewVBox(), items: items, row: row, made: -1}
}

// show brings the rows up to date.
func (l *rowList[T]) show() {
	if n := len(l.items()); n != l.made {
		l.made, l.syncs = n, nil
		l.box.RemoveAll()
		switch {
		case n > 0 && l.head != nil:
			l.box.Add(l.head)
		case n == 0 && l.none != nil:
			l.box.Add(l.none)
		}
		for i := range n {
			row, sync := l.row(i)
			l.box.Add(row)
			l.syncs = append(l.syncs, sync)
		}
	}
	for _, sync := range l.syncs {
		sync()
	}
}

// item gives the item of a row; the zero value once it is gone.
func (l *rowList[T]) item(i int) (item T) {
	if items := l.items(); i < len(items) {
		return items[i]
	}
	return item
}

// changeItem changes an item, if it is still there.
func changeItem[T any](items []T, i int, change func(*T)) {
	if i < len(items) {
		change(&items[i])
	}
}

// removeItem removes an item, if it is still there.
func removeItem[T any](items *[]T, i int) {
	if i < len(*items) {
		*items = slices.Delete(*items, i, i+1)
	}
}

// newRemoveButton makes a bin at the end of a row.
func newRemoveButton(w *Window, tap func()) *pageButton {
	b := newPageButton(w, "", tap)
	b.Icon = theme.DeleteIcon()
	b.Importance = widget.LowImportance
	return b
}
