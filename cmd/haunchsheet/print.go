package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// print prints what came of a job: faults and why its bid fails to be one to errs,
// the rest to out. A job among several is named.
func (r result) print(out, errs io.Writer, named string, c command) {
	if r.err != nil {
		report(errs, named, r.err)
		return
	}
	if r.failsAsDraft(c) {
		printReasons(errs, named, r.draft)
	}
	if c.quiet {
		return
	}
	printTakeoff(out, r.job.Name, r.takeoff, r.day)
	printMoney(out, r.estimate)
	if !r.failsAsDraft(c) {
		printReasons(out, named, r.draft)
	}
	fmt.Fprintf(out, "\nwritten to %s: %s\n", r.dir, strings.Join(r.written, " "))
}

// report prints each fault on a line of its own.
func report(w io.Writer, named string, err error) {
	start := "haunchsheet: "
	if named != "" {
		start += named + ": "
	}
	var faults plan.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			fmt.Fprintf(w, "%s%v\n", start, f)
		}
		return
	}
	fmt.Fprintf(w, "%s%v\n", start, err)
}

// printMoney prints how the bid comes about.
func printMoney(w io.Writer, e estimate.Estimate) {
	fmt.Fprintln(w, "\nMoney")
	tw := tabwriter.NewWriter(w, 0, 0, 1, ' ', tabwriter.AlignRight)
	for _, a := range amounts(e) {
		fmt.Fprintf(tw, "%s\t  %s\n", e.Money(a.of), a.name)
	}
	tw.Flush()
	fmt.Fprintln(w)
}

type amount struct {
	name string
	of   decimal.Decimal
}

func amounts(e estimate.Estimate) []amount {
	return []amount{
		{"materials", e.Materials}, {"labor", e.Labor}, {"fees and equipment", e.Fees}, {"extras", e.Extras}, {"cost", e.Cost},
		{"overhead", e.Overhead}, {"profit", e.Profit}, {"price before tax", e.Price}, {"tax", e.Tax}, {"bid", e.Bid},
	}
}

// writeJSON prints what came of a job as one line of JSON. Lengths are written as in
// a job file, money as text, so that it stays exact.
func (r result) writeJSON(w io.Writer, file string) {
	type fault struct {
		Path  string `json:"path,omitempty"`
		Found string `json:"found,omitempty"`
		Want  string `json:"want"`
	}
	type finding struct {
		Severity string    `json:"severity"`
		Text     string    `json:"text"`
		Source   string    `json:"source"`
		At       [2]string `json:"at"` // right and up
	}
	type reason struct {
		Path string `json:"path"`
		Text string `json:"text"`
	}
	line := struct {
		File     string            `json:"file"`
		Name     string            `json:"name,omitempty"`
		Faults   []fault           `json:"faults"`
		Findings []finding         `json:"findings"`
		Draft    []reason          `json:"draft"`
		Currency string            `json:"currency,omitempty"`
		Money    map[string]string `json:"money,omitempty"`
		Written  []string          `json:"written"`
		Folder   string            `json:"folder,omitempty"`
	}{File: file, Name: r.job.Name, Faults: []fault{}, Findings: []finding{}, Draft: []reason{}, Written: []string{}}
	var faults plan.Faults
	switch {
	case errors.As(r.err, &faults):
		for _, f := range faults {
			line.Faults = append(line.Faults, fault{f.Path, f.Found, f.Want})
		}
	case r.err != nil:
		line.Faults = append(line.Faults, fault{Want: r.err.Error()})
	default:
		line.Currency, line.Money, line.Folder, line.Written = r.estimate.Prices.Currency, map[string]string{}, r.dir, r.written
		for _, a := range amounts(r.estimate) {
			line.Money[a.name] = a.of.StringFixed(2)
		}
		for _, f := range r.findings() {
			at := [2]string{f.At.X.Exact(r.job.Units), f.At.Y.Exact(r.job.Units)}
			line.Findings = append(line.Findings, finding{f.Severity.String(), f.Text, f.Rule.Source, at})
		}
		for _, d := range r.draft {
			line.Draft = append(line.Draft, reason(d))
		}
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(line); err != nil {
		panic(err) // plain data; the writer keeps its errors
	}
}

// number prints a quantity: whole counts whole, others to two decimals.
func number(v float64) string {
	if v == float64(int64(v)) {
		return strconv.FormatInt(int64(v), 10)
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// printTakeoff prints the quantities by group, and what was found on the way.
func printTakeoff(w io.Writer, name string, t takeoff.Takeoff, day []rule.Finding) {
	fmt.Fprintln(w, name)
	tw := tabwriter.NewWriter(w, 0, 0, 1, ' ', tabwriter.AlignRight)
	group := takeoff.Group("")
	for _, l := range t.Lines {
		if g := l.ID.Kind.Group(); g != group {
			group = g
			tw.Flush()
			fmt.Fprintf(w, "\n%s\n", group)
		}
		fmt.Fprintf(tw, "%s\t %s\t  %s\n", number(l.Value), l.Unit, l.Name)
	}
	tw.Flush()
	if len(t.Findings) > 0 {
		fmt.Fprintln(w, "\nTo check")
	}
	for _, f := range t.Findings {
		fmt.Fprintf(w, "- %s [at %s, %s]\n", f.Said(), f.At.X.Text(t.Units), f.At.Y.Text(t.Units))
	}
	if len(day) > 0 {
		fmt.Fprintln(w, "\nThe day of the pour")
	}
	for _, f := range day {
		fmt.Fprintf(w, "- %s\n", f.Said())
	}
	fmt.Fprintln(w, "\nAn estimate. Local code and a licensed engineer decide.")
}

// printQuotes prints what was offered for each thing, the least marked.
func printQuotes(w io.Writer, compared []estimate.Compared) {
	fmt.Fprintln(w, "Quotes")
	for _, c := range compared {
		fmt.Fprintf(w, "%s %s  %s\n", c.Quantity, c.Unit, c.Name)
		for i, o := range c.Offers {
			mark := " "
			if i == c.Least {
				mark = "*"
			}
			line := fmt.Sprintf("  %s %s: %s", mark, o.Supplier, o.Price)
			if o.Price.Set {
				line += " each, " + o.Extended.StringFixed(2)
			}
			if o.Lead != "" {
				line += "; " + o.Lead
			}
			if o.Substitute != "" {
				line += "; instead: " + o.Substitute
			}
			fmt.Fprintln(w, line)
		}
	}
	fmt.Fprintln(w)
}

// printReasons prints why the bid is a draft.
func printReasons(w io.Writer, named string, reasons []estimate.Reason) {
	if named != "" {
		named += ": "
	}
	for _, r := range reasons {
		fmt.Fprintf(w, "haunchsheet: %sthe bid is a draft: %s: %s\n", named, r.Path, r.Text)
	}
}
