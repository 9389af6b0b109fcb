package wholefile_test

import (
	"fmt"
	"os"
	"path/filepath"

	"haunchbook.example/storage/wholefile"
)

func Example() {
	dir, err := os.MkdirTemp("", "sheets-*")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	err = wholefile.WriteAll(dir, []wholefile.File{
		{Name: "layout.svg", Data: []byte("<svg/>")},
		{Name: "takeoff.json", Data: []byte("{}")},
	})
	fmt.Println(err)
	names, _ := filepath.Glob(filepath.Join(dir, "*"))
	for _, n := range names {
		fmt.Println(filepath.Base(n))
	}
	// Output:
	// <nil>
	// layout.svg
	// takeoff.json
}
