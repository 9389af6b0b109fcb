package job

import (
	"os"
	"strings"
	"testing"
)

func readme(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
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
