package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

const (
	debian = "PRETTY_NAME=\"Debian GNU/Linux 12 (bookworm)\"\nID=debian\n"
	ubuntu = "ID=ubuntu\nID_LIKE=debian\n"
	mint   = "ID=someflavor\nID_LIKE=\"ubuntu debian\"\n"
	fedora = "ID=fedora\n"
	rocky  = "ID=\"rocky\"\nID_LIKE=\"rhel centos fedora\"\n"
	arch   = "ID=arch\n"
	odd    = "ID=handmade\n"
)

func having(names ...string) func(string) bool {
	return func(name string) bool { return slices.Contains(names, name) }
}

func TestPackageManager(t *testing.T) {
	for _, c := range []struct {
		name string
		sys  system
		want string
	}{
		{"Debian", system{os: "linux", osRelease: debian}, "apt"},
		{"Ubuntu", system{os: "linux", osRelease: ubuntu}, "apt"},
		{"like Debian", system{os: "linux", osRelease: mint}, "apt"},
		{"Fedora", system{os: "linux", osRelease: fedora}, "dnf"},
		{"like Fedora", system{os: "linux", osRelease: rocky}, "dnf"},
		{"Arch", system{os: "linux", osRelease: arch}, "pacman"},
		{"unknown, with dnf", system{os: "linux", osRelease: odd, has: having("dnf")}, "dnf"},
		{"no os-release, with apt-get", system{os: "linux", has: having("apt-get")}, "apt"},
		{"unknown, with nothing", system{os: "linux", osRelease: odd, has: having()}, ""},
		{"macOS", system{os: "darwin", has: having("brew")}, "brew"},
		{"macOS, bare", system{os: "darwin", has: having()}, ""},
		{"Windows", system{os: "windows", has: having("winget")}, "winget"},
		{"another Unix", system{os: "freebsd", has: having("pkg")}, ""},
	} {
		m, ok := c.sys.packageManager()
		if ok != (c.want != "") || ok && m.name != c.want {
			t.Errorf("%s: %q %v, want %q", c.name, m.name, ok, c.want)
		}
	}
}

// bare is a machine on which nothing is found; what is added to it is.
type bare map[string]bool

func (b bare) command(name string) bool  { return b[name] }
func (b bare) file(pattern string) bool  { return b[pattern] }
func (b bare) variable(name string) bool { return b["$"+name] }
func (b bare) python(module string) bool { return b["python "+module] }
func (b bare) runs(args []string) bool   { return b[strings.Join(args, " ")] }
func (b bare) pkgConfig(modules []string) bool {
	return !slices.ContainsFunc(modules, func(m string) bool { return !b["pc "+m] })
}
func (b bare) compiles(source string, cpp bool, libraries []string) bool {
	if cpp {
		return b["g++ "+source]
	}
	return b["gcc "+source]
}

func TestMissingOnBareMachines(t *testing.T) {
	for _, c := range []struct {
		os, manager string
		want        []string // packages for the window
	}{
		{"linux", "apt", []string{"ca-certificates", "gcc", "libc6-dev", "pkg-config", "libgl1-mesa-dev", "xorg-dev", "libxkbcommon-dev"}},
		{"linux", "dnf", []string{"ca-certificates", "gcc", "pkgconf-pkg-config", "mesa-libGL-devel", "libX11-devel", "libXcursor-devel", "libXrandr-devel", "libXinerama-devel", "libXi-devel", "libXxf86vm-devel", "libxkbcommon-devel"}},
		{"linux", "pacman", []string{"ca-certificates", "gcc", "pkgconf", "mesa", "libglvnd", "libx11", "libxcursor", "libxrandr", "libxinerama", "libxi", "libxxf86vm", "xorgproto", "libxkbcommon"}},
		{"windows", "winget", []string{"mingw-w64-ucrt-x86_64-gcc"}},
	} {
		lacking := missing(join(downloadNeeds, windowNeeds), c.os, bare{})
		got, rest := packagesFor(lacking, managers[c.manager])
		if !slices.Equal(got, c.want) || len(rest) > 0 {
			t.Errorf("%s: packages %v and without one %v; want %v", c.manager, got, names(rest), c.want)
		}
	}
	// macOS has no package for its own compiler: that is done by hand.
	lacking := missing(windowNeeds, "darwin", bare{})
	if _, rest := packagesFor(lacking, managers["brew"]); len(rest) != 1 || rest[0].optional {
		t.Errorf("on a bare macOS, by hand: %v, want the compiler alone", names(rest))
	}
}

func TestNothingMissing(t *testing.T) {
	full := bare{}
	for _, n := range join(downloadNeeds, windowNeeds, toolNeeds) {
		for _, c := range n.found.anyCommand {
			full[c] = true
		}
		for _, f := range n.found.anyFile {
			full[f] = true
		}
		for _, m := range n.found.pkgConfig {
			full["pc "+m] = true
		}
		full["python "+n.found.python] = true
		full["gcc "+n.found.include] = true
		full["g++ "+n.found.include] = true
		full[strings.Join(n.found.run, " ")] = true
	}
	for _, goos := range []string{"linux", "darwin", "windows"} {
		if got := missing(join(downloadNeeds, windowNeeds, toolNeeds), goos, full); len(got) > 0 {
			t.Errorf("%s: still missing %s", goos, names(got))
		}
	}
	// One thing taken away is one thing missing.
	delete(full, "pc gl")
	if got := missing(windowNeeds, "linux", full); len(got) != 1 || got[0].name != "headers of OpenGL" {
		t.Errorf("without pkg-config's gl: missing %s, want the headers of OpenGL", names(got))
	}
}

// Any one of several commands is enough, and a variable stands for a file.
func TestAlternatives(t *testing.T) {
	office := check{anyCommand: []string{"soffice", "libreoffice"}}
	for _, b := range []bare{{"soffice": true}, {"libreoffice": true}} {
		if !office.met(b) {
			t.Errorf("%v is not enough", b)
		}
	}
	if office.met(bare{}) {
		t.Error("nothing is enough")
	}
	if got := missing(downloadNeeds, "linux", bare{"$SSL_CERT_FILE": true}); len(got) > 0 {
		t.Error("SSL_CERT_FILE does not stand for the certificates")
	}
}

// Every tool that the tests use can be installed on Debian, where they all run.
func TestEveryNeedHasADebianPackage(t *testing.T) {
	for _, n := range join(downloadNeeds, windowNeeds, toolNeeds) {
		if n.os != nil && !slices.Contains(n.os, "linux") {
			continue
		}
		if len(n.packages["apt"]) == 0 {
			t.Errorf("%s has no package", n.name)
		}
		if n.byHand == "" && !strings.HasPrefix(n.name, "certificate") {
			t.Errorf("%s does not say what to do by hand", n.name)
		}
	}
}

func TestInstalling(t *testing.T) {
	line := func(s system, m string, packages ...string) string {
		var out []string
		for _, c := range s.installing(managers[m], packages) {
			out = append(out, c.String())
		}
		return strings.Join(out, "\n")
	}
	none := having()
	const apt = "apt-get -q -o DPkg::Lock::Timeout=300 -o Acquire::Retries=5 "
	const env = "DEBIAN_FRONTEND=noninteractive "
	for _, c := range []struct{ name, got, want string }{
		{"root", line(system{root: true, has: none}, "apt", "gcc", "qpdf"),
			env + apt + "update\n" + env + apt + "install -y --no-install-recommends gcc qpdf"},
		{"not root", line(system{has: having("sudo")}, "apt", "gcc"),
			"sudo env " + env + apt + "update\nsudo env " + env + apt + "install -y --no-install-recommends gcc"},
		{"not root, without sudo", line(system{has: none}, "apt", "gcc"),
			env + apt + "update\n" + env + apt + "install -y --no-install-recommends gcc"},
		{"no partial upgrade", line(system{root: true, has: none}, "pacman", "gcc"), "pacman -S --noconfirm --needed gcc"},
		{"nothing to install", line(system{root: true, has: none}, "apt"), ""},
		{"dnf", line(system{root: true, has: none}, "dnf", "gcc"), "dnf install -y --setopt=install_weak_deps=False gcc"},
		{"brew is never root's", line(system{has: none}, "brew", "qpdf"), "HOMEBREW_NO_AUTO_UPDATE=1 brew install qpdf"},
		{"Windows with MSYS2", line(system{has: having(`C:\msys64\usr\bin\pacman.exe`)}, "winget", "gcc"),
			`C:\msys64\usr\bin\pacman.exe -Sy --noconfirm --needed gcc`},
	} {
		if c.got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, c.got, c.want)
		}
	}
	bareWindows := line(system{has: none}, "winget", "gcc")
	if !strings.HasPrefix(bareWindows, "winget install --id MSYS2.MSYS2 ") {
		t.Errorf("a bare Windows does not get MSYS2 first: %s", bareWindows)
	}
}

func TestWhoMayInstall(t *testing.T) {
	for _, c := range []struct {
		sys     system
		manager string
		want    bool
	}{
		{system{root: true, has: having()}, "apt", true},
		{system{has: having("sudo")}, "pacman", true},
		{system{has: having()}, "dnf", false},
		{system{has: having()}, "brew", true},
	} {
		if got := c.sys.mayInstall(managers[c.manager]); got != c.want {
			t.Errorf("%s, root %v, sudo %v: %v", c.manager, c.sys.root, c.sys.has("sudo"), got)
		}
	}
}

func TestDisplay(t *testing.T) {
	for _, c := range []struct {
		sys  system
		want bool
	}{
		{system{os: "linux"}, false},
		{system{os: "linux", display: true}, true},
		{system{os: "freebsd"}, false},
		{system{os: "darwin"}, true},
		{system{os: "windows"}, true},
	} {
		if got := c.sys.hasDisplay(); got != c.want {
			t.Errorf("%s, display %v: %v", c.sys.os, c.sys.display, got)
		}
	}
	// Without a display nothing that needs C is asked for.
	for _, s := range runSteps(false) {
		if s.window || !slices.Contains(s.env, "CGO_ENABLED=0") {
			t.Errorf("without a display, %q needs C", s.name)
		}
	}
	if last := runSteps(true); !last[len(last)-1].alone {
		t.Error("with a display, the window does not come last")
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		args    string
		command string
		dry     bool
		ok      bool
	}{
		{"run", "run", false, true},
		{"-n test", "test", true, true},
		{"bench -n", "bench", true, true},
		{"check", "check", false, true},
		{"-n check documents", "check", true, true},
		{"check nothing", "", false, false},
		{"", "", false, false},
		{"-n", "", false, false},
		{"run test", "", false, false},
		{"jump", "", false, false},
		{"-x run", "", false, false},
	} {
		got, err := parse(strings.Fields(c.args))
		if (err == nil) != c.ok || c.ok && (got.command != c.command || got.dry != c.dry) {
			t.Errorf("%q: %q %v %v", c.args, got.command, got.dry, err)
		}
	}
}

func TestExitCodes(t *testing.T) {
	for _, c := range []struct {
		args string
		want int
	}{{"", 2}, {"jump", 2}, {"-h", 0}, {"-n bench", 0}, {"-n check", 0}, {"check nothing", 2}} {
		var stdout, stderr bytes.Buffer
		if got := dev(strings.Fields(c.args), &stdout, &stderr); got != c.want {
			t.Errorf("dev %s: exit %d, want %d\n%s%s", c.args, got, c.want, &stdout, &stderr)
		}
	}
}

func TestStepsGoOnAndFail(t *testing.T) {
	var stderr bytes.Buffer
	var ran []string
	note := func(name string, err error) step {
		return step{name: name, inside: func(*runner) error { ran = append(ran, name); return err }}
	}
	r := &runner{stdout: &stderr, stderr: &stderr}
	err := r.runAll([]step{note("one", nil), note("two", errHelp), note("three", nil)})
	if err == nil || !strings.Contains(err.Error(), "two") || strings.Contains(err.Error(), "one") {
		t.Errorf("the error is %v, want one that names the second step", err)
	}
	if strings.Join(ran, " ") != "one two three" {
		t.Errorf("ran %v, want all three", ran)
	}
	ran = nil
	r.dry = true
	if err := r.runAll([]step{note("one", errHelp)}); err != nil || ran != nil {
		t.Errorf("a dry run ran %v and gave %v", ran, err)
	}
}

// A window that could not be built is not opened.
func TestNoWindowWithoutABuild(t *testing.T) {
	var out bytes.Buffer
	opened := false
	r := &runner{stdout: &out, stderr: &out}
	err := r.runAll([]step{
		{name: "build", window: true, inside: func(*runner) error { return errHelp }},
		{name: "open", window: true, alone: true, inside: func(*runner) error { opened = true; return nil }},
	})
	if err == nil || opened {
		t.Errorf("opened %v, error %v", opened, err)
	}
}

func TestMisformatted(t *testing.T) {
	files := fstest.MapFS{
		"good.go":          {Data: []byte("package a\n")},
		"bad.go":           {Data: []byte("package  a\n")},
		"broken.go":        {Data: []byte("package\n")},
		"sub/bad.go":       {Data: []byte("package a;\n")},
		"sub/text.txt":     {Data: []byte("package  a\n")},
		"testdata/odd.go":  {Data: []byte("package  a\n")},
		".hidden/other.go": {Data: []byte("package  a\n")},
	}
	got, err := misformatted(files)
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"bad.go", "broken.go", "sub/bad.go"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestCommandString(t *testing.T) {
	c := command{args: []string{"go", "test", "-run=^$", "it's"}, env: []string{"A=b"}}
	if got, want := c.String(), `A=b go test '-run=^$' 'it'\''s'`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// The command finds the project from any folder in it.
func TestModuleRoot(t *testing.T) {
	root, err := moduleRoot()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(root, "cmd", "dev", "main.go")); err != nil {
		t.Errorf("the root is %s, where %v", root, err)
	}
	t.Chdir(t.TempDir())
	if dir, err := moduleRoot(); err == nil {
		t.Errorf("outside the project, the root is %s", dir)
	}
}

func TestLanguage(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want string
	}{
		{nil, ""},
		{map[string]string{"LANG": "C.UTF-8"}, "LANGUAGE=en"},
		{map[string]string{"LANG": "de_DE.UTF-8", "LC_ALL": "C.UTF-8"}, "LANGUAGE=en"},
		{map[string]string{"LANG": "C.UTF-8", "LC_ALL": "de_DE.UTF-8"}, ""},
		{map[string]string{"LANG": "C.UTF-8", "LANGUAGE": "nl"}, ""},
		{map[string]string{"LANG": "C"}, ""},
		{map[string]string{"LANG": "en_US.UTF-8"}, ""},
	} {
		got := language(func(name string) string { return c.env[name] })
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v: %v, want %q", c.env, got, c.want)
		}
	}
}

// Every test that needs the built window is among those that are run with it.
func TestWindowTestsAreRun(t *testing.T) {
	root, err := moduleRoot()
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(filepath.Join(root, "cmd", "haunchbook", "*_test.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("%v, %v", files, err)
	}
	found := 0
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, body := range strings.Split(string(data), "\nfunc ")[1:] {
			name, _, _ := strings.Cut(body, "(")
			if !strings.HasPrefix(name, "Test") || !strings.Contains(body, "underTest(t)") && !strings.Contains(body, "newCounted(t,") {
				continue
			}
			found++
			if !slices.Contains(windowTests, name) {
				t.Errorf("%s is not run with the window", name)
			}
		}
	}
	if found != len(windowTests) {
		t.Errorf("%d tests drive the window, and %d are named", found, len(windowTests))
	}
}
