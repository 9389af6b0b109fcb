package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/lumber"
)

// Section is the cross-section of a haunch (a thickened edge): Depth for the
// flat width Bottom, then a straight taper over the run Taper up to the field.
// A Profile, where given, replaces all three.
type Section struct {
	Name    string          `json:"name"`
	Depth   geometry.Length `json:"depth,omitzero"`
	Bottom  geometry.Length `json:"bottom,omitzero"`
	Taper   geometry.Length `json:"taper,omitzero"`
	Profile []Station       `json:"profile,omitzero"`
}

// Station is a point of a section's underside.
type Station struct {
	Inset geometry.Length `json:"inset"` // distance from the face of the edge, inward
	Depth geometry.Length `json:"depth"` // below the top
}

// Reach gives how far from the face the section still differs from the field.
func (s Section) Reach() geometry.Length {
	if n := len(s.Profile); n > 0 {
		return s.Profile[n-1].Inset
	}
	return s.Bottom + s.Taper
}

// Deepest gives the greatest depth of the section.
func (s Section) Deepest() geometry.Length {
	d := s.Depth
	if len(s.Profile) > 0 {
		d = s.Profile[0].Depth
		for _, st := range s.Profile {
			d = max(d, st.Depth)
		}
	}
	return d
}

// Stations gives the underside from the face inward. Two stations with one
// inset are a vertical step.
func (s Section) Stations(field geometry.Length) []Station {
	if len(s.Profile) > 0 {
		return slices.Clone(s.Profile)
	}
	return []Station{{0, s.Depth}, {s.Bottom, s.Depth}, {s.Bottom + s.Taper, field}}
}

// SectionNamed gives the section called name; false for "" and unknown names.
func (p Plan) SectionNamed(name string) (Section, bool) {
	if name != "" {
		for _, s := range p.Sections {
			if s.Name == name {
				return s, true
			}
		}
	}
	return Section{}, false
}

// SectionOn gives the section called name as it is dug on edge e: a trench that
// ends at the board is no deeper than the dressed width of the form board, on an
// edge that is formed. False where there is none.
func (p Plan) SectionOn(e Edge, name string) (Section, bool) {
	s, ok := p.SectionNamed(name)
	if !ok || p.Trench != ToBoard || e.Joint || len(s.Profile) > 0 {
		return s, ok
	}
	if board, fits := lumber.ForDepth(s.Depth); fits {
		s.Depth = max(min(s.Depth, board.Width), p.Field)
	}
	return s, true
}

// SetAllSections gives every edge of the outline that is no joint the section
// called name.
func (p Plan) SetAllSections(name string) Plan {
	p = p.Clone()
	for i := range p.Outline {
		if !p.Outline[i].Joint {
			p.Outline[i].Section = name
		}
	}
	return p
}

// PutSection puts a section into the plan's library in place of the one called
// old, or as a new one where there is none. Edges and doors follow a new name.
func (p Plan) PutSection(old string, s Section) (Plan, error) {
	if s.Name == "" {
		return p, errors.New("give the section a name")
	}
	if s.Name != old {
		if _, taken := p.SectionNamed(s.Name); taken {
			return p, fmt.Errorf("there is a section %q already; choose another name", s.Name)
		}
	}
	p = p.Clone()
	i := slices.IndexFunc(p.Sections, func(t Section) bool { return t.Name == old })
	if i < 0 {
		p.Sections = append(p.Sections, s)
		return p, nil
	}
	p.Sections[i] = s
	p.eachSectionName(func(name *string) {
		if *name == old {
			*name = s.Name
		}
	})
	return p, nil
}

// RemoveSection takes the section called name out of the library. It is refused
// while an edge or a door uses it.
func (p Plan) RemoveSection(name string) (Plan, error) {
	used := 0
	q := p.Clone()
	q.eachSectionName(func(n *string) {
		if *n == name {
			used++
		}
	})
	if used > 0 {
		return p, fmt.Errorf("section %q is in use in %d places; give those edges and doors another first", name, used)
	}
	i := slices.IndexFunc(q.Sections, func(t Section) bool { return t.Name == name })
	if i < 0 {
		return p, fmt.Errorf("there is no section %q", name)
	}
	q.Sections = slices.Delete(q.Sections, i, i+1)
	return q, nil
}

func (p *Plan) eachSectionName(visit func(*string)) {
	for k := range 1 + len(p.Holes) {
		l, _ := p.loopAt(k)
		for i := range *l {
			visit(&(*l)[i].Section)
			for d := range (*l)[i].Doors {
				visit(&(*l)[i].Doors[d].Section)
			}
		}
	}
}

func (v *validator) sections() {
	for i, s := range v.p.Sections {
		path := fmt.Sprintf("sections[%d]", i)
		if len(s.Profile) > 0 {
			v.profile(path, s.Profile)
			continue
		}
		v.deepEnough(path+".depth", v.home, s.Depth)
	}
}

func (v *validator) profile(path string, ps []Station) {
	if len(ps) < 2 {
		v.fault(path+".profile", v.home, "1 station", "give at least two stations, from the face inward")
		return
	}
	if ps[0].Inset != 0 {
		v.fault(path+".profile[0].inset", v.home, v.text(ps[0].Inset), "the first station must lie on the face, at 0")
	}
	for i, st := range ps {
		at := fmt.Sprintf("%s.profile[%d]", path, i)
		v.deepEnough(at+".depth", v.home, st.Depth)
		if i > 0 && st.Inset < ps[i-1].Inset {
			v.fault(at+".inset", v.home, v.text(st.Inset), "must not be less than the station before it, "+v.text(ps[i-1].Inset))
		}
	}
	if ps[len(ps)-1].Inset <= 0 {
		v.fault(path+".profile", v.home, "no width", "the last station must lie inside the face")
	}
}

func (v *validator) sectionName(path string, at geometry.Point, name string) {
	if _, ok := v.p.SectionNamed(name); ok || name == "" {
		return
	}
	known := "there are none yet: add it to sections"
	if len(v.p.Sections) > 0 {
		names := make([]string, len(v.p.Sections))
		for i, s := range v.p.Sections {
			names[i] = s.Name
		}
		known = "the sections are " + strings.Join(names, ", ")
	}
	v.fault(path, at, "“"+name+"”, which is no section", known)
}
