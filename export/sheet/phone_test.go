package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/language"
)

func phoneOf(t *testing.T, name string, change func(*Options)) string {
	t.Helper()
	j := demoJob(t)
	j.Name = name
	o := Options{Date: fixedDate}
	if change != nil {
		change(&o)
	}
	var b bytes.Buffer
	if err := WritePhone(t.Context(), &b, handed(t, j), o, nil); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The page for the telephone loads nothing, runs nothing, and shows what the user wrote
// as text.
func TestPhoneIsWhole(t *testing.T) {
	page := phoneOf(t, `Garage <script>alert("1")</script> & Sons`, nil)
	for _, tag := range regexp.MustCompile(`(?i)<(script|link|iframe|img|object)\b|\bon\w+="|url\(|@import|href="[^#]`).FindAllString(page, -1) {
		t.Errorf("found %q", tag)
	}
	for _, address := range regexp.MustCompile(`\w+://[^"\s]+`).FindAllString(page, -1) {
		if !strings.HasPrefix(address, "http://www.w3.org/") { // names of what SVG is
			t.Errorf("found the address %q", address)
		}
	}
	if !strings.Contains(page, "<h1>Garage &lt;script&gt;") {
		t.Error("the job's name is not shown as it was written")
	}
	ids := regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(page, -1)
	seen := map[string]bool{}
	for _, m := range ids {
		if seen[m[1]] {
			t.Errorf("two things are called %q", m[1])
		}
		seen[m[1]] = true
	}
	for _, m := range regexp.MustCompile(`(?:href="#|for=")([^"]+)"`).FindAllStringSubmatch(page, -1) {
		if !seen[m[1]] {
			t.Errorf("nothing is called %q, which is pointed to", m[1])
		}
	}
}

// In several languages, the page has each after another, and each is marked as such.
func TestPhoneInBothLanguages(t *testing.T) {
	page := phoneOf(t, "Garage", func(o *Options) {
		var err error
		if o.Languages, err = language.Chosen(language.Both); err != nil {
			t.Fatal(err)
		}
	})
	english, spanish := strings.Index(page, `<main lang="en-US"`), strings.Index(page, `<main lang="es-`)
	if english < 0 || spanish < english {
		t.Fatalf("English at %d, Spanish at %d", english, spanish)
	}
	if !strings.Contains(page[english:spanish], ">Cautions<") || strings.Contains(page[spanish:], ">Cautions<") {
		t.Error("the cautions are not said in English first, and then in Spanish")
	}
}

// Every row of every table in the archive stands on the page, and the other way round.
func TestTablesAreThoseOfThePage(t *testing.T) {
	page := phoneOf(t, "Garage", nil)
	var onPage []string
	cell := regexp.MustCompile(`<t[dh][^>]*>([^<]*)</t[dh]>`)
	for _, row := range regexp.MustCompile(`<tr>.*</tr>`).FindAllString(page, -1) {
		var cells []string
		for _, m := range cell.FindAllStringSubmatch(row, -1) {
			cells = append(cells, html.UnescapeString(m[1]))
		}
		onPage = append(onPage, strings.Join(cells, "|"))
	}
	var b bytes.Buffer
	j := demoJob(t)
	j.Name = "Garage"
	if err := WriteTables(t.Context(), &b, handed(t, j), Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	var inFiles []string
	for _, f := range z.File {
		if !regexp.MustCompile(`^\d\d-[a-z0-9-]+\.csv$`).MatchString(f.Name) {
			t.Errorf("a file is called %q", f.Name)
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(r).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		if strings.HasSuffix(f.Name, "-quantities.csv") {
			if len(rows) < 10 {
				t.Errorf("%s: %d rows", f.Name, len(rows))
			}
			continue
		}
		for _, row := range rows {
			inFiles = append(inFiles, strings.Join(row, "|"))
		}
	}
	slices.Sort(onPage)
	slices.Sort(inFiles)
	if len(inFiles) < 50 || !slices.Equal(onPage, inFiles) {
		t.Errorf("on the page:\n%s\nin the files:\n%s", strings.Join(onPage, "\n"), strings.Join(inFiles, "\n"))
	}
}

// A text that a spreadsheet would compute stays a text.
func TestTablesHoldNoFormula(t *testing.T) {
	for text, want := range map[string]string{"=1+2": "'=1+2", "@a": "'@a", "+2\"": "+2\"", "–": "–", "": ""} {
		if got := plainCell(text); got != want {
			t.Errorf("%q became %q, not %q", text, got, want)
		}
	}
}

// The page for the telephone has the tables for the last load only where the ground was
// shot and there is a last load to call.
func TestPhoneCallsTheLastLoad(t *testing.T) {
	plain, shots := handed(t, demoJob(t)), handed(t, shot(t, handed(t, demoJob(t))))
	for name, c := range map[string]struct {
		of   *handover.Handover
		want bool
	}{"plain": {plain, false}, "shot": {shots, true}} {
		var b bytes.Buffer
		if err := WritePhone(t.Context(), &b, c.of, Options{Date: fixedDate}, nil); err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{"Still wanted", "What is left to fill", "as it was shot"} {
			if got := strings.Contains(b.String(), text); got != c.want {
				t.Errorf("%s: %q is there: %v", name, text, got)
			}
		}
	}
}
