// Package document is the job on the table: what is being edited, how it got
// there, what is wrong with it, and its takeoff. It knows nothing of windows.
package document

import (
	"context"
	"slices"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Compute gives the takeoff of a sound job from its handover, beside the window.
type Compute func(*handover.Handover) (*takeoff.Takeoff, error)

// Taken is the Compute that does no more.
func Taken(h *handover.Handover) (*takeoff.Takeoff, error) {
	t, err := h.Takeoff(context.Background())
	return &t, err
}

// Document is used from one goroutine.
type Document struct {
	// Changed is called after the job, its faults or its takeoff changed.
	Changed func()
	// Failed is called when a step of the history or a list could not be read.
	Failed func(error)
	// Kept gives the price list kept for new jobs in those units; nil where there is no
	// book.
	Kept func(geometry.Units) (estimate.PriceList, error)

	job     job.Job
	slab    int      // number of the slab that is worked on
	base    *job.Job // the job before the preview that is on it
	history History
	faults  plan.Faults
	blank   bool // nothing is drawn yet, which is no fault
	takeoff *takeoff.Takeoff
	taken   *handover.Handover // that it is of
	shown   *handover.Handover // of the same, with all else as it is now; nil where it is to be made
	frost   geometry.Length    // depth of the site
	stale   bool
	err     error

	compute   Compute
	scheduler Scheduler
	running   bool
	again     bool
	edition   int                                   // of the job: grows with every change of it
	chosen    int                                   // how often another slab was chosen
	kept      map[geometry.Units]estimate.PriceList // as read
}

// New opens a job.
func New(j job.Job, compute Compute, s Scheduler) *Document {
	d := &Document{job: j, history: NewMemory(j), compute: compute, scheduler: s}
	d.refresh()
	return d
}

// Job gives the job as it is shown, a preview included.
func (d *Document) Job() job.Job { return d.job }

// Units gives the job's units.
func (d *Document) Units() geometry.Units { return d.job.Units }

// Faults gives what is wrong with the plan and the specification, each at its
// place; none for a blank sheet.
func (d *Document) Faults() plan.Faults { return d.faults }

// Takeoff gives the last takeoff that could be computed, nil before the first,
// and whether it belongs to an earlier state of the job.
func (d *Document) Takeoff() (t *takeoff.Takeoff, stale bool) { return d.takeoff, d.stale }

// Handover gives everything that is shown of the job: of the last state whose takeoff
// could be computed, with its price as it is now. It is nil before the first; stale
// tells that the job has gone on since.
func (d *Document) Handover() (h *handover.Handover, stale bool) {
	if d.taken != nil && d.shown == nil {
		j := d.job
		if d.stale {
			j = d.taken.Job()
			j.Price = d.job.Price
		}
		d.shown = d.next(j)
	}
	return d.shown, d.stale
}

// Current gives the handover of the job as it is, without a preview. Its takeoff may
// have to be computed first.
func (d *Document) Current() *handover.Handover { return d.next(d.Base()) }

func (d *Document) next(j job.Job) *handover.Handover {
	return d.taken.Next(handover.From{Job: j, Prices: d.Prices(), Frost: d.frost})
}

// Frost gives the depth that frost goes to at the site; 0 where it does not matter.
func (d *Document) Frost() geometry.Length { return d.frost }

// SetFrost sets it.
func (d *Document) SetFrost(depth geometry.Length) { d.frost, d.shown = depth, nil }

// Err gives why the last takeoff could not be computed.
func (d *Document) Err() error { return d.err }

// Version grows with every change of the job and of the slab that is worked on.
func (d *Document) Version() int { return d.edition + d.chosen }

// Reset opens another job with a history of its own; nil is one in memory.
func (d *Document) Reset(j job.Job, h History) {
	if h == nil {
		h = NewMemory(j)
	}
	d.job, d.base, d.history, d.slab = j, nil, h, 0
	d.takeoff, d.taken, d.shown, d.err = nil, nil, nil, nil
	d.refresh()
}

// Preview shows a job without adding to the history: the state under a drag.
func (d *Document) Preview(j job.Job) {
	if d.base == nil {
		base := d.job
		d.base = &base
	}
	d.job = j
	d.refresh()
}

// Previewing tells whether a preview is shown.
func (d *Document) Previewing() bool { return d.base != nil }

// Base gives the job without the preview on it.
func (d *Document) Base() job.Job {
	if d.base != nil {
		return *d.base
	}
	return d.job
}

// Cancel takes the preview back.
func (d *Document) Cancel() {
	if d.base == nil {
		return
	}
	d.job, d.base = *d.base, nil
	d.refresh()
}

// Commit makes j the job, in place of any preview, as one step of the history. Where
// that changes nothing it is no step.
func (d *Document) Commit(label string, j job.Job) {
	if j.Same(d.Base()) {
		d.Cancel()
		return
	}
	d.job, d.base = j, nil
	d.history.Edit(label, j)
	d.refresh()
}

// CommitPlan is Commit for a change of the plan alone.
func (d *Document) CommitPlan(label string, p plan.Plan) {
	d.Commit(label, d.Base().WithSlab(d.slab, p))
}

// PreviewPlan is Preview for a change of the plan alone.
func (d *Document) PreviewPlan(p plan.Plan) {
	d.Preview(d.Base().WithSlab(d.slab, p))
}

// CanUndo gives the label of the step that Undo takes back.
func (d *Document) CanUndo() (label string, ok bool) {
	undo, _ := d.history.Next()
	return undo, undo != ""
}

// CanRedo gives the label of the step that Redo does again.
func (d *Document) CanRedo() (label string, ok bool) {
	_, redo := d.history.Next()
	return redo, redo != ""
}

// Undo takes the last step back and gives its label.
func (d *Document) Undo() (label string, ok bool) { return d.step(d.history.Undo) }

// Redo does the last undone step again and gives its label.
func (d *Document) Redo() (label string, ok bool) { return d.step(d.history.Redo) }

func (d *Document) step(move func() (job.Job, string, bool, error)) (string, bool) {
	d.Cancel()
	j, label, ok, err := move()
	if err != nil {
		d.fail(err)
	}
	if !ok || err != nil {
		return "", false
	}
	d.follow(j)
	d.job = j
	d.refresh()
	return label, true
}

func (d *Document) fail(err error) {
	if d.Failed != nil {
		d.Failed(err)
	}
}

// refresh brings faults and takeoff up to date.
func (d *Document) refresh() {
	d.edition++
	d.faults = nil
	d.slab = min(d.slab, len(d.job.Slabs)-1)
	d.blank = !slices.ContainsFunc(d.job.Slabs, func(p plan.Plan) bool { return len(p.Outline) > 0 })
	if !d.blank {
		d.faults = d.job.Validate()
	}
	d.stale, d.shown = true, nil
	if d.sound() && d.compute != nil {
		d.start()
	} else {
		d.changed()
	}
}

func (d *Document) sound() bool { return len(d.faults) == 0 && !d.blank }

// Blank tells whether nothing is drawn yet.
func (d *Document) Blank() bool { return d.blank }

// start computes the takeoff; while one is computed, the latest job waits.
func (d *Document) start() {
	if d.running {
		d.again = true
		d.changed()
		return
	}
	d.running = true
	h, edition := d.next(d.job), d.edition
	var t *takeoff.Takeoff
	d.scheduler.Do("the takeoff", func() (err error) {
		t, err = d.compute(h)
		return err
	}, func(err error) { d.finish(h, t, err, edition) })
	if d.running {
		d.changed()
	}
}

func (d *Document) finish(h *handover.Handover, t *takeoff.Takeoff, err error, edition int) {
	d.running = false
	if err == nil && t != nil {
		d.takeoff, d.taken, d.shown = t, h, nil
	}
	d.err = err
	d.stale = err != nil || edition != d.edition
	again := d.again
	d.again = false
	if again && d.sound() {
		d.start()
		return
	}
	d.changed()
}

func (d *Document) changed() {
	if d.Changed != nil {
		d.Changed()
	}
}
