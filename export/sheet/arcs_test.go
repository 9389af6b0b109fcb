package sheet

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// roundedJob is a slab of 24 by 20 ft, its corners rounded by 4 ft.
func roundedJob(t *testing.T) job.Job {
	j := job.New()
	p := plan.Plan{Field: 6 * geometry.Inch, Sections: []plan.Section{{Name: "Edge", Depth: geometry.Foot, Bottom: geometry.Foot, Taper: 8 * geometry.Inch}}}
	for _, c := range [][2]geometry.Length{{0, 0}, {24, 0}, {24, 20}, {0, 20}} {
		p.Outline = append(p.Outline, plan.Edge{At: geometry.Point{X: c[0] * geometry.Foot, Y: c[1] * geometry.Foot}, Section: "Edge"})
	}
	for k := 3; k >= 0; k-- {
		q, err := p.RoundCorner(0, k, 4*geometry.Foot)
		if err != nil {
			t.Fatal(err)
		}
		p = q
	}
	j.Name, j.Slabs = "Rounded", []plan.Plan{p}
	return j
}

// A bulge is the tangent of a quarter of the angle: of a quarter of a circle tan 22.5°. In SVG
// the arcs are arcs of one radius, as large as the scale makes 4 ft.
func TestArcsAreArcs(t *testing.T) {
	page := laidOut(t, roundedJob(t))
	var b bytes.Buffer
	if err := page.WriteDXF(&b); err != nil {
		t.Fatal(err)
	}
	bulges := 0
	for _, e := range entities(readDXF(t, b.Bytes())) {
		if v := value(e, 42); value(e, 0) == "VERTEX" && v != "" {
			got, err := strconv.ParseFloat(v, 64)
			if err != nil || math.Abs(got-math.Tan(math.Pi/8)) > 1e-9 {
				t.Errorf("bulge %s, %v", v, err)
			}
			bulges++
		}
	}
	if bulges != 4 {
		t.Errorf("%d arcs in the DXF", bulges)
	}
	b.Reset()
	if err := page.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	arcs := regexp.MustCompile(`<path d="M[^"]*A([0-9.]+),([0-9.]+) 0 0 0 `).FindAllStringSubmatch(b.String(), -1)
	want := 4 * 304.8 / page.View.Scale.Ratio
	if len(arcs) != 4 {
		t.Errorf("%d arcs in the SVG", len(arcs))
	}
	for _, a := range arcs {
		if r, err := strconv.ParseFloat(a[1], 64); err != nil || math.Abs(r-want) > 1e-3 || a[1] != a[2] {
			t.Errorf("radius %s by %s mm on paper, want %.4f", a[1], a[2], want)
		}
	}
	var texts []string
	for _, it := range page.Items {
		if v, ok := it.(Text); ok {
			texts = append(texts, v.Text)
		}
	}
	for _, want := range []string{`R 4'-0"`, `chord 5'-7 7/8"`, `M.O. 1'-2 1/16"`} {
		if !slices.ContainsFunc(texts, func(s string) bool { return strings.Contains(s, want) }) {
			t.Errorf("%s is not on the layout", want)
		}
	}
}
