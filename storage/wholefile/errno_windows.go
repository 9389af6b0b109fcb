package wholefile

import (
	"errors"
	"syscall"
)

// Of the Windows API: ERROR_NETNAME_DELETED, ERROR_BAD_NETPATH,
// ERROR_SHARING_VIOLATION and ERROR_LOCK_VIOLATION.
const (
	errStale    = syscall.Errno(64)
	errHostDown = syscall.Errno(53)
	errInUse    = syscall.Errno(32)
	errLocked   = syscall.Errno(33)
)

// isDiskFull knows ERROR_HANDLE_DISK_FULL and ERROR_DISK_FULL of the Windows API.
func isDiskFull(err error) bool {
	return errors.Is(err, syscall.Errno(39)) || errors.Is(err, syscall.Errno(112))
}
