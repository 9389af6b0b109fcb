package main

import (
	"errors"
	"strings"
	"testing"
)

func TestDisplayed(t *testing.T) {
	for _, c := range []struct {
		name, system, display, wayland string
		answers                        string // the address that answers
		says                           string // "" for nothing
	}{
		{"macOS", "darwin", "", "", "", ""},
		{"none", "linux", "", "", "", "DISPLAY is not set"},
		{"Wayland alone", "linux", "", "wayland-0", "", "Wayland alone"},
		{"no display's name", "linux", "zero", "", "", `"zero"`},
		{"nothing there", "linux", ":7", "", "", "nothing answers at DISPLAY :7"},
		{"there", "linux", ":7.0", "", "unix /tmp/.X11-unix/X7", ""},
		{"there, by its other name", "linux", ":7", "", "unix @/tmp/.X11-unix/X7", ""},
		{"over the network", "linux", "localhost:10.0", "", "tcp localhost:6010", ""},
		{"over the network, gone", "linux", "localhost:10.0", "", "", "nothing answers"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := displayed(c.system, func(name string) string {
				return map[string]string{"DISPLAY": c.display, "WAYLAND_DISPLAY": c.wayland}[name]
			}, func(network, address string) error {
				if network+" "+address == c.answers {
					return nil
				}
				return errors.New("refused")
			})
			switch {
			case c.says == "" && err != nil:
				t.Error(err)
			case c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says) || strings.Contains(err.Error(), "\n")):
				t.Errorf("it says %v, want a line with %q", err, c.says)
			}
		})
	}
}
