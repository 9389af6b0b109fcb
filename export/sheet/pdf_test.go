package sheet

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
)

// tool runs a program on a document and gives what it prints. Without the
// program the test is skipped, but where CI is set it fails.
func tool(t *testing.T, doc []byte, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") == "" {
			t.Skipf("%s is not installed: go run ./cmd/dev test installs it", name)
		}
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, doc, 0o666); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		args[i] = strings.Replace(a, "FILE", file, 1)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func document24(t testing.TB) (job.Job, []Page, []byte) {
	t.Helper()
	var j job.Job
	for _, c := range corpus() {
		if c.name == "rectangle" { // 24 ft by 20 ft
			j = c.job
		}
	}
	// As wide as makes 1/4" = 1'-0" the scale that fits.
	for i := range j.Slabs[0].Outline {
		if j.Slabs[0].Outline[i].At.Y > 0 {
			j.Slabs[0].Outline[i].At.Y = 30 * ft
		}
	}
	o := Options{Date: fixedDate, Paper: Tabloid, Company: Company{Name: "Example Concrete", Lines: []string{"1 Sample Lane"}}}
	pages, err := Pages(t.Context(), handed(t, j), o)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := Write(t.Context(), &b, handed(t, j), o); err != nil {
		t.Fatal(err)
	}
	return j, pages, b.Bytes()
}

func TestDocumentIsSound(t *testing.T) {
	_, pages, doc := document24(t)
	if out := tool(t, doc, "qpdf", "--check", "FILE"); !strings.Contains(out, "No syntax or stream encoding errors") {
		t.Error(out)
	}
	lines := strings.Split(strings.TrimSpace(tool(t, doc, "pdffonts", "FILE")), "\n")[2:]
	if len(lines) == 0 {
		t.Error("no fonts")
	}
	for _, l := range lines {
		// name, type (two words), encoding, embedded, subset, unicode
		f := strings.Fields(l)
		if n := len(f); n < 8 || f[n-5] != "yes" || f[n-4] != "yes" || f[n-3] != "yes" {
			t.Errorf("font is not embedded, subset and mapped to Unicode: %s", l)
		}
	}
	info := tool(t, doc, "pdfinfo", "FILE")
	for _, want := range []string{"Title:           rectangle", "Author:          Example Concrete", "Apr 12 00:00:00 2024", fmt.Sprintf("Pages:           %d\n", len(pages))} {
		if !strings.Contains(info, want) {
			t.Errorf("no %q in %s", want, info)
		}
	}
	marks := tool(t, doc, "qpdf", "--json", "--json-key=outlines", "FILE")
	for i, p := range pages {
		if !strings.Contains(marks, fmt.Sprintf(`"title": %q`, p.Name)) || !strings.Contains(marks, fmt.Sprintf(`"destpageposfrom1": %d`, i+1)) {
			t.Errorf("no bookmark %q to page %d", p.Name, i+1)
		}
	}
}

// The scale is true: by the drawing commands that another program finds in the
// file, each whole side of the outline is on paper as long as the plan and the
// written scale say, in feet and in meters, straight and turned.
func TestLengthsOnPaper(t *testing.T) {
	rect24, _, _ := document24(t)
	jobs := []awkward{{"24 by 30", rect24}}
	for _, c := range corpus() {
		switch c.name {
		case "ell", "turned ell", "hexagon", "metric", "metric ell", "two slabs", "three slabs":
			jobs = append(jobs, c)
		}
	}
	for _, c := range jobs {
		t.Run(c.name, func(t *testing.T) {
			h := handed(t, c.job)
			o := Options{Date: fixedDate}
			pages, err := Pages(t.Context(), h, o)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if err := Write(t.Context(), &b, h, o); err != nil {
				t.Fatal(err)
			}
			checked := 0
			for _, slab := range taken(t, h).Slabs {
				name := titles{sheet: "Layout", slab: slab.Name}.name()
				n := slices.IndexFunc(pages, func(p Page) bool { return p.Name == name || p.Name == "Layout" })
				if n < 0 {
					t.Fatalf("no page %q", name)
				}
				ratio := ratioOf(t, pages[n])
				page := fmt.Sprint(n + 1)
				heavy := strokes(t, tool(t, b.Bytes(), "pdftocairo", "-svg", "-noshrink", "-f", page, "-l", page, "FILE", "-"))
				for i, e := range slab.Plan.Outline {
					if e.Joint {
						continue // a pattern of dashes
					}
					checked++
					want := slab.Plan.Outline.Length(i).Meters() / ratio * 1000 / 25.4 * 72 // points
					if !slices.ContainsFunc(heavy, func(s stroke) bool {
						return math.Abs(s.width-penEdge.Width*72/25.4) < 0.01 && math.Abs(math.Hypot(s.b[0]-s.a[0], s.b[1]-s.a[1])-want) < 0.01
					}) {
						t.Errorf("%s: side %d is nowhere %.2f pt long", name, i+1, want)
					}
				}
			}
			if checked < 4 {
				t.Errorf("%d sides checked", checked)
			}
		})
	}
}

// ratioOf reads the scale written in a page's title block: "Scale 1/4" = 1'-0" on
// Tabloid" is 48, "Scale 1:50 on A3" is 50.
func ratioOf(t *testing.T, p Page) float64 {
	t.Helper()
	for _, it := range p.Items {
		x, ok := it.(Text)
		if !ok || !strings.HasPrefix(x.Text, "Scale ") {
			continue
		}
		scale, _, _ := strings.Cut(strings.TrimPrefix(x.Text, "Scale "), " on ")
		if n, ok := strings.CutPrefix(scale, "1:"); ok {
			v, err := strconv.ParseFloat(n, 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		inches, _, ok := strings.Cut(scale, `" = 1'-0"`)
		a, b, part := strings.Cut(inches, "/")
		v, err := strconv.ParseFloat(a, 64)
		if !ok || err != nil {
			t.Fatalf("scale %q", scale)
		}
		if part {
			w, err := strconv.ParseFloat(b, 64)
			if err != nil {
				t.Fatal(err)
			}
			v /= w
		}
		return 12 / v
	}
	t.Fatal("no scale is written")
	return 0
}

// The worked example: 24 ft at 1/4" = 1'-0" is 6 in on paper.
func TestQuarterInchScale(t *testing.T) {
	_, pages, _ := document24(t)
	if got := ratioOf(t, pages[0]); got != 48 {
		t.Errorf("1 to %g, want 1 to 48", got)
	}
	if got := pages[0].View.Scale.paperOf(24 * ft); math.Abs(got-6*25.4) > 1e-9 {
		t.Errorf("24 ft is %g mm, want 152.4", got)
	}
}

type stroke struct {
	a, b  [2]float64
	width float64
}

var (
	pathTag = regexp.MustCompile(`<path [^>]*>`)
	moveTo  = regexp.MustCompile(` d="(M [^"]*)"`)
	moves   = regexp.MustCompile(`([MLZ])(?: (-?[0-9.]+) (-?[0-9.]+))?`)
	matrix  = regexp.MustCompile(`matrix\(([^)]*)\)`)
	strokeW = regexp.MustCompile(`stroke-width[:=]"?([0-9.]+)`)
)

// strokes reads the single lines out of an SVG picture, in points.
func strokes(t *testing.T, svg string) (out []stroke) {
	t.Helper()
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, tag := range pathTag.FindAllString(svg, -1) {
		m, w := moveTo.FindStringSubmatch(tag), strokeW.FindStringSubmatch(tag)
		if m == nil || w == nil {
			continue
		}
		k := [6]float64{1, 0, 0, 1, 0, 0}
		if x := matrix.FindStringSubmatch(tag); x != nil {
			for i, s := range strings.Split(x[1], ",") {
				k[i] = num(s)
			}
		}
		at := func(x, y float64) [2]float64 { return [2]float64{k[0]*x + k[2]*y + k[4], k[1]*x + k[3]*y + k[5]} }
		width := num(w[1]) * math.Sqrt(math.Abs(k[0]*k[3]-k[1]*k[2]))
		var first, last [2]float64
		for i, to := range moves.FindAllStringSubmatch(m[1], -1) {
			p := first
			if to[1] != "Z" {
				p = at(num(to[2]), num(to[3]))
			}
			if i > 0 {
				out = append(out, stroke{last, p, width})
			} else {
				first = p
			}
			last = p
		}
	}
	return out
}

// Every upright text stands in the file where it was placed, as wide as it was
// taken to be, and can be searched for.
func TestTextPositions(t *testing.T) {
	_, pages, doc := document24(t)
	var d struct {
		Pages []struct {
			Words []struct {
				XMin float64 `xml:"xMin,attr"`
				XMax float64 `xml:"xMax,attr"`
				YMax float64 `xml:"yMax,attr"`
				Text string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	out := tool(t, doc, "pdftotext", "-bbox", "FILE", "-")
	if err := xml.Unmarshal([]byte(out[strings.Index(out, "<html"):]), &d); err != nil {
		t.Fatal(err)
	}
	if len(d.Pages) != len(pages) {
		t.Fatalf("%d pages read, %d drawn", len(d.Pages), len(pages))
	}
	const pt = 72 / 25.4
	for i, p := range pages {
		checked := 0
		for _, it := range p.Items {
			x, ok := it.(Text)
			if !ok || x.Turn != 0 || strings.Contains(x.Text, " ") || len(x.Text) < 3 {
				continue
			}
			checked++
			found := false
			for _, w := range d.Pages[i].Words {
				found = found || w.Text == x.Text && math.Abs(w.XMin-x.At.X*pt) < 0.5 && math.Abs(w.XMax-(x.At.X+x.Width())*pt) < 0.7 &&
					math.Abs(w.YMax-(p.Height-x.At.Y)*pt) < x.Size
			}
			if !found {
				t.Errorf("page %d: %q is not where it was placed", i+1, x.Text)
			}
		}
		if checked == 0 {
			t.Errorf("page %d: no text to check", i+1)
		}
	}
}

func TestSameBytes(t *testing.T) {
	_, _, a := document24(t)
	_, _, b := document24(t)
	if !bytes.Equal(a, b) {
		t.Error("two documents of one job differ")
	}
	// What the library takes from the clock is gone.
	objs, err := splitPDF(a)
	if err != nil {
		t.Fatal(err)
	}
	fonts := 0
	for _, o := range objs {
		_, data, ok := streamOf(o.body)
		if !ok {
			continue
		}
		z, err := zlib.NewReader(bytes.NewReader(data))
		if err != nil {
			continue
		}
		font, err := io.ReadAll(z)
		if err != nil || len(font) < 12 || binary.BigEndian.Uint32(font) != 0x00010000 {
			continue
		}
		fonts++
		if s := checksum(font); s != 0xB1B0AFBA {
			t.Errorf("font's checksum %#x, want 0xB1B0AFBA (OpenType, head.checkSumAdjustment)", s)
		}
		n := int(binary.BigEndian.Uint16(font[4:]))
		for i := range n {
			e := font[12+16*i:]
			off, size := binary.BigEndian.Uint32(e[8:]), binary.BigEndian.Uint32(e[12:])
			table := bytes.Clone(font[off : off+size])
			if string(e[:4]) == "head" {
				if !bytes.Equal(table[28:36], make([]byte, 8)) {
					t.Error("head.modified is set")
				}
				clear(table[8:12])
			}
			if s := checksum(table); s != binary.BigEndian.Uint32(e[4:]) {
				t.Errorf("table %s: checksum %#x, stated %#x", e[:4], s, binary.BigEndian.Uint32(e[4:]))
			}
		}
	}
	if fonts != 2 {
		t.Errorf("%d fonts embedded, want 2", fonts)
	}
}

func TestFinishRefusesOtherFiles(t *testing.T) {
	_, _, doc := document24(t)
	for i, raw := range [][]byte{nil, []byte("%PDF-1.7"), doc[:len(doc)/2], bytes.Replace(doc, []byte("startxref\n"), []byte("startxref\n9"), 1), bytes.Replace(doc, []byte("\nxref\n"), []byte("\nxrfe\n"), 1)} {
		if _, err := finishPDF(raw, []string{"x"}, metadata{}); err == nil {
			t.Errorf("file %d passed", i)
		}
	}
}

// The frost depth of the site is set against each section.
func TestFrost(t *testing.T) {
	j := demoJob(t)
	for frost, want := range map[geometry.Length]string{
		0: "",
		// The demo's lowest top stands 6 in above the ground, and its ground rises with
		// the fall of 3 1/2 in over 28 ft: an edge along the low side goes 6 in less
		// deep than it is below its top.
		8 * in:  `B Door 16, 1'-4" deep, reaches it`,
		12 * in: `B Door 16, 1'-4" deep, is 2" short of it`,
		14 * in: `A Edge 12, 1'-0" deep, is 11 1/2" short of it`,
	} {
		pages, err := Pages(t.Context(), handover.Of(handover.From{Job: j, Frost: frost}), Options{Date: fixedDate})
		if err != nil {
			t.Fatal(err)
		}
		all := strings.Join(texts(pages...), " ")
		if strings.Contains(all, "Frost depth") != (frost > 0) || !strings.Contains(all, want) {
			t.Errorf("frost %s: want %q", frost.Text(j.Units), want)
		}
	}
}

// Documents can be written at the same time: the race detector looks on.
func TestWriteAtOnce(t *testing.T) {
	j := jobNamed(t, "tiny")
	h := handed(t, j)
	var one bytes.Buffer
	if err := Write(t.Context(), &one, h, Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			var b bytes.Buffer
			if err := Write(t.Context(), &b, h, Options{Date: fixedDate}); err != nil || !bytes.Equal(b.Bytes(), one.Bytes()) {
				t.Errorf("a document written beside others differs: %v", err)
			}
		})
	}
	group.Wait()
}
