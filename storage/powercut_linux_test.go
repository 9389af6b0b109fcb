package storage

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/storage/wholefile"
)

// A power cut leaves on disk what was synced before it, and of the rest anything:
// of writes any of their sectors, of new, renamed and removed names the first ones. So
// a process is traced, its doings are cut off at many places, and what may be on disk
// then is made and opened.

const sector = 512

// disk is what is on a disk, and what is on its way there.
type disk struct {
	files   map[int][]byte
	writes  map[int][]deed // not synced, of each file
	names   map[string]int // -1 for a folder
	renames []deed         // not synced: all that changes names
}

func newDisk() *disk {
	return &disk{files: map[int][]byte{}, writes: map[int][]deed{}, names: map[string]int{}}
}

func (d *disk) do(x deed) {
	switch x.what {
	case "write", "size":
		d.writes[x.file] = append(d.writes[x.file], x)
	case "sync":
		for _, w := range d.writes[x.file] {
			d.files[x.file] = w.on(d.files[x.file])
		}
		delete(d.writes, x.file)
	case "syncdir":
		d.renames = slices.DeleteFunc(d.renames, func(r deed) bool {
			here := filepath.Dir(r.name) == x.name || r.to != "" && filepath.Dir(r.to) == x.name
			if here {
				r.apply(d.names)
			}
			return here
		})
	case "said":
	default:
		d.renames = append(d.renames, x)
	}
}

// apply changes names.
func (x deed) apply(names map[string]int) {
	switch x.what {
	case "create":
		names[x.name] = x.file
	case "mkdir":
		names[x.name] = -1
	case "rename", "link":
		x.rename(names)
	case "unlink", "rmdir":
		delete(names, x.name)
	}
}

// cut gives what may be on disk after a power cut now: files by their names.
func (d *disk) cut(random *rand.Rand) (names map[string]int, files map[int][]byte) {
	names, files = maps.Clone(d.names), maps.Clone(d.files)
	if n := len(d.renames); n > 0 {
		for _, r := range d.renames[:random.IntN(n+1)] {
			r.apply(names)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(d.writes)) {
		share := []float64{0, 0.1, 0.5, 0.9, 1}[random.IntN(5)]
		for _, w := range d.writes[id] {
			if w.what == "size" {
				if random.Float64() < share {
					files[id] = w.on(files[id])
				}
				continue
			}
			for at := 0; at < len(w.data); at += sector {
				if random.Float64() < share {
					part := deed{what: "write", at: w.at + int64(at), data: w.data[at:min(at+sector, len(w.data))]}
					files[id] = part.on(files[id])
				}
			}
		}
	}
	return names, files
}

// lay makes files as they may be in a folder, instead of the one they were in.
func lay(t *testing.T, names map[string]int, files map[int][]byte, was, dir string) {
	t.Helper()
	made := map[int]string{}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		id, to := names[name], dir+strings.TrimPrefix(name, was)
		if !isThere(filepath.Dir(to)) {
			continue // a folder whose own name is not on disk
		}
		var err error
		switch {
		case id < 0:
			err = os.Mkdir(to, 0o700)
		case made[id] != "":
			err = os.Link(made[id], to)
		default:
			made[id] = to
			err = os.WriteFile(to, files[id], 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// cuts cuts the power at many places of what was done in a folder, and has each
// outcome looked at: said is what was said last before the cut, or will be said next.
func cuts(t *testing.T, deeds []deed, was string, n int, look func(dir string, said [2]string, all []string)) {
	t.Helper()
	random := rand.New(rand.NewPCG(11, 12))
	places := make([]int, n)
	for i := range places {
		places[i] = random.IntN(len(deeds) + 1)
	}
	slices.Sort(places)
	d, at := newDisk(), 0
	var all []string
	said := [2]string{}
	for i, p := range places {
		for ; at < p; at++ {
			d.do(deeds[at])
			if deeds[at].what == "said" {
				all = append(all, deeds[at].name)
				if isState(deeds[at]) {
					said[0] = deeds[at].name
				}
			}
		}
		if k := slices.IndexFunc(deeds[at:], isState); k >= 0 {
			said[1] = deeds[at+k].name
		}
		dir := filepath.Join(t.TempDir(), fmt.Sprint(i))
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
		names, files := d.cut(random)
		lay(t, names, files, was, dir)
		look(dir, said, all)
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
	}
	count := map[string]int{}
	for _, d := range deeds {
		count[d.what]++
	}
	t.Logf("power cuts: %d tries, %d failures, in %v", n, failures(t), count)
}

// isState tells whether something said is a state that is acknowledged.
func isState(d deed) bool { return d.what == "said" && !strings.HasPrefix(d.name, "backup ") }

// workUntilPowerCut does all that is done to a book, and says after each the state
// that is acknowledged.
func workUntilPowerCut(path string, edits int) error {
	b, err := Open(path, Options{NoBackup: true})
	if err != nil {
		return err
	}
	j := shop(0)
	j.Notes = "0"
	id, err := b.Create(j)
	if err != nil {
		return err
	}
	fmt.Println(0)
	backup, saved := "", 0
	for n := 1; n <= edits; n++ {
		j.Notes, j.Site = strconv.Itoa(n), filling(n)
		if err := b.Edit(id, "Edit", j); err != nil {
			return err
		}
		fmt.Println(n)
		switch {
		case n%11 == 5:
			if _, _, _, err = b.Undo(id); err == nil {
				fmt.Println(n - 1)
				_, _, _, err = b.Redo(id)
			}
			fmt.Println(n)
		case n%13 == 6:
			_, err = b.Create(shop(n))
		case n%13 == 9:
			err = b.Compact()
		case n%13 == 3:
			if backup, err = b.Backup("asked"); err == nil {
				saved = n
				fmt.Println("backup", filepath.Base(backup))
			}
		case n%29 == 20:
			if err = b.Close(); err == nil {
				_, err = Restore(path, backup)
			}
			if err == nil {
				fmt.Println(saved)
				b, err = Open(path, Options{NoBackup: true})
			}
		}
		if err != nil {
			return err
		}
	}
	return b.Close()
}

// The power may fail at any instant: what was acknowledged is there, or what came
// next; backups that were made are whole.
func TestPowerCut(t *testing.T) {
	t.Parallel()
	was := filepath.Join(t.TempDir(), "was")
	if err := os.Mkdir(was, 0o700); err != nil {
		t.Fatal(err)
	}
	n := tries(60)
	deeds := traced(t, was, "JOB_BOOK_WORK="+filepath.Join(was, "data", "jobs.book"), fmt.Sprintf("JOB_BOOK_EDITS=%d", min(400, max(45, n/10))))
	cuts(t, deeds, was, n, func(dir string, said [2]string, all []string) {
		t.Helper()
		path := filepath.Join(dir, "data", "jobs.book")
		if said[0] == "" && !isThere(path) {
			return
		}
		b, err := Open(path, Options{NoBackup: true})
		if err != nil {
			t.Fatalf("after %q: %v", said[0], err)
		}
		defer b.Close()
		list := must(b.List())(t)
		notes := ""
		for _, s := range list {
			if s.ID == 1 {
				notes = must(b.Get(1))(t).Notes
			}
		}
		if want := fmt.Sprint(said); notes != said[0] && notes != said[1] {
			t.Fatalf("the book holds edit %q, want one of %s", notes, want)
		}
		if err := b.Verify(); err != nil {
			t.Fatal(err)
		}
		for _, s := range all {
			if name, ok := strings.CutPrefix(s, "backup "); ok {
				if err := verifyRecords(filepath.Join(backupDir(path), name)); err != nil {
					t.Fatal(err)
				}
			}
		}
		// It goes on from there.
		if err := edited(b, 1, 1); err != nil && said[0] != "" {
			t.Fatal(err)
		}
	})
}

// writeUntilPowerCut writes the files of several runs into a folder.
func writeUntilPowerCut(dir string, runs int) error {
	for n := 1; n <= runs; n++ {
		if err := wholefile.WriteAll(filepath.Join(dir, "out"), documents(n)); err != nil {
			return err
		}
		if err := wholefile.Write(filepath.Join(dir, "out", "job.json"), wholefile.Bytes(documents(n)[0].Data)); err != nil {
			return err
		}
		fmt.Println(n)
	}
	return nil
}

// documents are the files of run n.
func documents(n int) []wholefile.File {
	var files []wholefile.File
	for i, name := range []string{"layout.pdf", "materials.xlsx", "takeoff.json"} {
		files = append(files, wholefile.File{Name: name, Data: []byte(strings.Repeat(fmt.Sprintf("run %d, file %d\n", n, i), 300*(i+1)))})
	}
	return files
}

// Documents of one run are there together whenever the power fails: those of the last
// run, or of the one that was under way.
func TestPowerCutWhileWritingDocuments(t *testing.T) {
	t.Parallel()
	was := filepath.Join(t.TempDir(), "was")
	if err := os.Mkdir(was, 0o700); err != nil {
		t.Fatal(err)
	}
	deeds := traced(t, was, "JOB_BOOK_WRITE="+was)
	cuts(t, deeds, was, tries(100), func(dir string, said [2]string, _ []string) {
		t.Helper()
		out := filepath.Join(dir, "out")
		if said[0] == "" && !isThere(out) {
			return
		}
		if err := wholefile.Finish(out); err != nil {
			t.Fatal(err)
		}
		run := func(name string, data func(n int) []byte) string {
			got, err := os.ReadFile(filepath.Join(out, name))
			if errors.Is(err, os.ErrNotExist) {
				return ""
			}
			for n := range 20 {
				if string(got) == string(data(n)) {
					return fmt.Sprint(n)
				}
			}
			t.Fatalf("%s is of no run: %d bytes, %.20q", name, len(got), got)
			return ""
		}
		var runs []string
		for i, f := range documents(0) {
			runs = append(runs, run(f.Name, func(n int) []byte { return documents(n)[i].Data }))
		}
		if len(slices.Compact(slices.Clone(runs))) != 1 || runs[0] != said[0] && runs[0] != said[1] {
			t.Fatalf("files of the runs %q, said %q", runs, said)
		}
		if got := run("job.json", func(n int) []byte { return documents(n)[0].Data }); got != said[0] && got != said[1] {
			t.Fatalf("the job file is of run %q, said %q", got, said)
		}
	})
}

// A trace is followed to the byte: what it says was done gives the files that are
// there.
func TestTraceIsFollowed(t *testing.T) {
	t.Parallel()
	was := filepath.Join(t.TempDir(), "was")
	if err := os.Mkdir(was, 0o700); err != nil {
		t.Fatal(err)
	}
	deeds := traced(t, was, "JOB_BOOK_WORK="+filepath.Join(was, "data", "jobs.book"), "JOB_BOOK_EDITS=30")
	d := newDisk()
	for _, x := range deeds {
		d.do(x)
	}
	for id, writes := range d.writes {
		for _, w := range writes {
			d.files[id] = w.on(d.files[id])
		}
	}
	for _, r := range d.renames {
		r.apply(d.names)
	}
	got := map[string]bool{}
	err := filepath.WalkDir(was, func(name string, e os.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		got[name] = true
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		defer f.Close()
		data, err := io.ReadAll(f)
		if id, ok := d.names[name]; !ok || string(d.files[id]) != string(data) {
			t.Errorf("%s: %d bytes are there, %d by the trace (%v)", name, len(data), len(d.files[id]), ok)
		}
		return err
	})
	if err != nil || len(got) < 3 {
		t.Errorf("%d files, %v", len(got), err)
	}
	for name, id := range d.names {
		if id >= 0 && !got[name] {
			t.Errorf("%s is there by the trace alone", name)
		}
	}
}

func init() {
	if path := os.Getenv("JOB_BOOK_WORK"); path != "" {
		edits, _ := strconv.Atoi(os.Getenv("JOB_BOOK_EDITS"))
		exit(workUntilPowerCut(path, edits))
	}
	if dir := os.Getenv("JOB_BOOK_WRITE"); dir != "" {
		exit(writeUntilPowerCut(dir, 8))
	}
}

func exit(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(0)
}
