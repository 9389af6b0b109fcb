package sheet

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/plan"
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
		if err := laidOut(t, c.job).WriteDXF(&b); err != nil {
			t.Fatal(err)
		}
		show(t, "c-"+c.name+".dxf", b.Bytes())
		unit := geometry.Inch
		if c.job.Units == geometry.Millimeters {
			unit = geometry.Millimeter
		}
		pairs := readDXF(t, b.Bytes())
		if last := pairs[len(pairs)-1]; last != (pair{0, "EOF"}) {
			t.Errorf("%s: ends with %v", c.name, last)
		}
		// Each side of the outline is a side of a closed line at its place.
		var corners [][][]pair
		for _, e := range entities(pairs) {
			switch layer := value(e, 8); {
			case layer != drawing.Outline.String():
			case value(e, 0) == "POLYLINE" && value(e, 70) == "1":
				corners = append(corners, nil)
			case value(e, 0) == "VERTEX" && len(corners) > 0:
				corners[len(corners)-1] = append(corners[len(corners)-1], e)
			}
		}
		l := c.job.Slabs[0].Outline
		for i := range l {
			p, q := l.Ends(i)
			found := false
			for _, e := range corners {
				near := func(k int, code int, x geometry.Length) bool {
					return math.Abs(real(t, e[k%len(e)], code)-float64(x)/float64(unit)) < 1e-5
				}
				for k := range e {
					found = found || near(k, 10, p.X) && near(k, 20, p.Y) && near(k+1, 10, q.X) && near(k+1, 20, q.Y)
				}
			}
			if !found {
				t.Errorf("%s: side %d is not in the drawing", c.name, i+1)
			}
		}
	}
}

// No line of the file is longer than the form allows, and what is cut for that is read in
// parts, whole.
func TestDXFLines(t *testing.T) {
	j := demoJob(t)
	j.Name = strings.Repeat("Name ", 80)
	note := strings.Repeat("abcdefghij", 60)
	j.Survey.Notes = []plan.Note{{Text: note, At: geometry.Point{X: 10 * geometry.Foot, Y: 10 * geometry.Foot}}}
	var b bytes.Buffer
	if err := laidOut(t, j).WriteDXF(&b); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(b.String()) {
		if n := len(strings.TrimSuffix(line, "\n")); n > 255 {
			t.Errorf("a line of %d characters: %.60s", n, line)
		}
	}
	for _, c := range []struct{ text, parts string }{{"short", "short"}, {strings.Repeat("ab", 127), strings.Repeat("ab", 127)}, {strings.Repeat("ab", 130), strings.Repeat("ab", 65) + "|" + strings.Repeat("ab", 65)}} {
		if got := strings.Join(inLines(c.text), "|"); got != c.parts {
			t.Errorf("%d characters become %q", len(c.text), got)
		}
	}
}

// readBack is what another program reads out of a DXF file: faults, the sides on
// the layers of the outline, and the texts.
const readBack = `
import json, sys
from ezdxf import recover
def read(file):
    doc, audit = recover.readfile(file)
    rings = [[[*v.dxf.location][:2] for v in e.vertices] for e in doc.modelspace().query("POLYLINE[layer=='SLAB']") if e.is_closed]
    return {
        "version": doc.dxfversion, "faults": len(audit.errors) + len(audit.fixes),
        "sides": [a + b for r in rings for a, b in zip(r, r[1:] + r[:1])],
        "layers": sorted({e.dxf.layer for e in doc.modelspace()}),
        "units": doc.header.get("$INSUNITS", 0),
        "measures": [[e.dxf.text, e.get_measurement()] for e in doc.modelspace().query("DIMENSION")],
        "texts": [e.dxf.text for e in doc.modelspace().query("TEXT")],
    }
json.dump([read(f) for f in sys.argv[1:]], sys.stdout)
`

func TestDXFIsReadBack(t *testing.T) {
	hostile := demoJob(t)
	hostile.Name = "Line\nbreak % and %%c → ≤"
	hostile.Slabs[0].Outline[0].Doors[0].Name = "Door %%u é → ½"
	jobs := []awkward{{"demo", hostile}}
	usual := []string{"demo", "two slabs", "three slabs", "metric ell", "huge"} // have something on every layer
	for _, c := range corpus() {
		if !testing.Short() || slices.Contains(usual, c.name) {
			jobs = append(jobs, c)
		}
	}
	python := "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import ezdxf").Run(); err != nil && os.Getenv("CI") != "" {
		t.Fatalf("python3-ezdxf is missing: %v", err)
	} else if err != nil {
		t.Skip("python3-ezdxf is not installed; the other checks of the file stand")
	}
	var files []string
	for i, c := range jobs {
		var b bytes.Buffer
		if err := laidOut(t, c.job).WriteDXF(&b); err != nil {
			t.Fatal(err)
		}
		if strings.Contains(b.String(), "\x00") || bytes.ContainsRune(b.Bytes(), '→') {
			t.Errorf("%s: a text is not in the file's code page", c.name)
		}
		files = append(files, filepath.Join(t.TempDir(), fmt.Sprintf("layout%d.dxf", i)))
		if err := os.WriteFile(files[i], b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	out, err := exec.Command(python, append([]string{"-c", readBack}, files...)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []struct {
		Version string
		Faults  int
		Sides   [][4]float64
		Layers  []string
		Texts   []string
		Units   int

		Measures [][2]any // the text and what another program measures
	}
	if err := json.Unmarshal(out, &all); err != nil || len(all) != len(jobs) {
		t.Fatalf("%d of %d drawings: %v", len(all), len(jobs), err)
	}
	for i, c := range jobs {
		got := all[i]
		if want := map[geometry.Units]int{geometry.FeetInches: 1, geometry.Millimeters: 4}[c.job.Units]; got.Units != want {
			t.Errorf("%s: units %d, want %d", c.name, got.Units, want)
		}
		if len(got.Measures) < 2 || len(got.Measures) < 4 && slices.Contains(usual, c.name) {
			t.Errorf("%s: %d dimensions", c.name, len(got.Measures))
		}
		for _, m := range got.Measures {
			l, err := geometry.ParseLength(m[0].(string), map[geometry.Units]geometry.Length{geometry.FeetInches: geometry.Inch, geometry.Millimeters: geometry.Millimeter}[c.job.Units])
			if real := m[1].(float64) * map[geometry.Units]float64{geometry.FeetInches: 0.0254, geometry.Millimeters: 0.001}[c.job.Units]; err != nil || math.Abs(l.Meters()-real) > 0.001 {
				t.Errorf("%s: a dimension says %q (%v) and measures %.4f m", c.name, m[0], err, real)
			}
		}
		if got.Version != "AC1009" || got.Faults != 0 {
			t.Errorf("%s: %s with %d faults", c.name, got.Version, got.Faults)
		}
		unit := geometry.Inch
		if c.job.Units == geometry.Millimeters {
			unit = geometry.Millimeter
		}
		for _, p := range c.job.Slabs {
			for i := range p.Outline {
				a, z := p.Outline.Ends(i)
				want := [4]float64{float64(a.X) / float64(unit), float64(a.Y) / float64(unit), float64(z.X) / float64(unit), float64(z.Y) / float64(unit)}
				if !slices.ContainsFunc(got.Sides, func(s [4]float64) bool {
					off := 0.0
					for k := range s {
						off = max(off, math.Abs(s[k]-want[k]))
					}
					return off < 1e-5
				}) {
					t.Errorf("%s: no line %v of slab %q", c.name, want, p.Name)
				}
			}
			if p.Name != "" && !slices.Contains(got.Texts, p.Name) {
				t.Errorf("%s: no text %q", c.name, p.Name)
			}
		}
		if !slices.Contains(usual, c.name) {
			continue
		}
		for _, l := range []Layer{drawing.Outline, Dimension, Notes, drawing.Haunch, drawing.Steel, drawing.Forms, drawing.Bolts, drawing.Plates, drawing.SawCuts} {
			if !slices.Contains(got.Layers, l.String()) {
				t.Errorf("%s: nothing on layer %s", c.name, l)
			}
		}
	}
}

func laidOut(t *testing.T, j job.Job) Layout {
	p, err := LayOut(t.Context(), handed(t, j))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func faultOf(_ Layout, err error) error { return err }

func TestEmptyJobIsAnError(t *testing.T) {
	h := handed(t, job.New())
	for name, err := range map[string]error{
		"pdf": Write(t.Context(), io.Discard, h, Options{}),
		"bid": WriteBid(t.Context(), io.Discard, h, Options{}),
		"svg": faultOf(LayOut(t.Context(), h)),
	} {
		if err == nil || !strings.HasPrefix(err.Error(), "slabs[0].outline: found ") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Bars of a pattern fall where dashes and gaps in turn put them.
func TestDashes(t *testing.T) {
	got := dashed([]Point{{X: 0, Y: 0}, {X: 5, Y: 0}, {X: 5, Y: 5}}, []float64{2, 1})
	want := "[[{0 0} {2 0}] [{3 0} {5 0} {5 0}] [{5 1} {5 3}] [{5 4} {5 5}]]"
	if s := fmt.Sprint(got); s != want {
		t.Errorf("%s, want %s", s, want)
	}
}
