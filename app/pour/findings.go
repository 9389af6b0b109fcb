package pour

import (
	"fmt"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
)

// found makes a finding of the day as a whole.
func found(name, source string, how rule.Severity, format string, args ...any) rule.Finding {
	return rule.Finding{Rule: rule.Rule{Name: name, Source: source, Step: rule.Pour}, Severity: how, Text: fmt.Sprintf(format, args...)}
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

func visitFindings(loads []Load, t Trucks) []rule.Finding {
	var out []rule.Finding
	for i, l := range loads {
		v, n := l.Visit, i+1
		if v.Age() > float64(t.Limit) {
			out = append(out, found("Discharge limit", "ASTM C94/C94M-21: the purchaser's or the producer's, on the ticket", rule.Limit,
				"Load %d would be %.0f min old when it is empty; the limit agreed is %d min. More hands, smaller loads, a nearer plant, or a retarder and another limit agreed with the plant.", n, v.Age(), t.Limit))
		}
		if v.Idle > gapNote {
			how, mend := rule.Note, "order trucks closer together"
			if v.Idle > gapBad {
				how = rule.Limit
			}
			if t.Fleet > 0 && t.Fleet < len(loads) {
				// They are asked for one after the other already: it is the drive that takes the time.
				mend = fmt.Sprintf("ask for more trucks than %d, or for smaller loads", t.Fleet)
			}
			out = append(out, found("Gap between trucks", practice, how, "%.0f min without concrete before load %d: keep the open face alive, and %s.", v.Idle, n, mend))
		}
		if v.Waits > gapBad {
			out = append(out, found("Truck waits", practice, rule.Note, "Load %d waits %.0f min for its turn: order trucks further apart.", n, v.Waits))
		}
	}
	return out
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
		f := found(name, practice, how, format, args...)
		if len(at) > 0 {
			f.At, f.Also = at[0], at[1:]
		}
		out = append(out, f)
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
