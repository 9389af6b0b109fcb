package shelf_test

import (
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// What the book holds beside the job goes there as edits do: nobody waits for it, it is
// counted until it is there, and what is read meanwhile is what was set.
func TestWhatIsBesideTheJobWaitsForNoDisk(t *testing.T) {
	disk := hands.NewSlowDisk(t)
	d := document.New(hands.Shop(), nil, document.Scheduler{})
	told := make(chan func(), 100)
	s := shelf.New(d, disk.Book, document.Scheduler{Go: func(f func()) { go f() }, Post: func(f func()) { told <- f }}, func() {})
	if err := s.Open(hands.Shop(), 0); err != nil {
		t.Fatal(err)
	}
	settle(t, s)
	id := s.ID()
	disk.Hold()
	note(d, "first") // which holds up what comes after it
	list := d.Prices()
	list.Wage = decimal.NewFromInt(61)
	for what, err := range map[string]error{
		"frost":    s.SetFrost(3 * geometry.Foot),
		"usual":    s.MakeUsual(func(spec *takeoff.Spec) { spec.Order.Waste = decimal.NewFromInt(9) }),
		"settings": s.ChangeSettings(func(set *storage.Settings) { set.Company.Name = "Sample Flatwork" }),
		"prices":   s.SetPrices(list),
		"record":   s.SetRecord(id, actual.Record{Trucks: 3}),
	} {
		if err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
	number, state := 0, false
	s.Revise("why", func(n int, err error) { number = n })
	s.Do(func(b *storage.Book) error { return b.SetState(id, storage.Won) }, func(err error) { state = err == nil })
	if n, err := s.Unsaved(); n != 8 || err != nil {
		t.Errorf("%d wait, %v; want the edit, five changes, the revision and the state", n, err)
	}
	same := func(when string) {
		t.Helper()
		set, err := s.Settings()
		if err != nil || set.Frost != 3*geometry.Foot || set.Company.Name != "Sample Flatwork" || !set.Start.Spec.Order.Waste.Equal(decimal.NewFromInt(9)) {
			t.Errorf("%s: settings %v %q %v, %v", when, set.Frost, set.Company.Name, set.Start.Spec.Order.Waste, err)
		}
		if r, ok, err := s.Record(id); !ok || r.Trucks != 3 || err != nil {
			t.Errorf("%s: record %+v, %v", when, r, err)
		}
		if got := d.Prices(); !got.Wage.Equal(list.Wage) || d.Frost() != 3*geometry.Foot {
			t.Errorf("%s: wage %s, frost %v", when, got.Wage, d.Frost())
		}
		if j, err := s.NewJob(); err != nil || !j.Spec.Order.Waste.Equal(decimal.NewFromInt(9)) {
			t.Errorf("%s: a new job orders %s more, %v", when, j.Spec.Order.Waste, err)
		}
	}
	same("on its way")
	if set, err := disk.Book.Settings(); err != nil || set.Stored {
		t.Errorf("the book has %+v already, %v", set, err)
	}
	if number != 0 || state {
		t.Error("what waits is told as done")
	}
	disk.Release()
	settle(t, s)
	for number == 0 || !state {
		(<-told)()
	}
	same("in the book")
	if set, err := disk.Book.Settings(); err != nil || set.Company.Name != "Sample Flatwork" || set.Frost != 3*geometry.Foot {
		t.Errorf("the book has %+v, %v", set, err)
	}
	if sum, err := disk.Book.Summary(id); err != nil || sum.State != storage.Won || number != 1 {
		t.Errorf("state %v, revision %d, %v", sum.State, number, err)
	}
	if got, err := disk.Book.Revision(id, 1); err != nil || got.Notes != "first" {
		t.Errorf("the revision reads %q, %v", got.Notes, err)
	}
}

// What cannot be stored for what it says is refused at once, and holds nothing up.
func TestWhatIsWrongIsRefusedAtOnce(t *testing.T) {
	d, s, _ := opened(t)
	list := d.Prices()
	list.Wage = decimal.NewFromInt(-1)
	for what, err := range map[string]error{
		"frost":  s.SetFrost(-geometry.Foot),
		"logo":   s.ChangeSettings(func(set *storage.Settings) { set.Company.Logo = []byte("no picture") }),
		"prices": s.SetPrices(list),
		"record": s.SetRecord(s.ID(), actual.Record{Ordered: decimal.NewFromInt(-1)}),
	} {
		if err == nil {
			t.Errorf("%s is taken", what)
		}
	}
	if n, err := s.Unsaved(); n != 0 || err != nil {
		t.Errorf("%d wait, %v", n, err)
	}
}
