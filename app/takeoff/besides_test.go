package takeoff_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Every rule of what no drawing shows, worked by hand from the quantities of a slab of
// 24 by 20 ft with a door with a lip, a joint and fill under it, in both units.
func TestBesides(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		p := rectangle(24*foot, 20*foot, "Edge")
		for i := range p.Outline {
			p.Outline[i].Wall = "2x6"
		}
		p.Outline[0].Doors = []plan.Door{{From: 4 * foot, Width: 9 * foot, Lip: plan.Lip{Inset: 4 * inch, Drop: inch}}}
		p.Outline[2] = plan.Edge{At: p.Outline[2].At, Joint: true}
		s := takeoff.Default()
		s.Base.Above, s.Base.Retarder = 11*inch, 10
		got := take(t, p, s, u)
		of := func(k takeoff.Kind) float64 {
			sum := 0.0
			for _, l := range got.Lines {
				if l.ID.Kind == k {
					sum += l.Value
				}
			}
			return sum
		}
		long, yard := 1.0, 27.0 // a foot, and how many cubic feet the unit of volume has
		if u == geometry.Millimeters {
			long, yard = 0.3048, 1/(0.3048*0.3048*0.3048)
		}
		joints, face, beside, seams, longest := 0.0, 0.0, 0.0, 0.0, 0.0
		for _, f := range got.Slabs[0].Layout.Forms {
			n := f.Length.Feet()
			joints += float64(len(f.Boards) - 1)
			face += n * f.Board.Width.Feet()
			beside += n * (f.Board.Width - f.Ripped - s.Base.Above).Feet() // 1 ft wide
		}
		for _, r := range got.Slabs[0].Retarder.Sheets {
			seams += r.Length.Feet()
			longest = max(longest, r.Length.Feet())
		}
		want := map[takeoff.Kind]float64{
			takeoff.BarSupports:    math.Ceil(of(takeoff.EdgeBarLength) / long / 4),
			takeoff.TieWire:        0.006 * of(takeoff.EdgeBarWeight),
			takeoff.RetarderTape:   (seams - longest) * long,
			takeoff.FormRelease:    face * long * long,
			takeoff.KickerStakes:   of(takeoff.Kickers),
			takeoff.BoardScabs:     joints,
			takeoff.DuplexNails:    2*of(takeoff.Stakes) + 3*of(takeoff.Kickers) + 8*joints,
			takeoff.LipBlockOuts:   9 * long,
			takeoff.MarkingString:  88 * long,
			takeoff.CuringCompound: 480 * long * long,
			takeoff.CuringBlankets: 480 * long * long,
			takeoff.Sealer:         480 * long * long,
			takeoff.JointSealant:   of(takeoff.SawCuts) + of(takeoff.IsolationStrip),
			takeoff.BackerRod:      of(takeoff.IsolationStrip),
			takeoff.SillSeal:       of(takeoff.PlateLength),
			takeoff.BarCaps:        of(takeoff.DowelHoles) + of(takeoff.AnchorBolts),
			takeoff.OverDig:        beside / yard,
			takeoff.Backfill:       beside / yard,
			takeoff.HaulOff:        1.25 * of(takeoff.Digging),
			takeoff.LooseFill:      of(takeoff.Filling) * s.Base.Compaction.InexactFloat64(),
		}
		for k, v := range want {
			if v < 1e-9 {
				delete(want, k) // a job has no line of what it takes nothing of
			}
		}
		is := map[takeoff.Kind]float64{}
		for _, l := range got.Besides {
			is[l.ID.Kind] = l.Value
			if len(l.Working) == 0 || l.Working[0].Work == "" || l.Working[0].Source == "" {
				t.Errorf("%s does not say how it is found", l.Name)
			}
		}
		if diff := cmp.Diff(want, is, cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-9*(1+math.Abs(a)) })); diff != "" {
			t.Errorf("%v: %s", u, diff)
		}
		for _, k := range []takeoff.Kind{takeoff.LooseFill, takeoff.OverDig, takeoff.BarCaps, takeoff.RetarderTape, takeoff.BoardScabs} {
			if want[k] == 0 {
				t.Errorf("the slab takes no %s", k)
			}
		}
	}
}
