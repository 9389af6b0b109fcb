package sheet

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/geometry"
)

// pair is a group code with its value.
type pair struct {
	code  int
	value string
}

func readDXF(t *testing.T, data []byte) (out []pair) {
	t.Helper()
	s := bufio.NewScanner(bytes.NewReader(data))
	for s.Scan() {
		code, err := strconv.Atoi(strings.TrimSpace(s.Text()))
		if err != nil || !s.Scan() {
			t.Fatalf("pair %d: %v", len(out), err)
		}
		out = append(out, pair{code, s.Text()})
	}
	return out
}

// entities parts the pairs of the ENTITIES section by entity.
func entities(pairs []pair) (out [][]pair) {
	in := false
	for _, p := range pairs {
		if p.code == 2 && p.value == "ENTITIES" {
			in = true
			continue
		}
		if in && p.code == 0 {
			out = append(out, nil)
		}
		if in {
			out[len(out)-1] = append(out[len(out)-1], p)
		}
	}
	return out
}

func value(e []pair, code int) string {
	for _, p := range e {
		if p.code == code {
			return p.value
		}
	}
	return ""
}

func real(t *testing.T, e []pair, code int) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(value(e, code), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestDXFIsInTheSitesUnits(t *testing.T) {
	for _, c := range corpus() {
		var b bytes.Buffer
		if err := WriteDXF(&b, c.job, taken(t, c.job)); err != nil {
			t.Fatal(err)
		}
		show(t, "c-"+c.name+".dxf", b.Bytes())
		unit := geometry.Inch
		if c.job.Units == geometry.Millimetres {
			unit = geometry.Millimetre
		}
		pairs := readDXF(t, b.Bytes())
		if last := pairs[len(pairs)-1]; last != (pair{0, "EOF"}) {
			t.Errorf("%s: ends with %v", c.name, last)
		}
		// Each side of the outline is a line at its place.
		l := c.job.Slabs[0].Outline
		for i := range l {
			p, q := l.Ends(i)
			found := false
			for _, e := range entities(pairs) {
				if layer := value(e, 8); value(e, 0) != "LINE" || layer != string(Slab) && layer != string(OldSlab) {
					continue
				}
				near := func(code int, x geometry.Length) bool {
					return math.Abs(real(t, e, code)-float64(x)/float64(unit)) < 1e-5
				}
				found = found || near(10, p.X) && near(20, p.Y) && near(11, q.X) && near(21, q.Y)
			}
			if !found {
				t.Errorf("%s: side %d is not in the drawing", c.name, i+1)
			}
		}
	}
}

func TestDXFAudit(t *testing.T) {
	var b bytes.Buffer
	j := demoJob(t)
	j.Name = "Line\nbreak % and %%c → ≤"
	if err := WriteDXF(&b, j, taken(t, j)); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "\x00") || bytes.ContainsRune(b.Bytes(), '→') {
		t.Error("a text is not in the file's code page")
	}
	readDXF(t, b.Bytes())
	python := "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import ezdxf").Run(); err != nil {
		t.Skip("python3-ezdxf is not installed; the other checks of the file stand")
	}
	file := filepath.Join(t.TempDir(), "layout.dxf")
	if err := os.WriteFile(file, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(python, "-c", `import sys; from ezdxf import recover; d, a = recover.readfile(sys.argv[1]); print(d.dxfversion, len(a.errors), len(a.fixes))`, file).CombinedOutput()
	if err != nil || strings.TrimSpace(string(out)) != "AC1009 0 0" {
		t.Errorf("audit: %s %v", out, err)
	}
}

func TestSVGHoldsTheDrawing(t *testing.T) {
	for _, c := range append(corpus(), awkward{"demo", demoJob(t)}) {
		p, err := LayoutDrawing(c.job, taken(t, c.job))
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range overlaps(p) {
			if !strings.HasSuffix(s, "off the sheet") { // it has no frame
				t.Errorf("%s: %s", c.name, s)
			}
		}
		var b bytes.Buffer
		if err := WriteSVG(&b, c.job, taken(t, c.job)); err != nil {
			t.Fatal(err)
		}
		count := map[string]int{}
		d := xml.NewDecoder(&b)
		for {
			tok, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			if s, ok := tok.(xml.StartElement); ok {
				count[s.Name.Local]++
			}
		}
		want := map[string]int{}
		for _, it := range p.Items {
			switch v := it.(type) {
			case Text:
				want["text"]++
			case Circle:
				want["circle"]++
			case Line:
				if v.Closed {
					want["polygon"]++
				} else {
					want["polyline"]++
				}
			}
		}
		for k, n := range want {
			if count[k] != n {
				t.Errorf("%s: %d %s, want %d", c.name, count[k], k, n)
			}
		}
	}
}

func TestEmptyJobIsAnError(t *testing.T) {
	j := job.New()
	for name, err := range map[string]error{
		"pdf": Write(io.Discard, j, takeoff.Takeoff{}, Options{}),
		"svg": WriteSVG(io.Discard, j, takeoff.Takeoff{}),
		"dxf": WriteDXF(io.Discard, j, takeoff.Takeoff{}),
	} {
		if err == nil || !strings.HasPrefix(err.Error(), "slabs: found no slab; ") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Bars of a pattern fall where dashes and gaps in turn put them.
func TestDashes(t *testing.T) {
	got := dashed([]Point{{0, 0}, {5, 0}, {5, 5}}, []float64{2, 1})
	want := "[[{0 0} {2 0}] [{3 0} {5 0} {5 0}] [{5 1} {5 3}] [{5 4} {5 5}]]"
	if s := fmt.Sprint(got); s != want {
		t.Errorf("%s, want %s", s, want)
	}
}
