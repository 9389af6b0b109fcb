package handover

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// HowDeep is what a job comes to over the whole range of edge depths.
type HowDeep struct {
	At     []AtDepth // the least depth first
	Drawn  int       // that of them which is drawn
	Steps  []DepthStep
	Movers []estimate.Mover // what moves the price, the most first
}

// AtDepth is a job with its edges at a depth.
type AtDepth struct {
	estimate.Outcome // its takeoff and its estimate are not kept
	Section          EdgeSection
	Bars             int // of stock, to buy
}

// DepthStep is a depth from which on, in the steps of the range, the next of something
// is needed, or frost is reached.
type DepthStep struct {
	Depth geometry.Length
	Text  string // "truck 2"
}

// HowDeep works a job out over the range of edge depths. The error is
// estimate.ErrNoEdge for a job without a haunch.
func (h *Handover) HowDeep(ctx context.Context) (HowDeep, error) {
	return h.howDeep.get(ctx, "the price over the edge depth", func(ctx context.Context) (HowDeep, error) {
		var out HowDeep
		b := h.varied(ctx, nil)
		depths, err := b.Depths()
		if err != nil {
			return out, err
		}
		main, _ := estimate.MainSection(b.Slabs)
		for _, d := range depths {
			if ctx.Err() != nil {
				return out, ctx.Err()
			}
			o := b.At(ctx, estimate.Option{Name: d.Text(b.Units), Edge: estimate.To(d)})
			if o.Err != nil {
				return out, fmt.Errorf("%s: %w", o.Name, o.Err)
			}
			if d == main.Depth {
				out.Drawn = len(out.At)
			}
			at := AtDepth{Outcome: o}
			at.Section, _ = h.MainEdge(o)
			for _, l := range o.Takeoff.Lines {
				if l.ID.Kind == takeoff.BarStock {
					at.Bars += int(l.Value)
				}
			}
			at.Takeoff, at.Estimate = takeoff.Takeoff{}, estimate.Estimate{}
			out.At = append(out.At, at)
		}
		for i := range out.At {
			out.At[i].Difference = out.At[i].Bid.Sub(out.At[out.Drawn].Bid)
		}
		out.Steps = depthSteps(out.At, h.from.Frost > 0)
		out.Movers, err = b.Movers(ctx)
		return out, err
	})
}

// Rise gives how far up a figure of each depth stands, from 0 for the least of them
// to 1 for the most; all 0 where they are alike.
func (d HowDeep) Rise(of func(AtDepth) decimal.Decimal) []float64 {
	out := make([]float64, len(d.At))
	for i, a := range d.At {
		out[i] = of(a).InexactFloat64()
	}
	if len(out) == 0 {
		return nil
	}
	least, most := slices.Min(out), slices.Max(out)
	for i := range out {
		out[i] = (out[i] - least) / max(most-least, 1e-9)
	}
	return out
}

// ByBid and ByConcrete are what is drawn over the depth.
func ByBid(a AtDepth) decimal.Decimal      { return a.Bid }
func ByConcrete(a AtDepth) decimal.Decimal { return a.Ordered }

// Deeper says what comes as the edges go deeper: "Going deeper: truck 3 from 1'-1"."
func (d HowDeep) Deeper(u geometry.Units) string {
	if len(d.Steps) == 0 {
		return ""
	}
	var steps []string
	for _, s := range d.Steps {
		steps = append(steps, s.Text+" from "+s.Depth.Text(u))
	}
	return "Going deeper: " + strings.Join(steps, ", ") + "."
}

// depthSteps finds where the next of what is bought whole comes.
func depthSteps(at []AtDepth, frost bool) []DepthStep {
	var out []DepthStep
	for i := 1; i < len(at); i++ {
		a, b := &at[i-1], &at[i]
		add := func(is bool, format string, args ...any) {
			if is {
				out = append(out, DepthStep{b.Edge, fmt.Sprintf(format, args...)})
			}
		}
		add(b.Trucks > a.Trucks, "truck %d", b.Trucks)
		add(b.Section.Board.Name != "" && b.Section.Board.Name != a.Section.Board.Name, "%s forms", b.Section.Board.Name)
		add(b.Boards > a.Boards, "%d boards", b.Boards)
		add(b.Bars > a.Bars, "%d bars", b.Bars)
		add(frost && b.Frost && !a.Frost, "below frost")
	}
	return out
}

// MainEdge gives the edge section that most of the edges of what an option comes to
// have; false where there is none.
func (h *Handover) MainEdge(o estimate.Outcome) (EdgeSection, bool) {
	slabs, spec := o.Option.Apply(h.from.Job.Slabs, h.from.Job.Spec)
	main, ok := estimate.MainSection(slabs)
	if !ok || o.Err != nil {
		return EdgeSection{}, false
	}
	for _, s := range edgeSections(o.Takeoff, spec, nil) {
		if s.Section.Name == main.Name && s.Section.Depth == main.Depth {
			return s, true
		}
	}
	return EdgeSection{}, false
}
