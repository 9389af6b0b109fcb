package main

import (
	"errors"
	"fmt"
	"net"
	"strconv"
	"strings"
	"time"
)

// displayed says in a line why no window can open, where the toolkit would end the
// program with a trace of itself. Elsewhere than on systems with X11 it says nothing.
func displayed(system string, env func(string) string, dial func(network, address string) error) error {
	if system == "windows" || system == "darwin" {
		return nil
	}
	const without = "; haunchsheet writes the sheets without a window"
	display := env("DISPLAY")
	switch {
	case display == "" && env("WAYLAND_DISPLAY") != "":
		return errors.New("no X11 display: this session has Wayland alone; install and start Xwayland" + without)
	case display == "":
		return errors.New("no display: DISPLAY is not set" + without)
	}
	host, rest, found := cutLast(display, ":")
	number, _, _ := strings.Cut(rest, ".")
	n, err := strconv.Atoi(number)
	if !found || err != nil || n < 0 {
		return fmt.Errorf("no display: DISPLAY is %q; set it as \":0\"%s", display, without)
	}
	if host == "" || host == "unix" {
		socket := fmt.Sprintf("/tmp/.X11-unix/X%d", n)
		if err = dial("unix", socket); err != nil {
			err = dial("unix", "@"+socket)
		}
	} else if !strings.HasPrefix(host, "/") {
		err = dial("tcp", net.JoinHostPort(host, strconv.Itoa(6000+n))) // X Window System Protocol, appendix B
	}
	if err != nil {
		return fmt.Errorf("no display: nothing answers at DISPLAY %s%s", display, without)
	}
	return nil
}

// cutLast cuts a text round the last of a sign.
func cutLast(s, sign string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sign); i >= 0 {
		return s[:i], s[i+len(sign):], true
	}
	return s, "", false
}

// dialed tells whether something answers at an address.
func dialed(network, address string) error {
	c, err := net.DialTimeout(network, address, 5*time.Second)
	if err != nil {
		return err
	}
	return c.Close()
}
