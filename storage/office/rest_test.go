package office_test

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/png"
	"slices"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office/trial"
)

func picture(t testing.TB, shade uint8) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 40, 30))
	for i := range img.Pix {
		img.Pix[i] = shade + uint8(i*i)
	}
	img.SetGray(0, 0, color.Gray{Y: shade})
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Price lists, settings and pictures travel too: lists all of them, in one order for
// everyone; settings by what was changed; a picture once, however many jobs show it.
func TestWhatIsBesideJobsTravels(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, eve, frank := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db), newPerson(t, s, "frank", db)
	list := func(wage int64) estimate.PriceList {
		l := estimate.Starting(geometry.FeetInches)
		l.Wage = decimal.NewFromInt(wage)
		return l
	}
	wages := func(p *person) (out []int64) {
		for _, v := range must(p.book.PriceHistory(geometry.FeetInches))(t) {
			out = append(out, v.List.Wage.IntPart())
		}
		return out
	}
	set := func(p *person, wage int64) {
		t.Helper()
		if err := p.book.SetPrices(list(wage)); err != nil {
			t.Fatal(err)
		}
	}
	set(ed, 51)
	set(ed, 52)
	start := job.New()
	start.Price.Overhead = decimal.NewFromInt(17)
	if err := ed.book.SetSettings(storage.Settings{Start: start, Company: storage.Company{Name: "Ed", Logo: picture(t, 3)}}); err != nil {
		t.Fatal(err)
	}
	ed.sync()
	set(eve, 41) // before she joins
	if r := eve.sync(); r.Lists != 3 || len(r.Notes) != 1 {
		t.Errorf("%+v", r)
	}
	ed.sync()
	for _, p := range []*person{ed, eve} {
		if got := wages(p); !slices.Equal(got, []int64{51, 52, 41, 52}) {
			t.Errorf("%s has wages %v", p.name, got)
		}
	}
	set(ed, 53)
	set(eve, 54)
	ed.sync()
	eve.sync()
	ed.sync()
	for _, p := range []*person{ed, eve} {
		if got := wages(p); !slices.Equal(got, []int64{51, 52, 41, 52, 53, 54}) {
			t.Errorf("%s has wages %v", p.name, got)
		}
	}
	frank.sync()
	if got := wages(frank); len(got) != 0 {
		t.Errorf("the foreman has wages %v", got)
	}
	if f := must(frank.book.Settings())(t); f.Company.Name != "Ed" || !bytes.Equal(f.Company.Logo, picture(t, 3)) || f.Start.Price.Overhead.IntPart() == 17 {
		t.Errorf("the foreman's settings are %q, %d bytes of logo, overhead %s", f.Company.Name, len(f.Company.Logo), f.Start.Price.Overhead)
	}

	change := func(p *person, f func(*storage.Settings)) {
		t.Helper()
		set := must(p.book.Settings())(t)
		f(&set)
		if err := p.book.SetSettings(set); err != nil {
			t.Fatal(err)
		}
	}
	change(ed, func(s *storage.Settings) { s.Frost = 3 * geometry.Foot })
	change(eve, func(s *storage.Settings) { s.Paper = "A3" })
	ed.sync()
	eve.sync()
	ed.sync()
	for _, p := range []*person{ed, eve} {
		if got := must(p.book.Settings())(t); got.Frost != 3*geometry.Foot || got.Paper != "A3" || got.Company.Name != "Ed" || got.Start.Price.Overhead.IntPart() != 17 {
			t.Errorf("%s's settings are %v %q", p.name, got.Frost, got.Paper)
		}
	}
	change(ed, func(s *storage.Settings) { s.Company.Name = "Ed & Eve" })
	change(eve, func(s *storage.Settings) { s.Company.Name = "Eve & Ed" })
	ed.sync()
	if r := eve.sync(); len(r.Notes) != 1 {
		t.Errorf("%+v", r)
	}
	ed.sync()
	for _, p := range []*person{ed, eve} {
		if got := must(p.book.Settings())(t); got.Company.Name != "Ed & Eve" {
			t.Errorf("%s's company is %q", p.name, got.Company.Name)
		}
	}
	if n := s.CountIn(t, db, `SELECT count(*) FROM haunchbook.settings WHERE aside`); n != 1 {
		t.Errorf("%d settings are kept beside", n)
	}

	sketch := picture(t, 90)
	for range 2 {
		j := shop()
		j.Sketch.Image = base64.StdEncoding.EncodeToString(sketch)
		id := ed.create(j)
		j.Notes = "again"
		if err := ed.book.Edit(id, "Note", j); err != nil {
			t.Fatal(err)
		}
	}
	ed.sync()
	frank.sync()
	for _, sum := range must(frank.book.List())(t) {
		if j := must(frank.book.Get(sum.ID))(t); j.Sketch.Image != base64.StdEncoding.EncodeToString(sketch) {
			t.Errorf("%v has another sketch", sum.ID)
		}
	}
	if n := s.CountIn(t, db, `SELECT count(*) FROM haunchbook.pictures`); n != 2 {
		t.Errorf("the office book has %d pictures", n)
	}
}

// A job that is deleted in one book stays in the others, and does not come back to that
// one. Leaving leaves a whole book, and who comes back is known.
func TestDeletingAndLeaving(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, frank := newPerson(t, s, "ed", db), newPerson(t, s, "frank", db)
	first := ed.create(shop())
	ed.create(job.New())
	ed.sync()
	frank.sync()
	if err := ed.book.Delete(first); err != nil {
		t.Fatal(err)
	}
	fid, _ := frank.first()
	j := must(frank.book.Get(fid))(t)
	j.Notes = "still here"
	if err := frank.book.Edit(fid, "Note", j); err != nil {
		t.Fatal(err)
	}
	frank.sync()
	ed.sync()
	if n := len(must(ed.book.List())(t)); n != 1 {
		t.Errorf("ed has %d jobs", n)
	}
	if n := len(must(frank.book.List())(t)); n != 2 {
		t.Errorf("frank has %d jobs", n)
	}
	if err := frank.book.LeaveOffice(); err != nil {
		t.Fatal(err)
	}
	if err := frank.book.Verify(); err != nil {
		t.Error(err)
	}
	j.Notes = "alone"
	if err := frank.book.Edit(fid, "Note", j); err != nil {
		t.Fatal(err)
	}
	if r := frank.sync(); r.Up != 1 || r.Down != 0 {
		t.Errorf("%+v", r)
	}
	if n := len(must(frank.book.List())(t)); n != 2 {
		t.Errorf("frank has %d jobs", n)
	}
}

func (p *person) first() (storage.ID, job.Job) {
	p.t.Helper()
	list := must(p.book.List())(p.t)
	storage.Sort(list, storage.ByNumber)
	return list[0].ID, must(p.book.Get(list[0].ID))(p.t)
}

// Numbers of revisions that two made alone go one behind the other, and change orders
// follow those that they lie between.
func TestRevisionsOfTwo(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	ed, eve := newPerson(t, s, "ed", db), newPerson(t, s, "eve", db)
	id := ed.create(shop())
	if _, err := ed.book.Revise(id, "first"); err != nil {
		t.Fatal(err)
	}
	ed.sync()
	eve.sync()
	if _, err := ed.book.Revise(id, "ed's"); err != nil {
		t.Fatal(err)
	}
	eid, _ := eve.only()
	if _, err := eve.book.Revise(eid, "eve's"); err != nil {
		t.Fatal(err)
	}
	eve.edit("Change order", func(j *job.Job) { j.Account.Changes = append(j.Account.Changes, changeOrder(1, 2)) })
	ed.sync()
	eve.sync()
	ed.sync()
	for _, p := range []*person{ed, eve} {
		pid, j := p.only()
		var notes []string
		for _, r := range must(p.book.Revisions(pid))(t) {
			notes = append(notes, string(rune('0'+r.Number))+r.Note[:3])
		}
		if !slices.Equal(notes, []string{"1fir", "2ed'", "3eve"}) {
			t.Errorf("%s has %q", p.name, notes)
		}
		if c := j.Account.Changes[0]; c.From != 1 || c.To != 3 {
			t.Errorf("%s's change order lies between %d and %d", p.name, c.From, c.To)
		}
	}
}
