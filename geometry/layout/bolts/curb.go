package bolts

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
)

var (
	ruleCurbPlate = rule.Rule{Name: "Plates on curbs", Source: "geometry"}
	ruleCurbBolt  = rule.Rule{Name: "Bolts in curbs", Source: "ACI 318-19 Table 20.5.1.3.1"}
)

// checkCurb reports, once for a wall, a curb that is narrower than the plate on it, and bolts
// that stand or are hooked too near its inner face.
func (t *anchoring) checkCurb(w Wall) {
	narrow, near := false, false
	for _, bolt := range w.Bolts {
		if bolt.Rise <= 0 {
			continue
		}
		if bolt.Wide < w.Plate.Width && !narrow {
			narrow = true
			t.Find(ruleCurbPlate, rule.Limit, bolt.At, "%s: its %s plate is %s wide, and the curb under it %s: widen the curb.", w.Name(), w.Plate, t.Text(w.Plate.Width), t.Text(bolt.Wide))
		}
		if near || bolt.HoldDown {
			continue
		}
		left, asks := bolt.Wide-w.Offset-t.spec.Diameter/2, bars.CoverExposed(bars.Size(4), t.Units)
		hooked := t.spec.Shape == Bent && t.spec.deep() <= bolt.Rise
		switch {
		case left < asks:
			near = true
			t.Find(ruleCurbBolt, rule.Limit, bolt.At, "%s: %s of concrete is left between the bolts and the inner face of the curb; %s is asked: widen it.", w.Name(), t.Text(max(0, left)), t.Text(asks))
		case hooked && left-t.spec.Hook < asks:
			near = true
			t.Find(ruleCurbBolt, rule.Note, bolt.At, "%s: a hook turned inward comes within %s of the inner face of the curb: turn hooks along the wall.", w.Name(), t.Text(max(geometry.Length(0), left-t.spec.Hook)))
		}
	}
}
