package drawing

// Style names how something is drawn, by what it is: whoever renders gives each
// its color, and a Pens its weight and dashes.
type Style uint8

// The styles.
const (
	NoLine Style = iota
	EdgeLine
	JointEdge // of the slab that meets another
	JointLine // the other's side
	JointHatch
	NeighborLine // of a slab beside the one that is drawn
	BendLine
	ContourLine
	PadLine
	PadAxis
	BlockOutLine
	CurbLine // the inner face of a curb, and its ends
	WallLine
	PlateLine
	JambLine
	SillLine // of an opening
	LipLine
	BarLine
	BarEnd
	BentLine // a bar drawn for its shape
	WireLine
	MeshLine
	FoamLine
	FoamAxis
	FrostLine // insulation of an edge, from above
	RetarderLine
	SawLine
	IsolationLine
	FormLine
	StakeLine
	KickerLine
	StringLine
	TapeLine   // of a diagonal
	SquareLine // legs of a 3-4-5 check
	BoltLine
	EmbedLine
	PipeLine         // the middle of a drain line, of conduit, of tubing
	ConstructionLine // between two pours
	DowelLine
	FallLine   // as the user drew it
	FallArrow  // down the top
	CreaseLine // where two falls meet
	LaneLine
	BayLine
	ReachLine
	PadMark // of a wet pad
	DimLine
	ExtLine // from a dimension to what it measures
	TickLine
	LeaderLine
	FrameLine // round a label
	SurveyLine
	CutLine  // concrete that is cut
	RuleLine // thin and full: boards, details
	HatchLine
	SlabFill
	DepthFill // by Ink.Shade from the field's to the deepest
	MeshFill
	RetarderFill
	ConcreteFill
	SteelFill
	WoodFill
	OwnFill // of the slab that a key plan speaks of
	PlateFill
	InkFill
	HeightText
	DepthText
	NoteText
	styleCount
)

// Pen is how a line is drawn: weight and dashes in millimeters on paper.
type Pen struct {
	Width float64
	Dash  []float64 // dash, gap, dash, gap; nil for a full line
	Hard  bool      // text keeps off it; else it is broken under text
}

// Pens gives each style its pen.
type Pens [styleCount]Pen

// Paper are the pens of printed sheets, told apart by weight and dash.
var Paper = Pens{
	EdgeLine: {0.7, nil, true}, JointEdge: {0.9, []float64{6, 1.4, 1.4, 1.4}, true}, JointHatch: {0.13, nil, false},
	NeighborLine: {0.25, []float64{8, 1.5, 1.5, 1.5, 1.5, 1.5}, false},
	BendLine:     {0.22, []float64{2, 1.2}, false}, ContourLine: {0.13, []float64{0.6, 0.8}, false},
	PadLine: {0.3, []float64{2, 1}, false}, PadAxis: {0.13, []float64{4, 1.2, 1, 1.2}, false}, BlockOutLine: {0.5, nil, true}, CurbLine: {0.35, nil, false},
	WallLine: {0.2, nil, false}, PlateLine: {0.2, nil, false},
	JambLine: {0.5, nil, true}, SillLine: {0.25, []float64{1, 0.8}, false}, LipLine: {0.2, nil, false},
	BarLine: {0.4, nil, false}, BarEnd: {0.3, nil, false}, BentLine: {0.8, nil, true}, WireLine: {0.1, nil, false}, MeshLine: {0.2, []float64{4, 1}, false},
	FoamLine: {0.2, nil, false}, FoamAxis: {0.1, nil, false}, FrostLine: {0.2, []float64{2.5, 0.9}, false}, RetarderLine: {0.2, []float64{4, 1}, false},
	SawLine: {0.3, []float64{5, 1.5, 1, 1.5}, false}, IsolationLine: {0.9, []float64{0.8, 0.6}, false},
	FormLine: {0.2, nil, true}, StakeLine: {0.5, nil, true}, KickerLine: {0.2, nil, true},
	StringLine: {0.15, []float64{3, 1}, false}, TapeLine: {0.13, []float64{3, 2}, false}, SquareLine: {0.2, nil, false},
	BoltLine: {0.35, nil, true}, EmbedLine: {0.35, nil, true}, PipeLine: {0.25, []float64{5, 1, 2, 1}, false}, ConstructionLine: {0.7, []float64{7, 1.5, 1.5, 1.5, 1.5, 1.5}, true}, DowelLine: {0.45, nil, true}, FallLine: {0.3, []float64{3, 1.5}, false},
	FallArrow: {0.4, nil, false}, CreaseLine: {0.25, []float64{4, 1, 1, 1}, false},
	LaneLine: {0.4, nil, false}, BayLine: {0.25, []float64{1.8, 1.2}, false}, ReachLine: {0.2, []float64{1.2, 1.2}, false},
	PadMark: {0.35, nil, true},
	DimLine: {0.18, nil, true}, ExtLine: {0.18, nil, true}, TickLine: {0.4, nil, true},
	LeaderLine: {0.15, nil, true}, FrameLine: {0.2, nil, true}, SurveyLine: {0.25, nil, true},
	CutLine: {0.5, nil, true}, RuleLine: {0.2, nil, true}, HatchLine: {0.13, nil, false}, SteelFill: {0, nil, true},
}

// Type is a size and weight of text.
type Type uint8

// The types. Bold is added to one of the others.
const (
	Fine Type = iota
	Small
	Body
	Head
	Title
	Bold Type = 8
)

// Points gives the size of text on paper, in points. Nothing that the crew reads
// is under 7.5.
func (t Type) Points() float64 { return [...]float64{7.5, 8.5, 9.5, 11, 15}[t&7] }

// IsBold tells whether the text is heavy.
func (t Type) IsBold() bool { return t&Bold != 0 }

// Fonts measures text, in units of the sheet.
type Fonts interface {
	// Size gives how wide a text is, and how far it reaches above and below its
	// base line.
	Size(text string, t Type) (width, above, below float64)
	// Leading gives how far base lines are apart.
	Leading(t Type) float64
}

// Remember gives fonts that measure each text once, for use from one goroutine.
func Remember(f Fonts) Fonts { return &remembered{Fonts: f, known: map[measured]size{}} }

type remembered struct {
	Fonts
	known map[measured]size
}

type measured struct {
	text string
	t    Type
}

type size struct{ width, above, below float64 }

// mostRemembered bounds what is kept; past it, it starts anew.
const mostRemembered = 1 << 15

func (r *remembered) Size(text string, t Type) (width, above, below float64) {
	k := measured{text, t}
	s, ok := r.known[k]
	if !ok {
		s.width, s.above, s.below = r.Fonts.Size(text, t)
		if len(r.known) >= mostRemembered {
			clear(r.known)
		}
		r.known[k] = s
	}
	return s.width, s.above, s.below
}

// Manner is how a drawing is set: on paper, or on a screen. Distances are
// millimeters on paper.
type Manner struct {
	Plates  bool // text stands on a plate that hides what lies under it: no line is broken
	Quarter bool // text is level or turned by a quarter
	OnLine  bool // a measure stands on its line, not over it
	Thin    bool // what finds no room is left out, for zooming in brings it back

	First, Step float64 // of dimension strings from what they measure, and from each other
	Try         float64 // step of the search for a free place
	Near, Far   float64 // how far a string goes before the other side is tried, and at all
	Gap, Past   float64 // of an extension line at its two ends
	Clear       float64 // round text
	Apart       float64 // of a label from what is there, besides that one's own margin
	ClearLine   float64 // round lines
	Tick        float64 // half of the stroke that ends a measure, each way
}

// OnPaper is the manner of printed sheets.
var OnPaper = Manner{
	First: 9, Step: 6.5, Try: 3.25, Near: 38, Far: 120, Gap: 1.5, Past: 1.4, Clear: 0.5, Apart: 0.5, ClearLine: 0.35, Tick: 0.85,
}

// OnDetail is the manner of sections and other details: its strings stand close.
var OnDetail = Manner{
	First: 4, Step: 6, Try: 1.5, Near: 17, Far: 26, Gap: 1, Past: 1.2, Clear: 0.4, Apart: 0.2, ClearLine: 0.25, Tick: 0.85,
}

// Canvas is where a placed drawing is rendered: a page, a picture, a file. Places
// are in units of the sheet.
type Canvas interface {
	// Stroke draws a chain of lines; the slice holds until the next call.
	Stroke(k Ink, pts []Vec, closed bool)
	// Fill fills rings by the even-odd rule; the slices hold until the next call.
	Fill(k Ink, rings [][]Vec)
	// Circle draws a circle, or a disc.
	Circle(k Ink, at Vec, radius float64, full bool)
	// Text writes one line.
	Text(w Word)
}

// Ink is how one thing is drawn.
type Ink struct {
	Layer Layer
	Style Style
	Quiet bool    // fainter than the rest: of a slab beside the one that is worked on
	Shade float32 // of DepthFill, from 0 to 1; of a line, how much fainter it is, and full
	Width float64 // of a stroke that is wider in truth than its pen, units of the sheet; 0 for the pen's
	Bow   float64 // of a stroke whose points are chords of one arc: the tangent of a quarter of its sweep, left positive; 0 of any other
}

// Word is one line of text in its place.
type Word struct {
	Ink
	Text    string
	Type    Type
	At      Vec     // left end of its base line
	Along   Vec     // unit vector of its base line
	Width   float64 // how long it is
	Above   float64 // how far it reaches above its base line
	Below   float64 // and below
	Inverse bool    // light on a dark ground
	Key     int     // of the measure that it writes, as its Dimension has it
}

// Box gives the room that the text takes.
func (w *Word) Box() Box {
	mid := w.At.Toward(w.Along, w.Width/2).Toward(w.Along.Left(), (w.Above-w.Below)/2)
	return Box{mid, w.Along, w.Width / 2, (w.Above + w.Below) / 2}
}
