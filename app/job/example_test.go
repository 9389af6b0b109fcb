package job_test

import (
	"bytes"
	"fmt"

	"haunchbook.example/app/job"
	"haunchbook.example/assets"
)

// A job file is read with all its faults at once, each with its field.
func ExampleRead() {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(j.Name, j.Units, len(j.Slabs))
	_, err = job.Read(bytes.NewReader([]byte(`{"haunchbook": 3, "units": "ft-in", "slab": []}`)))
	fmt.Println(err != nil)
	// Output:
	// Shop addition, Lot 7 ft-in 1
	// true
}
