package estimate

import (
	"fmt"
	"regexp"
	"strconv"

	"haunchbook.example/app/takeoff"
)

// Keys of what a plant charges for a mix beside its base price, per unit of
// concrete ordered. A list prices strengths by "mix.3500psi" and the like; the mix
// that is asked for is priced as the least of these that is as strong.
const (
	mixAir     = "mix.air"     // entrained air
	mixReducer = "mix.reducer" // water reducer
)

var mixStrength = regexp.MustCompile(`^mix\.(\d{3,6})psi$`)

// mixLines gives what a list charges for a mix, each as much as the concrete that
// is ordered.
func mixLines(order takeoff.Line, mix takeoff.Mix, p PriceList) []takeoff.Line {
	var out []takeoff.Line
	add := func(key, name, work string) {
		if it, ok := p.Item(key); ok && it.Key == key && !it.Price.IsZero() {
			out = append(out, takeoff.Line{
				Key: key, Group: takeoff.Concrete, Name: name, Value: order.Value, Unit: order.Unit, Buy: true,
				Trace: []takeoff.Step{{Text: "For the concrete ordered", Work: work}},
			})
		}
	}
	if strength, ok := p.strength(mix.Strength); ok {
		add(fmt.Sprintf("mix.%dpsi", strength), fmt.Sprintf("Mix of %d psi, beyond the base price", strength), fmt.Sprintf("%d psi asked for", mix.Strength))
	}
	if mix.Air > 0 {
		add(mixAir, "Entrained air", fmt.Sprintf("%g %% asked for", mix.Air))
	}
	if mix.Reducer {
		add(mixReducer, "Water reducer", "asked for")
	}
	return out
}

// strength gives the least strength on the list that is at least asked, and
// whether there is one.
func (p PriceList) strength(asked int) (int, bool) {
	best, found := 0, false
	for _, it := range p.Items {
		if m := mixStrength.FindStringSubmatch(it.Key); m != nil {
			if n, err := strconv.Atoi(m[1]); err == nil && n >= asked && (!found || n < best) {
				best, found = n, true
			}
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
