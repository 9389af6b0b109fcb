package sheet

import (
	"fmt"
	"strings"

	"haunchbook.example/export/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/layout/cutlist"
)

// cutDiagram shows how one stock bar or board is sawn.
type cutDiagram struct {
	stock cutlist.Bar
	count int
	most  geometry.Length // the longest stock, which fills the width
	units geometry.Units
	text  string
	parts map[float64][]string // the text in lines of a width, as far as it was asked for
}

// cutDiagrams shows each way of sawing once, with how often.
func (s *set) cutDiagrams(title string, c cutlist.List) []block {
	if len(c.Stock) == 0 {
		return nil
	}
	var out pile
	at := map[string]int{}
	var most geometry.Length
	for _, st := range c.Stock {
		most = max(most, st.Length)
	}
	for _, st := range c.Stock {
		k := fmt.Sprint(st)
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, cutDiagram{stock: st, most: most, units: s.job.Units, parts: map[float64][]string{}})
		}
		d := out[i].(cutDiagram)
		d.count++
		out[i] = d
	}
	for i, b := range out {
		d := b.(cutDiagram)
		d.text = d.heading() + " " + d.pieceText()
		out[i] = d
	}
	text := fmt.Sprintf("%s to buy, %s left over.", c.Bought.Text(s.job.Units), c.Waste.Text(s.job.Units))
	text += " No cutting buys less"
	if !c.Optimal {
		text += " than " + c.Bound.Text(s.job.Units)
	}
	text += "."
	return []block{append(pile{notes{title: title, items: []string{text}, size: sizeSmall}}, out...)}
}

const (
	cutTall = 2.8
	cutGap  = 1.2 // under the bar
)

// pieceText writes the pieces of a stock bar: "B1 12'-3", 2 × B2 4'-0"".
func (c cutDiagram) pieceText() string {
	var parts []string
	for i := 0; i < len(c.stock.Pieces); {
		k := i
		for k < len(c.stock.Pieces) && c.stock.Pieces[k] == c.stock.Pieces[i] {
			k++
		}
		p := c.stock.Pieces[i]
		t := p.Mark.String() + " " + p.Length.Text(c.units)
		if k-i > 1 {
			t = fmt.Sprintf("%d × ", k-i) + t
		}
		parts = append(parts, t)
		i = k
	}
	if c.stock.Rest > 0 {
		parts = append(parts, "rest "+c.stock.Rest.Text(c.units))
	}
	return strings.Join(parts, ", ")
}

func (c cutDiagram) heading() string {
	from := ""
	if c.stock.Yard {
		from = " from the yard"
	}
	return fmt.Sprintf("%d × %s %s%s:", c.count, c.stock.Name, c.stock.Length.Text(c.units), from)
}

func (c cutDiagram) lines(width float64) []string {
	l, ok := c.parts[width]
	if !ok {
		l = wrap(c.text, width, sizeSmall, false)
		c.parts[width] = l
	}
	return l
}

// span implements wider: as its text wants, up to what a bar is easily read in.
func (c cutDiagram) span(_ int, column, _ float64) int {
	return columnsFor(min(77.5, textWidth(c.text, sizeSmall, false)), column)
}

// plain tells whether there are so few pieces that words show them as well.
func (c cutDiagram) plain() bool { return len(c.stock.Pieces) <= 2 }

func (c cutDiagram) height(width float64) float64 {
	tall := cutTall + cutGap
	if c.plain() {
		tall = 0
	}
	return tall + float64(len(c.lines(width)))*leading(sizeSmall)
}

func (c cutDiagram) draw(d *draft, x, top, width float64) float64 {
	for _, l := range c.lines(width) {
		d.write(x, top-capHeight*sizeSmall*mmPerPoint, sizeSmall, false, l)
		top -= leading(sizeSmall)
	}
	if c.plain() {
		return top
	}
	v := drawing.View{Scale: width / float64(c.most), At: drawing.Vec{X: x, Y: top - cutTall/2}}
	drawing.Place(detail.Stock(c.stock), drawing.Options{View: v, Area: drawing.Rect{X0: x - 1, Y0: top - cutTall, X1: x + width + 1, Y1: top}, Fonts: look.Fonts{}}).Draw(ink{d: d})
	return top - cutTall - cutGap
}

// pile is blocks set close on one another.
type pile []block

const pileGap = 0.6 // less, and the rows of one thing run into those of the next

func (p pile) height(width float64) (h float64) {
	for _, b := range p {
		h += b.height(width) + pileGap
	}
	return h
}

func (p pile) draw(d *draft, x, top, width float64) float64 {
	for _, b := range p {
		top = b.draw(d, x, top, width) - pileGap
	}
	return top
}

func (p pile) cut(height, width float64) (first, rest block, ok bool) {
	n, tall := 0, 0.0
	for ; n < len(p)-1; n++ {
		if tall += p[n : n+1].height(width); tall > height {
			break
		}
	}
	if n < 3 { // never its heading alone
		return nil, nil, false
	}
	rest = p[n:]
	if h, ok := p[0].(notes); ok {
		rest = append(pile{notes{title: continued(h.title, h.more), size: h.size, more: h.more}}, p[n:]...)
	}
	return p[:n], rest, true
}
