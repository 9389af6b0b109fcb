package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"os/exec"
	"path"
	"slices"
	"strings"
	"time"
)

// packed is a file of a package: its path with slashes, its bytes, its permissions.
type packed struct {
	name string
	data []byte
	mode int64
}

// under puts files into a folder.
func under(dir string, files []packed) []packed {
	out := slices.Clone(files)
	for i := range out {
		out[i].name = path.Join(dir, out[i].name)
	}
	return out
}

// folders gives the folders of files, each once, a folder before what lies in it.
func folders(files []packed) []string {
	var out []string
	for _, f := range files {
		for d := path.Dir(f.name); d != "." && d != "/"; d = path.Dir(d) {
			if !slices.Contains(out, d) {
				out = append(out, d)
			}
		}
	}
	slices.Sort(out)
	return out
}

// tarred gives files and their folders as a tar of root's, all of one time: it is
// written to memory, which takes whatever is written.
func tarred(files []packed, date time.Time) []byte {
	var b bytes.Buffer
	w := tar.NewWriter(&b)
	add := func(h tar.Header, data []byte) {
		h.ModTime, h.Uname, h.Gname, h.Format = date, "root", "root", tar.FormatGNU
		if err := w.WriteHeader(&h); err != nil {
			panic(err) // a name that tar cannot hold: a fault of this program
		}
		w.Write(data)
	}
	for _, d := range folders(files) {
		add(tar.Header{Typeflag: tar.TypeDir, Name: d + "/", Mode: 0o755}, nil)
	}
	for _, f := range files {
		add(tar.Header{Typeflag: tar.TypeReg, Name: f.name, Mode: f.mode, Size: int64(len(f.data))}, f.data)
	}
	w.Close()
	return b.Bytes()
}

// gzipped compresses data, without a time or a name.
func gzipped(data []byte) ([]byte, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	err = w.Close() // which writes the rest
	return b.Bytes(), err
}

// zipped gives files as a ZIP archive, all of one time.
func zipped(files []packed, date time.Time) ([]byte, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range files {
		h := &zip.FileHeader{Name: f.name, Method: zip.Deflate, Modified: date}
		h.SetMode(os.FileMode(f.mode))
		to, err := w.CreateHeader(h)
		if err != nil {
			return nil, err
		}
		if _, err := to.Write(f.data); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return b.Bytes(), err
}

// xz compresses data by the program of that name. One thread, since the bytes depend on
// how many there are.
func (r *runner) xz(data []byte) ([]byte, error) {
	cmd := exec.Command("xz", "-6", "--threads=1", "--stdout")
	cmd.Stdin, cmd.Stderr = bytes.NewReader(data), r.stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("xz: %w", err)
	}
	return out, nil
}

// arred gives files as an ar archive, the outer form of a Debian package (deb(5)).
func arred(files []packed, date time.Time) []byte {
	var b bytes.Buffer
	b.WriteString("!<arch>\n")
	for _, f := range files {
		fmt.Fprintf(&b, "%-16s%-12d%-6d%-6d%-8s%-10d`\n", f.name, date.Unix(), 0, 0, "100644", len(f.data))
		b.Write(f.data)
		b.WriteString(strings.Repeat("\n", len(f.data)%2))
	}
	return b.Bytes()
}
