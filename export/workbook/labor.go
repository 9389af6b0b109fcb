package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
)

// addedWork is what the rows of one's own are kept as.
const addedWork = "Your own work"

// addedWork leaves room for work that the program knows nothing of.
func (b *builder) addedWork(p *page) {
	first := p.row + 1
	for range addedRows {
		row := p.row + 1
		p.put(written(""), text("your own work"), text(""), text(""), text(""), blank(general), formula(fmt.Sprintf("ROUND(F%d,2)", row), decimal.Zero, measured), formula(fmt.Sprintf("ROUND(G%d*Wage,2)", row), decimal.Zero, b.money()))
	}
	b.tasks[addedWork] = first
	p.nameRange("AddedHours", "G", first)
	p.nameRange("AddedLabor", "H", first)
}

// toDays is the formula of the hours that fill up the crew's last day, or part of one.
func (b *builder) toDays(hours string) string {
	part := fmt.Sprintf("(%s*Crew*%s)", b.estimate.Prices.CrewDay, estimate.DayHours)
	return fmt.Sprintf("ROUND(ROUNDUP(ROUND(%s/%s,6),0)*%s-%s,2)", hours, part, part, hours)
}

// labor writes hours by task.
func (b *builder) labor() error {
	p := b.page(laborSheet, landscape, []column{
		{"Task", 30, false}, {"Driven by", 34, false}, {"Quantity", 11, true}, {"Unit", 7, false}, {"Per labor hour", 11, true},
		{"Hours besides", 11, true}, {"Hours", 11, true}, {"Cost", 13, true},
	})
	e, money := b.estimate, b.money()
	crew := decimal.NewFromInt(int64(max(1, e.Prices.Crew)))
	p.band("Rates")
	p.put(text("Wage per labor hour"), text("with taxes and insurance"), text(""), text(""), input(e.Prices.Wage, money).named("Wage"))
	p.put(text("People at work"), text(""), text(""), text(""), input(crew, whole).named("Crew"))
	p.put(text("Crew's rate per hour"), text("all at work together"), text(""), text(""), formula("ROUND(Wage*Crew,2)", e.Prices.Wage.Mul(crew).Round(2), money).named("CrewRate"))
	p.gap()
	p.band("Tasks")
	first := p.row + 1
	for _, l := range e.Lines {
		if l.Kind != estimate.Labor {
			continue
		}
		row := p.row + 1
		b.tasks[l.Name] = row
		name := l.ID.Text(b.job.Units)
		quantity, rate, unit := text(""), text(""), text("")
		each, hoursOf := input(l.Each, general), fmt.Sprintf("ROUND(F%d,2)", row)
		if l.Unpriced { // its unit is not the job's
			each, hoursOf = text(""), "0"
		}
		if l.Name == estimate.ToDays { // goes by the hours before it
			b.addedWork(p)
			row = p.row + 1
			b.tasks[l.Name] = row
			hoursOf = b.toDays(fmt.Sprintf("SUM(G%d:G%d)", first, row-1))
			each = text("")
		}
		if l.Rate.IsPositive() && !l.ID.IsZero() && !l.Unpriced {
			quantity, rate, unit = b.follows(l.ID, l.Need, l.Of, here), input(l.Rate, general).within(positive).named(b.nameFor("Rate", l.Name)), indented(string(l.Of))
			hoursOf = fmt.Sprintf("ROUND(ROUND(C%d/E%d,2)+F%d,2)", row, row, row)
		}
		p.put(text(l.Name), text(firstOf(name, "once per job")), quantity, unit, rate, each,
			formula(hoursOf, l.Quantity, measured), formula(fmt.Sprintf("ROUND(G%d*Wage,2)", row), l.Extended, money))
	}
	if _, done := b.tasks[addedWork]; !done {
		b.addedWork(p)
	}
	last := p.row
	hoursSum, costSum := "0", "0"
	if last >= first {
		hoursSum, costSum = fmt.Sprintf("SUM(G%d:G%d)", first, last), fmt.Sprintf("SUM(H%d:H%d)", first, last)
	}
	row := b.totalRow(p.cols, "Labor total", 7, formula(costSum, e.Labor, money).named("LaborTotal"))
	row[6] = formula(hoursSum, e.Hours, measured).named("LaborHours").strong()
	p.put(row...)
	p.put(text("Hours with the crew at work together"), text(""), text(""), text(""), text(""), text(""), formula("ROUND(LaborHours/Crew,2)", e.CrewHours, measured), text(""))
	return p.close()
}
