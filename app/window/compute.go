package window

import (
	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/solid"
)

func takeoffOf(j job.Job) (*takeoff.Takeoff, error) {
	s, err := solid.Of(j.Slab)
	if err != nil {
		return nil, err
	}
	l := layout.Of(j.Slab, j.Spec.Place, s)
	return &takeoff.Takeoff{Solid: s, Layout: l, Findings: l.Findings, Lines: []takeoff.Line{
		{Key: "concrete.volume", Group: takeoff.Concrete, Name: "Concrete in the slab", Value: s.Volume, Unit: takeoff.CubicMetres},
	}}, nil
}
