package sheet

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image/color"
	"image/png"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/job"
)

// WriteSVG writes the page as SVG 1.1. Texts stay texts; their width is fixed,
// so that a viewer without the typeface still sets them where they belong.
func (p Page) WriteSVG(w io.Writer) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" width="%smm" height="%smm" style="max-width:100%%;height:auto" viewBox="0 0 %s %s" font-family="DejaVu Sans Condensed, Arial Narrow, sans-serif">`+"\n",
		svgNumber(p.Width), svgNumber(p.Height), svgNumber(p.Width), svgNumber(p.Height))
	fmt.Fprintf(b, "<title>%s</title>\n<metadata>%s</metadata>\n", escaped(p.Name), escaped(job.Program()))
	fmt.Fprintf(b, `<rect width="100%%" height="100%%" fill="#ffffff"/>`+"\n")
	styles := stylesOf(p.Items)
	alike := func(i, j int) bool { return styles[i] == styles[j] && layerOf(p.Items[i]) == layerOf(p.Items[j]) }
	layer := Layer(0)
	for i := 0; i < len(p.Items); {
		end := i + 1
		for end < len(p.Items) && alike(i, end) {
			end++
		}
		if l := layerOf(p.Items[i]); i == 0 || l != layer {
			if i > 0 {
				b.WriteString("</g>\n")
			}
			layer = l
			fmt.Fprintf(b, `<g class="%s">`+"\n", layer)
		}
		// What is drawn alike in a row says how once: half the size on a telephone.
		style, group := styles[i], end > i+1 && styles[i] != ""
		if group {
			b.WriteString("<g" + style + ">\n")
			style = ""
		}
		for ; i < end; i++ {
			p.svgItem(b, p.Items[i], style)
		}
		if group {
			b.WriteString("</g>\n")
		}
	}
	if len(p.Items) > 0 {
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	return b.Flush()
}

// stylesOf gives how lines and circles are drawn, as attributes; none for other items.
func stylesOf(items []Item) []string {
	out := make([]string, len(items))
	var pen Pen
	var fill color.RGBA
	last := svgStyle(pen, fill) // most are drawn as the one before
	of := func(p Pen, f color.RGBA) string {
		if f != fill || p.Width != pen.Width || p.Color != pen.Color || !slices.Equal(p.Dash, pen.Dash) {
			pen, fill, last = p, f, svgStyle(p, f)
		}
		return last
	}
	for i, it := range items {
		switch v := it.(type) {
		case Line:
			out[i] = of(v.Pen, v.Fill)
		case Circle:
			out[i] = of(v.Pen, v.Fill)
		}
	}
	return out
}

func layerOf(it Item) Layer {
	switch v := it.(type) {
	case Line:
		return v.Layer
	case Circle:
		return v.Layer
	case Text:
		return v.Layer
	}
	return Frame
}

// svgItem writes an item, drawn as its attributes or those about it say.
func (p Page) svgItem(b *bufio.Writer, it Item, style string) {
	switch v := it.(type) {
	case Line:
		if v.bow != 0 && !v.Closed {
			p.svgArc(b, v, style)
			return
		}
		tag := "polyline"
		if v.Closed {
			tag = "polygon"
		}
		b.WriteString("<" + tag + ` points="`)
		for i, q := range v.Points {
			to := b.AvailableBuffer()
			if i > 0 {
				to = append(to, ' ')
			}
			to = append(appendNumber(to, q.X), ',')
			b.Write(appendNumber(to, p.Height-q.Y))
		}
		b.WriteString(`"` + style + "/>\n")
	case Circle:
		fmt.Fprintf(b, `<circle cx="%s" cy="%s" r="%s"%s/>`+"\n", svgNumber(v.Center.X), svgNumber(p.Height-v.Center.Y), svgNumber(v.Radius), style)
	case Text:
		x, y := svgNumber(v.At.X), svgNumber(p.Height-v.At.Y)
		turn, weight := "", ""
		if v.Turn != 0 {
			turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, svgNumber(-v.Turn*180/math.Pi), x, y)
		}
		if v.Bold {
			weight = ` font-weight="bold"`
		}
		fmt.Fprintf(b, `<text x="%s" y="%s"%s font-size="%s"%s fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" xml:space="preserve">%s</text>`+"\n",
			x, y, turn, svgNumber(v.Size*mmPerPoint), weight, hex(v.Color), svgNumber(v.Width()), escaped(v.Text))
	case Picture:
		var data bytes.Buffer
		if png.Encode(&data, v.Image) != nil {
			return
		}
		r := v.Image.Bounds()
		h := v.Width * float64(r.Dy()) / float64(r.Dx())
		fmt.Fprintf(b, `<image x="%s" y="%s" width="%s" height="%s" xlink:href="data:image/png;base64,%s"/>`+"\n",
			svgNumber(v.At.X), svgNumber(p.Height-v.At.Y-h), svgNumber(v.Width), svgNumber(h), base64.StdEncoding.EncodeToString(data.Bytes()))
	}
}

// svgArc writes a line whose points are chords of one arc as that arc, at most half a circle.
// The page is upside down there: what turns left sweeps to 0.
func (p Page) svgArc(b *bufio.Writer, l Line, style string) {
	from, to := l.Points[0], l.Points[len(l.Points)-1]
	radius := to.Sub(from).Length() * (1 + l.bow*l.bow) / (4 * math.Abs(l.bow))
	sweep := 0
	if l.bow < 0 {
		sweep = 1
	}
	r := svgNumber(radius)
	fmt.Fprintf(b, `<path d="M%s,%sA%s,%s 0 0 %d %s,%s"%s/>`+"\n", svgNumber(from.X), svgNumber(p.Height-from.Y), r, r, sweep, svgNumber(to.X), svgNumber(p.Height-to.Y), style)
}

func svgStyle(pen Pen, fill color.RGBA) string {
	s := ` fill="none"`
	if fill.A > 0 {
		s = fmt.Sprintf(` fill="%s"`, hex(fill))
	}
	if pen.Width <= 0 {
		return s
	}
	s += fmt.Sprintf(` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, hex(pen.Color), svgNumber(pen.Width))
	if len(pen.Dash) > 0 {
		d := make([]string, len(pen.Dash))
		for i, v := range pen.Dash {
			d[i] = svgNumber(v)
		}
		s += fmt.Sprintf(` stroke-dasharray="%s"`, strings.Join(d, " "))
	}
	return s
}

// svgNumber prints a length to a micrometer on paper.
func svgNumber(v float64) string {
	var room [32]byte
	return string(appendNumber(room[:0], v))
}

// appendNumber is svgNumber at the end of a text.
func appendNumber(to []byte, v float64) []byte {
	from := len(to)
	to = strconv.AppendFloat(to, v, 'f', 3, 64)
	to = bytes.TrimSuffix(bytes.TrimRight(to, "0"), []byte("."))
	if string(to[from:]) == "-0" {
		return append(to[:from], '0')
	}
	return to
}

func hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func escaped(s string) string {
	var b bytes.Buffer
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return ""
	}
	return b.String()
}
