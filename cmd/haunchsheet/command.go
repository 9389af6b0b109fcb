package main

import (
	"errors"
	"flag"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"haunchbook.example/app/language"
	"haunchbook.example/app/picture"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
)

// command is what the command line asks for.
type command struct {
	files           []string // "-" for standard input; none for the demo job
	out             string
	paper           string
	part            string
	language        string
	firm            string
	lines           []string
	logo            string
	frost           string
	date            string
	list            string   // file of the price list; "" for that of each job
	quotes          []string // files of requests that came back
	requests        bool
	since           string // file of an earlier state of the job; "" for none
	only            []string
	quiet           bool
	json            bool
	strict, version bool
	notices         bool
}

const usage = `usage: haunchsheet [flags] [JOB.json ...]
       haunchsheet office …   the job book and the office book; haunchsheet office -h

Writes layout.pdf, bid.pdf, layout.svg, layout.dxf, materials.xlsx, takeoff.json
and phone.html; of several jobs, those of each to a folder called as its file is.
- reads the job from standard input; without a file the built-in demo job is used.

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
	fs.StringVar(&c.language, "language", language.English.Code, "write what is printed in this `language`, one of "+language.Codes())
	fs.StringVar(&c.paper, "paper", "", "print on this `paper`, one of "+paperNames()+"; chosen to fit if not given")
	fs.StringVar(&c.firm, "company", "", "`name` of the company in the title block")
	fs.Func("line", "a `text` under the company's name; may be given several times", func(s string) error {
		c.lines = append(c.lines, s)
		return nil
	})
	fs.StringVar(&c.logo, "logo", "", "`picture` of the company's sign, PNG or JPEG")
	fs.StringVar(&c.frost, "frost", "", "`depth` that edges should reach at the site, as 36\" or 900 mm")
	fs.StringVar(&c.date, "date", "", "date the files with this `day`, as 2024-04-12, instead of today's")
	fs.StringVar(&c.list, "prices", "", "price with the list in this `file`, instead of that of the job")
	fs.Func("quote", "a material request that came back filled in, a `file`; of several the least price of each thing counts", func(s string) error {
		c.quotes = append(c.quotes, s)
		return nil
	})
	fs.BoolVar(&c.requests, "requests", false, "write a material request for each supplier, without any price, to fill in")
	fs.Func("only", "write these `files` alone, with commas between: bid.pdf,takeoff.json; how-deep.pdf, to talk over with the customer, shots.pdf, to shoot the ground by, tables.zip, every table as CSV, and visit.pdf, to look at the site by, are written only so; invoices.pdf, account.csv, papers.pdf, photographs.pdf and pour.ics also where the job has such records", func(s string) error {
		for _, name := range strings.Split(s, ",") {
			if all := slices.Concat(fileNames, askedFor, officeFiles); !slices.Contains(all, name) {
				return fmt.Errorf("%q is none of them; write some of %s", name, strings.Join(all, ","))
			}
			c.only = append(c.only, name)
		}
		return nil
	})
	fs.StringVar(&c.since, "since", "", "write a change order, change-order.pdf, of what is other than in this `file`, an earlier state of the job")
	fs.BoolVar(&c.quiet, "quiet", false, "print no takeoff")
	fs.BoolVar(&c.json, "json", false, "print what came of each job as a line of JSON, faults too")
	fs.BoolVar(&c.strict, "strict", false, "exit with 3 where a bid is a draft for any reason, with 4 where a finding is severe")
	fs.BoolVar(&c.version, "version", false, "print the version, and do nothing")
	fs.BoolVar(&c.notices, "notices", false, "print the licenses of what the program is made of, and do nothing")
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
		c.files, args = append(c.files, fs.Arg(0)), fs.Args()[1:]
	}
	return c, c.check(stderr)
}

// check refuses what no job could be: a file without a name, and two jobs that would
// write to one folder.
func (c command) check(stderr io.Writer) error {
	seen := map[string]bool{}
	for _, f := range c.files {
		switch name := folderOf(f); {
		case strings.TrimSpace(f) == "":
			fmt.Fprintln(stderr, "haunchsheet: found a file without a name; name a job, - for standard input, or nothing for the demo job")
			return errUsage
		case seen[name]:
			fmt.Fprintf(stderr, "haunchsheet: found two jobs called %q, which would write to one folder; run them one by one\n", name)
			return errUsage
		default:
			seen[name] = true
		}
	}
	return nil
}

// folderOf gives the folder for what is written of one job of several.
func folderOf(file string) string {
	if file == "-" {
		return "standard-input"
	}
	name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	return strings.TrimSuffix(name, ".haunchbook") // as the window names job files
}

// today is the day that files are dated with: SOURCE_DATE_EPOCH, where it is set, so
// that builds can be repeated (reproducible-builds.org, its specification).
func today(now time.Time) (time.Time, error) {
	epoch, ok := os.LookupEnv("SOURCE_DATE_EPOCH")
	if !ok {
		return now, nil
	}
	n, err := strconv.ParseInt(epoch, 10, 64)
	if err != nil || n < 0 || n > lastEpoch {
		return now, fmt.Errorf("SOURCE_DATE_EPOCH: found %q; write seconds since the start of 1970, such as 1712880000", epoch)
	}
	return time.Unix(n, 0).UTC(), nil
}

// lastEpoch is the end of the year 9999.
const lastEpoch = 253402300799

// options turns the flags into options of the sheets, and the frost depth.
func (c command) options(now time.Time) (o sheet.Options, frost geometry.Length, err error) {
	now, err = today(now)
	if err != nil {
		return o, 0, err
	}
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
	if c.language != "" {
		if o.Languages, err = language.Chosen(c.language); err != nil {
			return o, 0, fmt.Errorf("-language: %v", err)
		}
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
