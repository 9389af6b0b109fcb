package printing

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
)

// A file of another job, or of this one as it was, is replaced only by who says so.
func TestNothingIsReplacedSilently(t *testing.T) {
	d := hands.NewDesk(t, hands.Demo(t), nil) // no book: the name alone tells jobs apart
	p := New(d, d.Shelf, &document.Scheduler{})
	d.Beside(p)
	j := d.Job()
	j.Revision = "B"
	d.Commit("Revision", j)
	folder := filepath.Join(t.TempDir(), "sheets")
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	const other = "of another job"
	path := filepath.Join(folder, "Shop-addition-Lot-7-rev-B-layout.pdf")
	if err := os.WriteFile(path, []byte(other), 0o600); err != nil {
		t.Fatal(err)
	}
	read := func(name string) string {
		data, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil {
			t.Error(err)
		}
		return string(data)
	}
	to(d, folder)
	d.Reads("There already", "Shop-addition-Lot-7-rev-B-layout.pdf, of 20")
	d.ReadsNot("Written:", "rev-B-materials.xlsx")
	if !strings.Contains(d.Told, "Not written yet") {
		t.Errorf("the status line says %q", d.Told)
	}
	if got := read("Shop-addition-Lot-7-rev-B-layout.pdf"); got != other {
		t.Fatal("it was replaced unasked")
	}
	d.Press("Write under a new name")
	d.Reads("Written:", "rev-B-2-layout.pdf", "rev-B-2-materials.xlsx")
	d.ReadsNot("under a new name", "There already")
	if got := read("Shop-addition-Lot-7-rev-B-layout.pdf"); got != other || !strings.HasPrefix(read("Shop-addition-Lot-7-rev-B-2-layout.pdf"), "%PDF-") {
		t.Error("a new name did not keep the old file")
	}
	to(d, folder)
	d.Press("Replace")
	d.Reads("Written:")
	if !strings.HasPrefix(read("Shop-addition-Lot-7-rev-B-layout.pdf"), "%PDF-") {
		t.Error("it was not replaced")
	}
}

// The same job printed again is the same file again; once changed, it asks.
func TestPrintedAgain(t *testing.T) {
	d, _ := opened(t)
	j := d.Job()
	j.Revision = "A"
	d.Commit("Revision", j)
	folder := filepath.Join(t.TempDir(), "sheets")
	to(d, folder)
	d.Reads("J-0001-Shop-addition-Lot-7-rev-A-layout.pdf")
	to(d, folder)
	d.Reads("Written:")
	d.ReadsNot("There already")
	j = d.Job()
	j.Notes = "The door moved"
	d.Commit("Notes", j)
	to(d, folder)
	d.Reads("There already")
	if r := revisions(t, d); len(r) != 2 {
		t.Errorf("a revision was kept before it was said what to do: %+v", r)
	}
	j.Revision = "C"
	d.Commit("Revision", j)
	to(d, folder)
	d.Reads("Written:", "rev-C-layout.pdf")
	if text := pdfText(t, filepath.Join(folder, "J-0001-Shop-addition-Lot-7-rev-C-layout.pdf")); !strings.Contains(text, "Revisions") || !strings.Contains(text, "this set") {
		t.Error("the sheets do not list the revision before")
	}
}

// What was printed is opened and sent to the printer, as large as it is drawn, where the
// system can.
func TestOpenAndPrint(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the programs are those of Linux")
	}
	d, _ := opened(t)
	bin := t.TempDir()
	t.Setenv("PATH", bin)
	folder := filepath.Join(t.TempDir(), "sheets")
	to(d, folder)
	d.Reads("Open the folder")
	for _, b := range d.Buttons("Print at") {
		if b.Visible() {
			t.Error("it offers to print without a printing system")
		}
	}
	said := filepath.Join(bin, "said")
	put := func(name, text string) {
		if err := os.WriteFile(filepath.Join(bin, name), []byte("#!/bin/sh\n"+text+"\n"), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	put("xdg-open", "")
	put("lp", `echo "$@" > `+said)
	to(d, filepath.Join(t.TempDir(), "again"))
	d.Reads("Open\n")
	d.Press("Print at 100 %")
	got, err := os.ReadFile(said)
	if err != nil || !strings.HasPrefix(string(got), "-o print-scaling=none -- ") || !strings.HasSuffix(string(got), "-layout.pdf\n") {
		t.Errorf("lp was given %q, %v", got, err)
	}
	put("lp", "echo no printer is set up; exit 1")
	d.Press("Print at 100 %")
	if !strings.Contains(d.Told, "no printer is set up") {
		t.Errorf("it says %q", d.Told)
	}
}
