// Package pdf makes pictures of the pages of PDF files that anybody may have made. What
// reads them runs in a machine of its own within the program, which sees no file and no
// network, has a limit of memory, and ends with its context.
package pdf

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"io"
	"os"
	"time"

	pdfium "github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/experimental"
)

// memory is the most that the reader may take, in pages of 64 KiB: 1 GiB.
const memory = 1 << 14

// Is tells whether a file begins as a PDF file does: its mark lies within the first 1,024
// bytes (ISO 32000-1, annex H.3, implementation note 13).
func Is(data []byte) bool {
	return bytes.Contains(data[:min(len(data), 1024)], []byte("%PDF-"))
}

// File is an open PDF file.
type File struct {
	pool     pdfium.Pool
	instance pdfium.Pdfium
	document references.FPDF_DOCUMENT
	pages    int
}

// Open opens a PDF file, until it is closed or the context ends. The reader is translated
// for the machine, which takes some seconds; cache is a folder that keeps this for the
// next time, "" for none.
func Open(ctx context.Context, data []byte, cache string) (f *File, err error) {
	if !Is(data) {
		return nil, errors.New("found no PDF file")
	}
	run := wazero.NewRuntimeConfig().
		WithCoreFeatures(api.CoreFeaturesV2 | experimental.CoreFeaturesExceptionHandling).
		WithMemoryLimitPages(memory).
		WithCloseOnContextDone(true)
	if cache != "" && os.MkdirAll(cache, 0o777) == nil {
		if c, err := wazero.NewCompilationCacheWithDir(cache); err == nil { // else it takes longer
			run = run.WithCompilationCache(c)
		}
	}
	f = &File{}
	defer func() {
		if err != nil {
			f.Close()
			f = nil
		}
	}()
	f.pool, err = webassembly.Init(webassembly.Config{
		Context: ctx, MaxIdle: 1, MaxTotal: 1, RuntimeConfig: run, FSConfig: wazero.NewFSConfig(), Stdout: io.Discard, Stderr: io.Discard,
	})
	if err != nil {
		return f, err
	}
	if f.instance, err = f.pool.GetInstance(time.Minute); err != nil {
		return f, err
	}
	doc, err := f.instance.OpenDocument(&requests.OpenDocument{File: &data})
	if err != nil {
		return f, fmt.Errorf("the PDF file is damaged or locked by a password: %w", err)
	}
	f.document = doc.Document
	n, err := f.instance.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: f.document})
	if err != nil {
		return f, err
	}
	if f.pages = n.PageCount; f.pages < 1 {
		return f, errors.New("the PDF file has no pages")
	}
	return f, nil
}

// Pages gives how many pages there are.
func (f *File) Pages() int { return f.pages }

// Page gives a picture of a page, from 0, whose longer side is so many points.
func (f *File) Page(i, side int) (*image.RGBA, error) {
	if i < 0 || i >= f.pages {
		return nil, fmt.Errorf("there is no page %d; it has %d", i+1, f.pages)
	}
	r, err := f.instance.RenderPageInPixels(&requests.RenderPageInPixels{
		Page: requests.Page{ByIndex: &requests.PageByIndex{Document: f.document, Index: i}}, Width: side, Height: side,
	})
	if err != nil {
		return nil, fmt.Errorf("page %d cannot be drawn: %w", i+1, err)
	}
	defer r.Cleanup()
	from := r.Result.RenderedImage // which lies in the machine's memory
	out := image.NewRGBA(image.Rect(0, 0, from.Bounds().Dx(), from.Bounds().Dy()))
	draw.Draw(out, out.Rect, from, from.Bounds().Min, draw.Src)
	return out, nil
}

// Close ends the machine.
func (f *File) Close() {
	if f.instance != nil {
		_ = f.instance.Close()
	}
	if f.pool != nil {
		_ = f.pool.Close()
	}
}
