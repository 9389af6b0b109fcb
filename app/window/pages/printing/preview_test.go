package printing

import (
	"fmt"
	"image"
	"image/color"
	"reflect"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"haunchbook.example/app/window/hands"
	"haunchbook.example/export/sheet"
)

// The preview shows the pages of what is ticked, each as it is composed for the file,
// and turns them by buttons and keys.
func TestPreview(t *testing.T) {
	d, p := opened(t)
	from, err := p.source()
	if err != nil {
		t.Fatal(err)
	}
	pages, err := sheet.Pages(t.Context(), from.Handover, from.options())
	if err != nil {
		t.Fatal(err)
	}
	bid, err := sheet.BidPages(t.Context(), from.Handover, from.options())
	if err != nil {
		t.Fatal(err)
	}
	pages = append(pages, bid...)
	p.ticked[bidFile] = true
	d.Press("Preview")
	over := hands.On(t, d.Over)
	shows := func(i int) {
		t.Helper()
		over.Reads(fmt.Sprintf("%s, page %d of %d", pages[i].Name, i+1, len(pages)))
		for _, img := range hands.Every[*canvas.Image](over) {
			if r, ok := img.Image.(*image.RGBA); ok && reflect.DeepEqual(r, pages[i].Picture(r.Rect.Dx())) {
				if r.RGBAAt(0, 0) != (color.RGBA{R: 255, G: 255, B: 255, A: 255}) {
					t.Error("the paper is not white")
				}
				return
			}
		}
		t.Errorf("page %d is not shown as it is composed", i+1)
	}
	shows(0)
	d.OverKeys(&fyne.KeyEvent{Name: fyne.KeyRight})
	shows(1)
	d.OverKeys(&fyne.KeyEvent{Name: fyne.KeyEnd})
	shows(len(pages) - 1)
	d.OverKeys(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	shows(len(pages) - 1)
	over.Press("Larger")
	shows(len(pages) - 1)
	if d.OverKeys(&fyne.KeyEvent{Name: fyne.KeyReturn}) {
		t.Error("Enter does not close it")
	}
	for name := range p.ticked {
		p.ticked[name] = false
	}
	d.Press("Preview")
	hands.On(t, d.Over).Reads("Nothing that is made of pages is ticked")
}

// What is closed while its pages are made shows none of them.
func TestPreviewClosed(t *testing.T) {
	d, p := opened(t)
	work := held(p)
	d.Press("Preview")
	d.OverClosed()
	for _, f := range *work {
		f()
	}
	hands.On(t, d.Over).Reads("making the pages")
}
