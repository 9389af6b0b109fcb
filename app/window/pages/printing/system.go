package printing

import (
	"errors"
	"fmt"
	"net/url"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// has tells whether the system has a program.
func has(program string) bool {
	_, err := exec.LookPath(program)
	return err == nil
}

// opens tells whether the system can open a file in the viewer that the user chose.
func opens() bool {
	return runtime.GOOS == "windows" || runtime.GOOS == "darwin" || has("xdg-open")
}

// prints tells whether the system can print a file.
func prints() bool { return has(printer()) }

func printer() string {
	if runtime.GOOS == "windows" {
		return "powershell"
	}
	return "lp"
}

// printFile prints a file as large as it is drawn: "none" of print-scaling, PWG 5100.13,
// as CUPS takes it. The print verb of the Windows shell takes no size; the viewer that
// does it has one.
func printFile(path string) error {
	c := exec.Command("lp", "-o", "print-scaling=none", "--", path)
	if runtime.GOOS == "windows" {
		c = exec.Command(printer(), "-NoProfile", "-Command", "Start-Process -Verb Print -FilePath '"+strings.ReplaceAll(path, "'", "''")+"'")
	}
	out, err := c.CombinedOutput()
	if err == nil {
		return nil
	}
	if said := strings.TrimSpace(string(out)); said != "" {
		err = errors.New(said)
	}
	return fmt.Errorf("%s was not printed (%w); open it and print it from there", filepath.Base(path), err)
}

// fileURL gives the address of a file or folder.
func fileURL(path string) *url.URL {
	p := filepath.ToSlash(path)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p // a drive of Windows
	}
	return &url.URL{Scheme: "file", Path: p}
}
