package look

import (
	"fmt"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/window/canvas/scene"
)

// luminance is the relative luminance of WCAG 2.1 (W3C Recommendation, 5 June
// 2018, terms: relative luminance).
func luminance(c color.NRGBA) float64 {
	channel := func(v uint8) float64 {
		f := float64(v) / 255
		if f <= 0.03928 {
			return f / 12.92
		}
		return math.Pow((f+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(c.R) + 0.7152*channel(c.G) + 0.0722*channel(c.B)
}

// contrast is the contrast ratio of WCAG 2.1 (terms: contrast ratio).
func contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// leastContrast is that of text at level AA: WCAG 2.1, success criterion 1.4.3.
const leastContrast = 4.5

func TestContrastFormula(t *testing.T) {
	for _, c := range []struct {
		a, b uint32
		want float64
	}{
		{0x000000, 0xffffff, 21},   // WCAG 2.1: ratios go from 1 to 21
		{0x123456, 0x123456, 1},    //
		{0x767676, 0xffffff, 4.54}, // the lightest gray that passes on white; from memory
		{0x777777, 0xffffff, 4.48},
	} {
		if got := contrast(hex(c.a), hex(c.b)); math.Abs(got-c.want) > 0.005 {
			t.Errorf("#%06x on #%06x has %.3f, want %g", c.a, c.b, got, c.want)
		}
	}
}

// Everything that is written can be read, in both themes.
func TestTextCanBeRead(t *testing.T) {
	check := func(what string, ink, paper color.NRGBA) {
		t.Helper()
		if got := contrast(ink, paper); got < leastContrast {
			t.Errorf("%s: #%02x%02x%02x on #%02x%02x%02x has a contrast of %.2f, want %g", what,
				ink.R, ink.G, ink.B, paper.R, paper.G, paper.B, got, leastContrast)
		}
	}
	for name, p := range map[string]scene.Palette{"light": scene.Light, "dark": scene.Dark} {
		for _, in := range p.Written() {
			check(fmt.Sprintf("plan, %s, %s", name, in.What), in.Ink, in.Paper)
		}
	}
	papers := []fyne.ThemeColorName{
		theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameMenuBackground,
		theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground,
	}
	inks := []fyne.ThemeColorName{
		theme.ColorNameForeground, theme.ColorNameDisabled, theme.ColorNamePlaceHolder, theme.ColorNamePrimary,
		theme.ColorNameHyperlink, theme.ColorNameError, theme.ColorNameWarning, theme.ColorNameSuccess,
	}
	for v, name := range []string{"light", "dark"} {
		for _, p := range papers {
			for _, i := range inks {
				check(fmt.Sprintf("panel, %s, %s on %s", name, i, p), shades[i][v], shades[p][v])
			}
		}
		check("button, "+name, shades[theme.ColorNameForeground][v], shades[theme.ColorNameButton][v])
		check("important button, "+name, shades[theme.ColorNameForegroundOnPrimary][v], shades[theme.ColorNamePrimary][v])
	}
}
