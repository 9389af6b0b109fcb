package sheet

// table is a small ruled table.
type table struct {
	title string
	head  []string
	right []bool // columns set to the right; nil for none
	rows  [][]string
	size  float64 // of its text, points; 0 for the small size
	wide  int     // 1 + the column that takes what width is left over; 0 for none
	more  bool    // a part after the first
}

const (
	cellPad   = 1.1 // mm left and right of a cell's text
	titleSkip = 5.2
)

func (t table) textSize() float64 {
	if t.size > 0 {
		return t.size
	}
	return sizeSmall
}

func (t table) rowHeight() float64 { return t.textSize() * mmPerPoint * 1.45 }

// fold gives the table folded as often as width allows without cutting a text.
func (t table) fold(width float64, most int) table {
	k := min(most, int(width/sum(t.natural())))
	if len(t.rows) < 4 {
		return t
	}
	return t.folded(k)
}

// folded gives the table with its rows in k groups side by side, read down each.
func (t table) folded(k int) table {
	if k < 2 {
		return t
	}
	n := (len(t.rows) + k - 1) / k
	out := t
	out.head, out.right, out.rows, out.wide = nil, nil, make([][]string, n), 0
	for g := range k {
		out.head = append(out.head, t.head...)
		out.right = append(out.right, t.right...)
		for i := range n {
			if at := g*n + i; at < len(t.rows) {
				out.rows[i] = append(out.rows[i], t.rows[at]...)
			} else {
				out.rows[i] = append(out.rows[i], make([]string, len(t.head))...)
			}
		}
	}
	return out
}

// height gives how tall n rows are with the title and the head.
func (t table) height(n int) float64 {
	h := float64(n) * t.rowHeight()
	if len(t.head) > 0 {
		h += t.rowHeight()
	}
	if t.title != "" {
		h += titleSkip
	}
	return h
}

// rowsIn gives how many rows go into a height.
func (t table) rowsIn(height float64) int {
	n := int((height - t.height(0) + 1e-6) / t.rowHeight())
	return max(0, min(n, len(t.rows)))
}

// natural gives the width of each column as its text wants it.
func (t table) natural() []float64 {
	n := len(t.head)
	for _, r := range t.rows {
		n = max(n, len(r))
	}
	w := make([]float64, n)
	for i, h := range t.head {
		w[i] = textWidth(h, t.textSize(), true)
	}
	for _, r := range t.rows {
		for i, c := range r {
			w[i] = max(w[i], textWidth(c, t.textSize(), false))
		}
	}
	for i := range w {
		w[i] += 2 * cellPad
	}
	return w
}

func sum(v []float64) (s float64) {
	for _, x := range v {
		s += x
	}
	return s
}

// widths fits the columns into width: what is left over goes to the wide
// column, what is too much comes off the widest.
func (t table) widths(width float64) []float64 {
	w := t.natural()
	extra := width - sum(w)
	switch {
	case extra >= 0 && t.wide > 0:
		w[t.wide-1] += extra
	case extra < 0:
		for extra < -1e-9 {
			big := 0
			for i := range w {
				if w[i] > w[big] {
					big = i
				}
			}
			cut := min(-extra, max(1, w[big]/10))
			w[big] -= cut
			extra += cut
		}
	}
	return w
}

// table draws t with its upper left corner at x, top, no wider than width, and
// gives the y of its lower rim.
func (d *draft) table(x, top, width float64, t table) float64 {
	size, h := t.textSize(), t.rowHeight()
	cols := t.widths(width)
	full := sum(cols)
	if t.title != "" {
		d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, shorten(t.title, width, sizeBody, true))
		top -= titleSkip
	}
	row := func(cells []string, bold bool) {
		base := top - h/2 - 0.36*size*mmPerPoint
		at := x
		for i, c := range cells {
			c = shorten(c, cols[i]-2*cellPad+0.01, size, bold)
			if t.right != nil && t.right[i] {
				d.writeRight(at+cols[i]-cellPad, base, size, bold, c)
			} else {
				d.write(at+cellPad, base, size, bold, c)
			}
			at += cols[i]
		}
		top -= h
	}
	rule := func(pen Pen) { d.line(Notes, pen, Point{x, top}, Point{x + full, top}) }
	rule(penRule)
	if len(t.head) > 0 {
		d.fill(Notes, pale, Point{x, top}, Point{x + full, top}, Point{x + full, top - h}, Point{x, top - h})
		row(t.head, true)
		rule(penRule)
	}
	for i, r := range t.rows {
		if i > 0 {
			rule(Pen{Width: 0.1, Color: gray})
		}
		row(r, false)
	}
	rule(penRule)
	return top
}
