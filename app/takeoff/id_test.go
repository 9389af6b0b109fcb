package takeoff_test

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// What a price list names fits a line by its kind and by each attribute named.
func TestFits(t *testing.T) {
	bar := takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * foot}
	foam := takeoff.ID{Kind: takeoff.FoamStock, Thickness: 2 * inch, Width: 4 * foot, Length: 8 * foot, Form: takeoff.Sheet}
	mesh := takeoff.ID{Kind: takeoff.MeshStock, Style: "6x6-W1.4xW1.4", Width: 5 * foot, Length: 150 * foot, Form: takeoff.Roll}
	bolt := takeoff.ID{Kind: takeoff.AnchorBolts, Diameter: inch / 2, Length: 10 * inch, Shape: "bent"}
	for _, c := range []struct {
		list, line takeoff.ID
		fits       bool
		named      int
	}{
		{takeoff.ID{Kind: takeoff.BarStock}, bar, true, 0},
		{takeoff.ID{Kind: takeoff.BarStock, Bar: 4}, bar, true, 1},
		{bar, bar, true, 2},
		{takeoff.ID{Kind: takeoff.BarStock, Bar: 5}, bar, false, 1},
		{takeoff.ID{Kind: takeoff.BarStock, Length: 40 * foot}, bar, false, 1},
		{takeoff.ID{Kind: takeoff.YardBars}, bar, false, 0},
		{takeoff.ID{Kind: takeoff.FoamStock, Thickness: 2 * inch}, foam, true, 1},
		{takeoff.ID{Kind: takeoff.FoamStock, Thickness: inch}, foam, false, 1},
		{takeoff.ID{Kind: takeoff.FoamArea}, foam, false, 0},
		{takeoff.ID{Kind: takeoff.MeshStock, Form: takeoff.Roll, Style: "6x6-W1.4xW1.4"}, mesh, true, 2},
		{takeoff.ID{Kind: takeoff.MeshStock, Form: takeoff.Sheet}, mesh, false, 1},
		{takeoff.ID{Kind: takeoff.AnchorBolts, Diameter: inch / 2, Length: 10 * inch, Shape: "bent"}, bolt, true, 3},
		{takeoff.ID{Kind: takeoff.AnchorBolts, Shape: "headed"}, bolt, false, 1},
		{takeoff.ID{Kind: takeoff.Unknown, Name: "x"}, takeoff.ID{Kind: takeoff.Unknown, Name: "x"}, false, 0},
		{takeoff.ID{}, takeoff.ID{}, true, 0},
	} {
		if got := c.list.Fits(c.line); got != c.fits || c.list.Named() != c.named {
			t.Errorf("%+v fits %+v: %v with %d attributes named, want %v and %d", c.list, c.line, got, c.list.Named(), c.fits, c.named)
		}
	}
}

// A name says what tells one of a kind from another, and is written one way.
func TestText(t *testing.T) {
	for want, id := range map[string]takeoff.ID{
		`Bar No. 4`:                                     {Kind: takeoff.BarStock, Bar: 4},
		`Bar No. 4 × 20'-0"`:                            {Kind: takeoff.BarStock, Bar: 4, Length: 20 * foot},
		`Bar No. 4 × 7'-6", from the yard`:              {Kind: takeoff.YardBars, Bar: 4, Length: 90 * inch},
		`Form board 2x12 × 16'-0"`:                      {Kind: takeoff.FormBoards, Size: "2x12", Length: 16 * foot},
		`Mesh 6x6-W1.4xW1.4, 5'-0" × 10'-0" sheets`:     {Kind: takeoff.MeshStock, Style: "6x6-W1.4xW1.4", Width: 5 * foot, Length: 10 * foot, Form: takeoff.Sheet},
		`Foam 2", 4'-0" × 8'-0" sheets`:                 {Kind: takeoff.FoamStock, Thickness: 2 * inch, Width: 4 * foot, Length: 8 * foot, Form: takeoff.Sheet},
		`Vapor retarder 10 mil, 20'-0" × 100'-0" rolls`: {Kind: takeoff.RetarderStock, Mil: 10, Width: 20 * foot, Length: 100 * foot, Form: takeoff.Roll},
		`Anchor bolts 1/2" × 10", bent`:                 {Kind: takeoff.AnchorBolts, Diameter: inch / 2, Length: 10 * inch, Shape: "bent"},
		`Holes to drill, 8" deep`:                       {Kind: takeoff.DowelHoles, Depth: 8 * inch},
		`Dowels No. 4 × 1'-4", cut from bar stock`:      {Kind: takeoff.DowelBars, Bar: 4, Length: 16 * inch},
		`Washers with nuts, 3" wide`:                    {Kind: takeoff.BoltWashers, Width: 3 * inch},
		`Mix of 3500 psi, beyond the base price`:        {Kind: takeoff.MixStrength, Strength: 3500},
		`forms.borads.2x4x*`:                            {Kind: takeoff.Unknown, Name: "forms.borads.2x4x*"},
		`Concrete to order`:                             {Kind: takeoff.ConcreteOrder},
	} {
		if got := id.Text(geometry.FeetInches); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// Every kind has a name and a heading, and no two of them a name alike.
func TestKinds(t *testing.T) {
	seen := map[string]takeoff.Kind{}
	for _, k := range takeoff.Kinds() {
		name := takeoff.ID{Kind: k}.Text(geometry.FeetInches)
		if name == "" || k.Group() == "" {
			t.Errorf("%s is called %q under %q", k, name, k.Group())
		}
		if other, ok := seen[name]; ok && k != takeoff.Unknown {
			t.Errorf("%s and %s are both called %q", k, other, name)
		}
		seen[name] = k
		var back takeoff.Kind
		if err := back.UnmarshalText([]byte(k)); err != nil || back != k {
			t.Errorf("%s reads as %q: %v", k, back, err)
		}
	}
}

func TestIDInAFile(t *testing.T) {
	for want, id := range map[string]takeoff.ID{
		`{"kind":"bar","bar":4,"length":"20'-0\""}`:                                {Kind: takeoff.BarStock, Bar: 4, Length: 20 * foot},
		`{"kind":"bar","bar":4,"length":"6000 mm"}`:                                {Kind: takeoff.BarStock, Bar: 4, Length: 6 * geometry.Meter},
		`{"kind":"anchor bolt","diameter":"1/2\"","length":"10\"","shape":"bent"}`: {Kind: takeoff.AnchorBolts, Diameter: inch / 2, Length: 10 * inch, Shape: "bent"},
		`{"kind":"foam","thickness":"2\"","form":"sheet"}`:                         {Kind: takeoff.FoamStock, Thickness: 2 * inch, Form: takeoff.Sheet},
	} {
		got, err := json.Marshal(id)
		if err != nil || string(got) != want {
			t.Errorf("%s (%v), want %s", got, err, want)
		}
		var back takeoff.ID
		if err := json.Unmarshal(got, &back); err != nil || back != id {
			t.Errorf("%s reads as %+v: %v", got, back, err)
		}
	}
	for _, bad := range []string{`{"kind":"rope"}`, `{"kind":"bar","gauge":3}`, `{"kind":"bar","length":"20"}`, `"bar"`} {
		var id takeoff.ID
		if err := json.Unmarshal([]byte(bad), &id); err == nil {
			t.Errorf("%s reads as %+v", bad, id)
		}
	}
}

// Every key that the takeoff of an earlier version could give names one thing.
func TestOldKeys(t *testing.T) {
	ids := func(ids ...takeoff.ID) []takeoff.ID { return ids }
	kind := func(ks ...takeoff.Kind) (out []takeoff.ID) {
		for _, k := range ks {
			out = append(out, takeoff.ID{Kind: k})
		}
		return out
	}
	unknown := func(key string) []takeoff.ID { return ids(takeoff.ID{Kind: takeoff.Unknown, Name: key}) }
	for key, want := range map[string][]takeoff.ID{
		"concrete.net": kind(takeoff.ConcreteNet), "concrete.naive": kind(takeoff.ConcreteByLength), "concrete.waste": kind(takeoff.ConcreteWaste),
		"concrete.order": kind(takeoff.ConcreteOrder), "concrete.trucks": kind(takeoff.ConcreteTrucks), "slab.area": kind(takeoff.SlabArea),
		"slab.perimeter": kind(takeoff.SlabPerimeter), "fiber.weight": kind(takeoff.Fibers), "concrete.toboard": kind(takeoff.ConcreteToBoard), "concrete.todepth": kind(takeoff.ConcreteToDepth),
		"mix.air": kind(takeoff.MixAir), "mix.reducer": kind(takeoff.MixReducer), "mix.3500psi": ids(takeoff.ID{Kind: takeoff.MixStrength, Strength: 3500}),
		"steel.edge.length": kind(takeoff.EdgeBarLength), "steel.edge.weight": kind(takeoff.EdgeBarWeight), "steel.pads.length": kind(takeoff.PadBarLength), "steel.pads.weight": kind(takeoff.PadBarWeight),
		"steel.strips.length": kind(takeoff.StripBarLength), "steel.strips.weight": kind(takeoff.StripBarWeight), "steel.grid.length": kind(takeoff.FieldBarLength), "steel.grid.weight": kind(takeoff.FieldBarWeight),
		"steel.bent": kind(takeoff.BentBars), "steel.offcuts": kind(takeoff.Offcuts), "steel.mesh.sheets": kind(takeoff.MeshStock), "steel.mesh.weight": kind(takeoff.MeshWeight), "steel.chairs": kind(takeoff.Chairs),
		"dowels.count": kind(takeoff.DowelHoles), "dowels.bars": kind(takeoff.DowelBars), "dowels.epoxy": kind(takeoff.Adhesive),
		"bolts.count": kind(takeoff.AnchorBolts), "bolts.washers": kind(takeoff.BoltWashers), "bolts.holddowns": kind(takeoff.HoldDowns), "plates.length": kind(takeoff.PlateLength), "plates.pieces": kind(takeoff.PlatePieces),
		"forms.length": kind(takeoff.FormLength), "forms.stakes": kind(takeoff.Stakes), "forms.kickers": kind(takeoff.Kickers), "ground.dig": kind(takeoff.Digging), "ground.fill": kind(takeoff.Filling),
		"base.area": kind(takeoff.BaseArea), "base.gravel.volume": kind(takeoff.GravelVolume), "base.gravel.tons": kind(takeoff.GravelWeight), "foam.area": kind(takeoff.FoamArea), "foam.sheets": kind(takeoff.FoamStock),
		"retarder.area": kind(takeoff.RetarderArea), "retarder.rolls": kind(takeoff.RetarderStock), "joints.length": kind(takeoff.SawCuts), "isolation.length": kind(takeoff.IsolationStrip),
		"steel.stock.4x20ft":        ids(takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * foot}),
		"steel.stock.5x6000mm":      ids(takeoff.ID{Kind: takeoff.BarStock, Bar: 5, Length: 6 * geometry.Meter}),
		"steel.stock.4x2286mm.yard": ids(takeoff.ID{Kind: takeoff.YardBars, Bar: 4, Length: 90 * inch}),
		"forms.boards.2x12x16ft":    ids(takeoff.ID{Kind: takeoff.FormBoards, Size: "2x12", Length: 16 * foot}),
		"plates.stock.2x6x4876.8mm": ids(takeoff.ID{Kind: takeoff.SillPlates, Size: "2x6", Length: 16 * foot}),
		"steel.stock.4x*":           ids(takeoff.ID{Kind: takeoff.BarStock, Bar: 4}),
		"steel.stock.4x20ft*":       ids(takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * foot}),
		"steel.stock.*":             kind(takeoff.BarStock),
		"plates.stock.*":            kind(takeoff.SillPlates),
		"forms.boards.2x12x*":       ids(takeoff.ID{Kind: takeoff.FormBoards, Size: "2x12"}),
		"forms.boards.2x1*":         ids(takeoff.ID{Kind: takeoff.FormBoards, Size: "2x10"}, takeoff.ID{Kind: takeoff.FormBoards, Size: "2x12"}),
		"bolts.*":                   kind(takeoff.AnchorBolts, takeoff.HoldDowns, takeoff.BoltWashers),
		"plates.*":                  kind(takeoff.SillPlates, takeoff.PlateLength, takeoff.PlatePieces),
		"steel.stock.9x*":           unknown("steel.stock.9x*"),
		"steel.stock.4x2*":          unknown("steel.stock.4x2*"),
		"steel.stock.4x20":          unknown("steel.stock.4x20"),
		"concrete.orders":           unknown("concrete.orders"),
		"mix.*":                     unknown("mix.*"),
		"":                          unknown(""),
	} {
		if diff := cmp.Diff(want, takeoff.OfOldKey(key)); diff != "" {
			t.Errorf("%q: %s", key, diff)
		}
	}
	// A key with any ending names every kind whose keys had it, once.
	all := takeoff.OfOldKey("*")
	later := []takeoff.Kind{takeoff.YardBars, takeoff.SlideDowels, takeoff.DowelSlots, takeoff.PlateDowels, takeoff.TiedBolts, takeoff.Sleeves, takeoff.StubUps, takeoff.FloorDrains, takeoff.PostBases, takeoff.WeldPlates, takeoff.DrainLines, takeoff.TrenchDrain, takeoff.Conduits, takeoff.Tubing, takeoff.Circuits, takeoff.JointDowels, takeoff.KeyStrip, takeoff.BlockOuts, takeoff.BlockOutFill, takeoff.FillBags, takeoff.FormTubes, takeoff.CurbConcrete, takeoff.CurbLength, takeoff.CurbBarLength, takeoff.CurbBarWeight, takeoff.Hangers, takeoff.FrostUpright, takeoff.FrostLying, takeoff.FrostStock, takeoff.BarSupports, takeoff.TieWire, takeoff.RetarderTape, takeoff.FormRelease, takeoff.KickerStakes, takeoff.BoardScabs, takeoff.DuplexNails,
		takeoff.LipBlockOuts, takeoff.MarkingString, takeoff.CuringCompound, takeoff.CuringBlankets, takeoff.Sealer, takeoff.JointSealant, takeoff.BackerRod, takeoff.SillSeal, takeoff.BarCaps,
		takeoff.OverDig, takeoff.Backfill, takeoff.HaulOff, takeoff.LooseFill}
	for _, k := range takeoff.Kinds() {
		mix := k == takeoff.MixStrength || k == takeoff.MixAir || k == takeoff.MixReducer
		if slices.Contains(all, takeoff.ID{Kind: k}) == (mix || slices.Contains(later, k)) {
			t.Errorf("* names %s: %v", k, !mix)
		}
	}
}
