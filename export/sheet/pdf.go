package sheet

import (
	"bytes"
	"context"
	"io"
	"sync"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"

	"haunchbook.example/app/guard"
)

// writePDF writes pages as one document.
func writePDF(ctx context.Context, w io.Writer, title string, pages []Page, o Options) error {
	var raw bytes.Buffer
	raw.Grow(unpacked(pages))
	var r *pdf.PDF
	painted := make(chan *canvas.Canvas, 2) // pages, painted while those before are written
	var beside guard.Group
	beside.Go(func() {
		defer close(painted)
		set := map[Text]*canvas.Text{}
		for _, p := range pages {
			select {
			case painted <- p.canvas(set):
			case <-ctx.Done():
				return
			}
		}
	})
	for page := range painted {
		if r == nil {
			r = pdf.New(&raw, page.W, page.H, &pdf.Options{SubsetFonts: true})
		} else {
			r.NewPage(page.W, page.H)
		}
		page.RenderTo(r)
	}
	beside.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := closeAlone(r); err != nil {
		return err
	}
	names := make([]string, len(pages))
	for i, p := range pages {
		names[i] = p.Name
	}
	done, err := finishPDF(raw.Bytes(), names, metadata{title, o.Company.Name, o.locale(), o.Date})
	if err != nil {
		return err
	}
	_, err = w.Write(done)
	return err
}

// unpacked gives about how long pages are as PDF, in bytes, before they are packed.
func unpacked(pages []Page) int {
	const usual, point, line, letter = 1 << 15, 10, 20, 4 // of the fonts, and what each takes
	n := usual
	for _, p := range pages {
		for _, it := range p.Items {
			n += line
			switch v := it.(type) {
			case Line:
				n += point * len(v.Points)
			case Circle:
				n += 12 * point
			case Text:
				n += 2*line + letter*len(v.Text)
			}
		}
	}
	return n
}

// closing is held while a document's fonts are written: the library writes into
// the font that all documents share.
var closing sync.Mutex

func closeAlone(r *pdf.PDF) error {
	closing.Lock()
	defer closing.Unlock()
	return r.Close()
}
