package job

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"haunchbook.example/assets"
)

func file(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../../" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// The reference and the schema are those of the table of fields.
func TestReferenceIsCurrent(t *testing.T) {
	demo, err := Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string][]byte{"assets/jobfile/reference.md": Reference(demo), "assets/jobfile/schema.json": Schema()} {
		if file(t, name) != string(want) {
			t.Errorf("%s is not as it would be made now: go generate ./assets", name)
		}
	}
}

// The small example of the guide is a sound job.
func TestGuideExample(t *testing.T) {
	_, rest, ok := strings.Cut(file(t, "assets/guide/haunchsheet.md"), "A small job is this:\n\n")
	example, _, ok2 := strings.Cut(rest, "\n\n")
	if !ok || !ok2 {
		t.Fatal("the guide has no example")
	}
	if _, err := Read(strings.NewReader(example)); err != nil {
		t.Error(err)
	}
}
