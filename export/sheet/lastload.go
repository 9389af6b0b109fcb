package sheet

import (
	"fmt"

	"haunchbook.example/app/handover"
	"haunchbook.example/geometry"
)

// leftTable is what is still wanted for an area, by its depth.
func leftTable(l handover.LastLoad, u geometry.Units) table {
	t := table{title: fmt.Sprintf("What is left to fill, in %s", l.Unit), head: []string{"Area, " + string(l.AreaUnit)}, right: []bool{true}}
	for _, d := range l.Depths {
		t.head, t.right = append(t.head, d.Text(u)), append(t.right, true)
	}
	for i, a := range l.Areas {
		row := []string{fmt.Sprint(a)}
		for _, v := range l.Wanted[i] {
			row = append(row, fmt.Sprintf("%.2f", v))
		}
		t.rows = append(t.rows, row)
	}
	return t
}

// bayLeftTable is what is still wanted from a bay on.
func bayLeftTable(l handover.LastLoad, u geometry.Units) table {
	t := table{title: fmt.Sprintf("Still wanted, in %s", l.Unit), head: []string{"From bay", "Its area, " + string(l.AreaUnit), "Its depth", "Still wanted"}, right: []bool{true, true, true, true}}
	for _, b := range l.Bays {
		t.rows = append(t.rows, []string{fmt.Sprint(b.Number), fmt.Sprintf("%.0f", b.Area), depthText(b.Depth, u), fmt.Sprintf("%.2f", b.Wanted)})
	}
	return t
}

// depthText prints a mean depth.
func depthText(d geometry.Length, u geometry.Units) string {
	if u == geometry.FeetInches {
		return d.Round(geometry.Inch / 8).Text(u)
	}
	return d.Round(geometry.Millimeter).Text(u)
}

// leftTexts say what the tables assume.
func leftTexts(l handover.LastLoad) []string {
	out := []string{fmt.Sprintf("Measure what is left before the last load is called: its area, and its depth from the top to the ground. With %.1f %% for what is lost; what is in the truck comes off.", 100*l.Lost)}
	if len(l.Bays) > 0 && l.Shot {
		out = append(out, "From a bay on: that bay is empty and those before it are full; the ground lies as it was shot, and as planned where nothing was.")
	} else if len(l.Bays) > 0 {
		out = append(out, "From a bay on: that bay is empty and those before it are full; the ground lies as planned.")
	}
	return out
}

// lastLoad is the tables to call the last load by.
func (p *shooting) lastLoad(l handover.LastLoad) {
	put := func(t table, texts float64) {
		if p.top-p.r.Y0 < float64(min(len(t.rows), 20)+4)*t.rowHeight()+texts {
			p.turn("Shots")
		}
		p.put("Shots", t, 1)
	}
	put(leftTable(l, p.job.Units), 14)
	if len(l.Bays) > 0 {
		put(bayLeftTable(l, p.job.Units), 14)
	}
	p.tell(leftTexts(l)...)
}
