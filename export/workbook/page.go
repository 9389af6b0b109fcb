package workbook

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// Colors: dark headings, light bands, and yellow with blue for cells to fill in.
const (
	ink     = "1F2933"
	paper   = "FFFFFF"
	band    = "E4E7EB"
	fillIn  = "FFF8D6"
	blue    = "0B3D91"
	red     = "B00020"
	gray    = "616E7C"
	hairCol = "CBD2D9"
)

// page is a sheet being written, from the top down.
type page struct {
	b     *builder
	name  string
	w     *excelize.StreamWriter
	row   int // last row written
	cols  int
	width []float64
	err   error
	after []func() error // to do before the sheet is flushed
}

// column is a column of a page.
type column struct {
	head  string
	width float64
	right bool // numbers stand in it
}

// paperForm is how a sheet lies on paper; all fit its width.
type paperForm uint8

const (
	portrait paperForm = iota
	landscape
	poster // landscape, on one page
)

// page starts a sheet with the job's heading and the column heads, which stay
// in view and are printed on each page.
func (b *builder) page(name string, form paperForm, columns []column) *page {
	name = b.sheet(name)
	p := &page{b: b, name: name, cols: len(columns)}
	if b.sheets == 0 {
		p.do(func() error { return b.f.SetSheetName("Sheet1", name) })
	} else {
		p.do(func() error { _, err := b.f.NewSheet(name); return err })
	}
	b.sheets++
	fit, one, high, size, orientation := true, 1, 0, 1, "portrait"
	if b.metric() {
		size = 9 // A4
	}
	if form != portrait {
		orientation = "landscape"
	}
	if form == poster {
		high = 1
	}
	margin, off := 0.5, false
	foot := 0.3
	p.do(func() error {
		return errors.Join(
			b.f.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}),
			b.f.SetPageLayout(name, &excelize.PageLayoutOptions{Size: &size, Orientation: &orientation, FitToWidth: &one, FitToHeight: &high}),
			b.f.SetPageMargins(name, &excelize.PageLayoutMarginsOptions{Left: &margin, Right: &margin, Top: &margin, Bottom: &margin, Footer: &foot}),
			b.f.SetSheetView(name, 0, &excelize.ViewOptions{ShowGridLines: &off}),
		)
	})
	p.do(func() (err error) { p.w, err = b.f.NewStreamWriter(name); return err })
	p.do(func() error {
		return p.w.SetPanes(&excelize.Panes{Freeze: true, YSplit: headRows, TopLeftCell: fmt.Sprintf("A%d", headRows+1), ActivePane: "bottomLeft"})
	})
	for i, c := range columns {
		for _, word := range strings.Fields(b.say.Say(c.head)) { // a bold letter is wider than a digit
			if b.say != nil {
				c.width = max(c.width, 1.2*float64(utf8.RuneCountInString(word))+1.5)
			}
		}
		p.width = append(p.width, c.width)
		p.do(func() error { return p.w.SetColWidth(i+1, i+1, c.width) })
	}
	p.head(columns)
	return p
}

// sheet gives what a sheet is called in the workbook's language, as far as a name may
// go: 31 characters, by the form's rule.
func (b *builder) sheet(name string) string {
	r := []rune(b.say.Word(name))
	return string(r[:min(len(r), 31)])
}

// cellsOf begins the address of a cell of a sheet.
func (b *builder) cellsOf(sheet string) string { return quoted(b.sheet(sheet)) + "!" }

// headRows is how many rows the heading takes.
const headRows = 5

func (p *page) head(columns []column) {
	j := p.b.job
	title := style{size: 16, bold: true}
	sub := style{color: gray}
	p.put(styled(firstOf(j.Name, p.b.say.Word("Untitled job")), title).own())
	p.put(styled(p.name, style{size: 12, bold: true}).own())
	p.put(styled(joinNonEmpty(" · ", p.b.o.Company, j.Customer, j.Site, j.Date, p.b.say.Say(prefixed("Revision ", j.Revision))), sub).own())
	if p.b.estimate.Prices.Invented {
		p.put(styled("Prices and rates are invented examples: enter your own before ordering or bidding.", warning))
	} else {
		p.put(styled("Check quantities on site before ordering. Local code and a licensed professional decide.", note))
	}
	heads := make([]cell, len(columns))
	for i, c := range columns {
		heads[i] = styled(c.head, heading)
		if c.right {
			heads[i].style.align = "right"
		} else if i > 0 && columns[i-1].right {
			heads[i].style.indent = true
		}
	}
	p.put(heads...)
}

func firstOf(s ...string) string {
	for _, v := range s {
		if strings.TrimSpace(v) != "" {
			return v
		}
	}
	return ""
}

func joinNonEmpty(sep string, s ...string) string {
	var out []string
	for _, v := range s {
		if v = strings.TrimSpace(v); v != "" {
			out = append(out, v)
		}
	}
	return strings.Join(out, sep)
}

func prefixed(prefix, s string) string {
	if s == "" {
		return ""
	}
	return prefix + s
}

func (p *page) do(f func() error) {
	if p.err == nil {
		p.err = f()
	}
}

// put writes a row and gives its number.
func (p *page) put(cells ...cell) int {
	p.row++
	row := make([]any, len(cells))
	height := 0.0
	for i, c := range cells {
		if s, ok := c.value.(string); ok && !c.asIs && !c.style.input && c.formula == "" {
			c.value = p.b.say.Say(s)
		}
		id, err := p.b.style(c.style)
		p.do(func() error { return err })
		x := excelize.Cell{StyleID: id, Value: c.value, Formula: c.formula}
		if c.value == "" {
			x.Value = nil // an empty text would stop its neighbor from running on
		}
		row[i] = x
		height = max(height, p.height(i, c))
		if c.name != "" {
			p.name1(c.name, i, p.row)
		}
		if len(c.choice) > 0 {
			p.choose(i, p.row, c.choice)
		} else if c.style.input && c.style.num != "@" {
			p.bound(i, p.row, c.bounds)
		}
	}
	p.do(func() error { return p.w.SetRow(fmt.Sprintf("A%d", p.row), row, excelize.RowOpts{Height: height}) })
	return p.row
}

// height gives the row height that a cell in column col needs, in points. Not
// every program fits rows to wrapped text by itself.
func (p *page) height(col int, c cell) float64 {
	size := c.style.size
	if size == 0 {
		size = 10
	}
	lines := 1.0
	if s, ok := c.value.(string); ok && c.style.wrap && col < len(p.width) {
		lines = 0
		for _, part := range strings.Split(s, "\n") {
			lines += max(1, math.Ceil(float64(utf8.RuneCountInString(part))*0.85/max(1, p.width[col])))
		}
	}
	return min(400, size*1.3*lines+1.5)
}

// gap leaves a row free.
func (p *page) gap() { p.row++ }

// band writes a heading across the page.
func (p *page) band(title string) {
	cells := make([]cell, p.cols)
	for i := range cells {
		cells[i].style = section
	}
	cells[0].value = plain(title)
	p.put(cells...)
}

// name1 defines a name for the cell in column col (from 0) and row.
func (p *page) name1(name string, col, row int) {
	p.do(func() error {
		return p.b.f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: fmt.Sprintf("%s!$%s$%d", quoted(p.name), letter(col), row)})
	})
}

// nameRange defines a name for the cells of a column from a row to the last one.
func (p *page) nameRange(name, col string, from int) {
	p.do(func() error {
		return p.b.f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(p.name), col, from, col, p.row)})
	})
}

// bound takes numbers alone in a cell: "$175/yd" would spoil every sum.
func (p *page) bound(col, row int, b bounds) {
	p.after = append(p.after, func() error {
		v := excelize.NewDataValidation(true)
		v.Sqref = fmt.Sprintf("%s%d", letter(col), row)
		say := p.b.say.Word
		least, op, want := 0.0, excelize.DataValidationOperatorBetween, "0 or more"
		switch b {
		case positive:
			least, op, want = 0, excelize.DataValidationOperatorGreaterThan, "more than 0"
		case signed:
			least, want = -1e12, "any number"
		}
		v.SetError(excelize.DataValidationErrorStyleStop, say("A number"), say("Write a number alone, such as 12.50")+": "+say(want)+".")
		if err := v.SetRange(least, 1e12, excelize.DataValidationTypeDecimal, op); err != nil {
			return err
		}
		return p.b.f.AddDataValidation(p.name, v)
	})
}

// choose offers a list for a cell.
func (p *page) choose(col, row int, list []string) {
	p.after = append(p.after, func() error {
		v := excelize.NewDataValidation(false)
		v.Sqref = fmt.Sprintf("%s%d", letter(col), row)
		if err := v.SetDropList(list); err != nil {
			return err
		}
		return p.b.f.AddDataValidation(p.name, v)
	})
}

func letter(col int) string {
	name, err := excelize.ColumnNumberToName(col + 1)
	if err != nil {
		panic(err) // columns are few
	}
	return name
}

func quoted(sheet string) string { return "'" + strings.ReplaceAll(sheet, "'", "''") + "'" }

// close ends the sheet: protection, print area and titles, page numbers.
func (p *page) close() error {
	b := p.b
	for _, f := range p.after {
		p.do(f)
	}
	p.do(func() error {
		return errors.Join(
			b.f.ProtectSheet(p.name, &excelize.SheetProtectionOptions{
				SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, FormatRows: true, FormatCells: true, EditScenarios: true,
			}),
			b.f.SetHeaderFooter(p.name, &excelize.HeaderFooterOptions{OddFooter: "&L&8&A&C&8 " + footerText(b.job.Name) + "&R&8&P " + b.say.Word("of") + " &N"}),
			b.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: p.name, RefersTo: fmt.Sprintf("%s!$%d:$%d", quoted(p.name), headRows, headRows)}),
			b.f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: p.name, RefersTo: fmt.Sprintf("%s!$A$1:$%s$%d", quoted(p.name), letter(p.cols-1), p.row)}),
		)
	})
	p.do(func() error { return p.w.Flush() })
	if p.err != nil {
		return fmt.Errorf("sheet %s: %w", p.name, p.err)
	}
	return nil
}

// footerText keeps a name from being read as codes of the footer. The space
// before it keeps a number at its start from joining the size.
func footerText(s string) string {
	r := []rune(strings.ReplaceAll(plain(s), "\n", " "))
	return strings.ReplaceAll(string(r[:min(len(r), 60)]), "&", "&&")
}

// Number formats.
const (
	whole    = "#,##0"
	percent  = `0.###" %"`
	hours    = `#,##0.00" h"`
	weight   = "#,##0.0"
	volume   = "#,##0.00"
	measured = "#,##0.00"
	general  = "#,##0.######"
)

// money is the format of amounts in the list's currency.
func (b *builder) money() string {
	sign := strings.ReplaceAll(plain(b.estimate.Prices.Currency), `"`, "")
	if sign == "" {
		return "#,##0.00;-#,##0.00"
	}
	return fmt.Sprintf(`"%s"#,##0.00;-"%s"#,##0.00`, sign, sign)
}
