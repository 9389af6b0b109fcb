package main

import (
	"bufio"
	"errors"
	"io"
	"net"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// A job file that is opened while a window runs on the same job book goes to that window:
// it listens at a socket beside the book, which its owner alone may use. The program
// says the path of the file and a line feed, and hears "ok".

// socketBeside names the socket of a book; "" where there is no book.
func socketBeside(book string) string {
	if book == "" || book == "none" {
		return ""
	}
	path, err := filepath.Abs(book + ".window")
	if err != nil {
		return ""
	}
	return path
}

// grace is how long the other side may take.
const grace = 5 * time.Second

// handedOver tells whether a window that listens at a socket took a file.
func handedOver(socket, file string) bool {
	path, err := filepath.Abs(file)
	if socket == "" || err != nil || strings.Contains(path, "\n") {
		return false
	}
	c, err := net.DialTimeout("unix", socket, grace)
	if err != nil {
		return false
	}
	defer c.Close()
	c.SetDeadline(time.Now().Add(grace))
	if _, err := io.WriteString(c, path+"\n"); err != nil {
		return false
	}
	answer, err := bufio.NewReader(c).ReadString('\n')
	return err == nil && answer == "ok\n"
}

// listen has files that come to a socket opened, until it is closed. It fails where a
// window listens there already.
func listen(socket string, open func(file string)) (io.Closer, error) {
	if c, err := net.DialTimeout("unix", socket, grace); err == nil {
		c.Close()
		return nil, errors.New("another window listens already")
	}
	os.Remove(socket) // of a window that was ended
	l, err := net.Listen("unix", socket)
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(socket, 0o600); err != nil {
		l.Close()
		return nil, err
	}
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return // closed
			}
			take(c, open)
		}
	}()
	return l, nil
}

// take opens the file that one says who came.
func take(c net.Conn, open func(file string)) {
	defer c.Close()
	c.SetDeadline(time.Now().Add(grace))
	line, err := bufio.NewReader(io.LimitReader(c, 1<<16)).ReadString('\n')
	if file, whole := strings.CutSuffix(line, "\n"); err == nil && whole && filepath.IsAbs(file) {
		open(file)
		io.WriteString(c, "ok\n")
	}
}
