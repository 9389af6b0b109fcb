// Command haunchsheet reads job files and writes their printed sheets, materials
// workbooks and takeoffs, without a window.
//
//	haunchsheet [flags] [JOB.json ...]
//	haunchsheet office init|sync|status|leave|drop
//
// With - it reads standard input, without a file the built-in demo job. It exits
// with 0 when all is written, 1 when a job or the disk is at fault, 2 for a wrong
// command line, 3 when all is written and a bid is a draft though its prices are not
// the built-in ones, and with -strict also 3 for any draft and 4 for a severe finding.
package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/guard"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/assets/notices"
	"haunchbook.example/export/exchange"
	"haunchbook.example/export/sheet"
	"haunchbook.example/export/workbook"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/storage/wholefile"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// Exit codes. Of several jobs the least counts, but for 0.
const (
	atFault  = 1
	misused  = 2
	isDraft  = 3
	isSevere = 4
)

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) > 0 && args[0] == "office" {
		return runOffice(args[1:], stdin, stdout, stderr)
	}
	c, err := parse(args, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return misused
	}
	out := bufio.NewWriter(stdout) // keeps the first error
	if c.version {
		fmt.Fprintln(out, "haunchsheet of "+job.Build())
		return flushed(out, stderr, 0, "")
	}
	if c.notices {
		fmt.Fprint(out, notices.Text())
		return flushed(out, stderr, 0, "")
	}
	o, frost, err := c.options(time.Now())
	if err != nil {
		fmt.Fprintln(stderr, "haunchsheet:", err)
		return misused
	}
	var list *estimate.PriceList
	if c.list != "" {
		p, err := readFile(c.list, estimate.ReadPrices)
		if err != nil {
			report(stderr, "-prices: "+c.list, err)
			return atFault
		}
		list = &p
	}
	var quotes []estimate.Quote
	for _, name := range c.quotes {
		q, err := readFile(name, workbook.ReadQuote)
		if err != nil {
			report(stderr, "-quote: "+name, err)
			return atFault
		}
		quotes = append(quotes, q)
	}
	if len(quotes) > 0 && !c.quiet && !c.json {
		printQuotes(out, estimate.CompareQuotes(quotes))
	}
	files := c.files
	if len(files) == 0 {
		files = []string{""}
	}
	code := 0
	for i, file := range files {
		dir, named := c.out, ""
		if len(files) > 1 {
			dir, named = filepath.Join(c.out, folderOf(file)), file
		}
		r := c.job(file, dir, list, quotes, stdin, o, frost)
		if i > 0 && !c.quiet && !c.json {
			fmt.Fprintln(out)
		}
		if c.json {
			r.writeJSON(out, file)
		} else {
			r.print(out, stderr, named, c)
		}
		if got := r.code(c); got != 0 && (code == 0 || got < code) {
			code = got
		}
	}
	return flushed(out, stderr, code, "; the files are written")
}

// readFile gives what a file holds.
func readFile[T any](name string, parse func([]byte) (T, error)) (v T, err error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return v, err
	}
	return parse(data)
}

// flushed gives the exit code, which is another where standard output takes no more.
func flushed(out *bufio.Writer, stderr io.Writer, code int, besides string) int {
	if err := out.Flush(); err != nil {
		report(stderr, "", fmt.Errorf("standard output: %w%s", err, besides))
		return atFault
	}
	return code
}

// result is what came of one job.
type result struct {
	job      job.Job
	takeoff  takeoff.Takeoff
	day      []rule.Finding // of the day of the pour
	estimate estimate.Estimate
	draft    []estimate.Reason
	dir      string
	written  []string
	err      error
}

// job does all there is to do for one job.
func (c command) job(file, dir string, list *estimate.PriceList, quotes []estimate.Quote, stdin io.Reader, o sheet.Options, frost geometry.Length) (r result) {
	r.dir = dir
	if r.job, r.err = read(file, stdin); r.err != nil {
		return r
	}
	if list != nil {
		r.job.Price.Prices = *list
	}
	if len(quotes) > 0 {
		if len(r.job.Price.Prices.Items) == 0 {
			r.job.Price.Prices = estimate.Starting(r.job.Units)
		}
		r.job.Price.Prices = r.job.Price.Prices.With(quotes, o.Date.Format(time.DateOnly))
	}
	ctx, h := context.Background(), handover.Of(handover.From{Job: r.job, Prices: estimate.Starting(r.job.Units), Frost: frost})
	if r.takeoff, r.err = h.Takeoff(ctx); r.err != nil {
		return r
	}
	if r.estimate, r.err = h.Estimate(ctx); r.err != nil {
		return r
	}
	r.draft = r.estimate.Draft(o.Date)
	names := slices.Concat(fileNames, officeOf(r.job, c.since))
	if len(c.only) > 0 {
		names = slices.DeleteFunc(slices.Concat(fileNames, askedFor, officeFiles), func(n string) bool { return !slices.Contains(c.only, n) })
	}
	var asked []wholefile.File
	if c.requests {
		if asked, r.err = requests(h, r.estimate, o); r.err != nil {
			return r
		}
	}
	if r.err = write(ctx, h, o, c.since, dir, names, asked); r.err == nil {
		r.written = slices.Clone(names)
		for _, f := range asked {
			r.written = append(r.written, f.Name)
		}
		r.day, r.err = h.DayFindings(ctx) // the plan of the pour was made beside other files
	}
	return r
}

// bookOptions are those of a workbook, which is in the first of the languages.
func bookOptions(o sheet.Options) workbook.Options {
	b := workbook.Options{Date: o.Date, Company: o.Company.Name}
	if len(o.Languages) > 0 {
		b.Language = o.Languages[0]
	}
	return b
}

// requests makes a material request for each supplier.
func requests(h *handover.Handover, e estimate.Estimate, o sheet.Options) ([]wholefile.File, error) {
	var files []wholefile.File
	for i, r := range e.Requests() {
		var b bytes.Buffer
		if err := workbook.WriteRequest(&b, h, r, bookOptions(o)); err != nil {
			return nil, err
		}
		files = append(files, wholefile.File{Name: workbook.RequestName(i, r), Data: b.Bytes()})
	}
	return files, nil
}

// code gives the exit code of a job. That the built-in prices are invented fails
// nothing by itself: nobody takes what they make for an offer.
func (r result) code(c command) int {
	switch {
	case r.err != nil:
		return atFault
	case r.failsAsDraft(c):
		return isDraft
	case c.strict && slices.ContainsFunc(r.findings(), func(f rule.Finding) bool { return f.Severity == rule.Severe }):
		return isSevere
	}
	return 0
}

// findings gives all that was found, that of the day of the pour last.
func (r result) findings() []rule.Finding { return slices.Concat(r.takeoff.Findings, r.day) }

func (r result) failsAsDraft(c command) bool {
	return len(r.draft) > 0 && (c.strict || !r.estimate.Prices.Invented)
}

// read reads the job.
func read(file string, stdin io.Reader) (job.Job, error) {
	var r io.Reader
	switch file {
	case "":
		r = bytes.NewReader(assets.Demo())
	case "-":
		r = stdin
	default:
		f, err := os.Open(file)
		if err != nil {
			return job.Job{}, err
		}
		defer f.Close()
		r = f
	}
	return job.Read(r)
}

var fileNames = []string{"layout.pdf", "bid.pdf", "layout.svg", "layout.dxf", "materials.xlsx", "takeoff.json", "phone.html"}

// askedFor are the files that are written only where they are named.
var askedFor = []string{"how-deep.pdf", "shots.pdf", "tables.zip"}

// write writes the named files, all together or none.
func write(ctx context.Context, h *handover.Handover, o sheet.Options, since, dir string, names []string, asked []wholefile.File) error {
	drawn := sync.OnceValues(func() (sheet.Layout, error) { return sheet.LayOut(ctx, h) })
	layout := func(write func(sheet.Layout, io.Writer) error) func(io.Writer) error {
		return func(w io.Writer) error {
			l, err := drawn()
			if err != nil {
				return err
			}
			return write(l, w)
		}
	}
	makers := map[string]func(io.Writer) error{
		"layout.pdf":   func(w io.Writer) error { return sheet.Write(ctx, w, h, o) },
		"bid.pdf":      func(w io.Writer) error { return sheet.WriteBid(ctx, w, h, o) },
		"how-deep.pdf": func(w io.Writer) error { return sheet.WriteHowDeep(ctx, w, h, o) },
		"shots.pdf":    func(w io.Writer) error { return sheet.WriteShots(ctx, w, h, o) },
		"phone.html":   func(w io.Writer) error { return sheet.WritePhone(ctx, w, h, o, drawn) },
		"tables.zip":   func(w io.Writer) error { return sheet.WriteTables(ctx, w, h, o) },
		"layout.svg":   layout(func(l sheet.Layout, w io.Writer) error { return l.WriteSVG(w) }),
		"layout.dxf":   layout(sheet.Layout.WriteDXF),
		"materials.xlsx": func(w io.Writer) error {
			return workbook.Write(ctx, w, h, bookOptions(o))
		},
		"takeoff.json": func(w io.Writer) error { return exchange.WriteJSON(ctx, w, h) },
	}
	maps.Copy(makers, officeMakers(ctx, h, o, since))
	made, faults := make([]wholefile.File, len(names)), make([]error, len(names))
	all := make([]func(), len(names)) // in order: what takes longest comes first
	for i, name := range names {
		all[i] = func() {
			var b bytes.Buffer
			if err := guard.Try(name, func() error { return makers[name](&b) }); err != nil {
				faults[i] = fmt.Errorf("%s: %w", name, err)
			}
			made[i] = wholefile.File{Name: name, Data: b.Bytes()}
		}
	}
	guard.Each(all...)
	for _, err := range faults {
		if err != nil {
			return err
		}
	}
	files := slices.Concat(asked, made)
	return wholefile.WriteAll(dir, files)
}
