package hands

import (
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"syscall"
	"testing"
)

// AsNobody runs f without root's rights over files.
func AsNobody(t testing.TB, f func()) {
	t.Helper()
	if os.Geteuid() == 0 {
		const nobody = 65534
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		setfsuid(nobody)
		defer setfsuid(0)
	}
	f()
}

// setfsuid changes as whom this thread opens files; it reports no error.
func setfsuid(uid uintptr) { _, _, _ = syscall.RawSyscall(syscall.SYS_SETFSUID, uid, 0, 0) }

// SmallDisk makes dir a disk of its own, with room for size bytes, until the test ends.
// It skips the test where that needs rights that it has not.
func SmallDisk(t testing.TB, dir string, size int) {
	t.Helper()
	out, err := exec.Command("mount", "-t", "tmpfs", "-o", fmt.Sprintf("size=%d", size), "none", dir).CombinedOutput()
	if err != nil {
		t.Skipf("mounting a small disk needs root: %v: %s", err, out)
	}
	t.Cleanup(func() {
		if out, err := exec.Command("umount", "-l", dir).CombinedOutput(); err != nil {
			t.Errorf("%v: %s", err, out)
		}
	})
}
