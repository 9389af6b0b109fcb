package exchange

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"math"
	"strings"

	"haunchbook.example/export/look"
	"haunchbook.example/geometry/drawing"
)

// WriteSVG writes a placed drawing as SVG 1.1, in millimeters on a sheet of that
// size. It fills the window that it is seen in; its layers are groups. Texts stay
// texts; their width is fixed, so that a viewer without the typeface still sets
// them where they belong.
func WriteSVG(w io.Writer, title string, width, height float64, p *drawing.Placed) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="100%%" height="100%%" viewBox="0 0 %s %s" preserveAspectRatio="xMidYMid meet">`+"\n", number(width), number(height))
	fmt.Fprintf(b, "<title>%s</title>\n", escaped(title))
	fmt.Fprintf(b, `<rect width="%s" height="%s" fill="#ffffff"/>`+"\n", number(width), number(height))
	c := &svg{w: b, height: height, layer: -1}
	p.Draw(c)
	c.close()
	b.WriteString("</svg>\n")
	return b.Flush()
}

// svg is a drawing.Canvas.
type svg struct {
	w      *bufio.Writer
	height float64
	layer  int
}

func (s *svg) close() {
	if s.layer >= 0 {
		s.w.WriteString("</g>\n")
	}
}

// group begins the group of a layer, where that is another than the last.
func (s *svg) group(l drawing.Layer) {
	if int(l) != s.layer {
		s.close()
		s.layer = int(l)
		fmt.Fprintf(s.w, `<g class="%s">`+"\n", l)
	}
}

func (s *svg) points(pts []drawing.Vec) string {
	out := make([]string, len(pts))
	for i, p := range pts {
		out[i] = number(p.X) + "," + number(s.height-p.Y)
	}
	return strings.Join(out, " ")
}

// Stroke implements drawing.Canvas.
func (s *svg) Stroke(k drawing.Ink, pts []drawing.Vec, closed bool) {
	style := line(k)
	if style == "" {
		return
	}
	s.group(k.Layer)
	tag := "polyline"
	if closed {
		tag = "polygon"
	}
	fmt.Fprintf(s.w, `<%s points="%s" fill="none"%s/>`+"\n", tag, s.points(pts), style)
}

// Fill implements drawing.Canvas.
func (s *svg) Fill(k drawing.Ink, rings [][]drawing.Vec) {
	s.group(k.Layer)
	var d strings.Builder
	for _, r := range rings {
		if len(r) > 2 {
			d.WriteString("M" + s.points(r) + "Z")
		}
	}
	fmt.Fprintf(s.w, `<path d="%s" fill="%s" fill-rule="evenodd"/>`+"\n", d.String(), hex(look.Color(k)))
}

// Circle implements drawing.Canvas.
func (s *svg) Circle(k drawing.Ink, at drawing.Vec, radius float64, full bool) {
	s.group(k.Layer)
	style := line(k)
	if full {
		style = fmt.Sprintf(` fill="%s"`, hex(look.Color(k)))
	} else {
		style = ` fill="none"` + style
	}
	fmt.Fprintf(s.w, `<circle cx="%s" cy="%s" r="%s"%s/>`+"\n", number(at.X), number(s.height-at.Y), number(radius), style)
}

// Text implements drawing.Canvas.
func (s *svg) Text(t drawing.Word) {
	s.group(t.Layer)
	x, y, more := number(t.At.X), number(s.height-t.At.Y), ""
	if t.Along.Y != 0 {
		more = fmt.Sprintf(` transform="rotate(%s %s %s)"`, number(-math.Atan2(t.Along.Y, t.Along.X)*180/math.Pi), x, y)
	}
	if t.Type.IsBold() {
		more += ` font-weight="bold"`
	}
	c := look.Color(t.Ink)
	if t.Inverse {
		c = look.White
	}
	fmt.Fprintf(s.w, `<text x="%s" y="%s"%s font-family="DejaVu Sans Condensed, Arial Narrow, sans-serif" font-size="%s" fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" xml:space="preserve">%s</text>`+"\n",
		x, y, more, number(t.Type.Points()*look.MMPerPoint), hex(c), number(t.Width), escaped(t.Text))
}

// line gives the attributes of a line; "" for one without weight.
func line(k drawing.Ink) string {
	pen := drawing.Paper[k.Style]
	if pen.Width <= 0 {
		return ""
	}
	s := fmt.Sprintf(` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, hex(look.Color(k)), number(max(pen.Width, k.Width)))
	if len(pen.Dash) > 0 {
		d := make([]string, len(pen.Dash))
		for i, v := range pen.Dash {
			d[i] = number(v)
		}
		s += fmt.Sprintf(` stroke-dasharray="%s"`, strings.Join(d, " "))
	}
	return s
}

// number prints a length to a tenth of a micrometer on paper.
func number(v float64) string {
	s := strings.TrimRight(fmt.Sprintf("%.4f", v), "0")
	if s = strings.TrimSuffix(s, "."); s == "-0" {
		return "0"
	}
	return s
}

func hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func escaped(s string) string {
	var b bytes.Buffer
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return "" // a buffer takes everything
	}
	return b.String()
}
