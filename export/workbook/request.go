package workbook

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/language"
	"haunchbook.example/app/takeoff"
)

// requestSheet is the sheet of a request, and requestHeads are its columns. What was
// asked for stands in the last, as a price list names it.
const requestSheet = "Request"

var requestHeads = []string{"Item", "Quantity", "Sold as", "Unit price", "Lead time", "Substitute", "For the return"}

// Rows of a request above its lines.
const (
	supplierLabel = "Supplier"
	numberLabel   = "Quote number"
	untilLabel    = "Good until, as 2026-04-12"
)

// RequestName gives the file name of request i of a job, from 0.
func RequestName(i int, r estimate.Request) string {
	name := []rune(strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsDigit(c) {
			return c
		}
		return '-'
	}, r.Supplier))
	return fmt.Sprintf("request-%d-%s.xlsx", i+1, string(name[:min(len(name), 60)]))
}

// WriteRequest writes a request for a supplier to fill in: what is asked for, with
// blanks for its price, lead time and a substitute, and for the quote's number and
// last day. Nothing else of the estimate is in the file.
func WriteRequest(w io.Writer, h *handover.Handover, r estimate.Request, o Options) error {
	b, err := request(h, r, o)
	if err != nil {
		return err
	}
	return b.write(w)
}

// request makes the workbook of a request.
func request(h *handover.Handover, r estimate.Request, o Options) (b *builder, err error) {
	b = newBuilder(h, o)
	b.say = o.Language.Speaker(nil) // none of the user's texts is in it but in cells that stay as they are
	defer func() {
		if err != nil {
			err = errors.Join(err, b.f.Close())
		}
	}()
	b.job.Customer = "" // whom it is for is not the supplier's business
	p := b.page(requestSheet, landscape, []column{
		{requestHeads[0], 46, false}, {requestHeads[1], 10, true}, {requestHeads[2], 22, false}, {requestHeads[3], 12, true}, {requestHeads[4], 16, false}, {requestHeads[5], 28, false}, {requestHeads[6], 20, false},
	})
	blank := func(num string) cell { return cell{style: style{line: 'h', wrap: true, input: true, num: num}} }
	supplier := blank("@")
	supplier.value = plain(r.Supplier)
	p.put(text(supplierLabel), text(""), text(""), supplier)
	p.put(text(numberLabel), text(""), text(""), blank("@"))
	p.put(text(untilLabel), text(""), text(""), blank("@"))
	p.gap()
	for _, l := range r.Lines {
		id, err := json.Marshal(l.ID)
		if err != nil {
			return b, err
		}
		price := blank("#,##0.00####")
		p.put(text(l.Name), dec(l.Quantity, general), indented(l.Unit), price, blank("@"), blank("@"), styled(string(id), style{line: 'h', size: 6, color: gray}).own())
	}
	p.gap()
	if slices.ContainsFunc(r.Lines, func(l estimate.Asked) bool { return l.ID.Bar != 0 }) {
		made := b.job.Spec.Place.Bars.Grade.String()
		if b.job.Spec.Place.Bars.Coated {
			made += ", epoxy-coated"
		}
		p.put(text("Bars"), text(""), text(made))
	}
	p.put(styled("Yellow cells are to fill in. A price is for one of what is sold. Leave blank what you do not have.", note))
	if err := p.close(); err != nil {
		return b, err
	}
	return b, b.properties(b.say.Word("Material request"), "")
}

// ErrNoRequest says that a workbook is something else than a request.
var ErrNoRequest = fmt.Errorf("found no sheet %q with the columns %s; choose a request that was filled in", requestSheet, strings.Join(requestHeads, ", "))

// asked finds the rows of a request in whatever language it was written, and who speaks
// that.
func asked(f *excelize.File) (*builder, [][]string, error) {
	all, err := language.All()
	if err != nil {
		return nil, nil, err
	}
	for _, l := range all {
		b := &builder{say: l.Speaker(nil)}
		rows, err := f.GetRows(b.sheet(requestSheet))
		if err == nil && slices.ContainsFunc(rows, func(r []string) bool { return slices.Equal(r, b.say.Each(requestHeads)) }) {
			return b, rows, nil
		}
	}
	return nil, nil, ErrNoRequest
}

// maxRequest bounds a request that is read, unpacked too.
const maxRequest = 8 << 20

// ReadQuote reads a request that came back. The error is ErrNoRequest for another
// workbook; others name the cell, what was found
// and what would do.
func ReadQuote(data []byte) (q estimate.Quote, err error) {
	if len(data) > maxRequest {
		return q, fmt.Errorf("found %d MB; a request has less than %d MB", len(data)>>20, maxRequest>>20)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: 4 * maxRequest, UnzipXMLSizeLimit: maxRequest, RawCellValue: true})
	if err != nil {
		return q, fmt.Errorf("found no workbook (%v); choose a request that was filled in", err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	b, rows, err := asked(f)
	if err != nil {
		return q, err
	}
	sheet := b.sheet(requestSheet)
	for n, r := range rows {
		at := func(col int) string {
			if col >= len(r) {
				return ""
			}
			return strings.TrimSpace(r[col])
		}
		switch at(0) {
		case b.say.Word(supplierLabel):
			q.Supplier = at(3)
		case b.say.Word(numberLabel):
			q.Number = at(3)
		case b.say.Word(untilLabel):
			if q.Until = at(3); q.Until != "" {
				if _, err := time.Parse(time.DateOnly, q.Until); err != nil {
					return q, fmt.Errorf("%s!D%d: found %q; write a day such as 2026-04-12", sheet, n+1, q.Until)
				}
			}
		}
		var l estimate.Quoted
		if !strings.HasPrefix(at(6), "{") {
			continue
		}
		if err := json.Unmarshal([]byte(at(6)), &l.ID); err != nil || l.ID.Kind == takeoff.Unknown || l.ID.Kind == "" {
			return q, fmt.Errorf("%s!G%d: found %q; leave this column as it was sent", sheet, n+1, at(6))
		}
		l.Name, l.Unit, l.Lead, l.Substitute = at(0), at(2), at(4), at(5)
		if l.Quantity, err = decimal.NewFromString(at(1)); err != nil || !l.Quantity.IsPositive() {
			return q, fmt.Errorf("%s!B%d: found %q; leave this column as it was sent", sheet, n+1, at(1))
		}
		if typed := at(3); typed != "" {
			d, err := decimal.NewFromString(typed)
			if err != nil || d.IsNegative() || d.GreaterThan(decimal.New(1, 9)) || d.Exponent() < -12 {
				return q, fmt.Errorf("%s!D%d, %s: found %q; write the price of one as a number, such as 12.50", sheet, n+1, l.Name, typed)
			}
			l.Price = estimate.Costs(d)
		}
		q.Lines = append(q.Lines, l)
	}
	if q.Supplier == "" {
		return q, fmt.Errorf("%s: found no supplier; write whose quote it is", sheet)
	}
	return q, nil
}
