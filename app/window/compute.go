package window

import (
	"errors"
	"fmt"
	"math"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
)

// compute gives the takeoff of a job whose plan is sound. A fault of the program
// itself is shown as an error rather than ending it.
func compute(j job.Job) (t *takeoff.Takeoff, err error) {
	defer func() {
		if r := recover(); r != nil {
			t, err = nil, fmt.Errorf("the takeoff failed (%v); undo the last step, and please report it with the job file", r)
		}
	}()
	got, err := takeoff.Of(j.Slabs, j.Spec, j.Units)
	if err != nil {
		return nil, err
	}
	for _, l := range got.Lines {
		if math.IsNaN(l.Value) || math.IsInf(l.Value, 0) {
			return nil, errors.New(l.Name + " could not be computed")
		}
	}
	return &got, nil
}
