package plan

import (
	"cmp"
	"fmt"
	"slices"

	"haunchbook.example/geometry"
)

// Door is an opening in the wall on an edge.
type Door struct {
	Name    string          `json:"name,omitzero"`
	Kind    DoorKind        `json:"kind"`
	From    geometry.Length `json:"from"`             // from the edge's corner to the near jamb of the rough opening
	Width   geometry.Length `json:"width"`            // of the rough opening
	Section string          `json:"section,omitzero"` // section under it; "" for the edge's own
	RunOut  geometry.Length `json:"runout,omitzero"`  // beyond each jamb, the deeper section ramps up over this length; 0 is square
	Lip     Lip             `json:"lip,omitzero"`
}

// DoorKind tells who goes through.
type DoorKind = geometry.Choice[doorKinds]

const (
	Overhead DoorKind = iota // vehicles
	Walk                     // people
)

type doorKinds struct{}

// Names implements geometry.Named.
func (doorKinds) Names() []string { return []string{"overhead", "walk"} }

// Lip is a strip of the top under a door, lower than the rest so that rain
// stays out. Its underside stays where it is. The zero Lip is none.
type Lip struct {
	Inset geometry.Length `json:"inset"` // how far in from the face it reaches
	Drop  geometry.Length `json:"drop"`  // how far it lies below the top
}

// KindDoor is the kind of doors. They move along their edge.
const KindDoor Kind = "door"

func init() {
	register(KindDoor, 30, 3, edgeList[Door]{
		perEdge: perEdge{KindDoor},
		in:      func(e *Edge) *[]Door { return &e.Doors },
		along:   func(d *Door) *geometry.Length { return &d.From },
		lies: func(l Loop, i int, d Door) Outline {
			a, b := l.Ends(i)
			if a == b {
				return Outline{Lines: [][2]geometry.Point{{a, b}}}
			}
			return Outline{Lines: [][2]geometry.Point{{geometry.Along(a, b, d.From), geometry.Along(a, b, d.From+d.Width)}}}
		},
	})
}

// Span is a stretch of an edge with one section.
type Span struct {
	From, To geometry.Length // from the edge's start corner
	Section  string          // "" for none
	Door     int             // number of the door over it, or -1
}

// Spans cuts edge i of the loop at its door jambs, from start to end.
func (l Loop) Spans(i int) []Span {
	e, length := l[i], l.Length(i)
	doors := make([]int, len(e.Doors))
	for k := range doors {
		doors[k] = k
	}
	slices.SortStableFunc(doors, func(a, b int) int { return cmp.Compare(e.Doors[a].From, e.Doors[b].From) })
	var spans []Span
	at := geometry.Length(0)
	for _, k := range doors {
		d := e.Doors[k]
		if d.From > at {
			spans = append(spans, Span{at, d.From, e.Section, -1})
		}
		section := d.Section
		if section == "" {
			section = e.Section
		}
		spans = append(spans, Span{d.From, d.From + d.Width, section, k})
		at = d.From + d.Width
	}
	if at < length || len(spans) == 0 {
		spans = append(spans, Span{at, length, e.Section, -1})
	}
	return spans
}

// AddDoor puts a door on edge i of a loop, after those that are there.
func (p Plan) AddDoor(loop, i int, d Door) (Plan, error) {
	return p.SetEdge(loop, i, func(e *Edge) { e.Doors = append(e.Doors, d) })
}

// SetDoor replaces door k of edge i of a loop.
func (p Plan) SetDoor(loop, i, k int, d Door) (Plan, error) {
	return p.edit(loop, i, func(l *Loop) error {
		doors := (*l)[i].Doors
		if k < 0 || k >= len(doors) {
			return noSuch("door", k, len(doors))
		}
		doors[k] = d
		return nil
	})
}

func (v *validator) doors(path string, l Loop, i int) {
	a, b := l.Ends(i)
	length := geometry.Distance(a, b)
	for k, d := range l[i].Doors {
		dp := fmt.Sprintf("%s.doors[%d]", path, k)
		at := a
		if a != b && d.From.Abs() <= geometry.MaxLength {
			at = geometry.Along(a, b, min(max(d.From, 0), length))
		}
		v.sectionName(dp+".section", at, d.Section)
		if d.Lip.Drop > 0 && d.Lip.Drop >= v.p.Field {
			v.fault(dp+".lip.drop", at, v.text(d.Lip.Drop), "must be less than the field's thickness, "+v.text(v.p.Field))
		}
		switch {
		case d.Width <= 0, d.From < 0, tooFar(d.Width), tooFar(d.From):
			continue // no opening
		case d.Width > length:
			v.fault(dp+".width", at, v.text(d.Width)+" on an edge of "+v.text(length), "an opening must fit its edge")
			continue
		case d.From+d.Width > length:
			v.fault(dp+".from", at, "an opening from "+v.text(d.From)+" to "+v.text(d.From+d.Width)+" on an edge of "+v.text(length),
				"an opening must not run over the corner; the far jamb can be at most at "+v.text(length))
			continue
		}
		for m, o := range l[i].Doors[:k] {
			if d.From < o.From+o.Width && o.From < d.From+d.Width {
				v.fault(dp+".from", at, "an opening that overlaps doors["+fmt.Sprint(m)+"]", "move one of them or make it narrower")
			}
		}
	}
}
