package estimate

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Threshold is an edge depth at which something changes.
type Threshold struct {
	Text  string
	Depth geometry.Length
	Found bool // false if it does not happen between the field and Deepest
}

// Deepest is as deep as thresholds are looked for.
const Deepest = 6 * geometry.Foot

// ErrNoEdge says that the plan has no haunch whose depth could vary.
var ErrNoEdge = errors.New("no edge has a section that can be made deeper")

// Thresholds finds the edge depths that matter: the deepest within the trucks
// the job takes now, the one at which the next truck is needed, the deepest
// within one truck, and the frost depth. Depths are whole sixteenths, or
// millimeters.
func Thresholds(ctx context.Context, b Base) ([]Threshold, error) {
	main, ok := MainSection(b.Slabs)
	if !ok {
		return nil, ErrNoEdge
	}
	step := geometry.Sixteenth
	if b.Units == geometry.Millimeters {
		step = geometry.Millimeter
	}
	trucks := func(d geometry.Length) (int, error) {
		p, s := Option{Edge: To(d)}.Apply(b.Slabs, b.Spec)
		return takeoff.Trucks(ctx, p, s, b.Units)
	}
	now, err := trucks(main.Depth)
	if err != nil {
		return nil, err
	}
	// deepest gives the greatest depth that takes n trucks at most. Deeper edges
	// never take less concrete, so that halving finds it.
	deepest := func(n int) (geometry.Length, bool, error) {
		lo, hi := Field(b.Slabs)/step, Deepest/step
		if at, err := trucks(lo * step); err != nil || at > n {
			return 0, false, err
		}
		if at, err := trucks(hi * step); err != nil || at <= n {
			return 0, false, err
		}
		for hi-lo > 1 {
			mid := (lo + hi) / 2
			at, err := trucks(mid * step)
			if err != nil {
				return 0, false, err
			}
			if at <= n {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo * step, true, nil
	}
	var out []Threshold
	within, found, err := deepest(now)
	if err != nil {
		return nil, err
	}
	out = append(out,
		Threshold{fmt.Sprintf("Deepest edge within %s", truckCount(now)), within, found},
		Threshold{fmt.Sprintf("The edge at which truck %d is needed", now+1), within + step, found})
	if now > 1 {
		one, found, err := deepest(1)
		if err != nil {
			return nil, err
		}
		out = append(out, Threshold{"Deepest edge within 1 truck", one, found})
	}
	if b.Frost > 0 && slices.ContainsFunc(b.Slabs, func(p plan.Plan) bool { return !p.Blank() && !b.Spec.Base.LetOff(p) }) {
		frost, err := b.frostThreshold(step)
		if err != nil {
			return nil, err
		}
		out = append(out, frost)
	}
	return out, nil
}

func truckCount(n int) string {
	if n == 1 {
		return "1 truck"
	}
	return fmt.Sprintf("%d trucks", n)
}
