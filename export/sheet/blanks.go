package sheet

// ledger is a table with rows to fill in.
type ledger struct {
	title string
	head  []string // of the blanks
	rows  []string // what each row is of
}

func (l ledger) height(float64) float64 {
	return titleSkip + leading(sizeSmall) + ruledRow*float64(len(l.rows))
}

func (ledger) span(_ int, column, _ float64) int { return columnsFor(151, column) }

func (l ledger) cut(height, _ float64) (first, rest block, ok bool) {
	n := int((height - l.height(0) + ruledRow*float64(len(l.rows))) / ruledRow)
	if n < fewRows || len(l.rows)-n < fewRows { // rows in order, and not one here and one there
		return nil, nil, false
	}
	a, b := l, l
	a.rows, b.rows = l.rows[:n], l.rows[n:]
	return a, b, true
}

func (l ledger) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, l.title)
	top -= titleSkip
	label := 0.0
	for _, r := range l.rows {
		label = max(label, textWidth(r, sizeSmall, false)+2)
	}
	part := (width - label) / float64(len(l.head))
	for i, h := range l.head {
		d.writeMid(x+label+(float64(i)+0.5)*part, top-capHeight*sizeSmall*mmPerPoint, sizeSmall, false, h)
	}
	top -= leading(sizeSmall)
	for _, r := range l.rows {
		d.write(x, top-ruledRow+1.5, sizeSmall, false, r)
		for i := range l.head {
			at := x + label + float64(i)*part
			d.line(Notes, penRule, Point{X: at + 1, Y: top - ruledRow + 1.2}, Point{X: at + part - 1, Y: top - ruledRow + 1.2})
		}
		top -= ruledRow
	}
	return top
}

// ruled is a heading with named blank lines to write on.
type ruled struct {
	title  string
	blanks []string
}

const ruledRow = 8.0

// across gives how many blanks stand side by side.
func across(width float64) int {
	if width < 85 {
		return 2
	}
	return 3
}

func (r ruled) height(width float64) float64 {
	n := across(width)
	return titleSkip + ruledRow*float64((len(r.blanks)+n-1)/n)
}

func (r ruled) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, r.title)
	top -= titleSkip
	n := across(width)
	part := (width - 4*float64(n-1)) / float64(n)
	for i, b := range r.blanks {
		at := x + float64(i%n)*(part+4)
		y := top - ruledRow + 1.2
		d.write(at, y+0.3, sizeSmall, false, b)
		w := textWidth(b, sizeSmall, false) + 1
		d.line(Notes, penRule, Point{X: at + w, Y: y}, Point{X: at + part, Y: y})
		if i%n == n-1 || i == len(r.blanks)-1 {
			top -= ruledRow
		}
	}
	return top
}
