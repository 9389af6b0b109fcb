package pdf_test

import (
	"bytes"
	"context"
	"fmt"
	"image/color"
	"strings"
	"testing"

	"haunchbook.example/app/picture/pdf"
)

// pages gives a PDF file with a page for each size, in points of 1/72", of which the
// lower left quarter is black.
func pages(sizes ...[2]int) []byte {
	var b bytes.Buffer
	var at []int
	object := func(format string, args ...any) {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n"+format+"\nendobj\n", append([]any{len(at)}, args...)...)
	}
	b.WriteString("%PDF-1.4\n")
	object("<</Type/Catalog/Pages 2 0 R>>")
	kids := ""
	for i := range sizes {
		kids += fmt.Sprintf("%d 0 R ", 3+2*i)
	}
	object("<</Type/Pages/Kids[%s]/Count %d>>", kids, len(sizes))
	for i, s := range sizes {
		object("<</Type/Page/Parent 2 0 R/MediaBox[0 0 %d %d]/Contents %d 0 R>>", s[0], s[1], 4+2*i)
		draw := fmt.Sprintf("0 0 %d %d re f", s[0]/2, s[1]/2)
		object("<</Length %d>>\nstream\n%s\nendstream", len(draw), draw)
	}
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, a := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", a)
	}
	fmt.Fprintf(&b, "trailer<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(at)+1, xref)
	return b.Bytes()
}

func TestPages(t *testing.T) {
	cache := t.TempDir()
	f, err := pdf.Open(t.Context(), pages([2]int{200, 100}, [2]int{100, 300}), cache)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if f.Pages() != 2 {
		t.Fatalf("%d pages, want 2", f.Pages())
	}
	img, err := f.Page(1, 600)
	if err != nil {
		t.Fatal(err)
	}
	if s := img.Rect.Size(); s.X != 200 || s.Y != 600 {
		t.Errorf("the second page is %v, want 200 by 600", s)
	}
	black, white := color.RGBA{A: 255}, color.RGBA{255, 255, 255, 255}
	if a, b := img.RGBAAt(50, 450), img.RGBAAt(150, 150); a != black || b != white {
		t.Errorf("lower left %v, upper right %v", a, b)
	}
	if _, err := f.Page(2, 600); err == nil || !strings.Contains(err.Error(), "there is no page 3") {
		t.Errorf("of a third page: %v", err)
	}

	for want, data := range map[string][]byte{
		"found no PDF file": []byte("a letter"),
		"damaged or locked": []byte("%PDF-1.4\nand nothing else"),
		"has no pages":      pages(),
	} {
		if f, err := pdf.Open(t.Context(), data, cache); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, %v; want %q", f, err, want)
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := pdf.Open(ctx, pages([2]int{200, 100}), cache); err == nil {
		t.Error("it opens though it was stopped")
	}
}

func Example() {
	fmt.Println(pdf.Is([]byte("%PDF-1.7")), pdf.Is([]byte("\x89PNG")))
	// Output: true false
}
