package takeoff

import (
	"fmt"
	"slices"
	"strings"
)

// Kind is a kind of quantity, by the name that files give it.
type Kind string

// The kinds.
const (
	ConcreteNet      Kind = "concrete in place"
	ConcreteByLength Kind = "concrete by length times section"
	ConcreteWaste    Kind = "concrete waste"
	ConcreteOrder    Kind = "concrete"
	ConcreteTrucks   Kind = "trucks"
	ConcreteToBoard  Kind = "concrete to board"
	ConcreteToDepth  Kind = "concrete to depth"
	SlabArea         Kind = "slab area"
	SlabPerimeter    Kind = "slab perimeter"
	Fibers           Kind = "fiber"
	CurbConcrete     Kind = "concrete in curbs"
	CurbLength       Kind = "curb length"

	// What a plant charges for a mix beside its base price, for each unit of
	// concrete ordered. A mix costs what the least strength on the list costs that
	// is as strong.
	MixStrength Kind = "mix strength"
	MixAir      Kind = "air"
	MixReducer  Kind = "water reducer"

	EdgeBarLength  Kind = "edge bar length"
	EdgeBarWeight  Kind = "edge bar weight"
	PadBarLength   Kind = "pad bar length"
	PadBarWeight   Kind = "pad bar weight"
	StripBarLength Kind = "strip bar length"
	StripBarWeight Kind = "strip bar weight"
	CurbBarLength  Kind = "curb bar length"
	CurbBarWeight  Kind = "curb bar weight"
	FieldBarLength Kind = "field bar length"
	FieldBarWeight Kind = "field bar weight"
	BarStock       Kind = "bar"
	YardBars       Kind = "bar from the yard"
	BentBars       Kind = "bent bar"
	Offcuts        Kind = "offcut"
	MeshStock      Kind = "mesh"
	MeshWeight     Kind = "mesh weight"
	Chairs         Kind = "chair"

	DowelHoles  Kind = "dowel hole"
	DowelBars   Kind = "dowel"
	SlideDowels Kind = "smooth dowel"
	DowelSlots  Kind = "dowel slot"
	PlateDowels Kind = "plate dowel"
	Adhesive    Kind = "adhesive"
	TiedBolts   Kind = "bolt to hold"
	AnchorBolts Kind = "anchor bolt"
	BoltWashers Kind = "washer"
	HoldDowns   Kind = "hold-down"
	Sleeves     Kind = "sleeve"
	StubUps     Kind = "stub-up"
	FloorDrains Kind = "floor drain"
	PostBases   Kind = "post base"
	WeldPlates  Kind = "embedded plate"
	DrainLines  Kind = "drain line"
	TrenchDrain Kind = "trench drain"
	Conduits    Kind = "conduit"
	Tubing      Kind = "tubing"
	Circuits    Kind = "tubing circuit"
	JointDowels Kind = "joint dowel"
	PlateLength Kind = "sill plate length"
	PlatePieces Kind = "sill plate piece"
	SillPlates  Kind = "sill plate"

	BlockOuts    Kind = "block-out"
	BlockOutFill Kind = "block-out fill"
	FillBags     Kind = "bagged concrete"
	FormTubes    Kind = "form tube"

	FormLength Kind = "form length"
	FormBoards Kind = "form board"
	KeyStrip   Kind = "key strip"
	Stakes     Kind = "stake"
	Kickers    Kind = "kicker"
	Hangers    Kind = "form hanger"

	Digging       Kind = "digging"
	Filling       Kind = "fill"
	BaseArea      Kind = "base area"
	GravelVolume  Kind = "gravel volume"
	GravelWeight  Kind = "gravel weight"
	FoamArea      Kind = "foam area"
	FoamStock     Kind = "foam"
	RetarderArea  Kind = "vapor retarder area"
	RetarderStock Kind = "vapor retarder"
	FrostUpright  Kind = "frost insulation upright"
	FrostLying    Kind = "frost insulation lying"
	FrostStock    Kind = "frost insulation"

	SawCuts        Kind = "saw cut"
	IsolationStrip Kind = "isolation strip"

	// What no drawing shows; the rules stand in besides.go.
	BarSupports    Kind = "bar support"
	TieWire        Kind = "tie wire"
	RetarderTape   Kind = "retarder tape"
	FormRelease    Kind = "form release"
	KickerStakes   Kind = "kicker stake"
	BoardScabs     Kind = "board scab"
	DuplexNails    Kind = "duplex nail"
	LipBlockOuts   Kind = "lip block-out"
	MarkingString  Kind = "marking string"
	CuringCompound Kind = "curing compound"
	CuringBlankets Kind = "curing blanket"
	Sealer         Kind = "sealer"
	JointSealant   Kind = "joint sealant"
	BackerRod      Kind = "backer rod"
	SillSeal       Kind = "sill seal"
	BarCaps        Kind = "bar cap"
	OverDig        Kind = "over-dig"
	Backfill       Kind = "backfill"
	HaulOff        Kind = "haul-off"
	LooseFill      Kind = "loose fill"

	// Unknown is what a file of an older version named that no job has: it fits
	// nothing, and keeps its name.
	Unknown Kind = "unknown"
)

// kind is what is known of a kind of quantity.
type kind struct {
	group Group
	buy   bool
	noun  string // for people; what follows ";" stands after the attributes
	old   string // the key of files of older versions; attributes followed one that ends with "."
}

var kinds = map[Kind]kind{
	ConcreteNet:      {Concrete, false, "Concrete in place", "concrete.net"},
	ConcreteByLength: {Concrete, false, "Concrete by length times section", "concrete.naive"},
	ConcreteWaste:    {Concrete, false, "Waste", "concrete.waste"},
	ConcreteOrder:    {Concrete, true, "Concrete to order", "concrete.order"},
	ConcreteTrucks:   {Concrete, false, "Trucks", "concrete.trucks"},
	ConcreteToBoard:  {Concrete, false, "Concrete if dug to the form board", "concrete.toboard"},
	ConcreteToDepth:  {Concrete, false, "Concrete if dug to full depth", "concrete.todepth"},
	SlabArea:         {Concrete, false, "Slab area", "slab.area"},
	SlabPerimeter:    {Concrete, false, "Perimeter", "slab.perimeter"},
	Fibers:           {Concrete, true, "Fibers, ASTM C1116", "fiber.weight"},

	CurbConcrete: {Concrete, false, "Concrete in curbs", ""},
	CurbLength:   {Concrete, false, "Curbs, length", ""},

	BlockOuts:    {Concrete, false, "Block-outs round columns", ""},
	BlockOutFill: {Concrete, false, "Concrete in block-outs, poured later", ""},
	FillBags:     {Concrete, true, "Bagged concrete, 80 lb, for block-outs", ""},
	FormTubes:    {Lumber, true, "Form tube", ""},

	MixStrength: {Concrete, true, "Mix;, beyond the base price", "mix."},
	MixAir:      {Concrete, true, "Entrained air", "mix.air"},
	MixReducer:  {Concrete, true, "Water reducer", "mix.reducer"},

	EdgeBarLength:  {Steel, false, "Edge bars, length", "steel.edge.length"},
	EdgeBarWeight:  {Steel, false, "Edge bars, weight", "steel.edge.weight"},
	PadBarLength:   {Steel, false, "Pad bars, length", "steel.pads.length"},
	PadBarWeight:   {Steel, false, "Pad bars, weight", "steel.pads.weight"},
	StripBarLength: {Steel, false, "Strip bars, length", "steel.strips.length"},
	StripBarWeight: {Steel, false, "Strip bars, weight", "steel.strips.weight"},
	CurbBarLength:  {Steel, false, "Curb bars, length", ""},
	CurbBarWeight:  {Steel, false, "Curb bars, weight", ""},
	FieldBarLength: {Steel, false, "Field bars, length", "steel.grid.length"},
	FieldBarWeight: {Steel, false, "Field bars, weight", "steel.grid.weight"},
	BarStock:       {Steel, true, "Bar", "steel.stock."},
	YardBars:       {Steel, false, "Bar;, from the yard", ""},
	BentBars:       {Steel, false, "Bars to bend", "steel.bent"},
	Offcuts:        {Steel, false, "Offcuts for the yard", "steel.offcuts"},
	MeshStock:      {Steel, true, "Mesh", "steel.mesh.sheets"},
	MeshWeight:     {Steel, false, "Mesh, weight", "steel.mesh.weight"},
	Chairs:         {Steel, true, "Chairs", "steel.chairs"},

	DowelHoles:  {Hardware, false, "Holes to drill", "dowels.count"},
	DowelBars:   {Hardware, false, "Dowels;, cut from bar stock", "dowels.bars"},
	SlideDowels: {Hardware, true, "Smooth dowels with sleeves", ""},
	DowelSlots:  {Hardware, false, "Slots to saw for plate dowels", ""},
	PlateDowels: {Hardware, true, "Plate dowels with sleeves", ""},
	Adhesive:    {Hardware, true, "Adhesive for dowels", "dowels.epoxy"},
	AnchorBolts: {Hardware, true, "Anchor bolts", "bolts.count"},
	TiedBolts:   {Hardware, false, "Bolts to hold at their marks before the pour", ""},
	BoltWashers: {Hardware, true, "Washers with nuts", "bolts.washers"},
	HoldDowns:   {Hardware, true, "Hold-down anchors", "bolts.holddowns"},
	Sleeves:     {Hardware, true, "Sleeves", ""},
	StubUps:     {Hardware, true, "Stub-ups", ""},
	FloorDrains: {Hardware, true, "Floor drains", ""},
	PostBases:   {Hardware, true, "Post bases", ""},
	WeldPlates:  {Hardware, true, "Embedded plates", ""},
	DrainLines:  {Hardware, true, "Drain line", ""},
	TrenchDrain: {Hardware, true, "Trench drain", ""},
	Conduits:    {Hardware, true, "Conduit", ""},
	Tubing:      {Hardware, true, "Hydronic tubing", ""},
	Circuits:    {Hardware, true, "Circuits of tubing, connected", ""},
	JointDowels: {Hardware, true, "Smooth dowels of construction joints", ""},
	PlateLength: {Hardware, false, "Sill plates, length", "plates.length"},
	PlatePieces: {Hardware, false, "Sill plates, pieces", "plates.pieces"},
	SillPlates:  {Hardware, true, "Sill plate;, treated", "plates.stock."},

	FormLength: {Lumber, false, "Forms", "forms.length"},
	FormBoards: {Lumber, true, "Form board", "forms.boards."},
	KeyStrip:   {Lumber, true, "Key strip", ""},
	Stakes:     {Lumber, true, "Stakes", "forms.stakes"},
	Kickers:    {Lumber, true, "Kickers", "forms.kickers"},
	Hangers:    {Lumber, true, "Hangers for boards over the slab", ""},

	Digging:       {Ground, false, "Digging, in place", "ground.dig"},
	Filling:       {Ground, false, "Fill under the base, in place", "ground.fill"},
	BaseArea:      {Ground, false, "Base course, area", "base.area"},
	GravelVolume:  {Ground, true, "Gravel, loose", "base.gravel.volume"},
	GravelWeight:  {Ground, false, "Gravel, weight", "base.gravel.tons"},
	FoamArea:      {Ground, false, "Foam, area", "foam.area"},
	FoamStock:     {Ground, true, "Foam", "foam.sheets"},
	RetarderArea:  {Ground, false, "Vapor retarder, area", "retarder.area"},
	RetarderStock: {Ground, true, "Vapor retarder", "retarder.rolls"},
	FrostUpright:  {Ground, false, "Frost insulation upright;, area", ""},
	FrostLying:    {Ground, false, "Frost insulation lying;, area", ""},
	FrostStock:    {Ground, true, "Frost insulation", ""},

	SawCuts:        {Saw, false, "Saw cuts", "joints.length"},
	IsolationStrip: {Saw, true, "Isolation strip", "isolation.length"},

	BarSupports:    {Steel, true, "Supports for edge bars", ""},
	TieWire:        {Steel, true, "Tie wire", ""},
	RetarderTape:   {Ground, true, "Tape for the vapor retarder", ""},
	FormRelease:    {Lumber, true, "Form release", ""},
	KickerStakes:   {Lumber, true, "Stakes for kickers", ""},
	BoardScabs:     {Lumber, true, "Scabs where boards meet", ""},
	DuplexNails:    {Lumber, true, "Duplex nails", ""},
	LipBlockOuts:   {Lumber, true, "Block-outs for door lips", ""},
	MarkingString:  {Lumber, true, "String and paint", ""},
	CuringCompound: {Concrete, true, "Curing compound", ""},
	CuringBlankets: {Concrete, true, "Curing blankets", ""},
	Sealer:         {Concrete, true, "Sealer", ""},
	JointSealant:   {Saw, true, "Joint sealant", ""},
	BackerRod:      {Saw, true, "Backer rod", ""},
	SillSeal:       {Hardware, true, "Sill seal", ""},
	BarCaps:        {Hardware, true, "Caps for bars and bolts", ""},
	OverDig:        {Ground, false, "Digging beside the boards", ""},
	Backfill:       {Ground, false, "Backfill beside the slab", ""},
	HaulOff:        {Ground, false, "Hauling off, loose", ""},
	LooseFill:      {Ground, true, "Fill, loose", ""},

	Unknown: {},
}

// Group gives the heading under which the kind is listed.
func (k Kind) Group() Group { return kinds[k].group }

// Noun gives the name of the kind alone, without how it is measured: "Digging" of
// "Digging, in place".
func (k Kind) Noun() string {
	noun, _, _ := strings.Cut(kinds[k].noun, ";")
	noun, _, _ = strings.Cut(noun, ",")
	return noun
}

// Bought tells whether the kind is a thing to buy; the others explain or serve
// the crew.
func (k Kind) Bought() bool { return kinds[k].buy }

// UnmarshalText reads a kind by its name.
func (k *Kind) UnmarshalText(text []byte) error {
	if _, ok := kinds[Kind(text)]; !ok {
		return fmt.Errorf("found %q, no kind of quantity; the kinds are %s", text, join(Kinds()))
	}
	*k = Kind(text)
	return nil
}

// Choices lists what a kind may be in a file.
func (Kind) Choices() []string {
	names := []string{string(Unknown)}
	for _, k := range Kinds() {
		names = append(names, string(k))
	}
	return names
}

// Kinds lists the kinds that a price list may name, by their names.
func Kinds() []Kind {
	var out []Kind
	for k := range kinds {
		if k != Unknown {
			out = append(out, k)
		}
	}
	slices.Sort(out)
	return out
}

func join(ks []Kind) string {
	text := ""
	for i, k := range ks {
		if i > 0 {
			text += ", "
		}
		text += string(k)
	}
	return text
}
