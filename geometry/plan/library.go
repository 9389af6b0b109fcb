package plan

import (
	"fmt"
	"reflect"
	"slices"
)

// The slabs of a job are drawn from one library of sections: what is changed for
// one of them is changed for all that have the same section. A slab whose section
// of that name differs keeps its own.

// ShareSection puts a section into the library in place of the one that slab k
// calls old, or as a new one where old is "".
func ShareSection(slabs []Plan, k int, old string, s Section) ([]Plan, error) {
	if k < 0 || k >= len(slabs) {
		return slabs, noSuch("slab", k, len(slabs))
	}
	was, _ := slabs[k].SectionNamed(old)
	out := slices.Clone(slabs)
	var err error
	if out[k], err = slabs[k].PutSection(old, s); err != nil {
		return slabs, err
	}
	for i, p := range slabs {
		if i == k {
			continue
		}
		same, has := p.SectionNamed(old)
		if has != (old != "") || has && !reflect.DeepEqual(same, was) {
			continue
		}
		// Where the new name is taken, the slab keeps its own of that name.
		if q, err := p.PutSection(old, s); err == nil {
			out[i] = q
		}
	}
	return out, nil
}

// DropSection takes the section that slab k calls by a name out of the library. It
// is refused while an edge or a door of a slab that has it uses it.
func DropSection(slabs []Plan, k int, name string) ([]Plan, error) {
	if k < 0 || k >= len(slabs) {
		return slabs, noSuch("slab", k, len(slabs))
	}
	was, _ := slabs[k].SectionNamed(name)
	out := slices.Clone(slabs)
	for i, p := range slabs {
		if same, has := p.SectionNamed(name); i != k && (!has || !reflect.DeepEqual(same, was)) {
			continue
		}
		q, err := p.RemoveSection(name)
		if err != nil && i != k {
			return slabs, fmt.Errorf("%s: %w", p.Called(i), err)
		}
		if err != nil {
			return slabs, err
		}
		out[i] = q
	}
	return out, nil
}
