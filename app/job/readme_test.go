package job

import (
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/plan"
)

func readme(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// paths lists every field that a job file may hold: "slabs[].outline[].at". The
// edges of holes have the outline's fields, and what prices are for those of what
// others supply, which are not listed again.
func paths(t reflect.Type, at string) []string {
	switch {
	case t == reflect.TypeFor[plan.Loop]() && at != "slabs[].outline":
		return []string{at + "[]"}
	case t == reflect.TypeFor[takeoff.ID]() && at != "price.others[]":
		return []string{at}
	case t == lengthType, t == pointType, reflect.PointerTo(t).Implements(textDecoder):
		return []string{at}
	case t.Kind() == reflect.Slice:
		return paths(t.Elem(), at+"[]")
	case t.Kind() == reflect.Struct:
		var out []string
		for i, name := range fieldNames(t) {
			if name != "" {
				out = append(out, paths(t.Field(i).Type, join(at, name))...)
			}
		}
		return out
	}
	return []string{at}
}

// The reference, from its heading on, names every field there is, and no other.
func TestReadmeNamesEveryField(t *testing.T) {
	known := map[string]bool{}
	for _, p := range paths(reflect.TypeFor[Job](), "") {
		known[p] = true
	}
	_, reference, ok := strings.Cut(readme(t), "\n## The job file\n")
	if !ok {
		t.Fatal("the README has no reference of the job file")
	}
	listed := map[string]bool{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([^`]+)` \\|").FindAllStringSubmatch(reference, -1) {
		listed[m[1]] = true
		if !known[m[1]] {
			t.Errorf("the README lists %s, which no job file has", m[1])
		}
	}
	for _, p := range paths(reflect.TypeFor[Job](), "") {
		if !listed[p] {
			t.Errorf("the README does not list %s", p)
		}
	}
}

// The complete example is a job, written as the program writes it.
func TestReadmeExample(t *testing.T) {
	_, rest, ok := strings.Cut(readme(t), "```json\n")
	example, _, ok2 := strings.Cut(rest, "```\n")
	if !ok || !ok2 {
		t.Fatal("the README has no example")
	}
	j, err := Read(strings.NewReader(example))
	if err != nil {
		t.Fatal(err)
	}
	if got := string(j.Encode()); got != example {
		t.Errorf("the example is not as the program writes it:\n%s", got)
	}
}
