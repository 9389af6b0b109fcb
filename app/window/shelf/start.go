package shelf

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Demo gives the sample job of the first run.
func Demo() (job.Job, error) { return Sample(assets.Demo()) }

// Sample gives the job of a file that is built in. Faults of its plan are shown on it.
func Sample(file []byte) (job.Job, error) {
	j, err := job.Read(bytes.NewReader(file))
	if faults := (plan.Faults)(nil); errors.As(err, &faults) {
		return j, nil
	}
	return j, err
}

// Blank gives a job with an empty plan and a first edge section to draw with.
func Blank(u geometry.Units) job.Job {
	j := job.NewIn(u)
	j.Name = "New job"
	s := Edge(u)
	s.Name = "Edge 12"
	if u == geometry.Millimeters {
		s.Name = "Edge 300"
	}
	j.Slabs[0].Sections = []plan.Section{s}
	return j
}

// Edge gives a usual edge section, without a name.
func Edge(u geometry.Units) plan.Section {
	foot := field.Sized(geometry.Foot, u)
	return plan.Section{Depth: foot, Bottom: foot, Taper: foot / 2}
}

// Anew gives a job with nothing drawn in other units: what is as usual in its own is as
// usual in those.
func Anew(j job.Job, u geometry.Units) job.Job {
	was, usual := j.Units, Blank(j.Units)
	is := j.In(u)
	s, p := j.Clone().Spec, j.Clone().Pour
	field.SwitchUnits("spec", &s, was, u)
	field.SwitchUnits("pour", &p, was, u)
	if s.Order.Truck.Equal(j.Spec.Order.Truck) { // its own, in its unit
		s.Order.Truck = is.Spec.Order.Truck
	}
	p.Crew.Rate = is.Pour.Crew.Rate
	is.Spec, is.Pour = s, p
	for k := range is.Slabs {
		if slices.EqualFunc(is.Slabs[k].Sections, usual.Slabs[0].Sections, func(a, b plan.Section) bool { return reflect.DeepEqual(a, b) }) {
			is = is.WithSlab(k, is.Slabs[k])
			is.Slabs[k].Sections = Blank(u).Slabs[0].Sections
			is.Slabs[k].Field = field.Sized(is.Slabs[k].Field, u)
			if u == geometry.FeetInches && j.Slabs[k].Field == usual.Slabs[0].Field {
				is.Slabs[k].Field = Blank(u).Slabs[0].Field
			}
		}
	}
	return is
}

// StartOf gives what of a job is usual for others: everything but what is its own.
func StartOf(j job.Job) job.Job {
	s := job.New()
	s.Units, s.Spec, s.Pour, s.Price, s.Account = j.Units, j.Spec, j.Pour, j.Price, j.Account
	if len(j.Slabs) > 0 {
		s.Slabs = []plan.Plan{{Field: j.Slabs[0].Field, Sections: slices.Clone(j.Slabs[0].Sections)}}
	}
	s.Pour.Stations, s.Pour.Weather = nil, nil
	s.Price.Extras, s.Price.Options = nil, nil
	t := &s.Price.Terms
	t.Included, t.Start, t.Finish = nil, "", ""
	s.Price.Prices = job.New().Price.Prices
	return s.Fresh()
}

// NewJob gives a blank sheet as the book's settings have it. With an error it is as
// one without a book.
func (s *Shelf) NewJob() (job.Job, error) {
	blank := Blank(s.doc.Units())
	set, err := s.Settings()
	if err != nil || !set.Stored {
		return blank, err
	}
	j, usual := set.Start, Blank(set.Start.Units)
	j.Name = usual.Name
	if len(j.Slabs) == 0 || len(j.Slabs[0].Sections) == 0 {
		j.Slabs = usual.Slabs
	}
	return j, nil
}

// UsualSpec gives the specification that new jobs start with, in the units of the open
// one.
func (s *Shelf) UsualSpec() takeoff.Spec {
	j, _ := s.NewJob() // of a book that cannot be read, as without one
	return j.In(s.doc.Units()).Spec
}

// Beside warns of other versions of the book beside it.
func Beside(copies []string) string {
	names := make([]string, len(copies))
	for i, c := range copies {
		names[i] = filepath.Base(c)
	}
	return fmt.Sprintf("Beside the job book there are other versions of it: %s. Programs that keep folders in step leave such files when a book is changed in two places, and they lose what is in one of them: look into both, and keep the book in a folder that is left alone", strings.Join(names, ", "))
}
