package sheet

import (
	"bytes"
	"context"
	"io"
	"sync"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/pdf"
)

// writePDF writes pages as one document.
func writePDF(ctx context.Context, w io.Writer, title string, pages []Page, o Options) error {
	var raw bytes.Buffer
	var r *pdf.PDF
	set := map[Text]*canvas.Text{}
	for i, p := range pages {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if i == 0 {
			r = pdf.New(&raw, p.Width, p.Height, &pdf.Options{Compress: true, SubsetFonts: true})
		} else {
			r.NewPage(p.Width, p.Height)
		}
		p.canvas(set).RenderTo(r)
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

// closing is held while a document's fonts are written: the library writes into
// the font that all documents share.
var closing sync.Mutex

func closeAlone(r *pdf.PDF) error {
	closing.Lock()
	defer closing.Unlock()
	return r.Close()
}
