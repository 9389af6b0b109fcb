package sheet

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/color"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

func TestSVGHoldsTheDrawing(t *testing.T) {
	for _, c := range append(corpus(), awkward{"demo", demoJob(t)}) {
		p := laidOut(t, c.job)
		for _, s := range overlaps(p.Page) {
			if !strings.HasSuffix(s, "off the sheet") { // it has no frame
				t.Errorf("%s: %s", c.name, s)
			}
		}
		var b bytes.Buffer
		if err := p.WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		count := map[string]int{}
		d := xml.NewDecoder(&b)
		for {
			tok, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			if s, ok := tok.(xml.StartElement); ok {
				if count[s.Name.Local]++; s.Name.Local == "svg" {
					is := map[string]string{}
					for _, a := range s.Attr {
						is[a.Name.Local] = a.Value
					}
					// At its scale on paper, and no wider than the window it is seen in.
					w, tall := strings.TrimSuffix(is["width"], "mm"), strings.TrimSuffix(is["height"], "mm")
					wide, err := strconv.ParseFloat(w, 64)
					if err != nil || math.Abs(wide-p.Width) > 0.01 || is["viewBox"] != "0 0 "+w+" "+tall || !strings.Contains(is["style"], "max-width:100%") {
						t.Errorf("%s: %v on a page of %g mm", c.name, is, p.Width)
					}
				}
			}
		}
		want := map[string]int{}
		for _, it := range p.Items {
			switch v := it.(type) {
			case Text:
				want["text"]++
			case Circle:
				want["circle"]++
			case Line:
				if v.Closed {
					want["polygon"]++
				} else {
					want["polyline"]++
				}
			}
		}
		for k, n := range want {
			if count[k] != n {
				t.Errorf("%s: %d %s, want %d", c.name, count[k], k, n)
			}
		}
	}
}

// Whatever stands about an item in the SVG, it is drawn as on paper: what it says of itself
// and what it takes over, looked up as a viewer does.
func TestSVGIsDrawnAsOnPaper(t *testing.T) {
	p := laidOut(t, demoJob(t))
	var b bytes.Buffer
	if err := p.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	said := []string{"fill", "stroke", "stroke-width", "stroke-dasharray"}
	type style [4]string
	about := []style{{}}
	items := p.Items
	d := xml.NewDecoder(&b)
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := tok.(type) {
		case xml.EndElement:
			about = about[:len(about)-1]
		case xml.StartElement:
			is := about[len(about)-1]
			for _, a := range e.Attr {
				if k := slices.Index(said, a.Name.Local); k >= 0 {
					is[k] = a.Value
				}
			}
			about = append(about, is)
			if !slices.Contains([]string{"polyline", "polygon", "circle", "path", "text"}, e.Name.Local) {
				continue
			}
			var want style
			switch v := items[0].(type) {
			case Text:
				want = style{hex(v.Color)}
			case Line:
				want = drawnAs(v.Pen, v.Fill)
			case Circle:
				want = drawnAs(v.Pen, v.Fill)
			}
			if is != want {
				t.Fatalf("item %d, a %s: %q, want %q", len(p.Items)-len(items), e.Name.Local, is, want)
			}
			items = items[1:]
		}
	}
	if len(items) > 0 {
		t.Errorf("%d of %d items are not in the drawing", len(items), len(p.Items))
	}
}

func drawnAs(pen Pen, fill color.RGBA) (is [4]string) {
	is[0] = "none"
	if fill.A > 0 {
		is[0] = hex(fill)
	}
	if pen.Width > 0 {
		is[1], is[2] = hex(pen.Color), svgNumber(pen.Width)
		for i, d := range pen.Dash {
			if i > 0 {
				is[3] += " "
			}
			is[3] += svgNumber(d)
		}
	}
	return is
}
