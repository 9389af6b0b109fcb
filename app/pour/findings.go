package pour

import (
	"fmt"
	"strings"

	"haunchbook.example/geometry"
)

// Finding is something to know or to mend, with the rule it appeals to.
type Finding struct {
	Name   string // "Evaporation"
	Source string // "ACI 305R" or "common practice"
	Severe bool   // breaks a limit, as against a thing to know
	Text   string // what was found and what would do
}

func (f Finding) rank() int {
	if f.Severe {
		return 1
	}
	return 0
}

// The gaps between trucks at which a crew should mind its joint (common practice:
// how long fresh concrete can wait depends on the weather and the mix).
const (
	gapNote = 15.0
	gapBad  = 30.0
)

func visitFindings(loads []Load, t Trucks) []Finding {
	var out []Finding
	for i, l := range loads {
		v, n := l.Visit, i+1
		if v.Age() > float64(t.Limit) {
			out = append(out, Finding{"Discharge limit", "ASTM C94/C94M, or as agreed", true,
				fmt.Sprintf("load %d would be %.0f min old when it is empty, more than %d: more hands, smaller loads, a nearer plant, or a retarder agreed with the plant", n, v.Age(), t.Limit)})
		}
		if v.Idle > gapNote {
			out = append(out, Finding{"Gap between trucks", "common practice", v.Idle > gapBad,
				fmt.Sprintf("%.0f min without concrete before load %d: keep the open face alive, and order trucks closer together or more of them", v.Idle, n)})
		}
		if v.Waits > gapBad {
			out = append(out, Finding{"Truck waits", "common practice", false,
				fmt.Sprintf("load %d waits %.0f min for its turn: order trucks further apart", n, v.Waits)})
		}
	}
	return out
}

func (d *Day) reachFindings(in Input) []Finding {
	var out []Finding
	r := in.Pour.Reach
	add := func(name string, severe bool, format string, args ...any) {
		out = append(out, Finding{name, "common practice", severe, fmt.Sprintf(format, args...)})
	}
	if r.Method != Buggy && len(in.Pour.Stations) == 0 {
		add("Truck place", false, "no place for the truck is marked: mark where it can stand to see what it reaches")
	} else {
		var far []int
		for _, b := range d.Bays {
			if !b.Reached {
				far = append(far, b.Number)
			}
		}
		if len(far) > 0 {
			add("Reach", true, "%s %s beyond the %s's %s: another place for the truck, a pump, or buggies",
				numbered("bay", far), isAre(len(far)), r.Method, r.Chute.Text(in.Units))
		}
	}
	if len(in.Pour.Stations) > 0 && r.Method == Chute {
		for _, s := range in.Slabs {
			if bay, last, ok := d.cornered(s.Number); ok {
				add("Order of bays", false, "bay %d is nearer to the truck than the last lane, %d: move the truck to the side that is placed last, or turn the lanes", bay, last)
			}
		}
	}
	if r.Float > 0 && r.Float < r.Straightedge-r.Overlap {
		add("Float reach", false, "the bull float reaches %s, less than the straightedge spans: the lanes are laid to the float", r.Float.Text(in.Units))
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
