package exchange

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/cutlist"
)

// Positions of what is placed, in takeoff.json: all lengths are numbers, in inches
// or millimeters as `lengthunit` says, depths from the top of the slab.
type (
	placedFile struct {
		Name     string             `json:"name"`
		Bars     []barFile          `json:"bars"`
		Dowels   []dowelFile        `json:"dowels"`
		Embeds   []embedFile        `json:"embeds"`
		Laid     []laidFile         `json:"lines"`
		Joints   []constructionFile `json:"construction"`
		Pours    []partFile         `json:"parts"`
		Meetings []meetingFile      `json:"meetings"`
		Walls    []wallFile         `json:"walls"`
		Forms    []formFile         `json:"forms"`
		SawCuts  []sawCutFile       `json:"sawcuts"`
		Lines    []lineToFile       `json:"stringlines"`
		Mesh     []ringFile         `json:"mesh"`
		Foam     []ringFile         `json:"foam"`
		Retarder []ringFile         `json:"retarder"`
		Frost    *frostFile         `json:"frost,omitempty"`
		Outs     []outFile          `json:"blockouts,omitempty"`
		Curbs    *curbsFile         `json:"curbs,omitempty"`
	}
	curbsFile struct { // on the edges
		Volume float64        `json:"volume"`          // in the unit of concrete
		Level  bool           `json:"level,omitempty"` // their tops, over a top that falls: heights are over its highest place
		Runs   []curbFile     `json:"runs"`
		Levels []curbRingFile `json:"levels"` // from the highest down, each within the next
		Faces  []curbFaceFile `json:"faces"`  // within the slab, the curb on their left
	}
	curbFile struct {
		Loop   int     `json:"loop"`
		Edge   int     `json:"edge"`
		From   float64 `json:"from"`
		To     float64 `json:"to"`
		Height float64 `json:"height"`
		Width  float64 `json:"width"`
	}
	curbRingFile struct {
		Height float64    `json:"height"`
		Rings  []ringFile `json:"rings"`
	}
	curbFaceFile struct {
		Edge int       `json:"edge"`
		A    pointFile `json:"a"`
		B    pointFile `json:"b"`
		End  bool      `json:"end,omitempty"` // across, at a door
	}
	outFile struct { // left open round a column
		Pad   string    `json:"pad"`
		Shape string    `json:"shape"`
		At    pointFile `json:"at"`
		Size  float64   `json:"size"`
		Ring  ringFile  `json:"ring"` // a round one's touches the circle
	}
	frostFile struct { // insulation of the edges, from above
		Upright []ringFile `json:"upright"`
		Lying   []ringFile `json:"lying"`
	}
	pointFile [2]float64
	ringFile  []pointFile
	barFile   struct {
		Mark   string      `json:"mark"`
		Size   bars.Size   `json:"size"`
		Row    string      `json:"row"`
		Path   []pointFile `json:"path"`   // along its center line, bends as corners
		Depths []float64   `json:"depths"` // of its center at each point of the path
		Cut    float64     `json:"cut"`
		Runs   []runFile   `json:"runs"` // its straights that lie along edges
	}
	runFile struct {
		Loop  int     `json:"loop"`
		Edge  int     `json:"edge"`
		From  float64 `json:"from"`
		To    float64 `json:"to"`
		Inset float64 `json:"inset"` // of its center from the face
		Depth float64 `json:"depth"`
	}
	dowelFile struct {
		Number int       `json:"number"`
		Edge   int       `json:"edge"`
		Along  float64   `json:"along"`
		At     pointFile `json:"at"`
		Outer  pointFile `json:"outer"`
		Inner  pointFile `json:"inner"`
		Depth  float64   `json:"depth"`
	}
	embedFile struct {
		Mark   string    `json:"mark"`
		Kind   string    `json:"kind"`
		Name   string    `json:"name"`
		At     pointFile `json:"at"`
		Width  float64   `json:"width"`
		Length float64   `json:"length"` // 0 of a round one
		Turn   float64   `json:"turn"`   // degrees, counter-clockwise
		Deep   float64   `json:"deep"`   // below the top; 0 for right through
	}
	laidFile struct {
		Mark     string     `json:"mark"`
		Kind     string     `json:"kind"`
		Name     string     `json:"name"`
		Diameter float64    `json:"diameter"`
		Cover    float64    `json:"cover"`
		Runs     []ringFile `json:"runs"`   // along its middle; of tubing one for each circuit
		Length   float64    `json:"length"` // to buy
	}
	constructionFile struct {
		Mark   string      `json:"mark"`
		Kind   string      `json:"kind"`
		Name   string      `json:"name"`
		Lines  []ringFile  `json:"lines"` // from end to end, the side that is poured first on the left
		Length float64     `json:"length"`
		Dowels []ringFile  `json:"dowels"`        // from end to end
		Bar    *[3]float64 `json:"bar,omitempty"` // diameter, length and greatest spacing of the dowels
	}
	partFile struct {
		Day   int        `json:"day"` // of the pour, from 1
		Rings []ringFile `json:"rings"`
	}
	meetingFile struct { // a stretch of an edge that lies against another slab of the job
		Loop    int     `json:"loop"`
		Edge    int     `json:"edge"`
		From    float64 `json:"from"`
		To      float64 `json:"to"`
		Other   int     `json:"other"` // from 1, among the slabs here
		Later   bool    `json:"later"` // this one is poured against the other
		Doweled bool    `json:"doweled"`
		Marked  bool    `json:"marked"` // as a joint with what is there
	}
	wallFile struct {
		Name   string      `json:"name"`
		Loop   int         `json:"loop"` // 0 the outline, from 1 the holes; -1 of a wall along a line of its own
		Edge   int         `json:"edge"` // from 1; 0 of a wall along a line of its own
		From   pointFile   `json:"from"` // the line that its plate lies left of
		To     pointFile   `json:"to"`
		Offset float64     `json:"offset"` // of its bolts from that line
		Plate  string      `json:"plate"`
		Length float64     `json:"length"`
		Pieces []plateFile `json:"pieces"`
		Bolts  []boltFile  `json:"bolts"`
	}
	plateFile struct {
		From    float64  `json:"from"`
		To      float64  `json:"to"`
		Outline ringFile `json:"outline"`
	}
	boltFile struct {
		Mark     string    `json:"mark"`
		Along    float64   `json:"along"`
		At       pointFile `json:"at"`
		Builder  bool      `json:"builder,omitempty"`
		HoldDown bool      `json:"holddown,omitempty"`
		Rise     float64   `json:"rise,omitempty"` // of the curb that it stands in over the slab's top
	}
	formFile struct {
		Mark    string    `json:"mark"`
		Loop    int       `json:"loop"`
		Edge    int       `json:"edge"`
		Of      string    `json:"of,omitempty"`    // of an edge, besides the edge itself: "curb, inner face"
		Up      float64   `json:"up,omitempty"`    // of a curb's boards: their bottom above the slab's top
		Fall    float64   `json:"fall,omitempty"`  // how much lower the concrete stands at its end than at its start, where a curb's top is level
		Joint   string    `json:"joint,omitempty"` // of a bulkhead, or the pad that a block-out is round: these have no edge
		Board   string    `json:"board"`
		Depth   float64   `json:"depth"`
		Length  float64   `json:"length"`
		Boards  []float64 `json:"boards"`
		Stakes  []float64 `json:"stakes"`
		Kickers []float64 `json:"kickers"`

		Hangers   []float64  `json:"hangers,omitempty"`
		BoardsAt  []ringFile `json:"boardsat"`  // from above
		StakesAt  ringFile   `json:"stakesat"`  // at the boards' outer face
		KickersAt ringFile   `json:"kickersat"` // likewise
	}
	sawCutFile struct {
		Mark  string    `json:"mark"`
		A     pointFile `json:"a"`
		B     pointFile `json:"b"`
		Depth float64   `json:"depth"`
		Why   string    `json:"why"`
	}
	lineToFile struct {
		Edge int       `json:"edge"`
		A    pointFile `json:"a"`
		B    pointFile `json:"b"`
	}
	stockFile struct {
		Name    string      `json:"name"`
		Bought  float64     `json:"bought"`
		Bound   float64     `json:"bound"` // proven: no cutting buys less
		Optimal bool        `json:"optimal"`
		Stock   []stickFile `json:"stock"`
	}
	stickFile struct {
		Name   string      `json:"name"`
		Length float64     `json:"length"`
		Yard   bool        `json:"yard,omitempty"`
		Pieces []pieceFile `json:"pieces"`
	}
	pieceFile struct {
		Mark   string  `json:"mark"`
		Length float64 `json:"length"`
	}
)

// unitOf gives the unit of the lengths and its name.
func unitOf(j job.Job) (geometry.Length, string) {
	if j.Units == geometry.Millimeters {
		return geometry.Millimeter, "mm"
	}
	return geometry.Inch, "in"
}

// placed gives the positions of everything on each slab.
func placed(j job.Job, t takeoff.Takeoff) []placedFile {
	unit, _ := unitOf(j)
	n := func(l geometry.Length) float64 { return float64(l) / float64(unit) }
	at := func(p geometry.Point) pointFile { return pointFile{n(p.X), n(p.Y)} }
	all := func(ls []geometry.Length) []float64 {
		out := make([]float64, len(ls))
		for i, l := range ls {
			out[i] = n(l)
		}
		return out
	}
	ring := func(ps []geometry.Point) ringFile {
		out := make(ringFile, len(ps))
		for i, p := range ps {
			out[i] = at(p)
		}
		return out
	}
	cover := func(sheets []cover.Sheet) []ringFile {
		out := []ringFile{}
		for _, s := range sheets {
			out = append(out, ring(s.Corners[:]))
		}
		return out
	}
	var out []placedFile
	for _, s := range t.Slabs {
		f := placedFile{Name: s.Name, Bars: []barFile{}, Dowels: []dowelFile{}, Embeds: []embedFile{}, Laid: []laidFile{}, Joints: []constructionFile{}, Pours: []partFile{}, Meetings: []meetingFile{}, Walls: []wallFile{}, Forms: []formFile{}, SawCuts: []sawCutFile{}, Lines: []lineToFile{},
			Mesh: cover(s.Layout.Mesh), Foam: cover(s.Foam.Sheets), Retarder: cover(s.Retarder.Sheets)}
		for _, b := range s.Layout.Bars {
			depths := all(b.Depths)
			if b.Depths == nil {
				depths = make([]float64, len(b.Path))
				for i := range depths {
					depths[i] = n(b.Depth)
				}
			}
			runs := []runFile{}
			if b.Of.Kind == bars.EdgeRow {
				for _, r := range b.Along(s.Plan) {
					runs = append(runs, runFile{r.Loop, r.Edge + 1, n(r.From), n(r.To), n(r.Inset), n(r.Depth)})
				}
			}
			f.Bars = append(f.Bars, barFile{b.Mark.String(), b.Size, b.Of.Text(s.Plan, s.Layout.Marks), ring(b.Path), depths, n(b.Cut), runs})
		}
		for _, d := range s.Layout.Dowels {
			f.Dowels = append(f.Dowels, dowelFile{d.Number, d.Edge + 1, n(d.Along), at(d.At), at(d.Outer), at(d.Inner), n(d.Depth)})
		}
		for i, e := range s.Plan.Embeds {
			f.Embeds = append(f.Embeds, embedFile{s.Layout.Marks.Embed(i).String(), e.Kind.String(), e.Name, at(e.Center), n(e.Width), n(e.Length), e.Turn, n(e.Deep)})
		}
		for _, l := range s.Layout.LaidLines {
			drawn := s.Plan.Lines[l.Index]
			one := laidFile{s.Layout.Marks.Line(l.Index).String(), l.Kind.String(), drawn.Name, n(drawn.Diameter), n(drawn.Cover), []ringFile{}, n(l.Length)}
			for _, run := range l.Runs {
				one.Runs = append(one.Runs, ring(run))
			}
			f.Laid = append(f.Laid, one)
		}
		for _, j := range s.Layout.Construction {
			c := s.Plan.Construction[j.Index]
			joint := constructionFile{Mark: s.Layout.Marks.Construction(j.Index).String(), Kind: c.Kind.String(), Name: c.Name, Lines: []ringFile{}, Length: n(j.Length), Dowels: []ringFile{}}
			for _, l := range j.Lines {
				joint.Lines = append(joint.Lines, ringFile{at(l.A), at(l.B)})
			}
			for _, d := range j.Dowels {
				joint.Dowels = append(joint.Dowels, ringFile{at(d.A), at(d.B)})
			}
			if len(j.Dowels) > 0 {
				joint.Bar = &[3]float64{n(j.Bar.Diameter), n(j.Bar.Length), n(j.Bar.Spacing)}
			}
			f.Joints = append(f.Joints, joint)
		}
		for _, p := range s.Layout.Parts {
			part := partFile{Day: p.Day}
			for _, r := range p.Region {
				part.Rings = append(part.Rings, ring(r))
			}
			f.Pours = append(f.Pours, part)
		}
		for _, m := range s.Layout.Meetings {
			f.Meetings = append(f.Meetings, meetingFile{m.Loop, m.Edge + 1, n(m.From), n(m.To), m.Other + 1, m.Later, m.Doweled, m.Marked})
		}
		for _, w := range s.Layout.Walls {
			wall := wallFile{Name: w.Name(), Loop: w.Loop, Edge: w.Edge + 1, From: at(w.Side.At(0, 0)), To: at(w.Side.At(w.Length, 0)), Offset: n(w.Offset), Plate: w.Plate.Name, Length: n(w.Length), Pieces: []plateFile{}, Bolts: []boltFile{}}
			for _, p := range w.Pieces {
				wall.Pieces = append(wall.Pieces, plateFile{n(p.From), n(p.To), ring(p.Outline)})
			}
			for _, b := range w.Bolts {
				wall.Bolts = append(wall.Bolts, boltFile{b.Mark.String(), n(b.Along), at(b.At), b.Builder, b.HoldDown, n(b.Rise)})
			}
			f.Walls = append(f.Walls, wall)
		}
		for _, m := range s.Layout.Forms {
			p := m.Place()
			joint := ""
			if m.Loop < 0 {
				joint = m.Side(s.Layout.Marks)
			}
			boards := []ringFile{}
			for _, b := range p.Boards {
				boards = append(boards, ring(b[:]))
			}
			f.Forms = append(f.Forms, formFile{m.Mark.String(), m.Loop, m.Edge + 1, m.Of(), n(m.Up), n(m.Fall), joint, m.Board.Name, n(m.Depth), n(m.Length), all(m.Boards), all(m.Stakes), all(m.Kickers), all(m.Hangers), boards, ring(p.Stakes), ring(p.Kickers)})
		}
		for _, c := range s.Layout.SawCuts {
			f.SawCuts = append(f.SawCuts, sawCutFile{c.Mark.String(), at(c.A), at(c.B), n(c.Depth), c.Why.String()})
		}
		for _, l := range s.Layout.Lines {
			f.Lines = append(f.Lines, lineToFile{l.Edge + 1, at(l.A), at(l.B)})
		}
		for _, o := range s.Layout.Outs {
			f.Outs = append(f.Outs, outFile{s.Layout.Marks.Pad(o.Pad).String(), o.Shape.String(), at(o.Center), n(o.Size), ring(o.Ring())})
		}
		if c := s.Layout.Curbs; !c.None() {
			f.Curbs = &curbsFile{Volume: c.Volume / takeoff.ConcreteUnit(j.Units).SI(), Level: c.Level(), Faces: []curbFaceFile{}}
			for _, r := range c.Runs {
				f.Curbs.Runs = append(f.Curbs.Runs, curbFile{r.Loop, r.Edge + 1, n(r.From), n(r.To), n(r.Height), n(r.Width)})
			}
			for _, l := range c.Levels {
				level := curbRingFile{Height: n(l.Height)}
				for _, r := range l.Region {
					level.Rings = append(level.Rings, ring(r))
				}
				f.Curbs.Levels = append(f.Curbs.Levels, level)
			}
			for _, face := range c.Faces {
				f.Curbs.Faces = append(f.Curbs.Faces, curbFaceFile{c.Runs[face.Run].Edge + 1, at(face.A), at(face.B), face.End})
			}
		}
		if len(s.Frost.Upright) > 0 {
			f.Frost = &frostFile{Upright: []ringFile{}, Lying: []ringFile{}}
			for _, r := range s.Frost.Upright {
				f.Frost.Upright = append(f.Frost.Upright, ring(r))
			}
			for _, r := range s.Frost.Lying {
				f.Frost.Lying = append(f.Frost.Lying, ring(r))
			}
		}
		out = append(out, f)
	}
	return out
}

// cutting gives how bars, boards and plates are cut from stock.
func cutting(j job.Job, t takeoff.Takeoff) []stockFile {
	unit, _ := unitOf(j)
	n := func(l geometry.Length) float64 { return float64(l) / float64(unit) }
	var out []stockFile
	for _, c := range []struct {
		name string
		list cutlist.List
	}{{"bars", t.Lists.Cuts}, {"boards", t.Lists.Lumber}, {"plates", t.Lists.Plates}} {
		f := stockFile{Name: c.name, Bought: n(c.list.Bought), Bound: n(c.list.Bound), Optimal: c.list.Optimal, Stock: []stickFile{}}
		for _, s := range c.list.Stock {
			stick := stickFile{s.Name, n(s.Length), s.Yard, []pieceFile{}}
			for _, p := range s.Pieces {
				stick.Pieces = append(stick.Pieces, pieceFile{p.Mark.String(), n(p.Length)})
			}
			f.Stock = append(f.Stock, stick)
		}
		out = append(out, f)
	}
	return out
}
