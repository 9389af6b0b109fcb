package main

import (
	"fmt"
	"slices"
	"strings"
)

// need is something that a command of dev needs from the machine.
type need struct {
	name     string
	os       []string // the systems it is needed on; nil for all
	found    check
	packages map[string][]string // by package manager
	byHand   string              // what to do where no manager has it
	optional bool                // tests that use it are left out without it
}

// check is how to see that a need is met: every field given must hold.
type check struct {
	anyCommand []string // one of these is on the path
	anyFile    []string // one of these patterns names a file
	variable   string   // or this variable of the environment is set
	python     string   // this module can be imported
	include    string   // this C (or, with cpp, C++) text compiles …
	cpp        bool
	link       []string // … and links with these libraries
	pkgConfig  []string // pkg-config knows these
	run        []string // this command succeeds
}

// prober looks at the machine.
type prober interface {
	command(name string) bool
	file(pattern string) bool
	variable(name string) bool
	python(module string) bool
	compiles(source string, cpp bool, libraries []string) bool
	pkgConfig(modules []string) bool
	runs(args []string) bool
}

// met tells whether c holds on the machine that p looks at.
func (c check) met(p prober) bool {
	switch {
	case c.variable != "" && p.variable(c.variable):
		return true
	case c.anyCommand != nil && !slices.ContainsFunc(c.anyCommand, p.command):
		return false
	case c.anyFile != nil && !slices.ContainsFunc(c.anyFile, p.file):
		return false
	case c.python != "" && !p.python(c.python):
		return false
	case c.pkgConfig != nil && !p.pkgConfig(c.pkgConfig):
		return false
	case c.include != "" && !p.compiles(c.include, c.cpp, c.link):
		return false
	case c.run != nil && !p.runs(c.run):
		return false
	}
	return true
}

// missing gives the needs that are not met on system os.
func missing(needs []need, os string, p prober) []need {
	var out []need
	for _, n := range needs {
		if (n.os == nil || slices.Contains(n.os, os)) && !n.found.met(p) {
			out = append(out, n)
		}
	}
	return out
}

// packagesFor gives the packages of m that the needs ask for, each once, and
// the needs for which m has none.
func packagesFor(needs []need, m manager) (packages []string, rest []need) {
	for _, n := range needs {
		ps, ok := n.packages[m.name]
		if !ok {
			rest = append(rest, n)
		}
		for _, p := range ps {
			if !slices.Contains(packages, p) {
				packages = append(packages, p)
			}
		}
	}
	return packages, rest
}

// names lists what the needs are called.
func names(needs []need) string {
	out := make([]string, len(needs))
	for i, n := range needs {
		out[i] = n.name
	}
	return strings.Join(out, ", ")
}

var linux = []string{"linux"}

// downloadNeeds is what Go needs to fetch modules over TLS.
var downloadNeeds = []need{{
	name: "certificate authorities",
	os:   linux,
	found: check{variable: "SSL_CERT_FILE", anyFile: []string{
		"/etc/ssl/certs/ca-certificates.crt", "/etc/pki/tls/certs/ca-bundle.crt",
		"/etc/ssl/ca-bundle.pem", "/etc/ssl/cert.pem",
	}},
	packages: each("ca-certificates", "apt", "dnf", "pacman"),
}}

// windowNeeds is what building the window takes.
var windowNeeds = []need{
	{
		name:     "a C compiler",
		os:       linux,
		found:    check{include: "#include <stdlib.h>\n"},
		packages: map[string][]string{"apt": {"gcc", "libc6-dev"}, "dnf": {"gcc"}, "pacman": {"gcc"}},
		byHand:   "install gcc and the C library's headers",
	},
	{
		name:   "a C compiler and the system's headers",
		os:     []string{"darwin"},
		found:  check{run: []string{"xcode-select", "-p"}},
		byHand: "run xcode-select --install, finish its dialog, then run this again",
	},
	{
		name:     "a C compiler",
		os:       []string{"windows"},
		found:    check{anyCommand: []string{"gcc", msysBin + `\gcc.exe`}},
		packages: map[string][]string{"winget": {"mingw-w64-ucrt-x86_64-gcc"}},
		byHand:   "install MSYS2 and in it the package mingw-w64-ucrt-x86_64-gcc, and put its bin folder on the path",
	},
	{
		name:     "pkg-config",
		os:       linux,
		found:    check{anyCommand: []string{"pkg-config"}},
		packages: map[string][]string{"apt": {"pkg-config"}, "dnf": {"pkgconf-pkg-config"}, "pacman": {"pkgconf"}},
		byHand:   "install pkg-config",
	},
	{
		name:  "headers of OpenGL",
		os:    linux,
		found: check{pkgConfig: []string{"gl"}, include: "#include <GL/gl.h>\n", link: []string{"GL"}},
		packages: map[string][]string{
			"apt": {"libgl1-mesa-dev"}, "dnf": {"mesa-libGL-devel"}, "pacman": {"mesa", "libglvnd"},
		},
		byHand: "install the development files of OpenGL",
	},
	{
		name: "headers of X11",
		os:   linux,
		found: check{
			include: "#include <X11/Xlib.h>\n#include <X11/Xcursor/Xcursor.h>\n#include <X11/extensions/Xrandr.h>\n" +
				"#include <X11/extensions/Xinerama.h>\n#include <X11/extensions/XInput2.h>\n" +
				"#include <X11/extensions/xf86vmode.h>\n",
			link: []string{"X11", "Xcursor", "Xrandr", "Xinerama", "Xi", "Xxf86vm"},
		},
		packages: map[string][]string{
			"apt":    {"xorg-dev"},
			"dnf":    {"libX11-devel", "libXcursor-devel", "libXrandr-devel", "libXinerama-devel", "libXi-devel", "libXxf86vm-devel"},
			"pacman": {"libx11", "libxcursor", "libxrandr", "libxinerama", "libxi", "libxxf86vm", "xorgproto"},
		},
		byHand: "install the development files of X11",
	},
	{
		name:  "headers of xkbcommon",
		os:    linux,
		found: check{include: "#include <xkbcommon/xkbcommon.h>\n", link: []string{"xkbcommon"}},
		packages: map[string][]string{
			"apt": {"libxkbcommon-dev"}, "dnf": {"libxkbcommon-devel"}, "pacman": {"libxkbcommon"},
		},
		byHand: "install the development files of xkbcommon",
	},
}

// toolNeeds is what the tests use besides: a display to drive the window on,
// and independent programs to check the results against.
var toolNeeds = []need{
	tool("Xvfb", check{anyCommand: []string{"Xvfb"}}, linux, map[string][]string{
		"apt": {"xvfb", "libgl1-mesa-dri"}, "dnf": {"xorg-x11-server-Xvfb", "mesa-dri-drivers"}, "pacman": {"xorg-server-xvfb", "mesa"},
	}),
	tool("openbox", check{anyCommand: []string{"openbox"}}, linux, each("openbox", "apt", "dnf", "pacman")),
	tool("xdotool", check{anyCommand: []string{"xdotool"}}, linux, each("xdotool", "apt", "dnf", "pacman")),
	tool("wmctrl", check{anyCommand: []string{"wmctrl"}}, linux, each("wmctrl", "apt", "dnf", "pacman")),
	tool("xwininfo", check{anyCommand: []string{"xwininfo"}}, linux, map[string][]string{
		"apt": {"x11-utils"}, "dnf": {"xwininfo"}, "pacman": {"xorg-xwininfo"},
	}),
	tool("strace", check{anyCommand: []string{"strace"}}, linux, each("strace", "apt", "dnf", "pacman")),
	tool("poppler's tools", check{anyCommand: []string{"pdftotext"}}, nil, map[string][]string{
		"apt": {"poppler-utils"}, "dnf": {"poppler-utils"}, "pacman": {"poppler"}, "brew": {"poppler"},
	}),
	tool("qpdf", check{anyCommand: []string{"qpdf"}}, nil, each("qpdf", "apt", "dnf", "pacman", "brew")),
	tool("dbus-daemon", check{anyCommand: []string{"dbus-daemon"}}, linux, map[string][]string{
		"apt": {"dbus-daemon"}, "dnf": {"dbus-daemon"}, "pacman": {"dbus"},
	}),
	tool("LibreOffice Calc", check{anyCommand: []string{"soffice", "libreoffice"}}, nil, map[string][]string{
		"apt": {"libreoffice-calc-nogui"}, "dnf": {"libreoffice-calc"}, "pacman": {"libreoffice-fresh"},
	}),
	tool("fonts for LibreOffice", check{anyFile: []string{"/usr/share/fonts/*/*/DejaVuSans.ttf", "/usr/share/fonts/*/DejaVuSans.ttf"}}, linux, map[string][]string{
		"apt": {"fonts-dejavu-core"}, "dnf": {"dejavu-sans-fonts"}, "pacman": {"ttf-dejavu"},
	}),
	tool("openpyxl", check{python: "openpyxl"}, linux, map[string][]string{
		"apt": {"python3-openpyxl"}, "dnf": {"python3-openpyxl"}, "pacman": {"python-openpyxl"},
	}),
	tool("ezdxf", check{python: "ezdxf"}, linux, map[string][]string{
		"apt": {"python3-ezdxf"}, "dnf": {"python3-ezdxf"},
	}),
	tool("numpy", check{python: "numpy"}, linux, map[string][]string{
		"apt": {"python3-numpy"}, "dnf": {"python3-numpy"}, "pacman": {"python-numpy"},
	}),
	tool("shapely", check{python: "shapely"}, linux, map[string][]string{
		"apt": {"python3-shapely"}, "dnf": {"python3-shapely"}, "pacman": {"python-shapely"},
	}),
	tool("a C++ compiler", check{include: "#include <vector>\n", cpp: true}, linux, map[string][]string{
		"apt": {"g++"}, "dnf": {"gcc-c++"}, "pacman": {"gcc"},
	}),
	tool("GEOS", check{include: "#include <geos_c.h>\n"}, linux, map[string][]string{
		"apt": {"libgeos-dev"}, "dnf": {"geos-devel"}, "pacman": {"geos"},
	}),
	tool("CGAL", check{include: "#include <CGAL/version.h>\n", cpp: true}, linux, map[string][]string{
		"apt": {"libcgal-dev"}, "dnf": {"CGAL-devel"}, "pacman": {"cgal"},
	}),
	tool("PostgreSQL", check{anyFile: []string{"/usr/lib/postgresql/*/bin/initdb", "/usr/bin/initdb"}}, linux, map[string][]string{
		"apt": {"postgresql"}, "dnf": {"postgresql-server"}, "pacman": {"postgresql"},
	}),
	tool("GLPK", check{anyCommand: []string{"glpsol"}}, nil, map[string][]string{
		"apt": {"glpk-utils"}, "dnf": {"glpk-utils"}, "pacman": {"glpk"}, "brew": {"glpk"},
	}),
}

// packageNeeds is what making and checking packages takes besides. Without the compiler
// for Windows its window is left out, and that is said.
var packageNeeds = []need{
	{
		name:     "xz",
		found:    check{anyCommand: []string{"xz"}},
		packages: map[string][]string{"apt": {"xz-utils"}, "dnf": {"xz"}, "pacman": {"xz"}, "brew": {"xz"}},
		byHand:   "install xz, of which packages for Linux are made",
	},
}

// referenceNeeds is what the reference program is built with.
func referenceNeeds() []need { return needed("a C compiler", "a C++ compiler", "CGAL") }

// needed picks needs of the window and of the tests by name.
func needed(called ...string) []need {
	var out []need
	for _, n := range join(windowNeeds, toolNeeds) {
		if slices.Contains(called, n.name) {
			out = append(out, n)
		}
	}
	return out
}

func tool(name string, found check, os []string, packages map[string][]string) need {
	return need{name: name, os: os, found: found, packages: packages, optional: true,
		byHand: fmt.Sprintf("install %s; without it the tests that use it are left out", name)}
}

// each gives a package that has one name with several managers.
func each(pkg string, managers ...string) map[string][]string {
	m := map[string][]string{}
	for _, name := range managers {
		m[name] = []string{pkg}
	}
	return m
}
