package main

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// Without a display the program says so in one line, in whatever locale: the toolkit adds
// none of its own.
func TestOneLineWithoutADisplay(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("there is always a display")
	}
	exe := filepath.Join(t.TempDir(), "haunchbook")
	build := exec.Command("go", "build", "-tags=ci", "-o", exe, ".")
	build.Env = append(build.Environ(), "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, c := range []struct {
		env  string
		want string
	}{
		{"LANG=C.UTF-8", "no display: DISPLAY is not set"},
		{"LC_ALL=POSIX", "no display: DISPLAY is not set"},
		{"DISPLAY=:4711", "nothing answers at DISPLAY :4711"},
		{"WAYLAND_DISPLAY=wayland-0", "Wayland alone"},
	} {
		cmd := exec.Command(exe, "-book", "none")
		cmd.Env = []string{c.env, "HOME=" + t.TempDir()}
		if strings.HasPrefix(c.env, "DISPLAY") || strings.HasPrefix(c.env, "WAYLAND") {
			cmd.Env = append(cmd.Env, "LANG=C.UTF-8")
		}
		var said bytes.Buffer
		cmd.Stdout, cmd.Stderr = &said, &said
		err := cmd.Run()
		if got := said.String(); err == nil || strings.Count(got, "\n") != 1 || !strings.Contains(got, c.want) {
			t.Errorf("%s: %v, %q", c.env, err, got)
		}
	}
}
