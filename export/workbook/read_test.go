package workbook

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/geometry"
)

// TestOpenpyxlReads reads the workbook with openpyxl, a library of its own: set up
// for print, protected without a password, open where there is something to fill
// in, and with text that is text.
func TestOpenpyxlReads(t *testing.T) {
	py := python(t)
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		j, p := hostile(t, "=1+1")
		j.Units = u
		if u == geometry.Millimeters {
			p = estimate.Starting(u)
		}
		data, _, _ := write(t, j, p, Options{})
		file := filepath.Join(t.TempDir(), "job.xlsx")
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(py, "testdata/read.py", file).Output()
		if err != nil {
			t.Fatal(err)
		}
		var sheets map[string]struct {
			Frozen, Area, Titles, Orientation string
			Paper, Charts, Last, Open         int
			FitWidth                          int
			Fit, Protected                    bool
			Password                          *string
			Cells                             map[string][2]string
		}
		if err := json.Unmarshal(out, &sheets); err != nil {
			t.Fatal(err)
		}
		if len(sheets) != 10 {
			t.Errorf("%d sheets", len(sheets))
		}
		paper := map[geometry.Units]int{geometry.FeetInches: 1, geometry.Millimeters: 9}[u] // letter, A4
		for name, s := range sheets {
			if s.Frozen != fmt.Sprintf("A%d", headRows+1) || s.Titles != fmt.Sprintf("$%d:$%[1]d", headRows) || !s.Fit || s.FitWidth != 1 || s.Paper != paper || !s.Protected || s.Password != nil {
				t.Errorf("%s: %+v", name, s)
			}
			if (s.Charts > 0) != (name == "Options") {
				t.Errorf("%s has %d charts", name, s.Charts)
			}
			lastCol, lastRow := "", 0
			if m := regexp.MustCompile(`:\$([A-Z]+)\$([0-9]+)`).FindStringSubmatch(s.Area); m != nil {
				lastCol = m[1]
				lastRow, _ = strconv.Atoi(m[2])
			}
			if lastRow < s.Last {
				t.Errorf("%s prints to row %d, and has %d", name, lastRow, s.Last)
			}
			computed := 0
			for at, c := range s.Cells {
				if c[0] == "f" {
					computed++
				}
				if c[0] == "f" && c[1] == "=1+1" {
					t.Errorf("%s %s runs what a user wrote", name, at)
				}
				col := strings.TrimRight(at, "0123456789")
				if len(col) > len(lastCol) || len(col) == len(lastCol) && col > lastCol {
					t.Errorf("%s %s is not printed", name, at)
				}
			}
			fills := name == "Order" || name == "Concrete" || name == "Labor" || name == "Price" || name == optionLines
			if fills != (s.Open > 0) {
				t.Errorf("%s has %d cells to fill in", name, s.Open)
			}
			if computed == 0 && name != "Working" && name != "Bolts and dowels" {
				t.Errorf("nothing on %s is computed", name)
			}
		}
	}
}
