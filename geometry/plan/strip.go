package plan

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
)

// Strip is a thickening along a line: Depth over the width Bottom, with sides
// that taper outward over Taper up to the field.
type Strip struct {
	Name   string           `json:"name,omitzero"`
	Path   []geometry.Point `json:"path"`
	Bottom geometry.Length  `json:"bottom"`
	Depth  geometry.Length  `json:"depth"`
	Taper  geometry.Length  `json:"taper,omitzero"`
}

// KindStrip is the kind of thickened strips. The points of a path can be taken one
// by one.
const KindStrip Kind = "strip"

func init() {
	path := func(s *Strip) []*geometry.Point {
		out := make([]*geometry.Point, len(s.Path))
		for i := range s.Path {
			out[i] = &s.Path[i]
		}
		return out
	}
	register(KindStrip, 41, 6, list[Strip]{
		kind: KindStrip, path: "strips",
		in:   func(s *Site) *[]Strip { return &s.Plan.Strips },
		body: path, ends: path,
		lies: func(s Strip) Outline {
			out := Outline{Half: s.Bottom / 2}
			for i := 1; i < len(s.Path); i++ {
				out.Lines = append(out.Lines, [2]geometry.Point{s.Path[i-1], s.Path[i]})
			}
			return out
		},
		deep:  func(s *Strip) { s.Path = slices.Clone(s.Path) },
		check: (*validator).strip,
	})
}

func (v *validator) strip(path string, s *Strip) {
	at := v.home
	if len(s.Path) > 0 {
		at = s.Path[0]
	}
	v.deepEnough(path+".depth", at, s.Depth)
	if len(s.Path) < 2 {
		v.fault(path+".path", at, count(len(s.Path), "point"), "give at least two points")
	}
	for k, p := range s.Path {
		if v.outside(p) {
			v.fault(fmt.Sprintf("%s.path[%d]", path, k), v.home, v.place(p), "must lie on the slab")
		}
		if k > 0 && p == s.Path[k-1] {
			v.fault(fmt.Sprintf("%s.path[%d]", path, k), p, "the same point twice", "remove one of them")
		}
	}
}
