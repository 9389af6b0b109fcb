package storage

import (
	"errors"
	"syscall"
)

// isDiskFull knows ERROR_HANDLE_DISK_FULL and ERROR_DISK_FULL of the Windows API.
func isDiskFull(err error) bool {
	return errors.Is(err, syscall.Errno(39)) || errors.Is(err, syscall.Errno(112))
}
