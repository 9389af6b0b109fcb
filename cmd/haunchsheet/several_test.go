package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
)

// put writes a file to a folder of its own.
func put(t *testing.T, name string, data []byte) string {
	t.Helper()
	p := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(p, data, 0o666); err != nil {
		t.Fatal(err)
	}
	return p
}

func demoJob(t *testing.T) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// ran runs the program within, and gives what it printed.
func ran(t *testing.T, want int, stdin string, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	if code := run(args, strings.NewReader(stdin), &out, &errs); code != want {
		t.Errorf("%q: exit code %d, want %d; %s", args, code, want, errs.String())
	}
	return out.String(), errs.String()
}

// names lists the files below a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			rel, _ := filepath.Rel(dir, path)
			out = append(out, filepath.ToSlash(rel))
		}
		return nil
	})
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	slices.Sort(out)
	return out
}

// An empty file name, as of a variable that is not set, is no demo job: what is in
// the folder stays.
func TestEmptyArgument(t *testing.T) {
	dir := t.TempDir()
	ran(t, 0, "", "-quiet", "-only", "takeoff.json", "-out", dir)
	before, err := os.ReadFile(filepath.Join(dir, "takeoff.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "takeoff.json"), []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, empty := range []string{"", " "} {
		if _, errs := ran(t, 2, "", "-out", dir, empty); !strings.Contains(errs, "a file without a name") {
			t.Errorf("it says %q", errs)
		}
	}
	if now, _ := os.ReadFile(filepath.Join(dir, "takeoff.json")); string(now) != "mine" || len(before) < 10 {
		t.Errorf("the file became %q", now)
	}
}

func TestOnlyAndPrices(t *testing.T) {
	p := estimate.Starting(geometry.FeetInches)
	p.Invented, p.Wage = false, decimal.NewFromInt(70)
	list := put(t, "list.json", p.Encode())
	dir := t.TempDir()
	out, _ := ran(t, 0, "", "-prices", list, "-only", "bid.pdf,takeoff.json", "-out", dir)
	if got := names(t, dir); !slices.Equal(got, []string{"bid.pdf", "takeoff.json"}) {
		t.Errorf("it wrote %q", got)
	}
	if ran(t, 0, "", "-prices", list, "-only", "how-deep.pdf", "-out", dir); !slices.Contains(names(t, dir), "how-deep.pdf") {
		t.Error("it did not write how-deep.pdf")
	}
	e := estimateOf(t, demoJob(t), p)
	for _, want := range []string{e.Money(e.Labor), e.Money(e.Bid)} {
		if !strings.Contains(out, want) {
			t.Errorf("it does not print %s", want)
		}
	}
	metric := put(t, "metric.json", estimate.Starting(geometry.Millimeters).Encode())
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"-prices", metric, "-strict"}, 3, "the bid is a draft: price.prices.units"},
		{[]string{"-strict"}, 3, "the bid is a draft: price.prices.invented"},
		{[]string{"-prices", list, "-strict"}, 0, ""},
		{[]string{"-prices", put(t, "no.json", []byte(`{"name": 3}`))}, 1, "-prices: "},
		{[]string{"-prices", put(t, "key.json", []byte(`{"name": "L", "units": "ft-in", "fees": [{"name": "Truck fee", "for": "unit", "what": {"kind": "truks"}}]}`))}, 1, `found "truks", no kind of quantity`},
		{[]string{"-prices", filepath.Join(dir, "none.json")}, 1, "none.json"},
		{[]string{"-only", "bid"}, 2, `"bid" is none of them`},
	} {
		if _, errs := ran(t, c.code, "", append(c.args, "-quiet", "-out", t.TempDir())...); !strings.Contains(errs, c.says) || c.says == "" && errs != "" {
			t.Errorf("%q says %q, want %q", c.args, errs, c.says)
		}
	}
}

func estimateOf(t *testing.T, j job.Job, p estimate.PriceList) estimate.Estimate {
	t.Helper()
	j.Price.Prices = p
	r := command{only: []string{"takeoff.json"}}.job(put(t, "job.json", j.Encode()), t.TempDir(), nil, nil, nil, sheetOptions(t), 0)
	if r.err != nil {
		t.Fatal(r.err)
	}
	return r.estimate
}

// Several jobs each have a folder; one that is at fault stops no other.
func TestSeveralJobs(t *testing.T) {
	one, two := put(t, "one.json", assets.Demo()), put(t, "two.json", assets.Demo())
	bad := put(t, "bad.json", []byte("{"))
	dir := t.TempDir()
	_, errs := ran(t, 1, "", "-only", "takeoff.json", "-out", dir, one, bad, two)
	if got := names(t, dir); !slices.Equal(got, []string{"one/takeoff.json", "two/takeoff.json"}) || !strings.Contains(errs, "haunchsheet: "+bad+": line ") {
		t.Errorf("it wrote %q and said %q", got, errs)
	}
	if _, errs := ran(t, 2, "", "-out", dir, one, put(t, "one.json", assets.Demo())); !strings.Contains(errs, `two jobs called "one"`) {
		t.Errorf("it says %q", errs)
	}
}

// Each job is a line of JSON, with its faults by field, findings at their places and
// money to the cent.
func TestJSON(t *testing.T) {
	j := demoJob(t)
	j.Price.Prices = estimate.Starting(j.Units)
	j.Price.Prices.Invented, j.Price.Prices.Wage = false, decimal.Zero
	good := put(t, "good.json", j.Encode())
	bad := put(t, "bad.json", []byte(strings.Replace(string(assets.Demo()), `"depth": "16\""`, `"depth": "2\""`, 1)))
	out, errs := ran(t, 1, "", "-json", "-only", "bid.pdf", "-out", t.TempDir(), good, bad, "none.json")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	if len(lines) != 3 || errs != "" {
		t.Fatalf("%d lines, and it says %q", len(lines), errs)
	}
	type answer struct {
		File     string
		Faults   []struct{ Path, Found, Want string }
		Draft    []struct{ Path string }
		Money    map[string]string
		Findings []struct {
			Severity, Text string
			At             [2]string
		}
		Written []string
	}
	var a [3]answer
	for i, l := range lines {
		if err := json.Unmarshal([]byte(l), &a[i]); err != nil {
			t.Fatal(err)
		}
	}
	if a[0].File != good || len(a[0].Faults) != 0 || len(a[0].Draft) != 1 || a[0].Draft[0].Path != "price.prices.wage" || !slices.Equal(a[0].Written, []string{"bid.pdf"}) || a[0].Money["labor"] != "0.00" {
		t.Errorf("%+v", a[0])
	}
	if len(a[1].Faults) == 0 || a[1].Faults[0].Path != "slabs[0].sections[1].depth" || len(a[1].Written) != 0 {
		t.Errorf("%+v", a[1])
	}
	if len(a[2].Faults) != 1 || !strings.Contains(a[2].Faults[0].Want, "none.json") {
		t.Errorf("%+v", a[2])
	}
}

func TestVersion(t *testing.T) {
	if out, errs := ran(t, 0, "", "-version"); !strings.HasPrefix(out, "haunchsheet ") || errs != "" {
		t.Errorf("%q, %q", out, errs)
	}
}

// Files are dated by SOURCE_DATE_EPOCH, and by -date before it.
func TestSourceDateEpoch(t *testing.T) {
	made := func(args ...string) string {
		dir := t.TempDir()
		ran(t, 0, "", append(args, "-quiet", "-only", "bid.pdf", "-out", dir)...)
		data, err := os.ReadFile(filepath.Join(dir, "bid.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	t.Setenv("SOURCE_DATE_EPOCH", "1712880000") // 2024-04-12
	if made() != made("-date", "2024-04-12") || made() == made("-date", "2025-04-12") {
		t.Error("the files are dated otherwise")
	}
	t.Setenv("SOURCE_DATE_EPOCH", "soon")
	if _, errs := ran(t, 2, "", "-quiet", "-out", t.TempDir()); !strings.Contains(errs, `SOURCE_DATE_EPOCH: found "soon"`) {
		t.Errorf("it says %q", errs)
	}
}

// A severe finding has an exit code of its own where asked for.
func TestStrict(t *testing.T) {
	var two job.Job
	two, err := job.Read(strings.NewReader(twoSlabs(t)))
	if err != nil {
		t.Fatal(err)
	}
	two.Slabs[1] = two.Slabs[0].Clone() // over one another: counted twice
	two.Price.Prices = estimate.Starting(two.Units)
	two.Price.Prices.Invented = false
	file := put(t, "two.json", two.Encode())
	ran(t, 0, "", "-quiet", "-only", "takeoff.json", "-out", t.TempDir(), file)
	ran(t, 4, "", "-quiet", "-strict", "-only", "takeoff.json", "-out", t.TempDir(), file)
	out, _ := ran(t, 0, "", "-only", "takeoff.json", "-out", t.TempDir(), file)
	if !strings.Contains(out, "the concrete there is counted twice") || !strings.Contains(out, "[at ") {
		t.Errorf("the finding and its place are not in %s", out)
	}
	out, _ = ran(t, 0, "", "-json", "-only", "takeoff.json", "-out", t.TempDir(), file)
	if !strings.Contains(out, `{"severity":"severe","text":"`) || !strings.Contains(out, `"at":["`) {
		t.Errorf("the finding and its place are not in %s", out)
	}
}

func sheetOptions(t *testing.T) sheet.Options {
	t.Helper()
	o, _, err := command{part: sheet.Whole.String()}.options(time.Now())
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// A request for each supplier is written, and one that came back prices the job.
func TestRequestsAndQuotes(t *testing.T) {
	dir := t.TempDir()
	ran(t, 0, "", "-quiet", "-requests", "-only", "takeoff.json", "-out", dir)
	got := names(t, dir)
	if !slices.Contains(got, "request-2-Sample-yard.xlsx") {
		t.Fatalf("it wrote %q", got)
	}
	f, err := excelize.OpenFile(filepath.Join(dir, "request-2-Sample-yard.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := f.GetRows("Request")
	if err != nil {
		t.Fatal(err)
	}
	for n, r := range rows {
		if len(r) > 0 && r[0] == "Kickers" {
			if err := f.SetCellValue("Request", fmt.Sprintf("D%d", n+1), 3.25); err != nil {
				t.Fatal(err)
			}
		}
	}
	back := filepath.Join(t.TempDir(), "back.xlsx")
	if err := f.SaveAs(back); err != nil {
		t.Fatal(err)
	}
	out, _ := ran(t, 0, "", "-quote", back, "-only", "takeoff.json", "-out", t.TempDir())
	if !strings.Contains(out, "* Sample yard: 3.25 each") {
		t.Errorf("it prints %s", out)
	}
	if _, errs := ran(t, 1, "", "-quote", filepath.Join(dir, "takeoff.json"), "-out", t.TempDir()); !strings.Contains(errs, "found no workbook") {
		t.Errorf("it says %q", errs)
	}
}

func TestFolderOf(t *testing.T) {
	for file, want := range map[string]string{
		"-": "standard-input", "a/shed.json": "shed", "shed.haunchbook.json": "shed", "shed.v2.json": "shed.v2",
	} {
		if got := folderOf(file); got != want {
			t.Errorf("%s goes to %s, want %s", file, got, want)
		}
	}
}
