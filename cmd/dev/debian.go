package main

import (
	"bytes"
	"crypto/md5"
	"debug/elf"
	"fmt"
	"slices"
	"strings"
)

// debianOf are Debian's packages of the libraries that a window is linked with, or opens
// by itself when it starts, by the name that is in the program. One that it is linked with
// and that is not here fails the package.
var debianOf = map[string]string{
	"libGL.so.1": "libgl1", "libX11.so.6": "libx11-6", "libXcursor.so.1": "libxcursor1", "libXrandr.so.2": "libxrandr2",
	"libXinerama.so.1": "libxinerama1", "libXi.so.6": "libxi6", "libXxf86vm.so.1": "libxxf86vm1",
	"libXrender.so.1": "libxrender1", "libX11-xcb.so.1": "libx11-xcb1", "libxkbcommon.so.0": "libxkbcommon0",
	// what glibc is made of
	"libc.so.6": "", "libm.so.6": "", "libdl.so.2": "", "librt.so.1": "", "libpthread.so.0": "", "libresolv.so.2": "",
	"ld-linux-x86-64.so.2": "",
}

// debian gives the Debian package: what is installed below /usr, and what dpkg is to
// know of it (Debian Policy Manual 4.6, chapters 3, 5, 12).
func (r *runner) debian(b built, installed []packed) (packed, error) {
	version := debianVersion(b.version)
	depends, err := dependsOf(b.program(id))
	if err != nil {
		return packed{}, err
	}
	template := func(name string) (string, error) {
		text, err := r.read("assets/linux/" + name)
		return strings.NewReplacer("@DEBVERSION@", version, "@DEPENDS@", strings.Join(depends, ", ")).Replace(filled(string(text), b)), err
	}
	var files []packed
	for _, f := range installed {
		if strings.HasSuffix(f.name, "/LICENSE.txt") {
			continue // the file copyright has it
		}
		if f.name == "share/doc/"+id+"/notices.txt" {
			f.name += ".gz"
			if f.data, err = gzipped(f.data); err != nil {
				return packed{}, err
			}
		}
		files = append(files, f)
	}
	license, err := r.read("LICENSE")
	if err != nil {
		return packed{}, err
	}
	copyright, err := template("copyright")
	if err != nil {
		return packed{}, err
	}
	changelog, err := template("changelog")
	if err != nil {
		return packed{}, err
	}
	overrides, err := r.read("assets/linux/lintian-overrides")
	if err != nil {
		return packed{}, err
	}
	log, err := gzipped([]byte(changelog))
	if err != nil {
		return packed{}, err
	}
	files = append(files,
		packed{"share/doc/" + id + "/copyright", []byte(strings.ReplaceAll(copyright, "@LICENSE@", indented(license))), 0o644},
		packed{"share/doc/" + id + "/changelog.gz", log, 0o644},
		packed{"share/lintian/overrides/" + id, overrides, 0o644})
	slices.SortFunc(files, func(a, b packed) int { return strings.Compare(a.name, b.name) })
	files = under("usr", files)

	var sums strings.Builder
	size := 0
	for _, f := range files {
		fmt.Fprintf(&sums, "%x  %s\n", md5.Sum(f.data), f.name)
		size += (len(f.data) + 1023) / 1024
	}
	control, err := template("control")
	if err != nil {
		return packed{}, err
	}
	control = strings.ReplaceAll(control, "@SIZE@", fmt.Sprint(size+len(folders(files))))
	about, err := gzipped(tarred([]packed{
		{"control", []byte(control), 0o644}, {"md5sums", []byte(sums.String()), 0o644},
	}, b.date))
	if err != nil {
		return packed{}, err
	}
	data, err := r.xz(tarred(files, b.date))
	if err != nil {
		return packed{}, err
	}
	return packed{
		name: fmt.Sprintf("%s_%s_%s.deb", id, version, b.arch),
		data: arred([]packed{
			{name: "debian-binary", data: []byte("2.0\n")},
			{name: "control.tar.gz", data: about},
			{name: "data.tar.xz", data: data},
		}, b.date),
	}, nil
}

// debianVersion turns Go's version into Debian's. What comes before a version, as
// Go's versions between tags, sorts before it with a tilde (deb-version(7)).
func debianVersion(version string) string {
	before, rest, found := strings.Cut(strings.TrimPrefix(version, "v"), "-")
	if found {
		before += "~" + strings.ReplaceAll(rest, "-", ".")
	}
	return before
}

// dependsOf reads from a program which packages it needs to run, and which glibc.
func dependsOf(program []byte) ([]string, error) {
	f, err := elf.NewFile(bytes.NewReader(program))
	if err != nil {
		return nil, err
	}
	libraries, err := f.ImportedLibraries()
	if err != nil {
		return nil, err
	}
	for _, l := range libraries {
		if _, known := debianOf[l]; !known {
			return nil, fmt.Errorf("the window is linked with %s; add its Debian package to cmd/dev/debian.go", l)
		}
	}
	var out []string
	for l, p := range debianOf {
		if p != "" && (slices.Contains(libraries, l) || bytes.Contains(program, []byte(l))) {
			out = append(out, p)
		}
	}
	symbols, err := f.ImportedSymbols()
	if err != nil {
		return nil, err
	}
	least := [2]int{2, 0}
	for _, s := range symbols {
		var v [2]int
		if n, _ := fmt.Sscanf(s.Version, "GLIBC_%d.%d", &v[0], &v[1]); n == 2 && slices.Compare(v[:], least[:]) > 0 {
			least = v
		}
	}
	out = append(out, fmt.Sprintf("libc6 (>= %d.%d)", least[0], least[1]))
	slices.Sort(out)
	return out, nil
}

// indented gives a text as a field of Debian's copyright file has it: each line
// begins with a space, an empty one has a dot.
func indented(text []byte) string {
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	for i, l := range lines {
		if l = strings.TrimSpace(l); l == "" {
			l = "."
		}
		lines[i] = " " + l
	}
	return strings.Join(lines, "\n")
}
