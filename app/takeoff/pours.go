package takeoff

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry/layout/construction"
)

// Pour is what is poured on one day: parts of slabs. Of a job without construction joints
// there is one, of all its slabs.
type Pour struct {
	Number int               // from 1
	Day    int               // counted from that of the first pour, which is day 1
	Parts  []PourPart        // in the order of the slabs
	Volume float64           // m³, no waste
	Area   float64           // m²
	Net    float64           // the volume in the unit of the order
	Order  decimal.Decimal   // in the unit of the order
	Loads  []decimal.Decimal // none where it is more than a pour of one day
}

// PourPart is a part of a slab in a pour.
type PourPart struct {
	Slab   int // among the takeoff's, from 0
	Part   construction.Part
	Volume float64 // m³
}

// Called names a pour: "Pour 2, day 4".
func (p Pour) Called() string { return fmt.Sprintf("Pour %d, day %d", p.Number, p.Day) }

// pours sorts the parts of the slabs by the day they are poured on.
func pours(slabs []Slab) []Pour {
	var out []Pour
	for k, s := range slabs {
		parts := s.Layout.Parts
		if parts == nil {
			parts = construction.Divide(s.Plan).Parts
		}
		for _, part := range parts {
			volume, area := s.Volume(), s.Solid.Area
			if !part.Whole {
				volume, area = s.VolumeWithin(part.Region), part.Region.Area()
			}
			i, ok := slices.BinarySearchFunc(out, part.Day, func(p Pour, day int) int { return p.Day - day })
			if !ok {
				out = slices.Insert(out, i, Pour{Day: part.Day})
			}
			p := &out[i]
			p.Parts = append(p.Parts, PourPart{k, part, volume})
			p.Volume, p.Area = p.Volume+volume, p.Area+area
		}
	}
	for i := range out {
		out[i].Number = i + 1
	}
	return out
}

// orderedEach gives how much to order for each pour, in whole steps of the plant, and how many
// trucks bring it all.
func (o Order) orderedEach(ps []Pour, m measure) (trucks int64) {
	for i := range ps {
		net, _ := m.volume(ps[i].Volume)
		ps[i].Net = net
		var n int64
		ps[i].Order, n = o.ordered(decimal.NewFromFloat(net).Round(9))
		ps[i].Loads, _ = o.Split(ps[i].Order)
		trucks += n
	}
	return trucks
}
