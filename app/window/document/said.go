package document

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

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
		out[i] = say(d.job.Slabs, f)
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
func say(slabs []plan.Plan, f plan.Fault) Said {
	n := namer{slabs: slabs, slab: -1}
	s := Said{Fault: f, Place: n.place(f.Path)}
	s.Slab = n.slab
	s.Found, s.Want = n.text(f.Found), n.text(f.Want)
	return s
}

// namer follows a path through the job.
type namer struct {
	slabs []plan.Plan
	slab  int
	loop  plan.Loop
	edge  *plan.Edge
}

func (n *namer) plan() plan.Plan {
	if n.slab >= 0 && n.slab < len(n.slabs) {
		return n.slabs[n.slab]
	}
	return plan.Plan{}
}

var step = regexp.MustCompile(`^([^\[]+)(?:\[(\d+)\])?$`)

// place names what a path leads to: the last part after a colon.
func (n *namer) place(path string) string {
	var words []string
	field := ""
	for _, part := range strings.Split(path, ".") {
		m := step.FindStringSubmatch(part)
		if m == nil {
			m = []string{part, part, ""}
		}
		k := -1
		if m[2] != "" {
			k, _ = strconv.Atoi(m[2]) // digits, by the expression
		}
		word, thing := n.step(m[1], k)
		switch {
		case word == "":
		case thing:
			words = append(words, word)
		case field == "":
			field = word
		default:
			field += ", " + word
		}
	}
	at := strings.Join(words, ", ")
	switch {
	case at == "":
		return upper(field)
	case field == "":
		return upper(at)
	}
	return upper(at) + ": " + field
}

func upper(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// step names one part of a path, and tells whether it is a thing, as against a
// field of one.
func (n *namer) step(name string, k int) (word string, thing bool) {
	switch name {
	case "slabs":
		n.slab = k
		if len(n.slabs) > 1 && k >= 0 && k < len(n.slabs) {
			return n.slabs[k].Called(k), true
		}
		return "", true
	case "outline":
		n.loop = n.plan().Outline
		if k < 0 {
			return "outline", true
		}
		n.enter(k)
		return fmt.Sprintf("edge %d", k+1), true
	case "holes":
		if holes := n.plan().Holes; k >= 0 && k < len(holes) {
			n.loop = holes[k].Loop
			return called("hole", holes[k].Name, k), true
		}
		return fmt.Sprintf("hole %d", k+1), true
	case "edges":
		if k < 0 {
			return "", true
		}
		n.enter(k)
		return fmt.Sprintf("edge %d", k+1), true
	case "doors":
		if n.edge != nil && k >= 0 && k < len(n.edge.Doors) {
			return called("door", n.edge.Doors[k].Name, k), true
		}
		return fmt.Sprintf("door %d", k+1), true
	case "pads":
		if pads := n.plan().Pads; k >= 0 && k < len(pads) {
			return called("pad", pads[k].Name, k), true
		}
	case "strips":
		if strips := n.plan().Strips; k >= 0 && k < len(strips) {
			return called("strip", strips[k].Name, k), true
		}
	case "sections":
		if all := n.plan().Sections; k >= 0 && k < len(all) {
			return called("section", all[k].Name, k), true
		}
	case "top":
		return "", true
	case "survey":
		return "", true
	}
	if w, ok := words[name]; ok {
		name = w
	}
	if k >= 0 {
		return fmt.Sprintf("%s %d", strings.TrimSuffix(name, "s"), k+1), true
	}
	return name, name == "specification" || name == "pour" || name == "price" || name == "picture"
}

func (n *namer) enter(k int) {
	n.edge = nil
	if k >= 0 && k < len(n.loop) {
		n.edge = &n.loop[k]
	}
}

// called gives "door D1", or "door 2" where it has no name.
func called(what, name string, k int) string {
	if name == "" {
		return fmt.Sprintf("%s %d", what, k+1)
	}
	return what + " " + name
}

// words are those names in a job file that are no words of the trade.
var words = map[string]string{
	"spec": "specification", "sketch": "sketch", "at": "place", "to": "end", "from": "place", "along": "place", "path": "points",
	"runout": "run-out", "bolts": "bolt marks", "inset": "reach", "field": "field thickness", "center": "middle",
	"turnup": "turn-up", "foamwidth": "foam width", "foamlength": "foam length", "rollwidth": "roll width", "rolllength": "roll length",
	"endmin": "least end distance", "endmax": "greatest end distance", "oldslab": "old slab", "stakeout": "stake-out",
}

var mention = regexp.MustCompile(`(?:holes\[(\d+)\]\.edges\[(\d+)\])|(?:(outline|holes|doors|sections|pads|strips)\[(\d+)\])`)

// text says in words what a text calls by paths.
func (n *namer) text(s string) string {
	return mention.ReplaceAllStringFunc(s, func(found string) string {
		m := mention.FindStringSubmatch(found)
		at := *n // what it mentions is beside what the fault is on
		if m[1] != "" {
			hole, _ := strconv.Atoi(m[1])
			edge, _ := strconv.Atoi(m[2])
			word, _ := at.step("holes", hole)
			return fmt.Sprintf("edge %d of %s", edge+1, word)
		}
		k, _ := strconv.Atoi(m[4])
		word, _ := at.step(m[3], k)
		return word
	})
}
