package bolts

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
)

// hits reports bolts that meet a bar: with their shaft, once for a wall, or with the
// hook of a bent one, which the crew turns inward, away from the form.
func (t *anchoring) hits(walls []Wall, met *bars.Segments) {
	for i := range walls {
		w := &walls[i]
		s := w.Side
		var shafts []Bolt
		var deepest geometry.Length
		for _, bolt := range w.Bolts {
			tip := bolt.At
			if t.spec.Shape == Bent && !bolt.HoldDown {
				tip = t.hookTip(w, s, bolt, 0, 1)
			}
			near := met.Near(bolt.At, tip, t.spec.Diameter)
			if len(near) == 0 {
				continue
			}
			if depth, ok := t.shaftMeets(bolt, met, near); ok {
				shafts, deepest = append(shafts, bolt), max(deepest, depth)
			} else if tip != bolt.At && t.hookMeets(bolt, tip, met, near) {
				t.Find(ruleBoltBar, rule.Note, bolt.At, "%s: the hook of the bolt at %s, turned inward %s deep, meets a bar: %s.",
					w.Name(), t.Text(bolt.Along), t.Text(t.spec.hookDepth()), t.mendHook(w, s, bolt, met))
			}
		}
		switch n := len(shafts); {
		case n == 1:
			t.Find(ruleBoltBar, rule.Note, shafts[0].At, "%s: the bolt at %s meets a bar %s deep: tie the bar aside.", w.Name(), t.Text(shafts[0].Along), t.Text(deepest))
		case n > 1:
			t.Find(ruleBoltBar, rule.Note, shafts[0].At, "%s: %d bolts, from the one at %s to that at %s, meet a bar down to %s deep: tie the bar aside, or set the bolts off it.",
				w.Name(), n, t.Text(shafts[0].Along), t.Text(shafts[n-1].Along), t.Text(deepest))
		}
	}
}

// deep gives how far a bolt reaches below the top, its hook included: lengths of
// bolts are over all.
func (b Spec) deep() geometry.Length { return b.Length - b.Projection }

// hookDepth gives how far the middle of a hook lies below the top.
func (b Spec) hookDepth() geometry.Length { return b.deep() - b.Diameter/2 }

// hookTip gives the place of a hook's tip when it is turned along the wall, on or
// back, or inward.
func (t *anchoring) hookTip(w *Wall, s slab.Side, bolt Bolt, along, inward geometry.Length) geometry.Point {
	reach := t.spec.Diameter/2 + t.spec.Hook // from the middle of the shaft
	if w.Backward {
		inward = -inward
	}
	return s.At(bolt.Along+along*reach, w.Offset+inward*reach)
}

// touching is a clearance that nobody can build, 1/128 in: judgment, no source.
const touching = inch / 128

// shaftMeets gives the depth of a bar, of those near, that the shaft of a bolt
// meets or touches: below what the bolt stands in.
func (t *anchoring) shaftMeets(bolt Bolt, met *bars.Segments, near []int32) (geometry.Length, bool) {
	b := t.spec
	for _, k := range near {
		bar := met.All[k]
		if d, depth := bars.ToSegment(bolt.At, bar.A, bar.B); d <= (b.Diameter+bar.Db)/2+touching && depth-bar.Db/2 <= b.deep()-bolt.Rise {
			return depth + bolt.Rise, true
		}
	}
	return 0, false
}

// hookMeets tells whether a hook with its tip there meets one of the bars near.
func (t *anchoring) hookMeets(bolt Bolt, tip geometry.Point, met *bars.Segments, near []int32) bool {
	b := t.spec
	for _, k := range near {
		if bar := met.All[k]; bars.Touches(bolt.At, tip, b.hookDepth()-bolt.Rise, bar, (b.Diameter+bar.Db)/2) {
			return true
		}
	}
	return false
}

// mendHook tells how a hook that meets a bar where it is turned inward clears it.
func (t *anchoring) mendHook(w *Wall, s slab.Side, bolt Bolt, met *bars.Segments) string {
	for _, way := range [...]geometry.Length{1, -1} {
		tip := t.hookTip(w, s, bolt, way, 0)
		if !t.hookMeets(bolt, tip, met, met.Near(bolt.At, tip, t.spec.Diameter)) {
			return "turn it along the wall"
		}
	}
	return "tie the bar aside"
}
