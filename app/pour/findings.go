package pour

import (
	"fmt"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
)

// RuleNone is what a day that cannot be planned breaks.
var RuleNone = rule.Rule{Name: "Plan of the pour", Source: "limit of this program", Step: rule.Pour}

// found makes a finding of the day as a whole.
func found(name, source string, how rule.Severity, format string, args ...any) rule.Finding {
	return rule.Finding{Rule: rule.Rule{Name: name, Source: source, Step: rule.Pour}, Severity: how, Text: fmt.Sprintf(format, args...)}
}

// placed gives a finding the places it is of, where it has any.
func placed(f rule.Finding, at []geometry.Point) rule.Finding {
	if len(at) > 0 {
		f.At, f.Also = at[0], at[1:]
	}
	return f
}

// planning marks a finding that is nothing to a crew on the day.
func planning(f rule.Finding) rule.Finding {
	f.Planning = true
	return f
}

const practice = "common practice"

// The gaps between trucks at which a crew should mind its joint (common practice:
// how long fresh concrete can wait depends on the weather and the mix).
const (
	gapNote = 15.0
	gapBad  = 30.0
)

// visitFindings tells of loads that come too early, too late or too old: each thing once,
// as it is with the worst of them. Where the trucks are too few, enough says how many are.
func visitFindings(loads []Load, t Trucks, enough func() int) []rule.Finding {
	var old, waits, note, bad worst
	for i, l := range loads {
		v := l.Visit
		if v.Age() > float64(t.Limit) {
			old.add(i+1, v.Age())
		}
		if v.Idle > gapBad {
			bad.add(i+1, v.Idle)
		} else if v.Idle > gapNote {
			note.add(i+1, v.Idle)
		}
		if v.Waits > gapBad {
			waits.add(i+1, v.Waits)
		}
	}
	var out []rule.Finding
	add := func(name, source string, how rule.Severity, w worst, one, many, mend string) {
		switch len(w.of) {
		case 0:
		case 1:
			out = append(out, found(name, source, how, one+mend, w.load, w.most))
		default:
			out = append(out, found(name, source, how, many+mend, w.load, w.most, len(w.of)))
		}
	}
	add("Discharge limit", "ASTM C94/C94M-21: the purchaser's or the producer's, on the ticket", rule.Limit, old,
		"Load %d would be %.0f min old when it is empty", "%[3]d loads would be up to %.0[2]f min old when empty, load %[1]d the oldest",
		fmt.Sprintf("; the limit agreed is %d min. More hands, smaller loads, a nearer plant, or a retarder and another limit agreed with the plant.", t.Limit))
	mend := ": keep the open face alive, and order trucks closer together."
	if t.Fleet > 0 && t.Fleet < len(loads) {
		// They are asked for one after the other already: it is the drive that takes the time.
		mend = fmt.Sprintf(": keep the open face alive, and ask for %d trucks instead of %d, or for smaller loads.", max(enough(), t.Fleet+1), t.Fleet)
	}
	const one, many = "%.0[2]f min without concrete before load %[1]d", "Up to %.0[2]f min without concrete before %[3]d loads, most before load %[1]d"
	add("Gap between trucks", practice, rule.Limit, bad, one, many, mend)
	add("Gap between trucks", practice, rule.Note, note, one, many, mend)
	add("Truck waits", practice, rule.Note, waits, "Load %d waits %.0f min for its turn", "%[3]d loads wait up to %.0[2]f min for their turn, load %[1]d the longest", ": order trucks further apart.")
	return out
}

// worst is the loads of which the same is to be said, and which of them has most minutes.
type worst struct {
	of   []int
	load int
	most float64
}

func (w *worst) add(load int, minutes float64) {
	if w.of = append(w.of, load); minutes > w.most {
		w.load, w.most = load, minutes
	}
}

// wetSet tells what setting bolts and bars in fresh concrete asks first: cast-in means
// tied before placing to inspectors and to a state structural engineers' association.
func wetSet(in Input) (out []rule.Finding) {
	for _, s := range in.Slabs {
		if len(s.Bolts) > 0 {
			f := planning(found("Bolts set wet", practice, rule.Note,
				"Bolts are counted as set in the fresh concrete, bay by bay, as is common on small slabs. Ask the inspector before the pour: some want bolts tied before it."))
			f.At = s.Bolts[0]
			out = append(out, f)
			break
		}
	}
	if b := in.Spec.Place.Bars; b.Setting == bars.Wet && len(b.Rows) > 0 {
		out = append(out, planning(found("Bars set wet", "ACI 318-19 26.6.2.1, from memory", rule.Limit,
			"Edge bars are pushed into the fresh concrete: the code asks for bars held in their place before concrete is placed. Do so only where the inspector agreed.")))
	}
	return out
}

func (d *Day) reachFindings(in Input) []rule.Finding {
	var out []rule.Finding
	r := in.Pour.Reach
	add := func(name string, how rule.Severity, at []geometry.Point, format string, args ...any) {
		out = append(out, placed(found(name, practice, how, format, args...), at))
	}
	if r.Method != Buggy && len(in.Pour.Stations) == 0 {
		out = append(out, planning(found("Truck place", practice, rule.Note, "Not checked: reach, as no place for the truck is marked.")))
	} else {
		var far, raked []int
		var farAt, rakedAt []geometry.Point
		for _, b := range d.Bays {
			switch {
			case !b.Reached:
				far, farAt = append(far, b.Number), append(farAt, b.Middle)
			case r.Method == Chute && b.Away > r.Chute:
				raked, rakedAt = append(raked, b.Number), append(rakedAt, b.Middle)
			}
		}
		if len(far) > 0 {
			add("Reach", rule.Limit, farAt, "%s %s beyond the %s's %s%s: another place for the truck, a pump, or buggies.",
				field.Upper(numbered("bay", far)), isAre(len(far)), r.Method, r.Chute.Text(in.Units), r.rakedText(in.Units))
		}
		if len(raked) > 0 {
			add("Raking", rule.Note, rakedAt, "%s %s filled from the end of the chute with rakes, up to %s on: hands for it, no more water, and no vibrator to move concrete sideways.",
				field.Upper(numbered("bay", raked)), isAre(len(raked)), r.Rake.Text(in.Units))
		}
	}
	if len(in.Pour.Stations) > 0 && r.Method == Chute {
		for _, s := range in.Slabs {
			if bay, last, ok := d.cornered(s.Number); ok {
				add("Order of bays", rule.Note, nil, "Bay %d is nearer to the truck than the last lane, %d: move the truck to the side that is placed last, or turn the lanes.", bay, last)
			}
		}
	}
	if r.Float > 0 && r.Float < r.Straightedge-r.Overlap {
		add("Float reach", rule.Note, nil, "The bull float reaches %s, less than the straightedge spans: the lanes are laid to the float.", r.Float.Text(in.Units))
	}
	return out
}

// cornered finds a bay of a slab that is nearer to its truck than the slab's last
// lane: the crew works itself into a corner.
func (d *Day) cornered(slab int) (bay, last int, found bool) {
	near := map[int]geometry.Length{} // to the last lane, by truck
	for _, s := range d.Lanes {
		if s.Slab == slab {
			last = s.Number
		}
	}
	for _, b := range d.Bays {
		if away, ok := near[b.Station]; b.Lane == last && (!ok || b.Away < away) {
			near[b.Station] = b.Away
		}
	}
	for _, b := range d.Bays {
		if away, ok := near[b.Station]; ok && b.Slab == slab && b.Lane != last && b.Away < away-geometry.Foot {
			return b.Number, last, true
		}
	}
	return 0, 0, false
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// numbered lists rising numbers: "bay 3", "bays 1 to 4 and 7".
func numbered(noun string, ns []int) string {
	var runs []string
	for i := 0; i < len(ns); {
		k := i
		for k+1 < len(ns) && ns[k+1] == ns[k]+1 {
			k++
		}
		if k > i+1 {
			runs = append(runs, fmt.Sprintf("%d to %d", ns[i], ns[k]))
			i = k + 1
			continue
		}
		runs = append(runs, fmt.Sprint(ns[i]))
		i++
	}
	if len(ns) > 1 {
		noun += "s"
	}
	if n := len(runs); n > 1 {
		return noun + " " + strings.Join(runs[:n-1], ", ") + " and " + runs[n-1]
	}
	return noun + " " + runs[0]
}
