package revision_test

import (
	"bytes"
	"context"
	"fmt"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/revision"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
)

// What changed from one state of a job to the next, in words.
func ExampleCompare() {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	prices := estimate.Starting(j.Units)
	was := revision.State{Job: j, Prices: prices}
	j.Name = "Shop addition, Lot 8"
	j.Spec.Base.Gravel = 6 * geometry.Inch
	d := revision.Compare(context.Background(), was, revision.State{Job: j, Prices: prices})
	for _, c := range append(d.Job, d.Spec...) {
		fmt.Printf("%s: %s, was %s\n", c.Where, c.Is, c.Was)
	}
	// Output:
	// name: Shop addition, Lot 8, was Shop addition, Lot 7
	// under the slab, gravel: 6", was 4"
}
