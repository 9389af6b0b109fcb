// Command haunchsheet reads a job file and writes its printed sheets, its
// materials workbook and its takeoff, without a window.
//
//	haunchsheet [flags] [JOB.json]
//
// With - it reads standard input, without a file the built-in demo job. It exits
// with 0 when all is written, 1 when the job or the disk is at fault, 2 for a wrong
// command line, and 3 when all is written and the bid is a draft.
package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"image"
	"io"
	"os"
	"strings"
	"time"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/assets"
	"haunchbook.example/export/exchange"
	"haunchbook.example/export/sheet"
	"haunchbook.example/export/workbook"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage/wholefile"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// command is what the command line asks for.
type command struct {
	file  string // "-" for standard input, "" for the demo job
	out   string
	paper string
	part  string
	firm  string
	lines []string
	logo  string
	frost string
	date  string
	quiet bool
}

const usage = `usage: haunchsheet [flags] [JOB.json]

Writes layout.pdf, bid.pdf, layout.svg, layout.dxf, materials.xlsx and
takeoff.json. - reads the job from standard input; without a file the built-in
demo job is used.

`

// errUsage is a wrong command line that has been reported.
var errUsage = errors.New("usage")

// parse reads the command line; flags may stand before and after the file.
func parse(args []string, stderr io.Writer) (command, error) {
	var c command
	fs := flag.NewFlagSet("haunchsheet", flag.ContinueOnError)
	fs.SetOutput(stderr)
	fs.Usage = func() {
		fmt.Fprint(stderr, usage)
		fs.PrintDefaults()
	}
	fs.StringVar(&c.out, "out", ".", "write the files to this `folder`, made if it is missing")
	fs.StringVar(&c.part, "sheets", sheet.Whole.String(), "print this `part` of the set, one of "+strings.Join(sheet.Whole.Choices(), ", "))
	fs.StringVar(&c.paper, "paper", "", "print on this `paper`, one of "+paperNames()+"; chosen to fit if not given")
	fs.StringVar(&c.firm, "company", "", "`name` of the company in the title block")
	fs.Func("line", "a `text` under the company's name; may be given several times", func(s string) error {
		c.lines = append(c.lines, s)
		return nil
	})
	fs.StringVar(&c.logo, "logo", "", "`picture` of the company's sign, PNG or JPEG")
	fs.StringVar(&c.frost, "frost", "", "`depth` that edges should reach at the site, as 36\" or 900 mm")
	fs.StringVar(&c.date, "date", "", "date the files with this `day`, as 2024-04-12, instead of today's")
	fs.BoolVar(&c.quiet, "quiet", false, "print no takeoff")
	var files []string
	for len(args) > 0 {
		if err := fs.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return c, err
			}
			return c, errUsage
		}
		if fs.NArg() == 0 {
			break
		}
		files, args = append(files, fs.Arg(0)), fs.Args()[1:]
	}
	if len(files) > 1 {
		fmt.Fprintf(stderr, "haunchsheet: found %d files; name one\n", len(files))
		return c, errUsage
	}
	if len(files) == 1 {
		c.file = files[0]
	}
	return c, nil
}

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, err := parse(args, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return 0
	case err != nil:
		return 2
	}
	o, frost, err := c.options(time.Now())
	if err != nil {
		fmt.Fprintln(stderr, "haunchsheet:", err)
		return 2
	}
	j, err := c.read(stdin)
	if err != nil {
		report(stderr, err)
		return 1
	}
	ctx, h := context.Background(), handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units), Frost: frost})
	t, err := h.Takeoff(ctx)
	if err != nil {
		report(stderr, err)
		return 1
	}
	if err := c.write(ctx, h, o); err != nil {
		report(stderr, err)
		return 1
	}
	e, err := h.Estimate(ctx)
	if err != nil {
		report(stderr, err)
		return 1
	}
	reasons, code := e.Draft(o.Date), 0
	if len(reasons) > 0 && !e.Prices.Invented { // nobody takes what the built-in prices make for an offer
		code = isDraft
		printReasons(stderr, reasons)
	}
	if c.quiet {
		return code
	}
	out := bufio.NewWriter(stdout) // keeps the first error
	printTakeoff(out, j.Name, t)
	if code == 0 {
		printReasons(out, reasons)
	}
	fmt.Fprintf(out, "\nwritten to %s: %s\n", c.out, strings.Join(fileNames, " "))
	if err := out.Flush(); err != nil {
		report(stderr, fmt.Errorf("standard output: %w; the files are written", err))
		return 1
	}
	return code
}

// isDraft is the exit code where the bid is a draft.
const isDraft = 3

// report prints each fault on a line of its own.
func report(w io.Writer, err error) {
	var faults plan.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			fmt.Fprintln(w, "haunchsheet:", f)
		}
		return
	}
	fmt.Fprintln(w, "haunchsheet:", err)
}

// options turns the flags into options of the sheets, and the frost depth.
func (c command) options(now time.Time) (o sheet.Options, frost geometry.Length, err error) {
	o = sheet.Options{Date: now, Company: sheet.Company{Name: c.firm, Lines: c.lines}}
	if c.logo != "" {
		img, err := readPicture(c.logo)
		if err != nil {
			return o, 0, fmt.Errorf("-logo: %s: %v; name a PNG or JPEG picture", c.logo, err)
		}
		o.Company.Logo = img
	}
	if c.frost != "" {
		frost, err = geometry.ParseWritten(c.frost)
		if err != nil || frost < 0 {
			return o, 0, fmt.Errorf("-frost: found %q; write a depth with its unit, such as 36\" or 900 mm", c.frost)
		}
	}
	if c.date != "" {
		day, err := time.Parse(time.DateOnly, c.date)
		if err != nil {
			return o, 0, fmt.Errorf("-date: found %q; write a day such as 2024-04-12", c.date)
		}
		o.Date = day
	}
	if err := o.Part.UnmarshalText([]byte(c.part)); err != nil {
		return o, 0, fmt.Errorf("-sheets: found %q; %v", c.part, err)
	}
	if c.paper != "" {
		p, ok := sheet.PaperNamed(c.paper)
		if !ok {
			return o, 0, fmt.Errorf("-paper: found %q; write one of %s", c.paper, paperNames())
		}
		o.Paper = p
	}
	return o, frost, nil
}

// readPicture reads an image file.
func readPicture(name string) (image.Image, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := picture.Load(f)
	if err != nil {
		return nil, err
	}
	return picture.Read(data)
}

// paperNames lists the papers as they are typed.
func paperNames() string {
	var names []string
	for _, p := range sheet.AllPapers() {
		names = append(names, strings.ToLower(strings.ReplaceAll(p.Name, " ", "")))
	}
	return strings.Join(names, ", ")
}

// read reads the job.
func (c command) read(stdin io.Reader) (job.Job, error) {
	var r io.Reader
	switch c.file {
	case "":
		r = bytes.NewReader(assets.Demo())
	case "-":
		r = stdin
	default:
		f, err := os.Open(c.file)
		if err != nil {
			return job.Job{}, err
		}
		defer f.Close()
		r = f
	}
	return job.Read(r)
}

var fileNames = []string{"layout.pdf", "bid.pdf", "layout.svg", "layout.dxf", "materials.xlsx", "takeoff.json"}

// write writes the files, all together or none.
func (c command) write(ctx context.Context, h *handover.Handover, o sheet.Options) error {
	makers := map[string]func(io.Writer) error{
		"layout.pdf": func(w io.Writer) error { return sheet.Write(ctx, w, h, o) },
		"bid.pdf":    func(w io.Writer) error { return sheet.WriteBid(ctx, w, h, o) },
		"layout.svg": func(w io.Writer) error { return sheet.WriteSVG(ctx, w, h) },
		"layout.dxf": func(w io.Writer) error { return sheet.WriteDXF(ctx, w, h) },
		"materials.xlsx": func(w io.Writer) error {
			return workbook.Write(ctx, w, h, workbook.Options{Date: o.Date, Company: o.Company.Name})
		},
		"takeoff.json": func(w io.Writer) error { return exchange.WriteJSON(ctx, w, h) },
	}
	var files []wholefile.File
	for _, name := range fileNames {
		var b bytes.Buffer
		if err := makers[name](&b); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		files = append(files, wholefile.File{Name: name, Data: b.Bytes()})
	}
	return wholefile.WriteAll(c.out, files)
}
