package sheet

import "strings"

// A block is a thing of known height that stands in a column of a sheet.
type block interface {
	height(width float64) float64
	// draw draws the block with its upper left corner at x, top and gives the y
	// below it.
	draw(d *draft, x, top, width float64) float64
}

// A splitter is a block that may go on in the next column.
type splitter interface {
	block
	// cut gives what goes into a height and the rest; false when nothing useful
	// does.
	cut(height, width float64) (first, rest block, ok bool)
}

const blockGap = 3.4

// flow fills the columns with blocks from the top of the first and gives what
// found no room.
func (d *draft) flow(columns []rect, blocks []block) []block {
	for _, c := range columns {
		top := c.y1
		for len(blocks) > 0 {
			b, room := blocks[0], top-c.y0
			if b.height(c.width()) <= room+1e-6 {
				top = b.draw(d, c.x0, top, c.width()) - blockGap
				blocks = blocks[1:]
				continue
			}
			if s, ok := b.(splitter); ok {
				if first, rest, ok := s.cut(room, c.width()); ok {
					first.draw(d, c.x0, top, c.width())
					blocks = append([]block{rest}, blocks[1:]...)
				}
			}
			break
		}
	}
	return blocks
}

// columnsOf parts r into n columns side by side.
func columnsOf(r rect, n int) []rect {
	w := (r.width() - float64(n-1)*columnGap) / float64(n)
	out := make([]rect, n)
	for i := range out {
		x := r.x0 + float64(i)*(w+columnGap)
		out[i] = rect{x, r.y0, x + w, r.y1}
	}
	return out
}

// tableBlock is a table in a column.
type tableBlock struct {
	table
	folds int // side by side at most; 0 for one
}

func (t tableBlock) height(width float64) float64 {
	f := t.fold(width, t.folds)
	return f.height(len(f.rows))
}

func (t tableBlock) draw(d *draft, x, top, width float64) float64 {
	return d.table(x, top, width, t.fold(width, t.folds))
}

// fewRows is the least part of a table worth starting in a column.
const fewRows = 4

func (t tableBlock) cut(height, width float64) (first, rest block, ok bool) {
	f := t.fold(width, t.folds)
	n := f.rowsIn(height)
	if n < fewRows || len(f.rows)-n < 1 {
		return nil, nil, false
	}
	if len(f.head) > 0 && len(t.head) > 0 {
		n *= len(f.head) / len(t.head)
	}
	n = min(n, len(t.rows)-1)
	a, b := t, t
	a.rows, b.rows = t.rows[:n], t.rows[n:]
	if !t.more {
		b.title += ", continued"
		b.more = true
	}
	return a, b, true
}

// notes is a heading with items of text under it.
type notes struct {
	title  string
	items  []string
	size   float64
	bullet string
	whole  bool // not to be parted over columns
}

func (n notes) lines(width float64) (out []string, first []bool) {
	for _, it := range n.items {
		for i, l := range wrap(it, width-n.indent(), n.size, false) {
			out = append(out, l)
			first = append(first, i == 0)
		}
	}
	return out, first
}

func (n notes) indent() float64 {
	if n.bullet == "" {
		return 0
	}
	return textWidth(n.bullet+" ", n.size, false)
}

func (n notes) height(width float64) float64 {
	lines, _ := n.lines(width)
	return titleSkip + float64(len(lines))*leading(n.size)
}

func (n notes) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, shorten(n.title, width, sizeBody, true))
	top -= titleSkip
	lines, first := n.lines(width)
	for i, l := range lines {
		base := top - capHeight*n.size*mmPerPoint
		if first[i] && n.bullet != "" {
			d.write(x, base, n.size, false, n.bullet)
		}
		d.write(x+n.indent(), base, n.size, false, l)
		top -= leading(n.size)
	}
	return top
}

func (n notes) cut(height, width float64) (first, rest block, ok bool) {
	if n.whole {
		return nil, nil, false
	}
	for k := len(n.items) - 1; k > 0; k-- {
		a, b := n, n
		a.items, b.items = n.items[:k], n.items[k:]
		if a.height(width) <= height {
			return a, b, true
		}
	}
	return n.cutItem(height, width)
}

// cutItem parts the first item, where it is a long one.
func (n notes) cutItem(height, width float64) (first, rest block, ok bool) {
	if len(n.items) == 0 {
		return nil, nil, false
	}
	one := n
	one.items = n.items[:1]
	lines, _ := one.lines(width)
	k := int((height - titleSkip) / leading(n.size))
	if k < fewRows || k >= len(lines) {
		return nil, nil, false
	}
	rest1 := n
	rest1.items = append([]string{strings.Join(lines[k:], "\n")}, n.items[1:]...)
	one.items = []string{strings.Join(lines[:k], "\n")}
	return one, rest1, true
}

// columns flows blocks over as many sheets as they take.
func (s *set) columns(title string, left []block, scale string, n int) {
	paper := s.papers()[0] // lists need no large one
	w, h := paper.landscape()
	for len(left) > 0 {
		d := newDraft(title, w, h)
		left = d.flow(columnsOf(sheetArea(w, h), n), left)
		if len(d.page.Items) == 0 {
			return // nothing is left, or a block taller than any column: none is
		}
		s.add(d, titles{sheet: title, scale: scale, paper: paper.Name})
	}
}

// nothing is a block that is not there.
type nothing struct{}

func (nothing) height(float64) float64                   { return -blockGap }
func (nothing) draw(_ *draft, _, top, _ float64) float64 { return top + blockGap }
