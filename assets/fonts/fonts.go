// Package fonts embeds the typeface of the printed sheets: DejaVu Sans
// Condensed 2.37, whose license stands beside it in LICENSE. It is narrow, plain
// and large in its small letters, and has every sign the sheets use, such as
// ½ × Ø ≤ ° →.
package fonts

import _ "embed"

// Regular is the TrueType file of DejaVu Sans Condensed.
//
//go:embed DejaVuSansCondensed.ttf
var Regular []byte

// Bold is the TrueType file of DejaVu Sans Condensed Bold.
//
//go:embed DejaVuSansCondensed-Bold.ttf
var Bold []byte
