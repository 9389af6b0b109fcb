// Package printing has the page that writes the sheets, the materials list, the bid
// and what else goes out to a folder.
package printing

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/guard"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/language"
	"haunchbook.example/export/sheet"
	"haunchbook.example/export/workbook"
	"haunchbook.example/storage"
	"haunchbook.example/storage/wholefile"
)

// source is what the files are made from: a job as it is now, and what the book says
// of everyone's.
type source struct {
	*handover.Handover
	company storage.Company
	paper   sheet.Paper
	part    sheet.Part
	in      []language.Language // of the sheets
	date    time.Time
	marks   []sheet.Revision // that the job was handed out under
}

// output is one file that is printed to the folder.
type output struct {
	name  string // of the file
	about string
	usual bool                                                      // ticked from the start
	make  func(ctx context.Context, w io.Writer, s source) error    // nil for requests
	pages func(ctx context.Context, s source) ([]sheet.Page, error) // of one that is made of pages; nil of others
}

// pages gives the pages of a document, one in each language.
func pages(make func(context.Context, *handover.Handover, sheet.Options) ([]sheet.Page, error)) func(context.Context, source) ([]sheet.Page, error) {
	return func(ctx context.Context, s source) ([]sheet.Page, error) {
		return make(ctx, s.Handover, s.options())
	}
}

const (
	bidFile     = "bid.pdf"
	howDeepFile = "how-deep.pdf"
	requestFile = "request" // and the supplier: several files
)

// outputs are the files, in the order they are made.
var outputs = []output{
	{"layout.pdf", "Layout sheet (PDF)", true, func(ctx context.Context, w io.Writer, s source) error {
		return sheet.Write(ctx, w, s.Handover, s.options())
	}, pages(sheet.Pages)},
	{"materials.xlsx", "Materials list and prices (XLSX)", true, func(ctx context.Context, w io.Writer, s source) error {
		return workbook.Write(ctx, w, s.Handover, s.bookOptions())
	}, nil},
	{bidFile, "Bid for the customer (PDF, one page)", false, func(ctx context.Context, w io.Writer, s source) error {
		return sheet.WriteBid(ctx, w, s.Handover, s.options())
	}, pages(sheet.BidPages)},
	{requestFile, "Material requests by supplier, no prices (XLSX)", false, nil, nil},
	{howDeepFile, "How deep? To talk over with the customer (PDF, one page)", false, func(ctx context.Context, w io.Writer, s source) error {
		return sheet.WriteHowDeep(ctx, w, s.Handover, s.options())
	}, pages(sheet.HowDeepPages)},
	{"phone.html", "For the telephone (HTML, one file)", false, func(ctx context.Context, w io.Writer, s source) error {
		return sheet.WritePhone(ctx, w, s.Handover, s.options(), nil)
	}, nil},
	{"tables.zip", "Every table (CSV, in a ZIP archive)", false, func(ctx context.Context, w io.Writer, s source) error {
		return sheet.WriteTables(ctx, w, s.Handover, s.options())
	}, nil},
	{"shots.pdf", "Where to shoot the ground, and what the shots say (PDF)", false, func(ctx context.Context, w io.Writer, s source) error {
		return sheet.WriteShots(ctx, w, s.Handover, s.options())
	}, pages(sheet.ShotPages)},
	{"layout.dxf", "Layout for other drawing programs (DXF)", false, func(ctx context.Context, w io.Writer, s source) error {
		l, err := sheet.LayOut(ctx, s.Handover)
		if err != nil {
			return err
		}
		return l.WriteDXF(w)
	}, nil},
	{"job.json", "Job file (JSON), to mail or keep", false, func(ctx context.Context, w io.Writer, s source) error {
		_, err := w.Write(s.Job().Encode())
		return err
	}, nil},
}

func (s source) options() sheet.Options {
	lines := slices.DeleteFunc(slices.Clone(s.company.Lines), func(l string) bool { return l == "" })
	logo, err := s.company.Picture()
	if err != nil { // none, or one that does not read
		logo = nil
	}
	c := sheet.Company{Name: s.company.Name, Lines: lines, Logo: logo}
	return sheet.Options{Date: s.date, Paper: s.paper, Part: s.part, Company: c, Languages: s.in, Revisions: s.marks}
}

// bookOptions are those of a workbook, which is in one language.
func (s source) bookOptions() workbook.Options {
	return workbook.Options{Date: s.date, Company: s.company.Name, Language: s.in[0]}
}

var (
	errStopped = errors.New("stopped; nothing was written")
	errDraft   = errors.New("a bid that is a draft is not written: see what is missing above")
)

// makeFiles makes the named outputs in memory and says before each which it is.
// It stops at once when the context ends.
func makeFiles(ctx context.Context, s source, names []string, progress func(done int, about string)) (files []wholefile.File, err error) {
	progress(0, "Taking off the quantities")
	e, err := s.Estimate(ctx)
	switch {
	case ctx.Err() != nil:
		return nil, errStopped
	case err != nil:
		return nil, err
	case slices.Contains(names, bidFile) && len(e.Draft(s.date)) > 0:
		return nil, errDraft
	}
	done := 1
	for _, o := range outputs {
		if !slices.Contains(names, o.name) {
			continue
		}
		progress(done, o.about)
		done++
		made, err := guard.Beside(ctx, o.name, func() ([]wholefile.File, error) {
			if o.make == nil {
				return requests(s, e)
			}
			var b bytes.Buffer
			err := o.make(ctx, &b, s)
			return []wholefile.File{{Name: o.name, Data: b.Bytes()}}, err
		})
		switch {
		case ctx.Err() != nil:
			return nil, errStopped
		case err != nil:
			return nil, fmt.Errorf("%s: %w", o.name, err)
		}
		files = append(files, made...)
	}
	if ctx.Err() != nil {
		return nil, errStopped
	}
	return files, nil
}

// requests makes a request for each supplier.
func requests(s source, e estimate.Estimate) (files []wholefile.File, err error) {
	for i, r := range e.Requests() {
		var b bytes.Buffer
		if err := workbook.WriteRequest(&b, s.Handover, r, s.bookOptions()); err != nil {
			return nil, err
		}
		files = append(files, wholefile.File{Name: workbook.RequestName(i, r), Data: b.Bytes()})
	}
	return files, nil
}

// notOwn lists the invented prices that an estimate uses, with what they are.
func notOwn(e estimate.Estimate) []string {
	if !e.Prices.Invented {
		return nil
	}
	var out []string
	labor := false
	for _, l := range e.Lines {
		switch {
		case l.ByOthers || l.Unpriced || l.Kind == estimate.Other:
		case l.Kind == estimate.Labor:
			labor = true
		default:
			if s := fmt.Sprintf("%s: %s per %s", l.Name, e.Money(l.Price), l.Unit); !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	if labor {
		out = append(out, "Wage: "+e.Money(e.Prices.Wage)+" per hour, and the production rates")
	}
	return out
}
