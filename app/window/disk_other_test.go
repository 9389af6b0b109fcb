//go:build !linux

package window

import (
	"errors"
	"testing"
)

func setfsuid(uintptr) {}

func mountSmall(*testing.T, string, int) error {
	return errors.New("small disks are mounted on Linux only")
}
