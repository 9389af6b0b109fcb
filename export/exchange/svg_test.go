package exchange_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"haunchbook.example/export/exchange"
	"haunchbook.example/export/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

// box is a slab of 24 by 20 ft with a measure and a name, at 1/4" = 1'-0".
func box(name string) (*drawing.Placed, float64, float64) {
	d := &drawing.Drawing{}
	d.Ring(drawing.Pencil{Layer: drawing.Outline, Style: drawing.EdgeLine}, pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft))
	d.Circle(drawing.Pencil{Layer: drawing.Bolts, Style: drawing.BoltLine}, pt(2*ft, ft), ft/4, 0, 0, false)
	d.Label(drawing.Label{Layer: drawing.Names, At: pt(12*ft, 10*ft)}, []string{name}, drawing.At(pt(12*ft, 10*ft)))
	d.Dimension(drawing.Dimension{A: pt(0, 0), B: pt(24*ft, 0)}, drawing.Chain{Stops: []geometry.Length{0, 24 * ft}, Texts: []string{"24'-0\""}})
	area := drawing.Rect{X1: 250, Y1: 200}
	return drawing.Place(d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(48), pt(0, 0), pt(24*ft, 20*ft), area), Area: area, Fonts: look.Fonts{}}), area.X1, area.Y1
}

// The file is well formed, fills the window, and has each text as it is, in the
// group of its layer.
func TestSVG(t *testing.T) {
	const name = `A "slab" <6 & up>`
	p, w, h := box(name)
	var b bytes.Buffer
	if err := exchange.WriteSVG(&b, name, w, h, p); err != nil {
		t.Fatal(err)
	}
	var groups []string
	texts := map[string]string{} // by what they say, the group they are in
	count := map[string]int{}
	dec := xml.NewDecoder(&b)
	in := ""
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch v := tok.(type) {
		case xml.StartElement:
			attr := map[string]string{}
			for _, a := range v.Attr {
				attr[a.Name.Local] = a.Value
			}
			count[v.Name.Local]++
			switch in = v.Name.Local; in {
			case "svg":
				if attr["viewBox"] != "0 0 250 200" || attr["width"] != "100%" || attr["height"] != "100%" {
					t.Errorf("the picture does not fill its window: %v", attr)
				}
			case "g":
				groups = append(groups, attr["class"])
			}
		case xml.CharData:
			if in == "text" && strings.TrimSpace(string(v)) != "" {
				texts[string(v)] = groups[len(groups)-1]
			}
		}
	}
	if texts[name] != "NAME" || texts[`24'-0"`] != "DIMENSION" {
		t.Errorf("texts by group: %q", texts)
	}
	if count["polygon"] != 1 || count["circle"] != 1 {
		t.Errorf("elements: %v", count)
	}
}
