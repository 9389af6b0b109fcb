package sheet

import (
	"archive/zip"
	"cmp"
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"haunchbook.example/app/handover"
)

// WriteTables writes every table of the sheets, and the quantities, as CSV (RFC 4180), a
// file each in a ZIP archive, in the first of the options' languages. A text that a
// spreadsheet would take for a formula gets an apostrophe before it.
func WriteTables(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	o.Languages = o.languages()[:1]
	sets, err := unpaged(ctx, h, o)
	if err != nil {
		return err
	}
	s := sets[0]
	all := []table{s.quantityTable()}
	for _, c := range s.chapters() {
		all = append(all, tablesOf(c.blocks)...)
	}
	z := zip.NewWriter(w)
	for i, t := range all {
		f, err := z.CreateHeader(&zip.FileHeader{Name: fmt.Sprintf("%02d-%s.csv", i+1, fileName(t.title)), Method: zip.Deflate, Modified: o.Date.UTC()})
		if err != nil {
			return err
		}
		c := csv.NewWriter(f)
		for _, row := range append([][]string{t.head}, t.rows...) {
			cells := make([]string, len(row))
			for k, text := range row {
				cells[k] = plainCell(text)
			}
			if err := c.Write(cells); err != nil {
				return err
			}
		}
		c.Flush()
		if err := c.Error(); err != nil {
			return err
		}
	}
	return z.Close()
}

// plainCell gives a text as no spreadsheet computes it.
func plainCell(text string) string {
	if strings.HasPrefix(text, "=") || strings.HasPrefix(text, "@") {
		return "'" + text
	}
	return text
}

// quantityTable lists the takeoff.
func (s *set) quantityTable() table {
	t := table{title: s.say.Word("Quantities"), head: s.words([]string{"What", "Quantity", "Unit"})}
	for _, l := range s.takeoff.Lines {
		t.rows = append(t.rows, []string{s.say.Say(l.Name), strconv.FormatFloat(l.Value, 'f', -1, 64), string(l.Unit)})
	}
	return t
}

// tablesOf gives the tables among blocks.
func tablesOf(blocks []block) (out []table) {
	title := "" // over a table that has none of its own
	for _, b := range blocks {
		switch v := b.(type) {
		case detailBlock:
			title = v.title
		case tableBlock:
			v.title = cmp.Or(v.title, title)
			out = append(out, v.table)
		case pile:
			out = append(out, tablesOf(v)...)
		}
	}
	return out
}

// fileName makes of a title what every system takes for the name of a file.
func fileName(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return strings.Join(words, "-")
}
