package workbook

import (
	"strings"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// style is how a cell looks.
type style struct {
	num    string // number format
	size   float64
	bold   bool
	italic bool
	color  string
	fill   string
	align  string // "left", "center", "right"
	wrap   bool
	input  bool // to fill in: unlocked, yellow
	line   byte // 't' above, 'b' below, 'h' hairline below
	indent bool // set in a little, after a column of numbers
}

var (
	plainText = style{line: 'h', wrap: true}
	heading   = style{bold: true, color: paper, fill: ink, wrap: true}
	section   = style{bold: true, fill: band}
	note      = style{italic: true, color: gray}
	warning   = style{bold: true, color: red}
	totalText = style{bold: true, line: 't'}
)

func (s style) as(num string) style { s.num, s.align = num, "right"; return s }

func (s style) right() style { s.align = "right"; return s }

func (s style) in() style { s.input = true; return s }

func (b *builder) style(s style) (int, error) {
	if id, ok := b.styles[s]; ok {
		return id, nil
	}
	if s.size == 0 {
		s.size = 10
	}
	x := &excelize.Style{
		Font:       &excelize.Font{Family: "Arial", Size: s.size, Bold: s.bold, Italic: s.italic, Color: s.color},
		Alignment:  &excelize.Alignment{Horizontal: s.align, Vertical: "center", WrapText: s.wrap},
		Protection: &excelize.Protection{Locked: !s.input},
	}
	if x.Font.Color == "" {
		x.Font.Color = ink
	}
	fill := s.fill
	if s.input {
		fill, x.Font.Color = fillIn, blue
	}
	if fill != "" {
		x.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{fill}}
	}
	if s.num != "" {
		num := s.num
		x.CustomNumFmt = &num
	}
	switch s.line {
	case 't':
		x.Border = []excelize.Border{{Type: "top", Color: ink, Style: 1}}
	case 'b':
		x.Border = []excelize.Border{{Type: "bottom", Color: ink, Style: 1}}
	case 'h':
		x.Border = []excelize.Border{{Type: "bottom", Color: hairCol, Style: 1}}
	}
	if s.indent {
		x.Alignment.Horizontal, x.Alignment.Indent = "left", 1
	}
	id, err := b.f.NewStyle(x)
	key := s
	if s.size == 10 {
		key.size = 0
	}
	b.styles[key] = id
	return id, err
}

// cell is what stands in a cell. With a formula, value is what the program
// itself got for it.
type cell struct {
	value   any
	formula string
	style   style
	name    string // defined name of the cell
	choice  []string
	asIs    bool   // no language says it: the user's own, or said already
	bounds  bounds // of a number to fill in
}

// bounds is what a number that is filled in may be.
type bounds uint8

const (
	notLess  bounds = iota // than 0
	positive               // divided by
	signed                 // given or taken
)

func text(s string) cell             { return cell{value: plain(s), style: plainText} }
func styled(s string, st style) cell { return cell{value: plain(s), style: st} }

func num(v float64, format string) cell { return cell{value: v, style: plainText.as(format)} }

func dec(d decimal.Decimal, format string) cell { return num(number(d), format) }

func formula(f string, d decimal.Decimal, format string) cell {
	return cell{value: number(d), formula: f, style: plainText.as(format)}
}

func input(d decimal.Decimal, format string) cell {
	c := dec(d, format)
	c.style = c.style.in()
	return c
}

// within bounds what a number that is filled in may be.
func (c cell) within(b bounds) cell { c.bounds = b; return c }

// own leaves a text as it is in every language.
func (c cell) own() cell { c.asIs = true; return c }

func (c cell) named(name string) cell { c.name = name; return c }

func (c cell) strong() cell { c.style.bold, c.style.line = true, 't'; return c }

// plain takes out what no cell may hold. A string cell is never run as a
// formula, whatever it starts with.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		if r == '\t' || r == '\r' {
			return ' '
		}
		if r < ' ' && r != '\n' || r == 0xFFFE || r == 0xFFFF {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	if r := []rune(s); len(r) > 32000 {
		s = string(r[:32000])
	}
	return s
}
