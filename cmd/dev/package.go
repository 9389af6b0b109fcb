package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

// id is the application's one name for machines: of the program and its package, its
// desktop entry, icon and type of file, its folder of settings and FyneApp.toml.
const id = "haunchbook"

// packagesDir is where packages are written, from the project's folder.
var packagesDir = filepath.Join("out", "packages")

// target is a system that packages are made for.
type target struct {
	os, arch string
	window   bool // the window is linked here for it, too
}

func (t target) String() string { return t.os + "-" + t.arch }

// packageSteps gives the steps that write the packages.
func packageSteps() []step {
	return []step{{name: "packages", inside: writePackages}}
}

// writePackages builds the programs and packs them, with icon, manual, notices and
// changes, and writes the checksums beside them.
func writePackages(r *runner) error {
	dir := filepath.Join(r.root, packagesDir)
	if err := os.RemoveAll(dir); err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	targets := []target{
		{"linux", "amd64", runtime.GOOS == "linux" && runtime.GOARCH == "amd64"},
		{"windows", "amd64", onPath(mingw)},
		{"darwin", "arm64", false}, {"darwin", "amd64", false},
	}
	build, err := os.MkdirTemp("", "haunchbook-packages")
	if err != nil {
		return err
	}
	defer os.RemoveAll(build)
	var sums strings.Builder
	for _, t := range targets {
		b, err := r.build(t, build)
		if err != nil {
			return fmt.Errorf("%s: %w", t, err)
		}
		if b.version == noVersion {
			r.say("  The version is unknown: Go knows it from a tag or a commit of a repository cloned by itself.")
		}
		made, err := r.pack(b)
		if err != nil {
			return fmt.Errorf("%s: %w", t, err)
		}
		for _, f := range made {
			if err := os.WriteFile(filepath.Join(dir, f.name), f.data, 0o644); err != nil {
				return err
			}
			fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(f.data), f.name)
			r.say("  %s, %.1f MB", filepath.Join(packagesDir, f.name), float64(len(f.data))/1e6)
		}
	}
	for _, line := range notPacked(targets) {
		r.say("  %s", line)
	}
	return os.WriteFile(filepath.Join(dir, "SHA256SUMS"), []byte(sums.String()), 0o644)
}

// notPacked says which windows the packages lack, and why.
func notPacked(targets []target) []string {
	var out []string
	for _, t := range targets {
		switch {
		case t.window && t.os == "windows":
			out = append(out, "The window for Windows is linked here and was not started: there is no Windows here.")
		case t.os == "linux" && !t.window:
			out = append(out, "No window for Linux: it is linked on Linux alone. The package holds haunchsheet alone.")
		case t.os == "windows" && !t.window:
			out = append(out, "No window for Windows: it takes "+mingw+" (Debian: gcc-mingw-w64-x86-64). The package holds haunchsheet alone.")
		case t.os == "darwin" && t.arch == "arm64":
			out = append(out, "No window for macOS: it links with Apple's own libraries, which only a Mac has; there, go run ./cmd/dev run builds it. The packages hold haunchsheet alone.")
		}
	}
	return out
}

// mingw is the C compiler that links a window for Windows.
const mingw = "x86_64-w64-mingw32-gcc"

// built is what was built for a target.
type built struct {
	target
	version  string // as Go gives it: v0.4.0, or with the commit between tags
	date     time.Time
	programs []packed
}

// program gives a built program's bytes.
func (b built) program(name string) []byte {
	for _, p := range b.programs {
		if strings.TrimSuffix(p.name, ".exe") == name {
			return p.data
		}
	}
	return nil
}

// build builds the programs for t below dir: the same bytes from the same commit,
// wherever it lies.
func (r *runner) build(t target, dir string) (built, error) {
	b := built{target: t}
	programs := []string{"haunchsheet"}
	if t.window {
		programs = append(programs, "haunchbook")
	}
	for _, name := range programs {
		file := filepath.Join(dir, t.String(), name)
		flags, env := "-s -w", []string{"GOOS=" + t.os, "GOARCH=" + t.arch, "GOFLAGS=", "CGO_ENABLED=0"}
		args := []string{"build", "-trimpath", "-buildvcs=auto"}
		if name == "haunchbook" {
			env[3] = "CGO_ENABLED=1"
		}
		window := name == "haunchbook"
		switch {
		case t.os == "windows":
			file += ".exe"
			if window {
				flags += " -H=windowsgui" // opens no terminal beside the window
				env = append(env, "CC="+mingw)
			}
		case t.os == "linux" && window: // as Debian builds: anywhere in memory, its tables read-only
			args = append(args, "-buildmode=pie")
			flags += " -extldflags '-Wl,-z,relro,-z,now'"
		}
		args = append(args, "-ldflags="+flags, "-o", file, "./cmd/"+name)
		if err := r.execute(goTool(args...).with(env...), r.stdout); err != nil {
			return b, err
		}
		data, err := os.ReadFile(file)
		if err != nil {
			return b, err
		}
		b.programs = append(b.programs, packed{filepath.Base(file), data, 0o755})
		told, err := r.output("go", "version", "-m", file)
		if err != nil {
			return b, err
		}
		b.version = versionIn(told)
	}
	var err error
	b.date, err = r.dateOfSource()
	return b, err
}

// versionIn reads the version of the main module from what `go version -m` tells, the one
// that -version and every document show; v0.0.0 where the source is of no repository.
func versionIn(told string) string {
	m := regexp.MustCompile(`(?m)^\s*mod\s+\S+\s+(\S+)`).FindStringSubmatch(told)
	if m == nil || m[1] == "(devel)" {
		return noVersion
	}
	return m[1]
}

// noVersion is that of a source without a repository.
const noVersion = "v0.0.0"

// dateOfSource is the time that packages carry: SOURCE_DATE_EPOCH, else that of the
// commit, else that of go.mod.
func (r *runner) dateOfSource() (time.Time, error) {
	text := os.Getenv("SOURCE_DATE_EPOCH")
	if text == "" {
		text, _ = r.output("git", "log", "-1", "--format=%ct")
	}
	if text = strings.TrimSpace(text); text != "" {
		seconds, err := strconv.ParseInt(text, 10, 64)
		if err != nil {
			return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH is %q; set it to seconds since 1970", text)
		}
		return time.Unix(seconds, 0).UTC(), nil
	}
	info, err := os.Stat(filepath.Join(r.root, "go.mod"))
	if err != nil {
		return time.Time{}, err
	}
	return info.ModTime().UTC().Truncate(time.Second), nil
}

// pack gives the packages of a target.
func (r *runner) pack(b built) ([]packed, error) {
	base := id
	if !b.window {
		base = "haunchsheet"
	}
	base = fmt.Sprintf("%s-%s-%s", base, strings.TrimPrefix(b.version, "v"), b.target)
	papers, err := r.papers()
	if err != nil {
		return nil, err
	}
	if b.os != "linux" || !b.window {
		all := under(base, slices.Concat(b.programs, papers))
		if b.os == "windows" {
			data, err := zipped(all, b.date)
			return []packed{{name: base + ".zip", data: data}}, err
		}
		data, err := gzipped(tarred(all, b.date))
		return []packed{{name: base + ".tar.gz", data: data}}, err
	}
	installed, err := r.installed(b, papers)
	if err != nil {
		return nil, err
	}
	howTo, err := r.read("assets/linux/INSTALL.txt")
	if err != nil {
		return nil, err
	}
	archive, err := r.xz(tarred(under(base, append(slices.Clone(installed), packed{"INSTALL.txt", howTo, 0o644})), b.date))
	if err != nil {
		return nil, err
	}
	deb, err := r.debian(b, installed)
	return []packed{{name: base + ".tar.xz", data: archive}, deb}, err
}

// papers are what goes with the programs everywhere: license, notices of what is linked,
// what changed.
func (r *runner) papers() ([]packed, error) {
	var out []packed
	for _, p := range []struct{ from, to string }{
		{"LICENSE", "LICENSE.txt"}, {"assets/notices/notices.txt", "notices.txt"}, {"assets/CHANGES.md", "CHANGES.md"},
	} {
		data, err := r.read(p.from)
		if err != nil {
			return nil, err
		}
		out = append(out, packed{p.to, data, 0o644})
	}
	return out, nil
}

// installed is what lies below /usr or ~/.local: the programs, the entry of the menu with
// its icons, the type of job files, the manual, the papers.
func (r *runner) installed(b built, papers []packed) ([]packed, error) {
	out := slices.Concat(under("bin", b.programs), under("share/doc/"+id, papers))
	for _, f := range []struct{ from, to string }{
		{"haunchbook.desktop", "share/applications/" + id + ".desktop"},
		{"haunchbook.xml", "share/mime/packages/" + id + ".xml"},
		{"haunchbook.1", "share/man/man1/haunchbook.1"},
		{"haunchsheet.1", "share/man/man1/haunchsheet.1"},
	} {
		text, err := r.read("assets/linux/" + f.from)
		if err != nil {
			return nil, err
		}
		data := []byte(filled(string(text), b))
		if path.Ext(f.to) == ".1" {
			f.to += ".gz"
			if data, err = gzipped(data); err != nil {
				return nil, err
			}
		}
		out = append(out, packed{f.to, data, 0o644})
	}
	icon, err := r.read("assets/icon.png")
	if err != nil {
		return nil, err
	}
	icons, err := iconsOf(icon)
	if err != nil {
		return nil, err
	}
	out = append(out, under("share/icons/hicolor", icons)...)
	slices.SortFunc(out, func(a, b packed) int { return strings.Compare(a.name, b.name) })
	return out, nil
}

// filled puts version and day into a template.
func filled(text string, b built) string {
	return strings.NewReplacer("@VERSION@", strings.TrimPrefix(b.version, "v"), "@DATE@", b.date.Format("2006-01-02"),
		"@RFC2822@", b.date.Format("Mon, 02 Jan 2006 15:04:05 +0000"), "@YEAR@", b.date.Format("2006")).Replace(text)
}

func (r *runner) read(name string) ([]byte, error) {
	return os.ReadFile(filepath.Join(r.root, filepath.FromSlash(name)))
}
