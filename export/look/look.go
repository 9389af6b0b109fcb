// Package look is how drawings look on paper, in print and in files: the typeface
// with its measures, and the color of each style. Whoever writes a drawing for
// paper takes both from here, so that all of them are alike.
package look

import (
	"image/color"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"haunchbook.example/assets/fonts"
	"haunchbook.example/geometry/drawing"
)

// The typeface's metrics in ems, from its own tables.
const (
	CapHeight = 0.76 // round letters overshoot the flat ones' 0.729
	Descent   = 0.24
)

// MMPerPoint is how long a point is, in millimeters.
const MMPerPoint = 25.4 / 72

// Fonts measures the typeface in millimeters. It may be used from several
// goroutines at once.
type Fonts struct{}

// Size implements drawing.Fonts.
func (Fonts) Size(text string, t drawing.Type) (width, above, below float64) {
	em := t.Points() * MMPerPoint
	return Width(text, t.Points(), t.IsBold()), CapHeight * em, Below(text) * em
}

// Leading implements drawing.Fonts.
func (Fonts) Leading(t drawing.Type) float64 { return t.Points() * MMPerPoint * 1.28 }

// Below gives how far the ink of a text goes below its base line, in ems.
func Below(text string) float64 {
	switch {
	case strings.ContainsAny(text, "gjpqyQ()[]|_"):
		return Descent
	case strings.ContainsAny(text, ",;/Ø"):
		return 0.14
	}
	return 0.03
}

// Width gives the width of a text of a size in points, in millimeters: the sum of
// its letters', since sheets are set without kerning and ligatures.
func Width(text string, points float64, bold bool) float64 {
	known, w := &latin()[0], 0.0
	if bold {
		known = &latin()[1]
	}
	for _, r := range text {
		if int(r) < len(known) {
			w += known[r]
		} else {
			w += advance(r, bold)
		}
	}
	return w * points * MMPerPoint
}

// advances remembers the widths of letters outside Latin-1, in ems.
var advances [2]sync.Map

// latin is the widths of the letters of Latin-1, regular and bold.
var latin = sync.OnceValue(func() *[2][256]float64 {
	out := &[2][256]float64{}
	for r := range rune(256) {
		out[0][r], out[1][r] = measured(r, 0), measured(r, 1)
	}
	return out
})

func advance(r rune, bold bool) float64 {
	k := 0
	if bold {
		k = 1
	}
	if w, ok := advances[k].Load(r); ok {
		return w.(float64)
	}
	w := measured(r, k)
	advances[k].Store(r, w)
	return w
}

// measured looks up the width of a letter in the typeface.
func measured(r rune, face int) float64 {
	f := faces()[face]
	const em = 2048 // pixels, so that nothing is rounded
	var b sfnt.Buffer
	if g, err := f.GlyphIndex(&b, r); err == nil {
		if a, err := f.GlyphAdvance(&b, g, fixed.I(em), font.HintingNone); err == nil {
			return float64(a) / 64 / em
		}
	}
	return 0
}

var faces = sync.OnceValue(func() (out [2]*sfnt.Font) {
	for i, data := range [2][]byte{fonts.Regular, fonts.Bold} {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic("look: embedded font: " + err.Error())
		}
		out[i] = f
	}
	return out
})

// The inks are dark enough to print black on a one-color printer, and told apart
// by weight and dash as well as by hue.
var (
	Black = color.RGBA{0x11, 0x11, 0x11, 0xff}
	Gray  = color.RGBA{0x55, 0x55, 0x55, 0xff}
	Blue  = color.RGBA{0x17, 0x3f, 0x73, 0xff}
	Red   = color.RGBA{0x9a, 0x20, 0x1a, 0xff}
	Pale  = color.RGBA{0xee, 0xee, 0xec, 0xff}
	Paler = color.RGBA{0xf6, 0xf6, 0xf4, 0xff}
	White = color.RGBA{0xff, 0xff, 0xff, 0xff}
)

// Color gives the color of what is drawn.
func Color(k drawing.Ink) color.RGBA {
	switch k.Style {
	case drawing.NeighborLine, drawing.BendLine, drawing.ContourLine, drawing.PadAxis, drawing.PlateLine, drawing.WallLine, drawing.TapeLine, drawing.HatchLine, drawing.JointHatch, drawing.ReachLine, drawing.CreaseLine:
		return Gray
	case drawing.DimLine, drawing.ExtLine, drawing.TickLine, drawing.StringLine, drawing.MeshLine, drawing.WireLine, drawing.FoamLine, drawing.FoamAxis, drawing.FrostLine, drawing.RetarderLine, drawing.LaneLine, drawing.BayLine:
		return Blue
	case drawing.BarLine, drawing.BarEnd, drawing.BentLine, drawing.BoltLine, drawing.EmbedLine, drawing.PipeLine, drawing.DowelLine, drawing.SteelFill:
		return Red
	case drawing.SlabFill, drawing.MeshFill, drawing.RetarderFill:
		return Paler
	case drawing.ConcreteFill:
		return Pale
	case drawing.WoodFill, drawing.PlateFill:
		return White
	case drawing.DepthFill:
		v := uint8(0xf6 - 0x38*k.Shade)
		return color.RGBA{v, v, v, 0xff}
	case drawing.OwnFill:
		return Gray
	}
	return Black
}
