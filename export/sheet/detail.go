package sheet

import (
	"strings"

	"haunchbook.example/export/look"
	"haunchbook.example/geometry/drawing"
)

// detailBlock is a detail in a column: a heading, what is to be said of it, and its
// drawing.
type detailBlock struct {
	title  string
	notes  []string
	figure *drawing.Drawing
	scales []Scale // none where it is drawn in shape only
	least  float64 // how wide it is at least, mm
}

// wideColumn is how wide a column is, in millimeters, that is for sections alone:
// there they may stand taller.
const wideColumn = 100.0

// sectionShort is what a section gets at the feet of columns over its least width, mm.
const sectionShort = 11.0

// sectionWidth is the least width of a section: narrower, and what stands in it finds no room, mm.
const sectionWidth = 69.0

// padWidth is it of a section through a pad, where the field goes on both ways, mm.
const padWidth = 77.5

// detailWide is the least width of most details, mm.
const detailWide = 60.0

// Room across for what stands beside a detail, and the most that stands over and
// under it, mm.
const (
	detailBeside = 23.0
	detailOver   = 40.0
)

// detailLayout is how a detail stands in a column.
type detailLayout struct {
	scale  Scale
	said   []string
	notes  []string // it in lines
	placed *drawing.Placed
	bounds drawing.Rect // of what is placed
	head   float64      // how wide the heading is
	tall   float64      // all in all
}

func (b detailBlock) layout(width float64) detailLayout {
	l := detailLayout{scale: Scale{Ratio: 1}, head: width}
	lo, hi, _ := b.figure.Bounds()
	tall := 0.6 * width
	if width > wideColumn {
		tall = 0.78 * width
	}
	if len(b.scales) > 0 {
		l.scale, _ = fit(b.scales, hi.X-lo.X, hi.Y-lo.Y, rect{X0: 0, Y0: 0, X1: width - detailBeside, Y1: tall})
		l.head -= textWidth(l.scale.Name, sizeFine, false) + 3
	}
	area := drawing.Rect{X1: width, Y1: l.scale.paperOf(hi.Y-lo.Y) + 2*detailOver}
	l.placed = drawing.Place(b.figure, drawing.Options{
		View: drawing.ViewIn(drawing.Ratio(l.scale.drawn()), lo, hi, area), Area: area, Fonts: look.Fonts{}, Manner: &drawing.OnDetail,
	})
	l.bounds, _ = l.placed.Bounds()
	l.said = b.notes
	for _, r := range l.placed.Rows {
		text := strings.TrimSpace(r.Of + " " + strings.Join(r.Texts, ", "))
		if r.Mark != "" {
			text = r.Mark + ": " + text
		}
		l.said = append(l.said[:len(l.said):len(l.said)], text)
	}
	for _, n := range l.said {
		if last := len(l.notes) - 1; last >= 0 && textWidth(l.notes[last]+"; "+n, sizeFine, false) <= width {
			l.notes[last] += "; " + n
			continue
		}
		l.notes = append(l.notes, wrap(n, width, sizeFine, false)...)
	}
	l.tall = headingTall(b.title, l.head) + float64(len(l.notes))*leading(sizeFine) + l.bounds.Height() + 1
	return l
}

// span implements wider.
func (b detailBlock) span(_ int, column, _ float64) int { return columnsFor(b.least, column) }

func (b detailBlock) height(width float64) float64 { return b.layout(width).tall }

func (b detailBlock) draw(d *draft, x, top, width float64) float64 {
	l := b.layout(width)
	y := d.heading(x, top, l.head, b.title)
	d.writeRight(x+width, top-capHeight*sizeBody*mmPerPoint-0.3, sizeFine, false, l.scale.Name)
	for _, n := range l.notes {
		d.write(x, y-capHeight*sizeFine*mmPerPoint, sizeFine, false, n)
		y -= leading(sizeFine)
	}
	l.placed.Draw(ink{d, Point{X: x, Y: top - l.tall - l.bounds.Y0}})
	return top - l.tall
}
