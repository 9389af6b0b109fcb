package layout

import "haunchbook/geometry"

// hits reports bolts that meet a bar: with their shaft, or with the hook of a
// bent one, which the crew turns inward, away from the form.
func (t *site) hits(walls []Wall, bars []Bar) {
	met := newSegments(bars)
	for i := range walls {
		w := &walls[i]
		s := t.sides[w.Loop][w.Edge]
		for _, bolt := range w.Bolts {
			if depth, ok := t.shaftMeets(bolt, met); ok {
				t.find(ruleBoltBar, false, bolt.At, "%s: the bolt at %s meets a bar %s deep: tie the bar aside.", w.Name, t.text(bolt.Along), t.text(depth))
				continue
			}
			if t.spec.Bolts.Shape == Bent && !bolt.HoldDown {
				t.checkHook(w, s, bolt, met)
			}
		}
	}
}

// deep gives how far a bolt reaches below the top, its hook included: lengths of
// bolts are over all.
func (b BoltSpec) deep() geometry.Length { return b.Length - b.Projection }

// shaftMeets gives the depth of a bar that the shaft of a bolt meets.
func (t *site) shaftMeets(bolt Bolt, met *segments) (geometry.Length, bool) {
	b := t.spec.Bolts
	for _, k := range met.near(bolt.At, bolt.At, b.Diameter) {
		bar := met.all[k]
		if d, depth := toSegment(bolt.At, bar.a, bar.b); d < (b.Diameter+bar.db)/2 && depth-bar.db/2 < b.deep() {
			return depth, true
		}
	}
	return 0, false
}

// checkHook reports a hook that meets a bar where it is turned inward, and tells
// how it clears it.
func (t *site) checkHook(w *Wall, s side, bolt Bolt, met *segments) {
	b := t.spec.Bolts
	reach := b.Diameter/2 + b.Hook // from the middle of the shaft to the tip
	depth := b.deep() - b.Diameter/2
	clear := func(along, inward geometry.Length) bool {
		tip := s.at(bolt.Along+along, t.boltOffset(w.Plate)+inward)
		for _, k := range met.near(bolt.At, tip, b.Diameter) {
			if bar := met.all[k]; touches(bolt.At, tip, depth, bar, (b.Diameter+bar.db)/2) {
				return false
			}
		}
		return true
	}
	if clear(0, reach) {
		return
	}
	mend := "tie the bar aside"
	if clear(reach, 0) || clear(-reach, 0) {
		mend = "turn it along the wall"
	}
	t.find(ruleBoltBar, false, bolt.At, "%s: the hook of the bolt at %s, turned inward %s deep, meets a bar: %s.", w.Name, t.text(bolt.Along), t.text(depth), mend)
}
