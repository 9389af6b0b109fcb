package window

import (
	"fmt"
	"os/exec"
	"syscall"
	"testing"
)

// setfsuid changes as whom this thread opens files; it reports no error.
func setfsuid(uid uintptr) { _, _, _ = syscall.RawSyscall(syscall.SYS_SETFSUID, uid, 0, 0) }

// mountSmall makes dir a disk of its own, with room for size bytes, until the
// test ends.
func mountSmall(t *testing.T, dir string, size int) error {
	out, err := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("size=%d", size), "none", dir).CombinedOutput()
	if err != nil {
		return fmt.Errorf("%w: %s", err, out)
	}
	t.Cleanup(func() {
		if out, err := exec.Command("umount", "-l", dir).CombinedOutput(); err != nil {
			t.Errorf("%v: %s", err, out)
		}
	})
	return nil
}
