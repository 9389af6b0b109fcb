package document_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Every way to change a job is one step: undo gives the job before it and redo the same
// again, in the order in which the steps were made.
func TestUndoAndRedoGiveTheSameJob(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft))
	steps := []struct {
		label string
		do    func() error
	}{
		{"Name", func() error { return d.Change("Name", func(j *job.Job) { j.Name = "Barn" }) }},
		{"Field", func() error { d.ChangePlan("Field", func(p *plan.Plan) { p.Field = 5 * geometry.Inch }); return nil }},
		{"North", func() error {
			d.ChangeSurvey("North", func(s *plan.Survey) { s.North = plan.North{Known: true, Turn: 30} })
			return nil
		}},
		{"Crew", func() error { return d.ChangePour("Crew", func(s *pour.Spec) { s.Crew.People = 7 }) }},
		{"Overhead", func() error {
			return d.ChangePricing("Overhead", func(s *estimate.Spec) { s.Options = []estimate.Option{{Name: "A"}} })
		}},
		{"Wage", func() error {
			return d.ChangePrices("Wage", func(l *estimate.PriceList) { l.Wage = decimal.NewFromInt(71) })
		}},
		{"New slab", func() error { d.AddSlab(); return nil }},
		{"Draw", func() error { d.CommitPlan("Draw", rectangle(30*ft, 0, 10*ft, 8*ft)); return nil }},
		{"Slabs", func() error { d.CommitSlabs("Slabs", d.Slabs()[:1]); return nil }},
	}
	states := []job.Job{d.Job()}
	for _, s := range steps {
		if err := s.do(); err != nil {
			t.Fatalf("%s: %v", s.label, err)
		}
		if label, ok := d.CanUndo(); label != s.label || !ok {
			t.Fatalf("after %s, undo takes back %q", s.label, label)
		}
		states = append(states, d.Job())
	}
	for i := len(steps) - 1; i >= 0; i-- {
		if label, ok := d.Undo(); label != steps[i].label || !ok || !d.Job().Same(states[i]) {
			t.Errorf("undone %q, want %q; the job is the one before: %v", label, steps[i].label, d.Job().Same(states[i]))
		}
		if label, ok := d.CanRedo(); label != steps[i].label || !ok {
			t.Errorf("redo makes %q again, want %q", label, steps[i].label)
		}
	}
	if _, ok := d.Undo(); ok {
		t.Error("undone beyond the start")
	}
	for i, s := range steps {
		if label, ok := d.Redo(); label != s.label || !ok || !d.Job().Same(states[i+1]) {
			t.Errorf("done again %q, want %q; the job is the one after: %v", label, s.label, d.Job().Same(states[i+1]))
		}
	}
	if _, ok := d.Redo(); ok {
		t.Error("done again beyond the end")
	}
	d.Undo()
	d.CommitPlan("Another way", rectangle(0, 0, ft, ft))
	if label, ok := d.CanRedo(); ok {
		t.Errorf("after another edit, redo offers %q", label)
	}
}

// What a change would spoil is refused in words, and nothing is changed.
func TestRefusedChanges(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft))
	was := d.Job()
	for name, err := range map[string]error{
		"pour":   d.ChangePour("Crew", func(s *pour.Spec) { s.Crew.People = -1 }),
		"job":    d.Change("Field", func(j *job.Job) { j.Slabs[0].Field = -ft }),
		"prices": d.ChangePrices("Wage", func(l *estimate.PriceList) { l.Wage = decimal.NewFromInt(-1) }),
	} {
		if err == nil || !strings.HasPrefix(err.Error(), "found -") || !strings.Contains(err.Error(), "; ") {
			t.Errorf("%s: refused with %v", name, err)
		}
	}
	if _, ok := d.CanUndo(); ok || !d.Job().Same(was) {
		t.Error("something was changed")
	}
	// A fault that was there before keeps nobody from changing something else.
	d.ChangePlan("Spoil", func(p *plan.Plan) { p.Field = -ft })
	if len(d.Faults()) == 0 || len(d.Spoken()) != len(d.Faults()) {
		t.Fatalf("faults %v, spoken %v", d.Faults(), d.Spoken())
	}
	if err := d.Change("Name", func(j *job.Job) { j.Name = "Faulty" }); err != nil || d.Job().Name != "Faulty" {
		t.Errorf("%q, %v", d.Job().Name, err)
	}
	d.Undo()
	d.Undo()
	if len(d.Faults()) > 0 || d.Spoken() != nil {
		t.Errorf("sound again, and there are %v", d.Faults())
	}
}

// A preview is shown and is no step; it gives way to what is committed, and to Cancel.
func TestPreview(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft))
	was, changed := d.Job(), 0
	d.Changed = func() { changed++ }
	for range 3 {
		d.PreviewPlan(rectangle(0, 0, 30*ft, 20*ft))
	}
	if !d.Previewing() || !d.Base().Same(was) || d.Job().Same(was) || len(d.Slabs()) != 1 || changed != 3 {
		t.Errorf("previewing %v, told %d times", d.Previewing(), changed)
	}
	d.Cancel()
	d.Cancel()
	if d.Previewing() || !d.Job().Same(was) || changed != 4 {
		t.Errorf("canceled: previewing %v, told %d times", d.Previewing(), changed)
	}
	d.PreviewPlan(rectangle(0, 0, 30*ft, 20*ft))
	d.Commit("Put back", was)
	if _, ok := d.CanUndo(); ok || d.Previewing() {
		t.Error("what changes nothing is a step")
	}
	d.PreviewPlan(rectangle(0, 0, 30*ft, 20*ft))
	d.CommitPlan("Drag", rectangle(0, 0, 30*ft, 20*ft))
	if d.Undo(); !d.Job().Same(was) {
		t.Error("undo does not give what was before the drag")
	}
}

// The list that a job is priced with: its own, else the one that is kept for its units,
// else the starting list.
func TestPrices(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft))
	wage := func(want int64) {
		t.Helper()
		if got := d.Prices().Wage; !got.Equal(decimal.NewFromInt(want)) {
			t.Errorf("the wage is %v, want %d", got, want)
		}
	}
	starting := estimate.Starting(d.Units()).Wage
	if !d.Prices().Wage.Equal(starting) {
		t.Errorf("without a book the wage is %v", d.Prices().Wage)
	}
	var failed, fails error
	reads := 0
	d.Failed = func(err error) { failed = err }
	d.Kept = func(u geometry.Units) (estimate.PriceList, error) {
		reads++
		l := estimate.Starting(u)
		l.Wage = decimal.NewFromInt(99)
		return l, fails
	}
	d.ForgetPrices()
	wage(99)
	wage(99)
	if reads != 1 {
		t.Errorf("the list was read %d times", reads)
	}
	fails = errors.New("no such list")
	d.ForgetPrices()
	if got := d.Prices().Wage; !got.Equal(starting) || failed != fails {
		t.Errorf("a list that does not read: the wage is %v, told %v", got, failed)
	}
	fails = nil
	d.ForgetPrices()
	if err := errors.Join(d.OwnPrices("Keep"), d.OwnPrices("Keep")); err != nil {
		t.Fatal(err)
	}
	d.Kept = nil
	d.ForgetPrices()
	wage(99)
	if d.Undo(); len(d.Job().Price.Prices.Items) > 0 {
		t.Error("kept twice, it is more than one step")
	}
}

// held is a scheduler whose work waits to be done.
type held struct{ work []func() }

func (h *held) scheduler() document.Scheduler {
	return document.Scheduler{Go: func(f func()) { h.work = append(h.work, f) }, Post: func(f func()) { f() }}
}

func (h *held) next() { f := h.work[0]; h.work = h.work[1:]; f() }

// While a takeoff is computed the last one stands, marked as such; of what is changed
// meanwhile only the last is computed.
func TestTakeoffFollows(t *testing.T) {
	var h held
	j := job.New()
	j.Slabs = []plan.Plan{rectangle(0, 0, 24*ft, 20*ft)}
	var computed []geometry.Length
	var fails error
	d := document.New(j, func(h *handover.Handover) (*takeoff.Takeoff, error) {
		computed = append(computed, h.Job().Slabs[0].Field)
		if fails != nil {
			return nil, fails
		}
		return document.Taken(h)
	}, h.scheduler())
	shown := func(stale bool, field geometry.Length) {
		t.Helper()
		got, is := d.Takeoff()
		of, also := d.Handover()
		if is != stale || also != stale || field == 0 && (got != nil || of != nil) || field > 0 && (got == nil || of.Job().Slabs[0].Field != field) {
			t.Errorf("stale %v, want %v; of %v", is, stale, of)
		}
	}
	field := func(inches geometry.Length) {
		d.ChangePlan("Field", func(p *plan.Plan) { p.Field = inches * geometry.Inch })
	}
	shown(true, 0)
	h.next()
	shown(false, 6*geometry.Inch)
	for n := geometry.Length(7); n < 10; n++ {
		field(n)
	}
	shown(true, 6*geometry.Inch)
	if d.SetFrost(3 * ft); d.Frost() != 3*ft || d.Current().Job().Slabs[0].Field != 9*geometry.Inch || d.Current().Frost() != 3*ft {
		t.Errorf("the current job is %v", d.Current().Job().Slabs[0].Field)
	}
	h.next()
	shown(true, 7*geometry.Inch)
	h.next()
	shown(false, 9*geometry.Inch)
	fails = errors.New("on purpose")
	field(5)
	h.next()
	shown(true, 9*geometry.Inch)
	if !errors.Is(d.Err(), fails) {
		t.Errorf("it failed, and tells %v", d.Err())
	}
	fails = nil
	field(4)
	h.next()
	shown(false, 4*geometry.Inch)
	if got := fmt.Sprint(len(computed)); got != "5" || d.Err() != nil {
		t.Errorf("computed %s times, %v", got, d.Err())
	}
	d.Reset(job.New(), nil)
	shown(true, 0)
	if len(h.work) > 0 || !d.Blank() {
		t.Error("a blank sheet is taken off")
	}
}

// Latest does one thing at a time, which is told to stop when another is asked for, and of what is asked for meanwhile the last; a panic
// is an error that says what failed.
func TestLatest(t *testing.T) {
	var h held
	l := document.Latest{Scheduler: h.scheduler()}
	var did, told []string
	ask := func(name string) {
		l.Run(name, func(ctx context.Context) error {
			if ctx.Err() != nil {
				name += " stopped"
			}
			did = append(did, name)
			if name == "bad" {
				panic("spoiled")
			}
			return nil
		}, func(err error) { told = append(told, fmt.Sprint(name, ": ", err)) })
	}
	for _, name := range []string{"first", "second", "bad"} {
		ask(name)
	}
	for l.Running() {
		h.next()
	}
	if got := strings.Join(did, " "); got != "first stopped bad" {
		t.Errorf("did %s", got)
	}
	if len(told) != 1 || !strings.HasPrefix(told[0], "bad: bad failed (spoiled)") {
		t.Errorf("told %q", told)
	}
}

// A fault while an outcome is shown is told in its place.
func TestOutcomeThatCannotBeShown(t *testing.T) {
	var told []error
	document.Scheduler{}.Do("it", func() error { return nil }, func(err error) {
		told = append(told, err)
		if err == nil {
			panic("no room")
		}
	})
	if len(told) != 2 || told[0] != nil || !strings.Contains(told[1].Error(), document.ShowingOf+"it failed (no room)") {
		t.Errorf("told %v", told)
	}
}

// unread is a history of which nothing reads.
type unread struct{}

var errUnread = errors.New("does not read")

func (unread) Edit(string, job.Job)                 {}
func (unread) Next() (undo, redo string)            { return "Edit", "" }
func (unread) Undo() (job.Job, string, bool, error) { return job.Job{}, "", false, errUnread }
func (unread) Redo() (job.Job, string, bool, error) { return job.Job{}, "", false, nil }

func TestHistoryThatDoesNotRead(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft))
	d.Reset(d.Job(), unread{})
	var failed error
	d.Failed = func(err error) { failed = err }
	was := d.Job()
	if _, ok := d.Undo(); ok || failed != errUnread || !d.Job().Same(was) {
		t.Errorf("undone %v, told %v", ok, failed)
	}
}
