package bolts

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// Spec is how sill plates are held.
type Spec struct {
	Diameter   geometry.Length `json:"diameter"`
	Shape      Shape           `json:"shape"` // bent or headed
	Hook       geometry.Length `json:"hook"`  // of a bent bolt, from its shaft to its tip
	Setting    bars.Setting    `json:"setting"`
	Length     geometry.Length `json:"length"`     // of the bolt as bought, over all
	Projection geometry.Length `json:"projection"` // above the slab
	Embed      geometry.Length `json:"embed"`      // least depth in concrete
	Spacing    geometry.Length `json:"spacing"`    // at most
	End        geometry.Length `json:"end"`        // from a plate's end, as placed
	EndMax     geometry.Length `json:"endmax"`     // from a plate's end, at most
	EndMin     geometry.Length `json:"endmin"`     // and at least
	Apart      geometry.Length `json:"apart"`      // any two at least
	Offset     geometry.Length `json:"offset"`     // from the face; 0 for the middle of the plate
	Washer     geometry.Length `json:"washer"`     // side of a plate washer or diameter of a round one
	Jamb       geometry.Length `json:"jamb"`       // plates stop short of a rough opening by this
	Stock      geometry.Length `json:"stock"`      // plate stock length
	Stud       geometry.Length `json:"stud"`       // stud spacing to keep clear of; 0 to ignore
	Shift      geometry.Length `json:"shift"`      // a bolt under a stud is moved by this at most
}

// Shape names how an anchor bolt holds in the concrete (ASTM F1554).
type Shape = geometry.Choice[shapes]

type shapes struct{}

// Names implements geometry.Named.
func (shapes) Names() []string { return []string{"bent", "headed"} }

const (
	// Bent bolts have a hook at their lower end.
	Bent Shape = iota
	// Headed bolts have a head, or a nut and washer, there.
	Headed
)

// LeastEnd gives how near the end of a plate bolts may stand: what is asked, but not
// less than seven of their diameters (IRC R403.1.6), where these leave a place.
func (s Spec) LeastEnd() geometry.Length {
	if least := leastBoltEnd * s.Diameter; least <= s.EndMax {
		return max(s.EndMin, least)
	}
	return s.EndMin
}
