package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"text/tabwriter"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/layout/rule"
)

// number prints a quantity: whole counts whole, others to two decimals.
func number(v float64) string {
	if v == float64(int64(v)) {
		return strconv.FormatInt(int64(v), 10)
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// printTakeoff prints the quantities by group, and what was found on the way.
func printTakeoff(w io.Writer, j job.Job, t takeoff.Takeoff) {
	fmt.Fprintln(w, j.Name)
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
		mark := "-"
		if f.Broken() {
			mark = "!"
		}
		fmt.Fprintf(w, "%s %s (%s)\n", mark, f.Text, f.Rule.Source)
	}
	fmt.Fprintln(w, "\nAn estimate. Local code and a licensed engineer decide.")
}

// The shape of takeoff.json.
type (
	takeoffFile struct {
		Job      string        `json:"job"`
		Units    string        `json:"units"`
		Lines    []lineFile    `json:"lines"`
		Findings []findingFile `json:"findings"`

		LengthUnit string       `json:"lengthunit"` // of what follows
		Slabs      []placedFile `json:"slabs"`
		Cutting    []stockFile  `json:"cutting"`
	}
	lineFile struct {
		What    takeoff.ID `json:"what"`
		Group   string     `json:"group"`
		Name    string     `json:"name"`
		Value   float64    `json:"value"`
		Unit    string     `json:"unit"`
		Working []stepFile `json:"working"`
	}
	stepFile struct {
		Text   string `json:"text"`
		Work   string `json:"work,omitempty"`
		Result string `json:"result,omitempty"`
		Source string `json:"source,omitempty"`
	}
	findingFile struct {
		Rule     string        `json:"rule"`
		Source   string        `json:"source"`
		Severity rule.Severity `json:"severity"`
		At       [2]string     `json:"at"`
		Text     string        `json:"text"`
	}
)

// writeJSON writes the takeoff with the working of every figure, and where everything
// is placed.
func writeJSON(w io.Writer, j job.Job, t takeoff.Takeoff) error {
	_, unit := unitOf(j)
	f := takeoffFile{Job: j.Name, Units: j.Units.String(), Lines: []lineFile{}, Findings: []findingFile{},
		LengthUnit: unit, Slabs: placed(j, t), Cutting: cutting(j, t)}
	for _, l := range t.Lines {
		line := lineFile{l.ID, string(l.ID.Kind.Group()), l.Name, l.Value, string(l.Unit), []stepFile{}}
		for _, s := range l.Working {
			line.Working = append(line.Working, stepFile{s.Text, s.Work, s.Result, s.Source})
		}
		f.Lines = append(f.Lines, line)
	}
	for _, n := range t.Findings {
		f.Findings = append(f.Findings, findingFile{n.Rule.Name, n.Rule.Source, n.Severity,
			[2]string{n.At.X.Exact(j.Units), n.At.Y.Exact(j.Units)}, n.Text})
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(f)
}
