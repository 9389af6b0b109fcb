//go:build !linux

package hands

import (
	"os"
	"testing"
)

// AsNobody runs f; as root, to whom nothing is denied, it skips the test.
func AsNobody(t testing.TB, f func()) {
	t.Helper()
	if os.Geteuid() == 0 {
		t.Skip("as root nothing is denied")
	}
	f()
}

// SmallDisk skips the test: small disks are mounted on Linux only.
func SmallDisk(t testing.TB, _ string, _ int) { t.Helper(); t.Skip("Linux only") }
