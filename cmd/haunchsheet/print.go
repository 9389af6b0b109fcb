package main

import (
	"fmt"
	"io"
	"strconv"
	"text/tabwriter"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// number prints a quantity: whole counts whole, others to two decimals.
func number(v float64) string {
	if v == float64(int64(v)) {
		return strconv.FormatInt(int64(v), 10)
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// printTakeoff prints the quantities by group, and what was found on the way.
func printTakeoff(w io.Writer, name string, t takeoff.Takeoff) {
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
		fmt.Fprintln(w, "-", f.Said())
	}
	fmt.Fprintln(w, "\nAn estimate. Local code and a licensed engineer decide.")
}

// printReasons prints why the bid is a draft.
func printReasons(w io.Writer, reasons []estimate.Reason) {
	for _, r := range reasons {
		fmt.Fprintf(w, "haunchsheet: the bid is a draft: %s: %s\n", r.Path, r.Text)
	}
}
