package sheet

import (
	"math"
	"strings"
	"testing"
)

// The sheets' signs are all in the embedded typeface, in both weights.
func TestTypefaceHasEverySign(t *testing.T) {
	for _, bold := range []bool{false, true} {
		f := face(10, bold, black)
		for _, r := range "ABCabc0123456789'\"½¼¾⅓⅔⅛⅜⅝⅞×Ø⌀≤≥±°²³→–…•µéüñç§" {
			if f.Font.SFNT.GlyphIndex(r) == 0 {
				t.Errorf("bold %v: no %q", bold, r)
			}
		}
	}
}

// Widths are summed by character; the library shapes whole texts.
func TestTextWidthAgreesWithShaping(t *testing.T) {
	for _, s := range []string{`24'-6 1/2"`, "AVAToWa. Ty", "field finish, waffle", "3 × No. 4 @ 16\" → ½", strings.Repeat("To ", 40)} {
		for _, bold := range []bool{false, true} {
			want := face(9.5, bold, black).TextWidth(s)
			if got := textWidth(s, 9.5, bold); math.Abs(got-want) > 1e-6*want {
				t.Errorf("%q bold %v: %g mm, shaped %g", s, bold, got, want)
			}
		}
	}
}

func TestWrap(t *testing.T) {
	text := "Wet cement burns skin and eyes: gloves, boots, eye protection; wash at once. " + strings.Repeat("W", 80)
	for _, width := range []float64{12, 40, 90} {
		lines := wrap(text, width, 9, false)
		for _, l := range lines {
			if w := textWidth(l, 9, false); w > width+1e-9 {
				t.Errorf("%q is %g mm wide, over %g", l, w, width)
			}
		}
		if width == 90 && !strings.HasPrefix(strings.Join(lines, " "), "Wet cement burns skin and eyes: gloves, boots,") {
			t.Errorf("words lost: %q", lines)
		}
	}
	for width := 24.0; width < 90; width++ {
		for _, l := range wrap(`2 × No. 4 20'-0": B2 10'-11 1/4", B4 8'-11 1/4", rest 1 1/2"; 12 in deep`, width, 9, false) {
			if strings.HasPrefix(l, "1/") || strings.HasPrefix(l, "in ") || strings.HasSuffix(l, "No.") {
				t.Errorf("a line ends within a number: %q", l)
			}
		}
	}
	if got := shorten("abc", 100, 9, false); got != "abc" {
		t.Errorf("shorten cut %q", got)
	}
	if got := shorten("a long name indeed", 12, 9, false); !strings.HasSuffix(got, "…") || textWidth(got, 9, false) > 12 {
		t.Errorf("shorten gave %q", got)
	}
}
