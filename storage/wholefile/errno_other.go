//go:build !windows

package wholefile

import "syscall"

const (
	errStale    = syscall.ESTALE
	errHostDown = syscall.EHOSTDOWN
	errInUse    = syscall.ETXTBSY
	errLocked   = syscall.EBUSY
)

func isDiskFull(error) bool { return false }
