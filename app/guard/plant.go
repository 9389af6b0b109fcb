package guard

import "sync/atomic"

var planted atomic.Pointer[func(what string)]

// Plant has f called within whatever is tried from now on, with its name, until uproot
// is called: a test plants a panic there, and sees what comes of it.
func Plant(f func(what string)) (uproot func()) {
	planted.Store(&f)
	return func() { planted.Store(nil) }
}
