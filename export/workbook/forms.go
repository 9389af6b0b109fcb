package workbook

import (
	"fmt"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/layout/forms"
)

// slabForm is a form with its slab.
type slabForm struct {
	forms.Form
	slab takeoff.Slab
}

// forms writes the boards edge by edge and how they are cut.
func (b *builder) forms() error {
	p := b.page("Forms", landscape, []column{
		{"Edge", 18, false}, {"Boards in order, or pieces in order of cutting", 50, false}, {"Board", 9, true}, {"Pieces", 8, true}, {"Length", 14, true},
		{"Length, " + b.lengthUnit(), 10, true}, {"Total, " + b.lengthUnit(), 11, true}, {"Stakes", 9, true}, {"Kickers", 9, true}, {"Depth, or left over", 42, false},
	})
	var list []slabForm
	for _, s := range b.takeoff.Slabs {
		for _, f := range s.Layout.Forms {
			list = append(list, slabForm{f, s})
		}
	}
	p.band("Forms by edge")
	first := p.row + 1
	total, stakes, kickers := 0.0, 0, 0
	for _, f := range list {
		boards := make([]string, len(f.Boards))
		for i, l := range f.Boards {
			boards[i] = l.Text(b.job.Units)
		}
		one := b.decimalLength(f.Length)
		total, stakes, kickers = total+one, stakes+len(f.Stakes), kickers+len(f.Kickers)
		p.put(text(f.slab.Called(f.Named(field.Upper(f.Side(f.slab.Layout.Marks))))), text(strings.Join(boards, ", ")), styled(f.Mark.String()+" "+f.Board.Name, plainText.right()), num(float64(len(f.Boards)), whole),
			b.length(f.Length), num(one, "#,##0.000"), num(one, measured), num(float64(len(f.Stakes)), whole), num(float64(len(f.Kickers)), whole), indented(b.depthNote(f.Form)))
	}
	if len(list) > 0 {
		sum := func(col string) string { return fmt.Sprintf("SUM(%s%d:%s%d)", col, first, col, p.row) }
		cells := b.totalRow(p.cols, b.line(takeoff.FormLength).Name, 6, calc(sum("G"), total, measured))
		cells[7], cells[8] = calc(sum("H"), float64(stakes), whole).strong(), calc(sum("I"), float64(kickers), whole).strong()
		p.put(cells...)
	} else {
		p.put(styled("No free edge to form.", note))
	}
	p.gap()
	b.cuts(p, "Cut list: boards as bought", b.takeoff.Lists.Lumber)
	b.cuts(p, "Cut list: sill plates", b.takeoff.Lists.Plates)
	for _, s := range b.takeoff.Slabs {
		b.stakeOut(p, s)
	}
	p.put(styled("Dressed sizes: NIST PS 20. Stakes and kickers: common practice.", note))
	return p.close()
}

// stakeOut writes the diagonals and squares that true the forms.
func (b *builder) stakeOut(p *page, s takeoff.Slab) {
	l := s.Layout
	if len(l.Diagonals) == 0 {
		return
	}
	p.band(s.Called("Diagonals between corners"))
	for _, d := range l.Diagonals {
		cells := make([]cell, p.cols)
		for i := range cells {
			cells[i].style = plainText
		}
		cells[0], cells[1] = text(fmt.Sprintf("%d to %d", d.I+1, d.J+1)), text("corner to corner")
		cells[4], cells[5] = b.length(d.Length), num(b.decimalLength(d.Length), "#,##0.000")
		p.put(cells...)
	}
	p.gap()
}

func (b *builder) depthNote(f forms.Form) string {
	u := b.job.Units
	s := f.Depth.Text(u) + " deep at the face"
	if f.Of() != "" {
		s = f.Depth.Text(u) + " high"
		if a, b := f.Ends(); a != b {
			s = a.Text(u) + " to " + b.Text(u) + " high, on a taper"
		}
	}
	if f.Below > 0 {
		s += ", " + f.Below.Text(u) + " dug below the board"
	}
	if f.Ripped > 0 && f.Fall == 0 {
		s += ", board ripped or set in by " + f.Ripped.Text(u)
	}
	return s
}
