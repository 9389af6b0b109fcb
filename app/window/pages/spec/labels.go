package spec

import (
	"strings"
	"unicode"
)

// labels says what the fields mean, with their units; fields not here are named
// as in the job file.
var labels = map[string]string{
	"Mix": "Concrete mix", "Mix.Strength": "Strength, psi", "Mix.Slump": "Slump", "Mix.Aggregate": "Aggregate, largest",
	"Mix.Air": "Entrained air, %", "Mix.Fiber": "Fibers, lb/yd³", "Mix.Reducer": "Water reducer (ASTM C494)", "Mix.Notes": "Notes for the plant",
	"Order": "Ordering", "Order.Waste": "Waste, %", "Order.Step": "Plant's step", "Order.Truck": "Truck carries", "Order.Loads": "Loads",
	"Base": "Under the slab", "Base.Under": "Base and foam lie", "Base.Above": "Top above ground", "Base.Gravel": "Gravel, compacted", "Base.Compaction": "Compaction factor", "Base.Density": "Gravel, ton/yd³",
	"Base.Foam": "Foam thickness", "Base.FoamWidth": "Foam sheet width", "Base.FoamLength": "Foam sheet length", "Base.Retarder": "Retarder, mil", "Base.Lap": "Retarder lap",
	"Base.TurnUp": "Retarder turn-up", "Base.RollWidth": "Retarder roll width", "Base.RollLength": "Retarder roll length",
	"Place": "What is placed", "Place.Bars": "Edge bars", "Place.Bars.Size": "Bar number", "Place.Bars.Grade": "Grade, ksi", "Place.Bars.Coated": "Epoxy-coated",
	"Place.Bars.Lap": "Lap", "Place.Bars.Lap.Rule": "Lap rule", "Place.Bars.Lap.Length": "Lap by length", "Place.Bars.Stagger": "Laps apart", "Place.Bars.Corner": "At corners", "Place.Bars.Leg": "Corner leg (0: lap)",
	"Place.Bars.Stock": "Stock lengths", "Place.Bars.Yard": "Offcuts on hand", "Place.Bars.Kerf": "Lost at each cut", "Place.Bars.Joint": "Along the joint", "Place.Bars.Rows": "Bars round the edge",
	"Place.Pads": "Steel in pads", "Place.Pads.Size": "Bar no. (0: none)", "Place.Pads.Spacing": "Spacing, at most", "Place.Pads.Cover": "Cover",
	"Place.Strips": "Steel in thickened strips", "Place.Strips.Size": "Bar number", "Place.Strips.Count": "Bars", "Place.Strips.Cover": "Cover",
	"Place.Field": "Field steel", "Place.Field.Kind": "Kind", "Place.Field.Style": "Mesh style", "Place.Field.Width": "Mesh width", "Place.Field.Length": "Mesh length", "Place.Field.Roll": "Mesh in rolls",
	"Place.Field.Size": "Grid bar number", "Place.Field.Spacing": "Grid spacing, most", "Place.Field.Cover": "Clear of faces", "Place.Field.Depth": "Below top (0: mid)", "Place.Field.Chairs": "Chairs apart",
	"Place.Dowels": "Dowels", "Place.Dowels.Size": "Bar no. (0: none)", "Place.Dowels.Length": "Length", "Place.Dowels.Embed": "In the old slab",
	"Place.Dowels.Spacing": "Spacing, at most", "Place.Dowels.End": "Clear of ends", "Place.Dowels.Doors": "None in a door opening", "Place.Dowels.OldSlab": "Old slab thickness", "Place.Dowels.Clearance": "Hole over bar", "Place.Dowels.Waste": "Adhesive waste, %",
	"Place.Bolts": "Anchor bolts", "Place.Bolts.Diameter": "Diameter", "Place.Bolts.Length": "Bolt length", "Place.Bolts.Projection": "Sticks up", "Place.Bolts.Embed": "In concrete, least",
	"Place.Bolts.Spacing": "Spacing, at most", "Place.Bolts.End": "From plate end", "Place.Bolts.EndMax": "– at most", "Place.Bolts.EndMin": "– at least", "Place.Bolts.Apart": "Any two, at least", "Place.Bolts.Offset": "From face (0: mid)",
	"Place.Bolts.Shape": "Shape", "Place.Bolts.Hook": "Hook", "Place.Bolts.Washer": "Washer", "Place.Bolts.Jamb": "Plate short of jamb", "Place.Bolts.Stock": "Plate stock length", "Place.Bolts.Stud": "Studs (0: ignore)", "Place.Bolts.Shift": "Off a stud by, most",
	"Place.Forms": "Forms", "Place.Forms.Board": "Board (–: by depth)", "Place.Forms.Stock": "Board lengths", "Place.Forms.Rip": "Rip the next wider board to depth", "Place.Forms.Stakes": "Stakes apart, most", "Place.Forms.Kickers": "Kickers apart",
	"Place.SawCuts": "Saw cuts", "Place.SawCuts.Ratio": "Spacing ÷ thickness", "Place.SawCuts.Spacing": "Spacing, at most", "Place.SawCuts.Aspect": "Panel, long ÷ short", "Place.SawCuts.Early": "Early-entry saw",
	"Place.StakeOut": "Stake-out", "Place.StakeOut.Offset": "Strings beyond", "Place.StakeOut.Benchmark": "Top over benchmark",
}

func labelOf(name string) string {
	if l, ok := labels[name]; ok {
		return l
	}
	name = name[strings.LastIndex(name, ".")+1:]
	var b strings.Builder
	for i, r := range name {
		if i > 0 && unicode.IsUpper(r) {
			b.WriteByte(' ')
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}
