// Package look is how the window looks: the colors and sizes of its theme, light and
// dark, and what goes with them on the plan.
package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"haunchbook.example/app/window/canvas/scene"
)

// Appearance is the choice between light and dark.
type Appearance uint8

const (
	System Appearance = iota // as the desktop has it
	Light
	Dark
)

// Theme is the program's theme: ink and paper, one accent, dense but legible.
type Theme struct{ Choice Appearance }

// Dark tells whether it is dark on a desktop of that variant.
func (t Theme) Dark(v fyne.ThemeVariant) bool {
	switch t.Choice {
	case Light:
		return false
	case Dark:
		return true
	}
	return v == theme.VariantDark
}

func hex(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

func hexA(v uint32, a uint8) color.NRGBA {
	c := hex(v)
	c.A = a
	return c
}

// shades gives each color for light and for dark. Notes are written in the color
// of what is disabled, so that one too must be read.
var shades = map[fyne.ThemeColorName][2]color.NRGBA{
	theme.ColorNameBackground:          {hex(0xf1eee7), hex(0x1b2126)},
	theme.ColorNameButton:              {hex(0xe4dfd4), hex(0x2c353c)},
	theme.ColorNameDisabledButton:      {hex(0xebe7de), hex(0x23292e)},
	theme.ColorNameDisabled:            {hex(0x5f6668), hex(0x8f9aa2)},
	theme.ColorNameForeground:          {hex(0x1d2a33), hex(0xe8edf0)},
	theme.ColorNameForegroundOnPrimary: {hex(0xffffff), hex(0x0c2326)},
	theme.ColorNamePrimary:             {hex(0x0b6b74), hex(0x5fc9d3)},
	theme.ColorNameHyperlink:           {hex(0x0b6b74), hex(0x5fc9d3)},
	theme.ColorNameFocus:               {hexA(0x10242c, 120), hexA(0xf2f6f8, 120)}, // seen on the accent as well
	theme.ColorNameHover:               {hexA(0x0b6b74, 26), hexA(0x5fc9d3, 34)},
	theme.ColorNamePressed:             {hexA(0x0b6b74, 60), hexA(0x5fc9d3, 70)},
	theme.ColorNameSelection:           {hexA(0x0b6b74, 60), hexA(0x5fc9d3, 60)},
	theme.ColorNameInputBackground:     {hex(0xfdfcf9), hex(0x12171a)},
	theme.ColorNameInputBorder:         {hex(0xb9b3a6), hex(0x47535b)},
	theme.ColorNamePlaceHolder:         {hex(0x5b666c), hex(0x9aa6ae)},
	theme.ColorNameSeparator:           {hex(0xd8d2c5), hex(0x313b42)},
	theme.ColorNameScrollBar:           {hexA(0x1d2a33, 110), hexA(0xe8edf0, 110)},
	theme.ColorNameShadow:              {hexA(0x000000, 40), hexA(0x000000, 110)},
	theme.ColorNameMenuBackground:      {hex(0xfaf8f3), hex(0x232a30)},
	theme.ColorNameOverlayBackground:   {hex(0xfaf8f3), hex(0x232a30)},
	theme.ColorNameHeaderBackground:    {hex(0xe9e5dc), hex(0x21282d)},
	theme.ColorNameError:               {hex(0xb3261e), hex(0xf2665c)},
	theme.ColorNameWarning:             {hex(0x8a5200), hex(0xf0b44d)},
	theme.ColorNameSuccess:             {hex(0x2f6b2f), hex(0x8fcf8a)},
}

// ink is a solid color whose alpha is not quite the full 65535. The toolkit
// takes the low byte of nineteen twentieths of it for the keys named in menus:
// of the full alpha that byte is 50, and the keys would hardly show.
type ink struct{ color.NRGBA }

// RGBA implements color.Color.
func (i ink) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = i.NRGBA.RGBA()
	const alpha = 0xffbb // nineteen twentieths of it end in 0xf1
	return min(r, alpha), min(g, alpha), min(b, alpha), alpha
}

// Color implements fyne.Theme.
func (t Theme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	if s, ok := shades[n]; ok {
		c := s[0]
		if t.Dark(v) {
			c = s[1]
		}
		if n == theme.ColorNameForeground {
			return ink{c}
		}
		return c
	}
	if t.Dark(v) {
		return theme.DefaultTheme().Color(n, theme.VariantDark)
	}
	return theme.DefaultTheme().Color(n, theme.VariantLight)
}

// Font implements fyne.Theme.
func (Theme) Font(s fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(s) }

// Icon implements fyne.Theme.
func (Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size implements fyne.Theme. No text is smaller than 11.
func (Theme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return 13
	case theme.SizeNameCaptionText:
		return 11.5
	case theme.SizeNameHeadingText:
		return 22
	case theme.SizeNameSubHeadingText:
		return 15
	case theme.SizeNamePadding:
		return 4
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNameInlineIcon:
		return 18
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 4
	case theme.SizeNameScrollBar:
		return 12
	}
	return theme.DefaultTheme().Size(n)
}

// Palette gives the plan's colors that go with the theme as it is now.
func Palette() scene.Palette {
	if t, ok := fyne.CurrentApp().Settings().Theme().(Theme); ok && t.Dark(fyne.CurrentApp().Settings().ThemeVariant()) {
		return scene.Dark
	}
	return scene.Light
}

// Shade gives a theme color as it is now.
func Shade(n fyne.ThemeColorName) color.Color {
	s := fyne.CurrentApp().Settings()
	return s.Theme().Color(n, s.ThemeVariant())
}
