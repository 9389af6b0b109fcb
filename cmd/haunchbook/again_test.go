package main

import (
	"net"
	"os"
	"path/filepath"
	"testing"
)

// A file goes to the window that listens, by its whole path; where none does, where
// one was ended, or where there is no book, it is not taken.
func TestFileGoesToTheWindowThatRuns(t *testing.T) {
	book := filepath.Join(t.TempDir(), "jobs.book")
	socket := socketBeside(book)
	if handedOver(socket, "job.json") {
		t.Fatal("a file is taken where nobody listens")
	}
	// What a window that was ended leaves behind.
	left, err := net.ListenUnix("unix", &net.UnixAddr{Name: socket, Net: "unix"})
	if err != nil {
		t.Fatal(err)
	}
	left.SetUnlinkOnClose(false)
	left.Close()
	if handedOver(socket, "job.json") {
		t.Fatal("a file is taken by a window that was ended")
	}
	got := make(chan string, 2)
	l, err := listen(socket, func(file string) { got <- file })
	if err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(socket); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("others may use the socket: %v, %v", info, err)
	}
	want, err := filepath.Abs("a job.json")
	if err != nil {
		t.Fatal(err)
	}
	if !handedOver(socket, "a job.json") {
		t.Fatal("the file is not taken")
	}
	if file := <-got; file != want {
		t.Errorf("opened %q, want %q", file, want)
	}
	if _, err := listen(socket, func(string) {}); err == nil {
		t.Error("two windows listen at one socket")
	}
	// Who says something else, or nothing, hears no ok and opens nothing.
	for _, said := range []string{"job.json\n", "/no/end", ""} {
		c, err := net.Dial("unix", socket)
		if err != nil {
			t.Fatal(err)
		}
		c.Write([]byte(said))
		c.(*net.UnixConn).CloseWrite()
		if n, _ := c.Read(make([]byte, 8)); n > 0 {
			t.Errorf("%q is answered", said)
		}
		c.Close()
	}
	l.Close()
	if handedOver(socket, "job.json") || len(got) > 0 {
		t.Error("a file is taken after the window was closed")
	}
	if socketBeside("none") != "" || handedOver("", "job.json") {
		t.Error("without a book there is a socket")
	}
}
