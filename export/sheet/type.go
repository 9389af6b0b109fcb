package sheet

import (
	"image/color"
	"math"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/tdewolff/canvas"

	"haunchbook.example/assets/fonts"
	"haunchbook.example/export/look"
)

// Sizes of text in points. Nothing that the crew reads is under 7.5.
const (
	sizeFine  = 7.5
	sizeSmall = 8.5
	sizeBody  = 9.5
	sizeHead  = 11
	sizeTitle = 15
)

const (
	mmPerPoint = look.MMPerPoint
	capHeight  = look.CapHeight
	descent    = look.Descent
)

var typeface = sync.OnceValues(func() (regular, bold *canvas.Font) {
	load := func(data []byte, style canvas.FontStyle) *canvas.Font {
		f, err := canvas.LoadFont(data, 0, style)
		if err != nil {
			panic("sheet: embedded font: " + err.Error())
		}
		// A joined "fi" cannot be searched for; without kerning the width of
		// a text is the sum of its characters' widths.
		f.SetFeatures("-liga,-kern")
		return f
	}
	return load(fonts.Regular, canvas.FontRegular), load(fonts.Bold, canvas.FontBold)
})

func face(size float64, bold bool, c color.RGBA) *canvas.FontFace {
	regular, heavy := typeface()
	f := regular
	if bold {
		f = heavy
	}
	return f.Face(size, c)
}

// textWidth gives the width of s in millimeters.
func textWidth(s string, size float64, bold bool) float64 { return look.Width(s, size, bold) }

// width gives how wide t is, in millimeters.
func (t Text) Width() float64 { return textWidth(t.Text, t.Size, t.Bold) }

// box gives the rectangle that t's ink may cover.
func (t Text) box() box {
	em := t.Size * mmPerPoint
	low := t.low()
	sin, cos := math.Sincos(t.Turn)
	u := Point{X: cos, Y: sin}
	return box{Mid: t.At.Toward(u, t.Width()/2).Toward(u.Left(), (capHeight*em-low)/2), Along: u, L: t.Width() / 2, H: (capHeight*em + low) / 2}
}

// low gives how far t's ink goes below the base line, in millimeters.
func (t Text) low() float64 { return look.Below(t.Text) * t.Size * mmPerPoint }

// wrap breaks s into lines no wider than width. A word wider than that stands
// alone and is cut. The lines are remembered, for a list is measured again whenever part
// of it found a place, and are nobody's to change.
func wrap(s string, width, size float64, bold bool) []string {
	key := wrapping{s, width, size, bold}
	if lines, ok := wrapped.Load(key); ok {
		return lines.([]string)
	}
	if wrappings.Add(1)%mostWrapped == 0 {
		wrapped.Clear()
	}
	lines := newWrap(s, width, size, bold)
	wrapped.Store(key, lines)
	return lines
}

// wrapping is a text and how it is broken.
type wrapping struct {
	text        string
	width, size float64
	bold        bool
}

// mostWrapped bounds how many texts are remembered with their lines.
const mostWrapped = 1 << 15

var (
	wrapped   sync.Map
	wrappings atomic.Int64
)

func newWrap(s string, width, size float64, bold bool) []string {
	var lines []string
	space := textWidth(" ", size, bold)
	for _, para := range strings.Split(s, "\n") {
		var line strings.Builder
		long := 0.0
		for _, word := range words(para) {
			wide := textWidth(word, size, bold)
			if wide > width {
				word = shorten(word, width, size, bold)
				wide = textWidth(word, size, bold)
			}
			switch {
			case line.Len() == 0:
			case long+space+wide > width:
				lines = append(lines, line.String())
				line.Reset()
				long = 0
			default:
				line.WriteByte(' ')
				long += space
			}
			line.WriteString(word)
			long += wide
		}
		lines = append(lines, line.String())
	}
	return lines
}

// fraction is the part of an inch after whole inches: 1/4", 15/16.
var fraction = regexp.MustCompile(`^[0-9]+/[0-9]+\b`)

// words parts a text where a line may end: between words, but not between a number and
// its unit or its fraction, nor after "No.".
func words(s string) []string {
	all := strings.Fields(s)
	out := all[:0]
	for i, w := range all {
		_, unit := units[strings.TrimRight(w, ".,;:)")]
		last := ""
		if i > 0 {
			last = out[len(out)-1]
		}
		if (unit || fraction.MatchString(w)) && strings.TrimRight(last, "0123456789") != last || strings.HasSuffix(last, "No.") {
			out[len(out)-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

// units are those that stand after numbers on the sheets.
var units = map[string]struct{}{"mm": {}, "m": {}, "m²": {}, "m³": {}, "ft": {}, "ft²": {}, "yd³": {}, "in": {}, "psi": {}, "MPa": {}, "min": {}, "h": {}, "°F": {}, "°C": {}, "%": {}, "lb": {}, "kg": {}, "mil": {}}

// shorten cuts s to width, with an ellipsis where something is lost.
func shorten(s string, width, size float64, bold bool) string {
	if textWidth(s, size, bold) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 0 {
		r = r[:len(r)-1]
		if t := strings.TrimRight(string(r), " ,") + "…"; textWidth(t, size, bold) <= width {
			return t
		}
	}
	return ""
}
