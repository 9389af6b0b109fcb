package document

import (
	"regexp"
	"strconv"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry/plan"
)

// Said is a fault in the words of the window, which counts from 1 and calls things
// by their names, where a job file has paths that count from 0.
type Said struct {
	plan.Fault        // with the words of the window
	Slab       int    // number of the slab that it is on, -1 for none
	Place      string // "Apron, edge 3, door D1: width"
}

// Said gives the faults of the job as the window says them.
func (d *Document) Said() []Said {
	out := make([]Said, len(d.faults))
	for i, f := range d.faults {
		out[i] = say(d.job, f)
	}
	return out
}

// Spoken gives the faults with their texts in words, to be shown at their places.
func (d *Document) Spoken() plan.Faults {
	if len(d.faults) == 0 {
		return nil
	}
	out := make(plan.Faults, len(d.faults))
	for i, s := range d.Said() {
		out[i] = s.Fault
	}
	return out
}

// say puts one fault into words.
func say(j job.Job, f plan.Fault) Said {
	s := Said{Fault: f, Place: field.Words(j, f.Path), Slab: -1}
	under := "" // what a text mentions by a path stands on the same slab
	if m := onSlab.FindStringSubmatch(f.Path); m != nil {
		s.Slab, _ = strconv.Atoi(m[1]) // digits, by the expression
		under = m[0]
	}
	words := func(text string) string {
		return mention.ReplaceAllStringFunc(text, func(found string) string {
			if edge, _, ok := strings.Cut(f.Path, ".doors["); ok && strings.HasPrefix(found, "doors") {
				return field.Thing(j, field.Join(edge, found)) // on the same edge
			}
			return field.Thing(j, field.Join(under, found))
		})
	}
	s.Found, s.Want = words(f.Found), words(f.Want)
	return s
}

var (
	onSlab  = regexp.MustCompile(`^slabs\[(\d+)\]`)
	mention = regexp.MustCompile(`holes\[\d+\]\.edges\[\d+\]|(?:outline|holes|doors|sections|pads|strips)\[\d+\]`)
)
