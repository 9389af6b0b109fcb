package job

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// What is far too much for a job is a fault told at once, before it takes memory by
// the gigabyte or the time of every field compared with every other.
func TestReadBounds(t *testing.T) {
	many := func(n int, what string) string { return strings.TrimSuffix(strings.Repeat(what, n), ",") }
	var unknown strings.Builder
	for i := range 100_000 {
		fmt.Fprintf(&unknown, `,"k%d":0`, i)
	}
	for name, c := range map[string]struct{ text, want string }{
		"unknown fields":       {`{"haunchbook": 4` + unknown.String() + `}`, "job file: found more than 256 fields; no part of a job has so many"},
		"empty slabs":          {`{"haunchbook": 4, "slabs": [` + many(maxFile/3-20, "{},") + `]}`, "slabs: found more than 100000 entries"},
		"slabs":                {`{"haunchbook": 4, "slabs": [` + many(1001, "{},") + `]}`, "slabs: found 1001 slabs; a job has at most 1000"},
		"values":               {`{"haunchbook": 4, "slabs": [` + many(6, `{"outline": [`+many(99_000, "0,")+"]},") + `]}`, "more than 500000 values"},
		"levels":               {strings.Repeat(`{"slabs":`, 1_000_000), "too many levels"},
		"a long text":          {`{"haunchbook": 4, "slabs": [{"field": "` + strings.Repeat("9", 1_000_000) + `"}]}`, "slabs[0].field: found"},
		"a long word of units": {`{"haunchbook": 4, "units": "` + strings.Repeat("mm", 1_000_000) + `"}`, "units: found"},
	} {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := Read(strings.NewReader(c.text))
			runtime.ReadMemStats(&after)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%.300v; want %q", err, c.want)
			}
			if n := len(fmt.Sprint(err)); n > 2000 {
				t.Errorf("a fault of %d letters", n)
			}
			if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 400 {
				t.Errorf("it took %d MB", mb)
			}
		})
	}
}

func TestReadByteOrderMark(t *testing.T) {
	j, err := Read(strings.NewReader("\ufeff" + minimal))
	if err != nil || j.Name != "Lean-to" {
		t.Errorf("%q, %v", j.Name, err)
	}
}
