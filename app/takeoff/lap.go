package takeoff

import (
	"cmp"
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// Lap is how long the bars of a size lie side by side where they run on from piece
// to piece, as they are laid.
type Lap struct {
	Size    bars.Size
	TopCast bool            // of rows with more than 12 in of concrete cast below them
	Length  geometry.Length // at least
}

// Laps gives every lap of the job's bars, each once, by size.
func (t Takeoff) Laps() []Lap {
	return t.laps(bars.EdgeLaps, bars.StripLaps, bars.CurbLaps, bars.FieldLaps)
}

func (t Takeoff) laps(of ...bars.Lapped) []Lap {
	var out []Lap
	for _, s := range t.Slabs {
		for _, l := range s.Layout.Laps {
			if lap := (Lap{l.Size, l.TopCast, l.Length}); slices.Contains(of, l.Of) && !slices.Contains(out, lap) {
				out = append(out, lap)
			}
		}
	}
	slices.SortFunc(out, func(a, b Lap) int { return cmp.Or(cmp.Compare(a.Size, b.Size), cmp.Compare(a.Length, b.Length)) })
	return out
}

// Text says what bars the lap is of, lengths in u: "No. 4", "No. 4 with more than
// 12\" of concrete cast below it".
func (l Lap) Text(u geometry.Units) string {
	if l.TopCast {
		return fmt.Sprintf("%s with more than %s of concrete cast below it", l.Size, (12 * geometry.Inch).Text(u))
	}
	return l.Size.String()
}

// lapSteps says in a working how long laps are.
func (b *builder) lapSteps(of bars.Lapped) []Step {
	var out []Step
	rule := b.place.Bars.LapRule()
	for _, l := range b.t.laps(of) {
		out = append(out, Step{Text: "Laps", Work: fmt.Sprintf("at least %s for %s", b.m.text(l.Length), l.Text(b.m.u)), Source: rule.Name + ", " + rule.Source})
	}
	return out
}
