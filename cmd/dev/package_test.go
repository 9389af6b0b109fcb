package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestVersions(t *testing.T) {
	told := "out/haunchsheet: go1.26.8\n\tpath\thaunchbook.example/cmd/haunchsheet\n\tmod\thaunchbook.example\t%s\t\n\tdep\tx\tv1.0.0\n"
	for _, c := range []struct{ is, version, debian string }{
		{"v0.4.0", "v0.4.0", "0.4.0"},
		{"v0.4.1-0.20261128232300-446ada4d5c6b", "v0.4.1-0.20261128232300-446ada4d5c6b", "0.4.1~0.20261128232300.446ada4d5c6b"},
		{"v0.0.0-20261128232300-446ada4d5c6b+dirty", "v0.0.0-20261128232300-446ada4d5c6b+dirty", "0.0.0~20261128232300.446ada4d5c6b+dirty"},
		{"(devel)", "v0.0.0", "0.0.0"},
	} {
		v := versionIn(strings.Replace(told, "%s", c.is, 1))
		if v != c.version || debianVersion(v) != c.debian {
			t.Errorf("%s: %s and %s, want %s and %s", c.is, v, debianVersion(v), c.version, c.debian)
		}
	}
	if versionIn("no program") != "v0.0.0" {
		t.Error("a version is read out of nothing")
	}
	if _, err := exec.LookPath("dpkg"); err == nil {
		// What comes between tags sorts between them.
		for _, pair := range [][2]string{{"v0.4.0", "v0.4.1-0.20261128232300-446ada4d5c6b"}, {"v0.4.1-0.20261128232300-446ada4d5c6b", "v0.4.1"}} {
			if err := exec.Command("dpkg", "--compare-versions", debianVersion(pair[0]), "lt", debianVersion(pair[1])).Run(); err != nil {
				t.Errorf("%s does not sort before %s", pair[0], pair[1])
			}
		}
	}
}

// Archives hold what was put in, of the time given, and are the same bytes each time.
func TestArchives(t *testing.T) {
	date := time.Date(2026, 4, 12, 8, 0, 0, 0, time.UTC)
	files := under("top", []packed{{"bin/run", []byte("program"), 0o755}, {"read", []byte("me"), 0o644}})
	var got []string
	for r := tar.NewReader(bytes.NewReader(tarred(files, date))); ; {
		h, err := r.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		data, _ := io.ReadAll(r)
		if !h.ModTime.Equal(date) || h.Uname != "root" {
			t.Errorf("%s is of %v and %s's", h.Name, h.ModTime, h.Uname)
		}
		got = append(got, h.Name+":"+string(data))
		if h.Name == "top/bin/run" && h.Mode != 0o755 {
			t.Errorf("the program has the mode %o", h.Mode)
		}
	}
	if want := []string{"top/:", "top/bin/:", "top/bin/run:program", "top/read:me"}; !slices.Equal(got, want) {
		t.Errorf("the tar holds %q, want %q", got, want)
	}
	first, err := zipped(files, date)
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil || len(z.File) != 2 || z.File[0].Mode().Perm() != 0o755 || !z.File[1].Modified.Equal(date) {
		t.Errorf("the zip holds %v; %v", z.File, err)
	}
	if again, _ := zipped(files, date); !bytes.Equal(first, again) || !bytes.Equal(tarred(files, date), tarred(files, date)) {
		t.Error("the same files make other archives")
	}
	// deb(5): a global header, and for each file one of 60 bytes, its data at even places.
	ar := string(arred([]packed{{name: "a", data: []byte("odd")}, {name: "b", data: []byte("even")}}, date))
	if !strings.HasPrefix(ar, "!<arch>\na") || len(ar) != 8+60+4+60+4 || ar[8+60+4:8+60+5] != "b" || ar[8+58:8+60] != "`\n" {
		t.Errorf("the ar archive is %q", ar)
	}
}

// The application has one name for machines, wherever it is told, and the entry of the
// menu opens the type of file that is declared.
func TestOneName(t *testing.T) {
	read := func(name string) string {
		t.Helper()
		data, err := os.ReadFile(filepath.Join("..", "..", filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	entry, kind := read("assets/linux/haunchbook.desktop"), read("assets/linux/haunchbook.xml")
	for what, ok := range map[string]bool{
		"FyneApp.toml":        strings.Contains(read("FyneApp.toml"), `ID = "`+id+`"`),
		"the window":          strings.Contains(read("cmd/haunchbook/main.go"), `app.NewWithID("`+id+`")`),
		"the window's class":  strings.Contains(read("app/window/window.go"), `SetTitle("Haunchbook") // the class`) && strings.Contains(entry, "\nStartupWMClass=Haunchbook\n"),
		"the entry's program": strings.Contains(entry, "\nExec="+id+" %f\n"),
		"the entry's icon":    strings.Contains(entry, "\nIcon="+id+"\n"),
		"the type's icon":     strings.Contains(kind, `<icon name="`+id+`"/>`),
		"the package":         strings.HasPrefix(read("assets/linux/control"), "Package: "+id+"\n"),
	} {
		if !ok {
			t.Errorf("%s has another name than %q", what, id)
		}
	}
	m := regexp.MustCompile(`mime-type type="([^"]+)"`).FindStringSubmatch(kind)
	if m == nil || !strings.Contains(entry, "\nMimeType="+m[1]+";\n") {
		t.Errorf("the entry does not open %v", m)
	}
}

func TestIcons(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "assets", "icon.png"))
	if err != nil {
		t.Fatal(err)
	}
	all, err := iconsOf(data)
	if err != nil || len(all) != len(iconSizes) {
		t.Fatalf("%d icons, %v", len(all), err)
	}
	for i, f := range all {
		m, err := png.Decode(bytes.NewReader(f.data))
		if err != nil || m.Bounds().Dx() != iconSizes[i] || m.Bounds().Dy() != iconSizes[i] {
			t.Fatalf("%s: %v", f.name, err)
		}
		// A corner is clear, the middle is not, at any size.
		if _, _, _, a := m.At(0, 0).RGBA(); a > 0x4000 {
			t.Errorf("%s: its corner is not clear: %x", f.name, a)
		}
		if _, _, _, a := m.At(iconSizes[i]/2, iconSizes[i]/2).RGBA(); a != 0xffff {
			t.Errorf("%s: its middle is not solid: %x", f.name, a)
		}
	}
}

func TestCopyrightField(t *testing.T) {
	if got := indented([]byte("One\n\ntwo\n")); got != " One\n .\n two" {
		t.Errorf("%q", got)
	}
}

// What a package takes can be installed on Debian, too.
func TestPackageNeeds(t *testing.T) {
	for _, n := range packageNeeds {
		if len(n.packages["apt"]) == 0 || n.byHand == "" {
			t.Errorf("%s has no package, or no word on how else to get it", n.name)
		}
	}
}

// A window that a package lacks is told of, with why.
func TestWhatIsNotPackedIsSaid(t *testing.T) {
	for _, c := range []struct {
		of   target
		want string
	}{
		{target{"linux", "amd64", true}, ""},
		{target{"linux", "amd64", false}, "No window for Linux"},
		{target{"windows", "amd64", false}, "No window for Windows: it takes " + mingw},
		{target{"windows", "amd64", true}, "was not started"},
		{target{"darwin", "arm64", false}, "No window for macOS"},
	} {
		got := strings.Join(notPacked([]target{c.of}), "\n")
		if (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
			t.Errorf("%v, window %v: %q, want %q", c.of, c.of.window, got, c.want)
		}
	}
}
