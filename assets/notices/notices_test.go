package notices_test

import (
	"fmt"
	"strings"
	"testing"

	"haunchbook.example/assets/notices"
)

func ExampleList() {
	for _, m := range notices.List() {
		if strings.HasPrefix(m[0], "go.etcd.io/bbolt ") {
			fmt.Println(m[1])
		}
	}
	// Output: MIT
}

// Every module of the list is named over a text, but for those without one.
func TestEveryModuleHasItsText(t *testing.T) {
	list := notices.List()
	if len(list) < 30 {
		t.Fatalf("%d modules", len(list))
	}
	_, texts, _ := strings.Cut(notices.Text(), "\n\n")
	for _, m := range list {
		has := strings.Contains(texts, "\n"+m[0]+"\n")
		if none := m[1] == "no license file"; has == none {
			t.Errorf("%s, %s: has a text: %v", m[0], m[1], has)
		}
	}
}
