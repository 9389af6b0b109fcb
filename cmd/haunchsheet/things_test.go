package main

import (
	"bytes"
	"html"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// A thing in the ground: what makes it part of the job in order, and by which words each
// document tells of it.
type thing struct {
	name string
	set  map[string]any
	word string            // in all documents
	own  map[string]string // of documents that have another
}

// things are what may be in and at a slab besides its edge and its steel.
func things() []thing {
	embed := func(kind, deep, long string) map[string]any {
		e := map[string]any{"name": "S9", "kind": kind, "center": []string{"6'", "7'"}, "width": `4"`, "deep": deep}
		if long != "" {
			e["length"] = long
		}
		return map[string]any{"slabs.0.embeds": []any{e}}
	}
	line := func(kind string, more map[string]any, path ...[]string) map[string]any {
		l := map[string]any{"name": "L9", "kind": kind, "path": path}
		maps.Copy(l, more)
		return map[string]any{"slabs.0.lines": []any{l}}
	}
	joint := func(kind string) map[string]any {
		return map[string]any{"slabs.0.construction": []any{map[string]any{
			"name": "C9", "kind": kind, "from": []string{"12'", "-1'"}, "to": []string{"12'", "21'"}, "first": "left", "days": 2}}}
	}
	wall := map[string]any{"name": "W9", "kind": "bearing", "plate": "2x4", "from": []string{"2'", "8'"}, "to": []string{"22'", "8'"}}
	braced := maps.Clone(wall)
	braced["kind"], braced["bolts"] = "braced", []any{map[string]any{"along": `6"`, "holddown": true}}
	corner := func(x, y string) map[string]any { return map[string]any{"at": []string{x, y}, "section": "Edge"} }
	porch := func(height string) map[string]any {
		return map[string]any{"slabs.1": map[string]any{
			"name": "Porch", "field": `4"`, "height": height,
			"sections": []any{map[string]any{"name": "Edge", "depth": `11 1/4"`, "bottom": `12"`, "taper": `8"`}},
			"outline":  []any{corner("24'", "0"), corner("34'", "0"), corner("34'", "20'"), corner("24'", "20'")},
		}}
	}
	bend := func(drop string) map[string]any {
		return map[string]any{"slabs.0.top.breaks": []any{map[string]any{"from": []string{"24'", "4'"}, "to": []string{"0", "4'"}, "drop": drop, "over": "4'"}}}
	}
	door := map[string]any{"name": "D9", "kind": "overhead", "from": "4'", "width": "9'", "lip": map[string]any{"inset": `5 1/2"`, "drop": `3/4"`}}
	bid := func(word string) map[string]string { return map[string]string{"bid.pdf": word} }
	and := func(of map[string]string, book string) map[string]string {
		out := map[string]string{"materials.xlsx": book}
		maps.Copy(out, of)
		return out
	}
	return []thing{
		{"a sleeve", embed("sleeve", "0", ""), "sleeve", nil},
		{"a stub-up", embed("stub-up", "0", ""), "stub-up", nil},
		{"a floor drain", embed("floor drain", `3"`, ""), "floor drain", nil},
		{"a post base", embed("post base", `3"`, `4"`), "post base", nil},
		{"an embedded plate", embed("plate", `1/2"`, `6"`), `plate 4" × 6"`, and(bid("embedded plates"), "embedded plates")},
		{"a drain line", line("drain line", map[string]any{"diameter": `4 1/2"`, "cover": `14"`, "endcover": `17"`}, []string{"12'", "10'"}, []string{"12'", "-2'"}), "drain line", nil},
		{"a trench drain", line("trench drain", map[string]any{"diameter": `6"`, "height": `5"`}, []string{"4'", "6'"}, []string{"11'", "6'"}), "trench drain", nil},
		{"conduit", line("conduit", map[string]any{"diameter": `1"`, "cover": `14"`}, []string{"12'", "10'"}, []string{"12'", "-2'"}), "conduit", nil},
		{"tubing", line("tubing", map[string]any{"diameter": `5/8"`, "cover": `2"`, "spacing": `12"`, "longest": "300'", "lead": "10'"}, []string{"2'", "2'"}, []string{"22'", "18'"}), "tubing", nil},
		{"a bearing wall", map[string]any{
			"slabs.0.strips": []any{map[string]any{"name": "T9", "path": [][]string{{"2'", "8'"}, {"22'", "8'"}}, "bottom": `12"`, "depth": `12"`, "taper": `6"`}},
			"slabs.0.walls":  []any{wall}}, "w9", bid("thickened strips: 1")},
		{"a braced wall", map[string]any{"slabs.0.walls": []any{braced}}, "w9", bid("hold-down")},
		{"a curb", map[string]any{"slabs.0.outline.1.curb": `8"`}, `curb 8" high, 6" wide`, and(nil, "concrete in curbs")},
		{"a keyed joint", joint("keyed"), `key 1 1/2"`, and(bid("construction joints: 1"), "key strip")},
		{"a doweled joint", joint("doweled"), "dowels", and(nil, "smooth dowels")},
		{"a bulkhead", joint("bulkhead"), "cj1", and(bid("construction joints: 1"), "bulkhead")},
		{"a slab that meets it", porch("0"), "isolation strip", nil},
		{"a slab a step down", porch(`-4"`), `4" up`, and(bid(`top -4"`), "isolation strip")},
		{"insulation against frost", map[string]any{"spec.base.building": "heated", "spec.base.upright": `2"`, "spec.base.uprightdeep": `12"`, "spec.base.uprightr": 5,
			"spec.base.wing": `2"`, "spec.base.wingdeep": `12"`, "spec.base.wingwidth": "2'", "spec.base.wingr": 5, "spec.base.frostfoam": "xps iv"}, `frost foam 2"`, and(bid("frost insulation"), "frost insulation")},
		{"a block-out round a column", map[string]any{"slabs.0.pads": []any{map[string]any{"name": "P9", "center": []string{"12'", "10'"},
			"width": "3'", "length": "3'", "depth": `14"`, "taper": `6"`, "isolation": "diamond", "blockout": `20"`}}}, "block-out", nil},
		{"an edge at an old slab", map[string]any{"slabs.0.outline.2.joint": true, "slabs.0.outline.2.wall": ""}, "dowels", and(nil, "drill and set dowels")},
		{"an apron", bend(`2"`), "top breaks", and(bid("an apron that drops away"), "fill under the base")},
		{"a ramp", bend(`-2"`), "top breaks", and(bid("a ramp that rises"), "fill under the base")},
		{"a lip", map[string]any{"slabs.0.outline.0.doors": []any{door}}, `lip 3/4" lower`, and(bid("doors with a lip: 1"), "door lip")},
		{"an arc", map[string]any{"slabs.0.outline.1.middle": "2'", "slabs.0.outline.1.wall": ""}, "chord", and(bid("edges bowed as arcs: 1"), "bent along an arc")},
	}
}

// says gives what documents of a job say, in small letters as it reads wherever its lines
// end.
func says(t *testing.T, job []byte, documents []string) map[string]string {
	t.Helper()
	out := t.TempDir()
	var stderr bytes.Buffer
	if code := run([]string{"-quiet", "-only", strings.Join(documents, ","), "-out", out, "-"}, bytes.NewReader(job), &bytes.Buffer{}, &stderr); code != 0 {
		t.Fatalf("exit code %d: %s", code, stderr.String())
	}
	said := map[string]string{}
	for _, d := range documents {
		file := filepath.Join(out, d)
		var text []byte
		var err error
		switch filepath.Ext(d) {
		case ".pdf":
			text, err = exec.Command("pdftotext", "-raw", file, "-").Output()
		case ".xlsx":
			text, err = cells(file)
		default:
			text, err = os.ReadFile(file)
		}
		if err != nil {
			t.Fatalf("%s: %v", d, err)
		}
		// What is outside of ASCII is one byte in a DXF and several in others.
		said[d] = ascii(html.UnescapeString(string(text)))
	}
	return said
}

// cells gives the text of all cells of a workbook.
func cells(file string) ([]byte, error) {
	book, err := excelize.OpenFile(file)
	if err != nil {
		return nil, err
	}
	defer book.Close()
	var b bytes.Buffer
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		if err != nil {
			return nil, err
		}
		for _, r := range rows {
			b.WriteString(strings.Join(r, "\n") + "\n")
		}
	}
	return b.Bytes(), book.Close()
}

// ascii gives the small letters, digits and signs of a text that all encodings write alike.
func ascii(s string) string {
	return strings.Map(func(r rune) rune {
		if r <= ' ' || r > '~' {
			return -1
		}
		return r
	}, strings.ToLower(s))
}

// Each thing in the ground stands in the sheets, the drawing for others, the telephone's
// page, the bid and the workbook; a job without it has none of its words.
func TestEachThingIsOnEveryPaper(t *testing.T) {
	if !reads(t) {
		t.Skip("pdftotext is missing")
	}
	table := rules(t)
	documents := []string{"layout.pdf", "layout.dxf", "phone.html", "bid.pdf", "materials.xlsx"}
	without := says(t, table.with(t), documents)
	for _, th := range things() {
		t.Run(th.name, func(t *testing.T) {
			t.Parallel()
			with := says(t, table.with(t, th.set), documents)
			for _, d := range documents {
				word := th.word
				if own, ok := th.own[d]; ok {
					word = own
				}
				switch word := ascii(word); {
				case !strings.Contains(with[d], word):
					t.Errorf("%s does not say %q", d, word)
				case strings.Contains(without[d], word):
					t.Errorf("%s says %q of a job that has none", d, word)
				}
			}
		})
	}
}
