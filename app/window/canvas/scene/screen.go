package scene

import (
	"image/color"
	"math"

	"haunchbook.example/app/window/canvas/paint"
	"haunchbook.example/app/window/canvas/size"
	"haunchbook.example/geometry/drawing"
)

// screen renders drawings into a brush, and measures their text. Places come in
// logical pixels with Y up.
type screen struct {
	b       *paint.Brush
	k       float64
	top     float64 // device pixels from the top to Y zero
	through bool
	looks   [2][256]look // of the slab that is worked on, and of the others
	palette Palette
	made    bool
	rings   [][]paint.Point
}

// look is how a style is drawn, in device pixels.
type look struct {
	line, fill, text color.NRGBA
	width, on, off   float64
}

// use makes the screen draw into a brush with the colors of a picture.
func (s *screen) use(b *paint.Brush, in Input, through bool) {
	if !s.made || s.palette != in.Palette || s.k != in.Ratio || s.through != through {
		s.made, s.palette, s.k, s.through = true, in.Palette, in.Ratio, through
		quiet := in.Palette.quiet()
		for i, p := range [2]*Palette{&s.palette, &quiet} {
			s.mix(&s.looks[i], p)
		}
	}
	s.b, s.top = b, in.View.H*in.Ratio
}

// mix gives each style its look.
func (s *screen) mix(looks *[256]look, p *Palette) {
	for i := range size.Pens {
		style := drawing.Style(i)
		pen := &size.Pens[i]
		l := look{width: pen.Width * size.PerMM * s.k}
		if len(pen.Dash) > 1 {
			l.on, l.off = pen.Dash[0]*size.PerMM*s.k, pen.Dash[1]*size.PerMM*s.k
		}
		l.line = p.color(style)
		l.fill, l.text = l.line, l.line
		if s.through && (style == drawing.SlabFill || style == drawing.DepthFill) {
			l.fill.A = 90
		}
		looks[i] = l
	}
}

// color gives the color of a style.
func (p *Palette) color(s drawing.Style) color.NRGBA {
	faded := func(c color.NRGBA, a uint8) color.NRGBA {
		c.A = a
		return c
	}
	switch s {
	case drawing.SlabFill, drawing.ConcreteFill, drawing.OwnFill:
		return p.Slab
	case drawing.DepthFill:
		return p.Deep
	case drawing.BendLine:
		return p.Ridge
	case drawing.ContourLine, drawing.DepthText:
		return p.Contour
	case drawing.JointLine:
		return p.Joint
	case drawing.JointHatch:
		return p.OldSlab
	case drawing.PadAxis, drawing.FrameLine, drawing.HatchLine:
		return p.Faint
	case drawing.WallLine, drawing.PlateLine:
		return p.Wall
	case drawing.JambLine, drawing.SillLine, drawing.LipLine:
		return p.Door
	case drawing.BarLine, drawing.BarEnd, drawing.BentLine, drawing.MeshLine, drawing.SteelFill:
		return p.Steel
	case drawing.WireLine:
		return faded(p.Steel, 110)
	case drawing.MeshFill:
		return faded(p.Steel, 26)
	case drawing.FoamLine, drawing.FrostLine:
		return p.Foam
	case drawing.FoamAxis:
		return faded(p.Foam, 90)
	case drawing.RetarderLine:
		return p.Retarder
	case drawing.RetarderFill:
		return faded(p.Retarder, 22)
	case drawing.SawLine, drawing.IsolationLine, drawing.ConstructionLine:
		return p.Saw
	case drawing.FormLine, drawing.StakeLine, drawing.KickerLine:
		return p.Form
	case drawing.StringLine, drawing.TapeLine, drawing.SquareLine, drawing.HeightText:
		return p.Stake
	case drawing.BoltLine, drawing.EmbedLine, drawing.PipeLine:
		return p.Bolt
	case drawing.DowelLine:
		return p.Dowel
	case drawing.FallLine, drawing.FallArrow, drawing.CreaseLine:
		return p.Accent
	case drawing.LaneLine, drawing.BayLine, drawing.ReachLine, drawing.PadMark:
		return p.Pour
	case drawing.DimLine, drawing.TickLine:
		return p.Dim
	case drawing.ExtLine:
		return between(p.Dim, p.Paper, 0.5)
	case drawing.PlateFill, drawing.WoodFill:
		return p.Plate
	case drawing.NoteText, drawing.SurveyLine:
		return p.Text
	}
	return p.Ink
}

func (s *screen) look(k *drawing.Ink) *look {
	if k.Quiet {
		return &s.looks[1][k.Style]
	}
	return &s.looks[0][k.Style]
}

func (s *screen) pt(p drawing.Vec) paint.Point { return paint.Point{X: p.X * s.k, Y: s.top - p.Y*s.k} }

// Stroke implements drawing.Canvas.
func (s *screen) Stroke(k drawing.Ink, pts []drawing.Vec, closed bool) {
	l := s.look(&k)
	width, c, on := max(l.width, k.Width*s.k), l.line, l.on
	if k.Shade > 0 { // plain and faint
		c, on = between(c, s.palette.Paper, float64(k.Shade)), 0
	}
	n := len(pts)
	if closed && n > 2 {
		n++
	}
	a := s.pt(pts[0])
	for i := 1; i < n; i++ {
		b := s.pt(pts[i%len(pts)])
		if on > 0 {
			s.b.Dashes(a, b, on, l.off, width, c)
		} else {
			s.b.Line(a, b, width, c)
		}
		a = b
	}
}

// Fill implements drawing.Canvas.
func (s *screen) Fill(k drawing.Ink, rings [][]drawing.Vec) {
	l := s.look(&k)
	c := l.fill
	if k.Style == drawing.DepthFill {
		slab := s.looks[0][drawing.SlabFill].fill
		if k.Quiet {
			slab = s.looks[1][drawing.SlabFill].fill
		}
		c = between(slab, c, float64(k.Shade))
	}
	if len(rings) == 1 && len(rings[0]) == 4 {
		if r := rings[0]; r[0].Y == r[1].Y && r[1].X == r[2].X && r[2].Y == r[3].Y && r[3].X == r[0].X {
			a, b := s.pt(r[0]), s.pt(r[2])
			s.b.Rect(min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y), c)
			return
		}
	}
	for len(s.rings) < len(rings) {
		s.rings = append(s.rings, nil)
	}
	for i, r := range rings {
		out := s.rings[i][:0]
		for _, p := range r {
			out = append(out, s.pt(p))
		}
		s.rings[i] = out
	}
	s.b.Fill(s.rings[:len(rings)], c)
}

// Circle implements drawing.Canvas.
func (s *screen) Circle(k drawing.Ink, at drawing.Vec, radius float64, full bool) {
	l := s.look(&k)
	p, r := s.pt(at), radius*s.k
	switch {
	case full:
		s.b.Circle(p, r, 0, l.fill)
	case l.on > 0:
		s.dashedCircle(p, r, l)
	default:
		s.b.Circle(p, r, l.width, l.line)
	}
}

// dashedCircle draws a circle of short lines.
func (s *screen) dashedCircle(at paint.Point, radius float64, l *look) {
	if w, h := s.b.Img.Rect.Dx(), s.b.Img.Rect.Dy(); radius < 8 || radius > 20*float64(w+h) {
		return
	}
	n := min(max(24, 2*int(radius*math.Pi/l.on)), 720)
	on := func(i int) paint.Point {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		return paint.Point{X: at.X + radius*cos, Y: at.Y + radius*sin}
	}
	for i := 0; i < n; i += 2 {
		s.b.Line(on(i), on(i+1), l.width, l.line)
	}
}

// Text implements drawing.Canvas.
func (s *screen) Text(w drawing.Word) {
	c := s.look(&w.Ink).text
	switch {
	case w.Inverse:
		c = s.palette.Paper
	case w.Layer == drawing.Dimensions:
		c = s.palette.Text
	}
	mid := w.At.Toward(w.Along, w.Width/2).Toward(w.Along.Left(), (w.Above-w.Below)/2)
	s.b.Text(w.Text, s.pt(mid), TextSize*s.k, w.Along.Y != 0, c)
}

// Size implements drawing.Fonts.
func (s *screen) Size(text string, _ drawing.Type) (width, above, below float64) {
	h := s.b.Fonts.Height(TextSize*s.k) / s.k
	return s.b.Fonts.Width(text, TextSize*s.k) / s.k, h * 0.78, h * 0.22
}

// Leading implements drawing.Fonts.
func (s *screen) Leading(drawing.Type) float64 { return s.b.Fonts.Height(TextSize*s.k) / s.k }
