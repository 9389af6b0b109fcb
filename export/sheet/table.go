package sheet

// table is a small ruled table.
type table struct {
	title string
	head  []string
	right []bool // columns set to the right; nil for none
	rows  [][]string
	size  float64 // of its text, points; 0 for the small size
	wide  int     // 1 + the column that takes what width is left over; 0 for none
	more  string  // what its title gets where it goes on elsewhere; "" for goesOn
	runs  []bool  // of rows that go on with the text of the row before; nil for none
	names bool    // its first column has names, which may run on where it is narrow
}

// least gives how narrow the table reads well, mm: names run on, and nothing else does.
func (t table) least() float64 {
	w := t.natural()
	if t.names {
		w[0] = textWidth(t.head[0], t.textSize(), true)
		for _, r := range t.rows {
			for _, word := range words(r[0]) {
				w[0] = max(w[0], textWidth(word, t.textSize(), false))
			}
		}
		w[0] += 2 * cellPad
	}
	return sum(w)
}

const (
	cellPad   = 0.95 // mm left and right of a cell's text
	titleSkip = 5.2
)

func (t table) textSize() float64 {
	if t.size > 0 {
		return t.size
	}
	return sizeSmall
}

func (t table) rowHeight() float64 { return t.textSize() * mmPerPoint * 1.32 }

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

// wrapped gives the table with texts that are too long for a width running on in rows
// of their own, and how many rows each row then takes.
func (t table) wrapped(width float64) (out table, takes []int) {
	takes = make([]int, len(t.rows))
	if sum(t.natural()) <= width+1e-6 {
		for i := range takes {
			takes[i] = 1
		}
		return t, takes
	}
	out = t
	out.rows, out.runs = nil, nil
	cols := t.widths(width)
	for i, r := range t.rows {
		cells := make([][]string, len(r))
		for k, c := range r {
			cells[k] = wrap(c, cols[k]-2*cellPad+0.01, t.textSize(), false)
			takes[i] = max(takes[i], len(cells[k]))
		}
		for n := range takes[i] {
			line := make([]string, len(r))
			for k := range r {
				if n < len(cells[k]) {
					line[k] = cells[k][n]
				}
			}
			out.rows, out.runs = append(out.rows, line), append(out.runs, n > 0)
		}
	}
	return out, takes
}

// height gives how tall n rows are in a width with the title and the head.
func (t table) height(n int, width float64) float64 {
	h := float64(n) * t.rowHeight()
	if len(t.head) > 0 {
		h += t.rowHeight()
	}
	if t.title != "" {
		h += headingTall(t.title, width)
	}
	return h
}

// rowsIn gives how many rows go into a height.
func (t table) rowsIn(height, width float64) int {
	n := int((height - t.height(0, width) + 1e-6) / t.rowHeight())
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
// column, what is too much comes off the widest, of those first that are wider than
// their head, which does not run on as a text does.
func (t table) widths(width float64) []float64 {
	w := t.natural()
	extra := width - sum(w)
	switch {
	case extra >= 0 && t.wide > 0:
		w[t.wide-1] += extra
	case extra < 0:
		heads := table{head: t.head, size: t.size}.natural()
		for extra < -1e-9 {
			big, over := 0, false
			for i := range w {
				wider := i < len(heads) && w[i] > heads[i]+0.1
				if wider && !over || wider == over && w[i] > w[big] {
					big, over = i, wider
				}
			}
			cut := min(-extra, max(1, w[big]/10))
			if over {
				cut = min(cut, w[big]-heads[big])
			}
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
		top = d.heading(x, top, width, t.title)
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
	rule := func(pen Pen) { d.line(Notes, pen, Point{X: x, Y: top}, Point{X: x + full, Y: top}) }
	rule(penRule)
	if len(t.head) > 0 {
		d.fill(Notes, pale, Point{X: x, Y: top}, Point{X: x + full, Y: top}, Point{X: x + full, Y: top - h}, Point{X: x, Y: top - h})
		row(t.head, true)
		rule(penRule)
	}
	for i, r := range t.rows {
		if i > 0 && (t.runs == nil || !t.runs[i]) {
			rule(Pen{Width: 0.1, Color: gray})
		}
		row(r, false)
	}
	rule(penRule)
	return top
}

// headingTall gives how tall a heading is in a width: it runs on over lines.
func headingTall(title string, width float64) float64 {
	return titleSkip + float64(len(wrap(title, width, sizeBody, true))-1)*leading(sizeBody)
}

// heading writes a heading and gives the y below it.
func (d *draft) heading(x, top, width float64, title string) float64 {
	for i, l := range wrap(title, width, sizeBody, true) {
		d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3-float64(i)*leading(sizeBody), sizeBody, true, l)
	}
	return top - headingTall(title, width)
}
