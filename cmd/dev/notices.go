package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// noticesFile is where the licenses of what is linked are kept.
var noticesFile = filepath.Join("assets", "notices", "notices.txt")

// linkedFor are the systems that the programs are built for. The window brings other
// modules along on each.
var linkedFor = []string{"linux", "windows", "darwin"}

// module is one that is linked into a program.
type module struct{ path, version, dir string }

// licenses are the kinds that may be linked, by words of their text. The first that fits
// counts. A license of another kind fails, so that somebody reads it first.
var licenses = []struct {
	kind  string
	words *regexp.Regexp
}{
	{"DejaVu fonts", regexp.MustCompile(`Bitstream Vera`)},
	{"GUST Font License", regexp.MustCompile(`GUST Font License`)},
	{"LGPL-2.1", regexp.MustCompile(`GNU LESSER GENERAL PUBLIC LICENSE\s+Version 2\.1`)},
	{"Apache-2.0", regexp.MustCompile(`Apache License\s+Version 2\.0`)},
	{"MIT", regexp.MustCompile(`Permission is hereby granted, free of charge, to\s+any\s+person\s+obtaining\s+a\s+copy`)},
	{"BSD", regexp.MustCompile(`Redistribution and use in source and binary forms`)},
	{"ISC", regexp.MustCompile(`Permission to use, copy, modify, and(/or)? distribute this software`)},
	{"Unlicense", regexp.MustCompile(`free and unencumbered software released into the public domain`)},
	{"WTFPL", regexp.MustCompile(`(?i)do what the f\w+ you want to`)},
	{"FreeType", regexp.MustCompile(`FreeType License|FTL\.TXT|FreeType\s+Project\s+LICENSE`)},
	{"zlib", regexp.MustCompile(`Permission is granted to anyone to use this software for any purpose,\s+including commercial applications`)},
	{"Anti-Grain Geometry", regexp.MustCompile(`Permission to copy, use, modify, sell and distribute this software\s+is granted provided this copyright notice`)},
}

// pdfiumParts has a folder for each thing that the compiled PDFium of go-pdfium is made
// of, with its terms, which that module does not bring along. They are those of Debian's
// packages of the same things; that of Anti-Grain Geometry is from memory.
var pdfiumParts = filepath.Join("assets", "notices", "pdfium")

// withoutLicense are the modules that have no license file, which the README tells.
var withoutLicense = []string{"github.com/srwiley/scanx"}

// licenseFile tells of a file's name whether it holds terms.
var licenseFile = regexp.MustCompile(`(?i)^(licen[sc]e|copying|notice|patents|unlicense)`)

// collect gives the licenses of all that is linked, with a list of the modules first.
// Texts that are alike stand once.
func (r *runner) collect() ([]byte, error) {
	modules, err := r.linked()
	if err != nil {
		return nil, err
	}
	goRoot, err := r.output("go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	modules = append(modules,
		module{"Go, its library and its run time", "", strings.TrimSpace(goRoot)},
		module{"DejaVu Sans Condensed, the typeface", "", filepath.Join(r.root, "assets", "fonts")})
	parts, err := os.ReadDir(filepath.Join(r.root, pdfiumParts))
	if err != nil {
		return nil, err
	}
	for _, p := range parts {
		modules = append(modules, module{p.Name() + ", compiled into go-pdfium", "", filepath.Join(r.root, pdfiumParts, p.Name())})
	}
	var list, texts bytes.Buffer
	of := map[string][]string{} // the modules of a text
	var order []string
	var faults []error
	for _, m := range modules {
		found, err := termsIn(m.dir)
		if err != nil {
			return nil, err
		}
		kinds := kindsOf(found)
		name := strings.TrimSpace(m.path + " " + m.version)
		switch {
		case len(found) == 0 && slices.Contains(withoutLicense, m.path):
			kinds = "no license file"
		case kinds == "":
			faults = append(faults, fmt.Errorf("%s: found no license that is known here; read its terms, then add its kind to cmd/dev/notices.go", name))
		}
		fmt.Fprintf(&list, "%s: %s\n", name, kinds)
		for _, text := range found {
			if of[text] == nil {
				order = append(order, text)
			}
			of[text] = append(of[text], name)
		}
	}
	for _, text := range order {
		fmt.Fprintf(&texts, "\n%s\n%s\n\n%s\n", strings.Repeat("=", 72), strings.Join(of[text], "\n"), text)
	}
	return append(list.Bytes(), texts.Bytes()...), errors.Join(faults...)
}

// linked gives the modules that are linked into a program on any system.
func (r *runner) linked() ([]module, error) {
	seen := map[module]bool{}
	for _, system := range linkedFor {
		text, err := r.output("env", "CGO_ENABLED=1", "GOARCH=amd64", "GOOS="+system, "go", "list", "-deps",
			"-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/haunchbook", "./cmd/haunchsheet")
		if err != nil {
			return nil, err
		}
		for _, line := range strings.Split(text, "\n") {
			if p := strings.Split(line, "\t"); len(p) == 3 {
				seen[module{p[0], p[1], p[2]}] = true
			}
		}
	}
	var out []module
	for m := range seen {
		out = append(out, m)
	}
	slices.SortFunc(out, func(a, b module) int { return cmp.Compare(a.path, b.path) })
	return out, nil
}

// termsIn gives the texts of the license files of a folder.
func termsIn(dir string) ([]string, error) {
	files, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var out []string
	for _, f := range files {
		if !licenseFile.MatchString(f.Name()) || f.IsDir() {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, f.Name()))
		if err != nil {
			return nil, err
		}
		out = append(out, strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n")))
	}
	return out, nil
}

// kindsOf names the kinds of texts; "" where none is known.
func kindsOf(texts []string) string {
	var kinds []string
	for _, text := range texts {
		for _, l := range licenses {
			if l.words.MatchString(text) && !slices.Contains(kinds, l.kind) {
				kinds = append(kinds, l.kind)
				break
			}
		}
	}
	return strings.Join(kinds, ", ")
}

// output runs a command in the project's folder and gives what it prints.
func (r *runner) output(args ...string) (string, error) {
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir, cmd.Stderr = r.root, r.stderr
	out, err := cmd.Output()
	return string(out), err
}

// writeNotices collects the licenses into the file that is built into the programs.
func writeNotices(r *runner) error {
	text, err := r.collect()
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(r.root, noticesFile), text, 0o644)
}

// checkNotices fails where the file is not what would be collected.
func checkNotices(r *runner) error {
	want, err := r.collect()
	if err != nil {
		return err
	}
	got, err := os.ReadFile(filepath.Join(r.root, noticesFile))
	if err != nil {
		return err
	}
	if !bytes.Equal(got, want) {
		return fmt.Errorf("%s is not what is linked now; run go run ./cmd/dev notices", noticesFile)
	}
	return nil
}
