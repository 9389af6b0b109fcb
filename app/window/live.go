package window

import "time"

// The panels' turns during a drag: how long they wait after a change, how long a
// turn may take, and how long the next then waits. A frame of the plan never waits
// for more than one turn, and the panels follow about 20 times a second.
const (
	panelPause = 40 * time.Millisecond
	turnTime   = time.Millisecond
	turnPause  = 8 * time.Millisecond
)

// takeTurn brings the panels one turn further after a pause, and again until they
// are up to date.
func (w *Window) takeTurn(pause time.Duration) {
	time.AfterFunc(pause, func() {
		w.scheduler.Result(func() {
			w.refreshed = true
			more := w.side.live(time.Now().Add(turnTime))
			w.refreshed = false
			if w.waiting = more; more {
				w.takeTurn(turnPause)
			}
		})
	})
}
