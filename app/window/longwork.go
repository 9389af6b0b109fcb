package window

import (
	"context"
	"errors"
	"io"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// errStop is the end of work that the user stopped.
var errStop = errors.New("stopped")

// longWork does work beside the window, under a dialog that says so and stops it.
// What work gives runs on the window's goroutine, if there was no error.
func (w *Window) longWork(what string, work func(context.Context) (done func(), err error)) {
	ctx, cancel := context.WithCancel(context.Background())
	bar := widget.NewProgressBarInfinite()
	stop := widget.NewButtonWithIcon("Stop", theme.CancelIcon(), cancel)
	d := dialog.NewCustomWithoutButtons(what, container.NewVBox(container.NewStack(strut(360, 10), bar), container.NewCenter(stop)), w.win)
	if w.scheduler.Go != nil {
		d.Show()
	}
	w.scheduler.Work(func() {
		done, err := work(ctx)
		w.scheduler.Result(func() {
			bar.Stop()
			d.Hide()
			switch {
			case err != nil && ctx.Err() != nil:
				w.say(capitalized(errStop.Error()) + ": " + what)
			case err != nil:
				w.say(sentence(err))
			case done != nil:
				done()
			}
			cancel()
		})
	})
}

// stoppable writes until the context ends.
type stoppable struct {
	io.Writer
	ctx context.Context
}

func (s stoppable) Write(b []byte) (int, error) {
	if s.ctx.Err() != nil {
		return 0, errStop
	}
	return s.Writer.Write(b)
}
