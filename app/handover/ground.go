package handover

import (
	"context"
	"math"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/order"
	"haunchbook.example/app/shoot"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/ground"
	"haunchbook.example/geometry/plan"
)

// Ground is where the ground is shot, what the shots say, and the order that follows.
type Ground struct {
	Slabs    []SlabGround
	Unit     takeoff.Unit // of what follows
	Plan     float64      // concrete by the plan
	Decision order.Decision
	Unshot   float64 // share of the area of which nothing was shot
	Stray    int     // shots that lie under no slab
	Shot     bool    // something was shot
	Base     BaseWork
}

// Tolerances of the thickness, downward.
const (
	ThinAverage = ground.ThinAverage
	ThinSingle  = ground.ThinSingle
)

// SlabGround is that of a slab.
type SlabGround struct {
	Slab    int // its number in the job
	Name    string
	Datum   plan.Datum
	Wanted  []WantedShot
	Taken   []TakenShot
	Surface ground.Slab
}

// WantedShot is a place to shoot.
type WantedShot struct {
	Number int // through all slabs, from 1
	ground.Wanted
	From   geometry.Point  // where it lies from the datum: along its side, and square off it
	Height geometry.Length // of the ground as planned
	// Read is what the rod should read; where the height of the instrument is not known,
	// how far the place lies below the slab's lowest top.
	Read geometry.Length
}

// TakenShot is a shot under the slab.
type TakenShot struct {
	Index  int // in the survey
	At     geometry.Point
	From   geometry.Point // where it lies from the datum: along its side, and square off it
	Height geometry.Length
	Off    geometry.Length // above what is planned
	Ask    string          // what is odd about it
}

// planned gives how high the plan has the ground under the concrete at a place of a slab;
// false off it.
func (h *Handover) planned(s takeoff.Slab, q geometry.Point) (geometry.Length, bool) {
	depth, ok := s.Solid.DepthAt(q)
	if !ok {
		return 0, false
	}
	top := h.from.Job.Spec.Place.StakeOut.Top(s.Plan)
	if s.Plan.Base != plan.Level { // level ground does not rise with the top
		top += s.Solid.TopAt(q)
	}
	return top - depth, true
}

// Ground gives the ground under all slabs.
func (h *Handover) Ground(ctx context.Context) (Ground, error) {
	return h.ground.get(ctx, "the ground", func(ctx context.Context) (Ground, error) {
		t, err := h.Takeoff(ctx)
		if err != nil {
			return Ground{}, err
		}
		j := h.from.Job
		out := Ground{Unit: takeoff.ConcreteUnit(j.Units)}
		unit := out.Unit.SI()
		need := order.Need{Lost: order.Lost{Mean: j.Ground.Lost.InexactFloat64() / 100, Stray: j.Ground.Stray.InexactFloat64() / 100}}
		var variance, area, cut, fill float64
		taken := make([]bool, len(j.Survey.Shots))
		number := 0
		for _, s := range t.Slabs {
			if ctx.Err() != nil {
				return out, ctx.Err()
			}
			g := SlabGround{Slab: s.Number, Name: s.Name, Datum: s.Plan.Datum()}
			top := j.Spec.Place.StakeOut.Top(s.Plan)
			for _, w := range ground.Layout(s.Solid, s.Plan, ground.Spacing(s.Solid, j.Ground.Accuracy.InexactFloat64()/100)) {
				number++
				height, _ := h.planned(s, w.At)
				from := top
				if j.Ground.Instrument != 0 {
					from = j.Ground.Instrument
				}
				g.Wanted = append(g.Wanted, WantedShot{number, w, g.Datum.Of(w.At), height, shoot.Level{Height: from}.Reading(height)})
			}
			var shots []ground.Shot
			for i, shot := range j.Survey.Shots {
				height, on := h.planned(s, shot.At)
				if !on || taken[i] {
					continue
				}
				taken[i] = true
				g.Taken = append(g.Taken, TakenShot{i, shot.At, g.Datum.Of(shot.At), shot.Height, shot.Height - height, shoot.Ask(height, shot.Height, j.Units)})
				shots = append(shots, ground.Shot{At: shot.At, Off: shot.Height - height})
			}
			g.Surface = ground.Of(s.Solid, s.Plan.Open().Region(), s.Plan.Field, shots)
			out.Slabs = append(out.Slabs, g)
			need.Fill.Mean += (g.Surface.Need.Mean + s.Curbs.Volume) / unit
			need.Guessed += g.Surface.Guessed / unit
			variance += math.Pow(g.Surface.Need.Error/unit, 2)
			out.Plan += s.Volume() / unit
			cut, fill = cut+g.Surface.Cut/unit, fill+g.Surface.Fill/unit
			out.Unshot += g.Surface.Unshot
			area += s.Solid.Area
			out.Shot = out.Shot || len(shots) > 0
		}
		for _, on := range taken {
			if !on {
				out.Stray++
			}
		}
		need.Fill.Error = math.Sqrt(variance)
		if area > 0 {
			out.Unshot /= area
		}
		if !out.Shot {
			need.Guessed = need.Fill.Mean
		}
		out.Base = baseWork(cut, fill, j.Ground.Gravel.InexactFloat64(), max(1, j.Spec.Base.Compaction.InexactFloat64()), unit)
		short, left := order.Costs(j.Ground.Short, j.Ground.Left, j.Units == geometry.Millimeters)
		by := decimal.Zero
		if l, ok := t.Line(takeoff.ConcreteOrder); ok {
			by = decimal.NewFromFloat(l.Value).Round(6)
		}
		out.Decision = order.Decide(need, j.Spec.Order.Step, by, short, left)
		return out, nil
	})
}
