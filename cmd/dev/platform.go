package main

import (
	"slices"
	"strings"
)

// system is what dev knows of the machine before it looks closer.
type system struct {
	os        string // as runtime.GOOS
	osRelease string // content of /etc/os-release
	root      bool
	display   bool                   // a display server is announced
	has       func(name string) bool // tells whether a command is on the path
}

// hasDisplay tells whether a window can open: Unix says so in its environment,
// macOS and Windows always can.
func (s system) hasDisplay() bool {
	return s.os == "darwin" || s.os == "windows" || s.display
}

// manager is a package manager.
type manager struct {
	name    string
	update  []string // refreshes its lists, nil where install does
	install []string // the packages follow
	env     []string
	asRoot  bool
	failing string // what to do where it fails
}

var managers = map[string]manager{
	"apt": {
		name:   "apt",
		update: append(slices.Clone(aptGet), "update"),
		install: append(slices.Clone(aptGet),
			"install", "-y", "--no-install-recommends"),
		env:    []string{"DEBIAN_FRONTEND=noninteractive"},
		asRoot: true,
	},
	"dnf": {
		name:    "dnf",
		install: []string{"dnf", "install", "-y", "--setopt=install_weak_deps=False"},
		asRoot:  true,
	},
	"pacman": {
		name: "pacman",
		// Not -Sy: new lists with an old system are a partial upgrade, which breaks it.
		install: []string{"pacman", "-S", "--noconfirm", "--needed"},
		asRoot:  true,
		failing: "bring the system up to date first (pacman -Syu), then run this again",
	},
	"brew": {
		name:    "brew",
		install: []string{"brew", "install"},
		env:     []string{"HOMEBREW_NO_AUTO_UPDATE=1"},
	},
	// The compiler comes from the MSYS2 distribution, through its own pacman.
	"winget": {
		name: "winget",
		update: []string{"winget", "install", "--id", "MSYS2.MSYS2", "--exact", "--silent",
			"--accept-package-agreements", "--accept-source-agreements"},
		install: []string{msysRoot + `\usr\bin\pacman.exe`, "-Sy", "--noconfirm", "--needed"},
	},
}

// Waits for another apt to finish, and tries a download again.
var aptGet = []string{"apt-get", "-q", "-o", "DPkg::Lock::Timeout=300", "-o", "Acquire::Retries=5"}

const (
	msysRoot = `C:\msys64`
	msysBin  = msysRoot + `\ucrt64\bin`
)

// packageManager gives the machine's package manager, or false where dev knows
// none. On Linux the distribution's name decides, and the commands on the path
// where the name tells nothing.
func (s system) packageManager() (manager, bool) {
	switch s.os {
	case "darwin":
		return managers["brew"], s.has("brew")
	case "windows":
		return managers["winget"], s.has("winget")
	case "linux":
		for _, id := range distributions(s.osRelease) {
			if m, ok := managers[distributionManager[id]]; ok {
				return m, true
			}
		}
		for _, m := range []struct{ command, name string }{{"apt-get", "apt"}, {"dnf", "dnf"}, {"pacman", "pacman"}} {
			if s.has(m.command) {
				return managers[m.name], true
			}
		}
	}
	return manager{}, false
}

var distributionManager = map[string]string{
	"debian": "apt", "ubuntu": "apt",
	"fedora": "dnf", "rhel": "dnf", "centos": "dnf",
	"arch": "pacman",
}

// distributions lists ID and then ID_LIKE of an os-release file.
func distributions(osRelease string) []string {
	var id, like []string
	for _, line := range strings.Split(osRelease, "\n") {
		key, value, _ := strings.Cut(strings.TrimSpace(line), "=")
		value = strings.Trim(value, `"'`)
		switch key {
		case "ID":
			id = strings.Fields(value)
		case "ID_LIKE":
			like = strings.Fields(value)
		}
	}
	return append(id, like...)
}

// command is one command to run.
type command struct {
	args []string
	env  []string // added to the environment
	dir  string   // the project's folder where empty
}

// String gives the command as it would be typed.
func (c command) String() string {
	words := slices.Clone(c.env)
	for _, a := range c.args {
		if a == "" || strings.ContainsAny(a, " $'\"&|;<>*?()") {
			a = "'" + strings.ReplaceAll(a, "'", `'\''`) + "'"
		}
		words = append(words, a)
	}
	return strings.Join(words, " ")
}

// mayInstall tells whether packages can be installed through m by who is at work.
func (s system) mayInstall(m manager) bool { return !m.asRoot || s.root || s.has("sudo") }

// installing gives the commands that install packages through m.
func (s system) installing(m manager, packages []string) []command {
	if len(packages) == 0 {
		return nil
	}
	var cs []command
	add := func(args []string) {
		c := command{args: args, env: m.env}
		if m.asRoot && !s.root && s.has("sudo") {
			// sudo drops the environment, so it travels through env.
			c.args, c.env = slices.Concat([]string{"sudo", "env"}, m.env, args), nil
		}
		cs = append(cs, c)
	}
	if m.update != nil && !(m.name == "winget" && s.has(m.install[0])) {
		add(m.update)
	}
	add(slices.Concat(m.install, packages))
	return cs
}

// language gives what to add to the environment so that the window's toolkit finds
// a language in it: of C.UTF-8, usual on bare machines, it reports that it knows
// no such one. The locale itself stays as it is.
func language(getenv func(string) string) []string {
	if getenv("LANGUAGE") != "" {
		return nil
	}
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := getenv(name); v != "" {
			if strings.HasPrefix(v, "C.") {
				return []string{"LANGUAGE=en"}
			}
			return nil
		}
	}
	return nil
}
