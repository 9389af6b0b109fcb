package sheet

import (
	"cmp"
	"strings"
)

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

const blockGap = 2.8

// flow fills the columns with blocks from the top of the first and gives what
// found no room.
func (d *draft) flow(columns []rect, blocks []block) (left []block) {
	for _, c := range columns {
		top := c.Y1
		for len(blocks) > 0 {
			b, room := blocks[0], top-c.Y0
			if !easy(b, c.Width()) {
				left, blocks = append(left, b), blocks[1:]
				continue
			}
			if b.height(c.Width()) <= room+1e-6 {
				top = b.draw(d, c.X0, top, c.Width()) - blockGap
				blocks = blocks[1:]
				continue
			}
			if s, ok := b.(splitter); ok {
				if first, rest, ok := s.cut(room, c.Width()); ok {
					top = first.draw(d, c.X0, top, c.Width()) - blockGap
					blocks = append([]block{rest}, blocks[1:]...)
				}
			}
			break
		}
		d.rooms = append(d.rooms, rect{X0: c.X0, Y0: c.Y0, X1: c.X1, Y1: top})
	}
	return append(left, blocks...)
}

// wide gives the least width of a block, mm; 0 for any.
func wide(b block) float64 {
	switch v := b.(type) {
	case figure:
		return 78 // less, and what stands in it finds no room
	case detailBlock:
		return v.least
	case ledger:
		return 150
	}
	return 0
}

// easy tells whether a block stands in a width as it wants to: a table that is squeezed
// there reads better elsewhere, and a plan among blocks of its own size.
func easy(b block, width float64) bool {
	if _, plan := b.(figure); plan {
		return false
	}
	t, table := b.(tableBlock)
	title := strings.TrimSuffix(t.title, cmp.Or(t.more, goesOn)) // what goes on may have its title in two lines
	return wide(b) <= width && (!table || max(t.least(), textWidth(title, sizeBody, true)) <= width)
}

// fitting is a block that is tried in many columns, measured once for each width of them.
type fitting struct {
	block
	tall map[float64]float64 // by the width; 0 where it does not stand easily
}

// fittings gives blocks to be tried, but for those with nothing in them.
func fittings(blocks []block) (out []fitting) {
	for _, b := range blocks {
		if _, empty := b.(nothing); !empty {
			out = append(out, fitting{b, map[float64]float64{}})
		}
	}
	return out
}

func blocksOf(fits []fitting) (out []block) {
	for _, f := range fits {
		out = append(out, f.block)
	}
	return out
}

// in gives how tall the block is in a width; 0 where it does not stand easily.
func (f fitting) in(width float64) float64 {
	tall, ok := f.tall[width]
	if !ok {
		if easy(f.block, width) {
			tall = f.height(width)
		}
		f.tall[width] = tall
	}
	return tall
}

// fillUp sets blocks where columns that were filled have room left, and gives the
// others.
func (d *draft) fillUp(blocks []fitting) (left []fitting) {
	for _, b := range blocks {
		done := false
		for i := 0; i < len(d.rooms) && !done; i++ {
			r := &d.rooms[i]
			if r.Height() <= 0 {
				continue
			}
			if tall := b.in(r.Width()); tall > 0 && tall <= r.Height() {
				r.Y1, done = b.draw(d, r.X0, r.Y1, r.Width())-blockGap, true
			}
		}
		if !done {
			left = append(left, b)
		}
	}
	return left
}

// columnsOf parts r into n columns side by side.
func columnsOf(r rect, n int) []rect {
	w := (r.Width() - float64(n-1)*columnGap) / float64(n)
	out := make([]rect, n)
	for i := range out {
		x := r.X0 + float64(i)*(w+columnGap)
		out[i] = rect{X0: x, Y0: r.Y0, X1: x + w, Y1: r.Y1}
	}
	return out
}

// tableBlock is a table in a column.
type tableBlock struct {
	table
	folds int // side by side at most; 0 for one
}

func (t tableBlock) height(width float64) float64 {
	f, _ := t.fold(width, t.folds).wrapped(width)
	return f.height(len(f.rows), width)
}

func (t tableBlock) draw(d *draft, x, top, width float64) float64 {
	f, _ := t.fold(width, t.folds).wrapped(width)
	return d.table(x, top, width, f)
}

// fewRows is the least part of a table worth starting in a column.
const fewRows = 4

func (t tableBlock) cut(height, width float64) (first, rest block, ok bool) {
	f, takes := t.fold(width, t.folds).wrapped(width)
	room, n := f.rowsIn(height, width), 0
	for n < len(takes) && takes[n] <= room {
		room -= takes[n]
		n++
	}
	if n < fewRows || len(takes)-n < 1 {
		return nil, nil, false
	}
	if len(f.head) > 0 && len(t.head) > 0 {
		n *= len(f.head) / len(t.head)
	}
	n = min(n, len(t.rows)-1)
	a, b := t, t
	a.rows, b.rows = t.rows[:n], t.rows[n:]
	b.title = continued(t.title, t.more)
	return a, b, true
}

// continued is the title of what goes on from another place, and of which more says so;
// "" in English.
func continued(title, more string) string {
	if more == "" {
		more = goesOn
	}
	return strings.TrimSuffix(title, more) + more
}

const goesOn = ", continued"

// notes is a heading with items of text under it.
type notes struct {
	title  string
	items  []string
	size   float64
	bullet string
	whole  bool   // not to be parted over columns
	more   string // what its title gets where it goes on elsewhere; "" for goesOn
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
	return headingTall(n.title, width) + float64(len(lines))*leading(n.size)
}

func (n notes) draw(d *draft, x, top, width float64) float64 {
	top = d.heading(x, top, width, n.title)
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

// mostWhole is how tall a list may be that stands in one place for sure, mm.
const mostWhole = 90.0

func (n notes) cut(height, width float64) (first, rest block, ok bool) {
	if n.whole {
		return nil, nil, false
	}
	var starts []int // the line that each item starts with
	lines, begins := n.lines(width)
	for i := range lines {
		if begins[i] {
			starts = append(starts, i)
		}
	}
	room := int((height - headingTall(n.title, width) + 1e-6) / leading(n.size))
	for k := len(starts) - 1; k > 0; k-- {
		if at := starts[k]; at <= room && at >= 3 && len(lines)-at >= 3 {
			a, b := n, n
			a.items, b.items, b.title = n.items[:k], n.items[k:], continued(n.title, n.more)
			b.whole = b.height(width) < mostWhole // in two places, and not in many
			return a, b, true
		}
	}
	return n.cutItem(height, width)
}

// cutItem parts the first item, where it is a long text.
func (n notes) cutItem(height, width float64) (first, rest block, ok bool) {
	if len(n.items) == 0 {
		return nil, nil, false
	}
	one := n
	one.items = n.items[:1]
	lines, _ := one.lines(width)
	k := int((height - headingTall(n.title, width)) / leading(n.size))
	k = min(k, len(lines)-fewRows)
	if len(lines) <= fewItems || k < fewRows {
		return nil, nil, false
	}
	rest1 := n
	rest1.title = continued(n.title, n.more)
	rest1.items = append([]string{strings.Join(lines[k:], "\n")}, n.items[1:]...)
	one.items = []string{strings.Join(lines[:k], "\n")}
	return one, rest1, true
}

// nothing is a block that is not there.
type nothing struct{}

func (nothing) height(float64) float64                   { return -blockGap }
func (nothing) draw(_ *draft, _, top, _ float64) float64 { return top + blockGap }
