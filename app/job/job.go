// Package job is a whole job: who and where, the plan, the specification, the
// prices, and its file. A job file is JSON, versioned and stable, that a person
// can write by hand; assets/jobfile documents every field.
package job

import (
	"bytes"
	"fmt"
	"io"
	"reflect"
	"slices"

	"haunchbook.example/app/account"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/shoot"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/visit"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Version is the version of the job file that this program writes.
const Version = 7

// Job is everything known of one job.
type Job struct {
	Schema   string          `json:"$schema,omitzero"` // names the schema of the file; only in files
	Version  int             `json:"haunchbook"`
	Name     string          `json:"name"`
	Customer string          `json:"customer,omitzero"`
	Site     string          `json:"site,omitzero"`
	Date     string          `json:"date,omitzero"` // as printed on the sheets
	Revision string          `json:"revision,omitzero"`
	Notes    string          `json:"notes,omitzero"`
	Units    geometry.Units  `json:"units"`
	Slabs    []plan.Plan     `json:"slabs"` // at least one, which may be blank
	Survey   plan.Survey     `json:"survey,omitzero"`
	Ground   shoot.Spec      `json:"ground,omitzero"`
	Spec     takeoff.Spec    `json:"spec"`
	Pour     pour.Spec       `json:"pour"`
	Price    estimate.Spec   `json:"price"`
	Holds    []hold.Hold     `json:"holds,omitzero"`
	Account  account.Account `json:"account,omitzero"`
	Visit    visit.Visit     `json:"visit,omitzero"`
	Sketch   Sketch          `json:"sketch,omitzero"`
}

// Pricing gives how the job is priced, with what its pour says of it.
func (j Job) Pricing() estimate.Spec {
	s := j.Price
	s.Placed = j.Pour.Reach.Method.String()
	return s
}

// New gives a job with an empty plan and the usual specification, in feet and inches.
func New() Job { return NewIn(geometry.FeetInches) }

// NewIn gives a job as New does, with what is usual in u.
func NewIn(u geometry.Units) Job {
	j := Job{Version: Version, Units: u}
	field.Fill("", &j, u)
	return j
}

// byteOrderMark stands at the start of text files that some editors write.
var byteOrderMark = []byte("\ufeff")

// Read reads a job file. What the file leaves out is as New gives it. The error
// of a file with a sound form and a faulty plan is a plan.Faults, and the job is
// returned with it, so that the faults can be shown on the plan.
func Read(r io.Reader) (Job, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return Job{}, err
	}
	if len(data) > maxFile {
		return Job{}, fault{"", "more than 16 MiB", "a job file is far smaller"}
	}
	n, err := parseJSON(bytes.TrimPrefix(data, byteOrderMark))
	if err != nil {
		return Job{}, err
	}
	version, err := versionOf(n)
	if err != nil {
		return Job{}, err
	}
	marks, err := upgrade(&n, version)
	if err != nil {
		return Job{}, err
	}
	j := New()
	if err := decode(n, reflect.ValueOf(&j).Elem(), ""); err != nil {
		return Job{}, err
	}
	if slabs, _ := field.At("slabs[]"); len(j.Slabs) > slabs.Items[1] {
		return Job{}, fault{"slabs", fmt.Sprintf("%d slabs", len(j.Slabs)), fmt.Sprintf("a job has at most %d", slabs.Items[1])}
	}
	j.Schema, j.Version = "", Version
	for k, p := range j.Slabs {
		j.Slabs[k] = p.Oriented()
	}
	j.place(marks)
	faults := j.Validate()
	if len(j.Slabs) == 0 {
		j.Slabs = New().Slabs
	}
	if len(faults) > 0 {
		return j, faults
	}
	return j, nil
}

// Validate gives the faults of the plan and the specification.
func (j Job) Validate() plan.Faults {
	return slices.Concat(takeoff.Faults(j.Slabs, j.Units), j.Spec.Validate(j.Units), field.Check("survey", j.Survey, j.Units), field.Check("ground", j.Ground, j.Units),
		j.Pour.Validate(j.Units), j.Price.Validate(j.Units), field.Check("holds", j.Holds, j.Units), field.Check("account", j.Account, j.Units), field.Check("visit", j.Visit, j.Units), field.Check("sketch", j.Sketch, j.Units))
}

// Same tells whether two jobs are one: whether they make the same file.
func (j Job) Same(k Job) bool {
	var is [2][]string
	for n, p := range []*Job{&j, &k} { // pictures are much the longest part of a file
		*p = p.WithPictures(func(image string) string {
			is[n] = append(is[n], image)
			return ""
		})
	}
	return slices.Equal(is[0], is[1]) && (reflect.DeepEqual(j, k) || bytes.Equal(j.Encode(), k.Encode()))
}

// WithSlab gives the job with p in place of slab k, and the others as they are.
func (j Job) WithSlab(k int, p plan.Plan) Job {
	j.Slabs = slices.Clone(j.Slabs)
	j.Slabs[k] = p
	return j
}

// Encode gives the job as a file: the same job, the same bytes.
func (j Job) Encode() []byte {
	j.Schema, j.Version = field.SchemaName(Version), Version
	b := encode(nil, reflect.ValueOf(j), j.Units, "")
	return append(bytes.TrimRight(b, "\n"), '\n')
}
