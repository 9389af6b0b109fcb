package sheet

import (
	"image/color"
	"strings"
	"sync"

	"github.com/tdewolff/canvas"

	"haunchbook.example/assets/fonts"
)

// Sizes of text in points. Nothing that the crew reads is under 7.5.
const (
	sizeFine  = 7.5
	sizeSmall = 8.5
	sizeBody  = 9.5
	sizeHead  = 11
	sizeTitle = 15
)

const mmPerPoint = 25.4 / 72

// The typeface's metrics in ems, from its own tables.
const (
	capHeight = 0.76 // round letters overshoot the flat ones' 0.729
	descent   = 0.24
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
func textWidth(s string, size float64, bold bool) float64 {
	w := 0.0
	for _, r := range s {
		w += advance(r, bold)
	}
	return w * size * mmPerPoint
}

// advances remembers the widths of characters, in ems.
var advances [2]sync.Map

// advance gives the width of one character, in ems.
func advance(r rune, bold bool) float64 {
	m := &advances[0]
	if bold {
		m = &advances[1]
	}
	if w, ok := m.Load(r); ok {
		return w.(float64)
	}
	w := face(1/mmPerPoint, bold, black).TextWidth(string(r))
	m.Store(r, w)
	return w
}

// width gives how wide t is, in millimeters.
func (t Text) width() float64 { return textWidth(t.Text, t.Size, t.Bold) }

// box gives the rectangle that t's ink may cover.
func (t Text) box() box {
	em := t.Size * mmPerPoint
	low := t.low()
	return boxAlong(t.At, t.Turn, t.width(), -low, capHeight*em)
}

// low gives how far t's ink goes below the base line, in millimeters.
func (t Text) low() float64 {
	em := t.Size * mmPerPoint
	switch {
	case strings.ContainsAny(t.Text, "gjpqyQ()[]|_"):
		return descent * em
	case strings.ContainsAny(t.Text, ",;/Ø"):
		return 0.14 * em
	}
	return 0.03 * em
}

// wrap breaks s into lines no wider than width. A word wider than that stands
// alone and is cut.
func wrap(s string, width, size float64, bold bool) []string {
	var lines []string
	for _, para := range strings.Split(s, "\n") {
		line := ""
		for _, word := range strings.Fields(para) {
			word = shorten(word, width, size, bold)
			next := word
			if line != "" {
				next = line + " " + word
			}
			if line != "" && textWidth(next, size, bold) > width {
				lines = append(lines, line)
				next = word
			}
			line = next
		}
		lines = append(lines, line)
	}
	return lines
}

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
