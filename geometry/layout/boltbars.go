package layout

import "haunchbook.example/geometry"

// hits reports bolts that meet a bar: with their shaft, or with the hook of a
// bent one, which the crew turns inward, away from the form.
func (t *site) hits(walls []Wall, met *segments) {
	for i := range walls {
		w := &walls[i]
		s := t.sides[w.Loop][w.Edge]
		for _, bolt := range w.Bolts {
			tip := bolt.At
			if t.spec.Bolts.Shape == Bent && !bolt.HoldDown {
				tip = t.hookTip(w, s, bolt, 0, 1)
			}
			near := met.near(bolt.At, tip, t.spec.Bolts.Diameter)
			if len(near) == 0 {
				continue
			}
			if depth, ok := t.shaftMeets(bolt, met, near); ok {
				t.find(ruleBoltBar, false, bolt.At, "%s: the bolt at %s meets a bar %s deep: tie the bar aside.", w.Name, t.text(bolt.Along), t.text(depth))
			} else if tip != bolt.At && t.hookMeets(bolt, tip, met, near) {
				t.find(ruleBoltBar, false, bolt.At, "%s: the hook of the bolt at %s, turned inward %s deep, meets a bar: %s.",
					w.Name, t.text(bolt.Along), t.text(t.spec.Bolts.hookDepth()), t.mendHook(w, s, bolt, met))
			}
		}
	}
}

// deep gives how far a bolt reaches below the top, its hook included: lengths of
// bolts are over all.
func (b BoltSpec) deep() geometry.Length { return b.Length - b.Projection }

// hookDepth gives how far the middle of a hook lies below the top.
func (b BoltSpec) hookDepth() geometry.Length { return b.deep() - b.Diameter/2 }

// hookTip gives the place of a hook's tip when it is turned along the wall, on or
// back, or inward.
func (t *site) hookTip(w *Wall, s side, bolt Bolt, along, inward geometry.Length) geometry.Point {
	reach := t.spec.Bolts.Diameter/2 + t.spec.Bolts.Hook // from the middle of the shaft
	return s.at(bolt.Along+along*reach, t.boltOffset(w.Plate)+inward*reach)
}

// shaftMeets gives the depth of a bar, of those near, that the shaft of a bolt
// meets.
func (t *site) shaftMeets(bolt Bolt, met *segments, near []int32) (geometry.Length, bool) {
	b := t.spec.Bolts
	for _, k := range near {
		bar := met.all[k]
		if d, depth := toSegment(bolt.At, bar.a, bar.b); d < (b.Diameter+bar.db)/2 && depth-bar.db/2 < b.deep() {
			return depth, true
		}
	}
	return 0, false
}

// hookMeets tells whether a hook with its tip there meets one of the bars near.
func (t *site) hookMeets(bolt Bolt, tip geometry.Point, met *segments, near []int32) bool {
	b := t.spec.Bolts
	for _, k := range near {
		if bar := met.all[k]; touches(bolt.At, tip, b.hookDepth(), bar, (b.Diameter+bar.db)/2) {
			return true
		}
	}
	return false
}

// mendHook tells how a hook that meets a bar where it is turned inward clears it.
func (t *site) mendHook(w *Wall, s side, bolt Bolt, met *segments) string {
	for _, way := range [...]geometry.Length{1, -1} {
		tip := t.hookTip(w, s, bolt, way, 0)
		if !t.hookMeets(bolt, tip, met, met.near(bolt.At, tip, t.spec.Bolts.Diameter)) {
			return "turn it along the wall"
		}
	}
	return "tie the bar aside"
}
