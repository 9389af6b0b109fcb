// Package exchange writes a job for other programs: its takeoff with the place of
// everything, as JSON.
//
// Everything comes from the job's handover; nothing is computed here.
package exchange

import (
	"context"
	"encoding/json"
	"io"
	"slices"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// The shape of takeoff.json.
type (
	takeoffFile struct {
		Program  string        `json:"program"` // that wrote it, with its version
		Job      string        `json:"job"`
		Units    string        `json:"units"`
		Lines    []lineFile    `json:"lines"`
		Findings []findingFile `json:"findings"`
		Day      []findingFile `json:"day"` // of the day of the pour

		Pours []pourFile `json:"pours"` // volumes in the unit of the order

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
	pourFile struct {
		Number int       `json:"number"`
		Day    int       `json:"day"` // from that of the first, which is 1
		Net    float64   `json:"net"`
		Order  float64   `json:"order"`
		Loads  []float64 `json:"loads"`
	}
	findingFile struct {
		Rule     string        `json:"rule"`
		Source   string        `json:"source"`
		Severity rule.Severity `json:"severity"`
		At       *[2]string    `json:"at,omitempty"`   // none of what is found of the day as a whole
		Also     [][2]string   `json:"also,omitempty"` // other places of the same
		Text     string        `json:"text"`
	}
)

// WriteJSON writes the takeoff of a job with the working of every figure, and where
// everything is placed.
func WriteJSON(ctx context.Context, w io.Writer, h *handover.Handover) error {
	t, err := h.Takeoff(ctx)
	if err != nil {
		return err
	}
	e, err := h.Estimate(ctx)
	if err != nil {
		return err
	}
	day, err := h.DayFindings(ctx)
	if err != nil {
		return err
	}
	j := h.Job()
	_, unit := unitOf(j)
	f := takeoffFile{Program: job.Program(), Job: j.Name, Units: j.Units.String(), Lines: []lineFile{}, Findings: findings(j.Units, t.Findings, false), Day: findings(j.Units, day, true),
		Pours: []pourFile{}, LengthUnit: unit, Slabs: placed(j, t), Cutting: cutting(j, t)}
	for _, p := range t.Pours {
		pour := pourFile{Number: p.Number, Day: p.Day, Net: p.Net, Order: p.Order.InexactFloat64(), Loads: []float64{}}
		for _, load := range p.Loads {
			pour.Loads = append(pour.Loads, load.InexactFloat64())
		}
		f.Pours = append(f.Pours, pour)
	}
	for _, l := range slices.Concat(t.Lines, e.Used(t)) {
		line := lineFile{l.ID, string(l.ID.Kind.Group()), l.Name, l.Value, string(l.Unit), []stepFile{}}
		for _, s := range l.Working {
			line.Working = append(line.Working, stepFile{s.Text, s.Work, s.Result, s.Source})
		}
		f.Lines = append(f.Lines, line)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(f)
}

// findings writes findings; some of a day are of no place.
func findings(u geometry.Units, fs []rule.Finding, day bool) []findingFile {
	place := func(p geometry.Point) [2]string { return [2]string{p.X.Exact(u), p.Y.Exact(u)} }
	out := make([]findingFile, len(fs))
	for i, n := range fs {
		also := make([][2]string, len(n.Also))
		for k, p := range n.Also {
			also[k] = place(p)
		}
		out[i] = findingFile{n.Rule.Name, n.Rule.Source, n.Severity, nil, also, n.Text}
		if at := place(n.At); !day || n.At != (geometry.Point{}) {
			out[i].At = &at
		}
	}
	return out
}
