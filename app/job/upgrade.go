package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"haunchbook.example/app/estimate"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// mark1 is a bolt given by the builder as files of version 1 wrote it: apart
// from the edges.
type mark1 struct {
	Hole     int             `json:"hole"` // 0 for the outline
	Edge     int             `json:"edge"`
	Along    geometry.Length `json:"along"`
	HoldDown bool            `json:"holddown"`
}

// versionOf reads the version before anything else, since a newer file has fields
// that are unknown here.
func versionOf(n node) (int, error) {
	if n.kind != '{' {
		return 0, fault{"", n.describe(), "write an object in { }"}
	}
	given, ok := n.field("haunchbook")
	if !ok {
		return 0, fault{"haunchbook", "no version", fmt.Sprintf(`start the file with "haunchbook": %d`, Version)}
	}
	version := 0
	if err := decode(*given, reflect.ValueOf(&version).Elem(), "haunchbook"); err != nil {
		return 0, err
	}
	if version < 1 || version > Version {
		return 0, fault{"haunchbook", given.text, fmt.Sprintf("this program reads up to version %d; use a newer one", Version)}
	}
	return version, nil
}

// renamed3 are the fields that have another name since version 3.
var renamed3 = []struct{ path, name string }{
	{"slabs[].pads[].centre", "center"},
	{"price.mobilisation", "mobilization"},
	{"spec.place.joints", "sawcuts"},
	{"trace", "sketch"},
}

// upgrade turns a file of an older version into one of this. Version 1 held one
// slab, and the builder's bolts apart from the edges; these it gives. Up to version
// 2, some fields had other names, and prices and what others supply named takeoff
// lines by keys. Up to version 3, a mix of which nothing else was said had 6 % of air.
func upgrade(n *node, version int) ([]mark1, error) {
	var marks []mark1
	var err error
	if version < 2 {
		if marks, err = upgrade1(n); err != nil {
			return nil, err
		}
	}
	if version < 3 {
		if err = upgrade2(n); err != nil {
			return nil, err
		}
	}
	if version < 4 {
		air := []string{"spec", "mix", "air"}
		given, ok := n.take(air...)
		if !ok {
			given = node{kind: 'n', text: "6"}
		}
		n.put(given, air...)
	}
	return marks, nil
}

func upgrade2(n *node) error {
	for _, r := range renamed3 {
		n.rename(r.path, r.name)
	}
	if loads, ok := n.take("pour", "trucks", "loads"); ok {
		n.put(loads, "spec", "order", "loads")
	}
	if price, ok := n.field("price"); ok {
		var err error
		if *price, err = parseJSON(estimate.Upgrade(price.json())); err != nil {
			return err
		}
	}
	return nil
}

func upgrade1(n *node) ([]mark1, error) {
	if k := slices.Index(n.keys, "slab"); k >= 0 {
		n.keys[k] = "slabs"
		n.values[k] = node{kind: '[', values: []node{n.values[k]}}
	}
	n.take("pour", "trucks", "shortload") // the price list's to say
	given, ok := n.take("spec", "place", "bolts", "marks")
	if !ok {
		return nil, nil
	}
	var marks []mark1
	err := decode(given, reflect.ValueOf(&marks).Elem(), "spec.place.bolts.marks")
	return marks, err
}

// place puts marks on the edges they are for. One that is for no edge was never
// placed.
func (j Job) place(marks []mark1) {
	for _, m := range marks {
		for _, p := range j.Slabs {
			loops := p.Loops()
			if m.Hole < 0 || m.Hole >= len(loops) || m.Edge < 0 || m.Edge >= len(loops[m.Hole]) {
				continue
			}
			e := &loops[m.Hole][m.Edge]
			e.Bolts = append(e.Bolts, plan.BoltMark{Along: m.Along, HoldDown: m.HoldDown})
		}
	}
}

// field gives a field of an object.
func (n *node) field(key string) (*node, bool) {
	k := slices.Index(n.keys, key)
	if k < 0 {
		return nil, false
	}
	return &n.values[k], true
}

// rename gives the fields at a path, as "slabs[].pads[].centre", another name, but
// where there is one of that name already: the reader refuses the old one then.
func (n *node) rename(path, name string) {
	key, rest, deeper := strings.Cut(path, ".")
	list := strings.HasSuffix(key, "[]")
	if !deeper {
		if k := slices.Index(n.keys, key); k >= 0 && !slices.Contains(n.keys, name) {
			n.keys[k] = name
		}
		return
	}
	next, ok := n.field(strings.TrimSuffix(key, "[]"))
	switch {
	case !ok:
	case list:
		for i := range next.values {
			next.values[i].rename(rest, name)
		}
	default:
		next.rename(rest, name)
	}
}

// take takes the field at the end of a path out of its object.
func (n *node) take(path ...string) (node, bool) {
	for _, key := range path[:len(path)-1] {
		next, ok := n.field(key)
		if !ok {
			return node{}, false
		}
		n = next
	}
	k := slices.Index(n.keys, path[len(path)-1])
	if k < 0 {
		return node{}, false
	}
	v := n.values[k]
	n.keys, n.values = slices.Delete(n.keys, k, k+1), slices.Delete(n.values, k, k+1)
	return v, true
}

// put puts a field at the end of a path, with the objects on its way.
func (n *node) put(v node, path ...string) {
	for _, key := range path[:len(path)-1] {
		if _, ok := n.field(key); !ok {
			n.keys, n.values = append(n.keys, key), append(n.values, node{kind: '{'})
		}
		n, _ = n.field(key)
	}
	n.keys, n.values = append(n.keys, path[len(path)-1]), append(n.values, v)
}
