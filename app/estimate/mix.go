package estimate

import (
	"fmt"

	"haunchbook.example/app/takeoff"
)

// mixLines gives what a list charges for a mix, each as much as the concrete that
// is ordered.
func mixLines(order takeoff.Line, mix takeoff.Mix, p PriceList) []takeoff.Line {
	var out []takeoff.Line
	add := func(id takeoff.ID, work string) {
		if it, ok := p.Item(id); ok && (!it.Price.Set || !it.Price.To.IsZero()) {
			out = append(out, takeoff.Line{
				ID: id, Name: id.Text(p.Units), Value: order.Value, Unit: order.Unit,
				Working: []takeoff.Step{{Text: "For the concrete ordered", Work: work}},
			})
		}
	}
	if strength, ok := p.strength(mix.Strength); ok {
		add(takeoff.ID{Kind: takeoff.MixStrength, Strength: strength}, takeoff.StrengthText(mix.Strength, p.Units)+" asked for")
	}
	if mix.Air > 0 {
		add(takeoff.ID{Kind: takeoff.MixAir}, fmt.Sprintf("%g %% asked for", mix.Air))
	}
	if mix.Reducer {
		add(takeoff.ID{Kind: takeoff.MixReducer}, "asked for")
	}
	return out
}

// strength gives the least strength on the list that is at least asked, and
// whether there is one.
func (p PriceList) strength(asked int) (int, bool) {
	best, found := 0, false
	for _, it := range p.Items {
		if n := it.What.Strength; !it.Off && it.What.Kind == takeoff.MixStrength && n >= asked && (!found || n < best) {
			best, found = n, true
		}
	}
	return best, found
}

// tooStrong tells that the list prices mixes by strength, and none as strong as
// asked.
func (p PriceList) tooStrong(asked int) bool {
	_, found := p.strength(asked)
	_, any := p.strength(0)
	return any && !found
}
