package takeoff

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/lumber"
)

// OfOldKey gives what a key of an older price list or job named. One with "*" at
// its end stood for any ending, and may have named several. What no job had is
// Unknown, and keeps its name.
func OfOldKey(key string) []ID {
	stem, any := strings.CutSuffix(key, "*")
	var out []ID
	for k, is := range kinds {
		switch {
		case is.old == "" || any && k.ofMix():
		case !strings.HasSuffix(is.old, "."):
			if is.old == key || any && strings.HasPrefix(is.old, stem) {
				out = append(out, ID{Kind: k})
			}
		case any && strings.HasPrefix(is.old, stem):
			out = append(out, ID{Kind: k})
		default:
			if rest, ok := strings.CutPrefix(stem, is.old); ok {
				out = append(out, oldAttributes(k, rest, any)...)
			}
		}
	}
	if len(out) == 0 {
		return []ID{{Kind: Unknown, Name: key}}
	}
	slices.SortFunc(out, func(a, b ID) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Bar, b.Bar), cmp.Compare(a.Size, b.Size))
	})
	return out
}

// ofMix tells whether the kind was priced by an exact key alone.
func (k Kind) ofMix() bool { return k == MixStrength || k == MixAir || k == MixReducer }

// oldAttributes reads what followed the kind in a key: "4x20ft", "2x12x4800mm",
// "3500psi", or with any the beginning of one.
func oldAttributes(k Kind, rest string, any bool) []ID {
	if k == MixStrength {
		psi, err := strconv.Atoi(strings.TrimSuffix(rest, "psi"))
		if err != nil || psi <= 0 || !strings.HasSuffix(rest, "psi") {
			return nil
		}
		return []ID{{Kind: k, Strength: psi}}
	}
	var out []ID
	for _, size := range oldSizes(k) {
		id := ID{Kind: k, Size: size}
		if bar, err := strconv.Atoi(size); err == nil {
			id = ID{Kind: k, Bar: bars.Size(bar)}
		}
		length, ok := strings.CutPrefix(rest, size+"x")
		switch {
		case any && strings.HasPrefix(size+"x", rest):
			out = append(out, id)
		case ok:
			yard := false
			if k == BarStock && !any {
				length, yard = strings.CutSuffix(length, ".yard")
			}
			if l, err := geometry.ParseWritten(length); err == nil && l > 0 {
				id.Length = l
				if yard {
					id.Kind = YardBars
				}
				out = append(out, id)
			}
		}
	}
	return out
}

// oldSizes lists the sizes that a kind came in, as in a key.
func oldSizes(k Kind) []string {
	var out []string
	if k == BarStock {
		for _, b := range bars.Sizes() {
			if !b.Metric() { // those came later
				out = append(out, strconv.Itoa(int(b)))
			}
		}
		return out
	}
	for _, b := range lumber.Boards() {
		out = append(out, b.Name)
	}
	return out
}
