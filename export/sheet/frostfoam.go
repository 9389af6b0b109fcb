package sheet

import (
	"fmt"

	"haunchbook.example/geometry/drawing/detail"
)

// frostFoamNotes says what insulates an edge against frost, and how it is set.
func (s *set) frostFoamNotes(f *detail.Frost) []string {
	b, u := s.job.Spec.Base, s.job.Units
	out := []string{fmt.Sprintf("frost foam %s upright, %s high, set when the boards are off", f.Upright.Text(u), f.Height.Text(u)), "frost foam: ASTM C578, " + b.FrostText()}
	if f.Wing > 0 {
		out = append(out, fmt.Sprintf("%s lying, %s out, %s below the ground", f.Wing.Text(u), f.Width.Text(u), b.WingDeep.Text(u)))
		if b.CornerWidth > b.WingWidth && b.CornerLong > 0 {
			out = append(out, fmt.Sprintf("%s out at corners, for %s along each edge", b.CornerWidth.Text(u), b.CornerLong.Text(u)))
		}
	}
	return append(out, "heated buildings only: IRC R403.3; the local code's table decides")
}
