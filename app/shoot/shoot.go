// Package shoot is how the ground is measured with a laser or a level and a rod: readings
// become heights over the datum, and one that cannot be is asked about.
package shoot

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// Spec is how a job's ground is measured, and what a wrong order costs; zeros stand for
// the program's own figures.
type Spec struct {
	Instrument geometry.Length `json:"instrument,omitzero"` // height of the instrument over the datum
	Accuracy   decimal.Decimal `json:"accuracy,omitzero"`   // percent of the concrete
	Short      decimal.Decimal `json:"short,omitzero"`      // amount, once
	Left       decimal.Decimal `json:"left,omitzero"`       // amount, of each yd³ or m³
	Lost       decimal.Decimal `json:"lost,omitzero"`       // percent lost beyond the measured ground on average, where Stray is given
	Stray      decimal.Decimal `json:"stray,omitzero"`      // its standard deviation
	Gravel     decimal.Decimal `json:"gravel,omitzero"`     // in hand, loose, yd³ or m³
}

// Level is an instrument that stands somewhere, once the rod was read on a known height.
type Level struct {
	Height geometry.Length // over the datum
}

// On gives the level after the rod was read on a known height: a benchmark, or a turning
// point before and after the instrument was moved.
func On(known, reading geometry.Length) Level { return Level{known + reading} }

// Ground gives the height of what the rod stands on.
func (l Level) Ground(reading geometry.Length) geometry.Length { return l.Height - reading }

// Reading gives what is read on a height.
func (l Level) Reading(height geometry.Length) geometry.Length { return l.Height - height }

// How far ground may lie off before somebody is asked: own figures. Fine grading leaves
// 3/4 in (ACI 117-10, 4.4.5).
const (
	odd   = 3 * geometry.Inch
	close = geometry.Inch // of a slip to what it looks like
)

// Ask says what is odd about ground that was measured at a height where another was
// planned; "" for nothing.
func Ask(planned, measured geometry.Length, u geometry.Units) string {
	off := measured - planned
	if off.Abs() <= odd {
		return ""
	}
	side := "above"
	if off < 0 {
		side = "below"
	}
	said := fmt.Sprintf("the ground would lie %s %s what is planned", off.Abs().Text(u), side)
	about := func(l geometry.Length) bool { return (off.Abs() - l).Abs() <= close }
	switch {
	case (measured+planned).Abs() <= close && planned.Abs() > odd:
		return said + ": is the sign wrong?"
	case u == geometry.FeetInches && about(geometry.Foot):
		return said + ": off by a foot?"
	case about(100 * geometry.Millimeter):
		return said + ": off by 100 mm?"
	case about(geometry.Meter):
		return said + ": off by a meter?"
	case off.Abs() > 3*geometry.Foot:
		return said + ": was another height read, or the rod held somewhere else?"
	}
	return said + ": is that so?"
}

// Row is a line of a file of readings: the place by its number on the page of shots, or by
// where it lies, and the reading or the height.
type Row struct {
	Number int // from 1; 0 for a place by where it lies
	At     geometry.Point
	Value  geometry.Length
	Height bool // the value is a height over the datum, not a reading
	Over   bool // and one over the benchmark
}

// ReadCSV reads readings. The first line names the columns: point and reading, or x, y and
// height, in any order; over, in the place of height, is a height over the benchmark; lengths are written as everywhere, bare numbers count in inches or
// millimeters. The error names the line.
func ReadCSV(r io.Reader, u geometry.Units) ([]Row, error) {
	in := csv.NewReader(io.LimitReader(r, 1<<20))
	in.TrimLeadingSpace, in.FieldsPerRecord, in.LazyQuotes = true, -1, true
	head, err := in.Read()
	if err != nil {
		return nil, errors.New("found no line of names; begin with point,reading or with x,y,height")
	}
	column := map[string]int{}
	for i, name := range head {
		column[strings.ToLower(strings.TrimSpace(strings.TrimPrefix(name, "\ufeff")))] = i
	}
	value, height, over := column["reading"], false, false
	if h, ok := column["height"]; ok {
		value, height = h, true
	} else if h, ok := column["over"]; ok {
		value, height, over = h, true, true
	} else if _, ok := column["reading"]; !ok {
		return nil, errors.New("found no column reading, height or over; begin with point,reading or with x,y,height")
	}
	_, hasX := column["x"]
	_, hasY := column["y"]
	_, numbered := column["point"]
	if !numbered && (!hasX || !hasY) {
		return nil, errors.New("found no place; give a column point, or columns x and y")
	}
	var out []Row
	for line := 2; ; line++ {
		cells, err := in.Read()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", line, err)
		}
		length := func(name string, at int) geometry.Length {
			if err != nil {
				return 0
			}
			if at >= len(cells) {
				err = fmt.Errorf("line %d: found no %s", line, name)
				return 0
			}
			var l geometry.Length
			if l, err = geometry.ParseLength(strings.TrimSpace(cells[at]), u.Inch()); err != nil {
				err = fmt.Errorf("line %d, %s: %w", line, name, err)
			}
			return l
		}
		if len(cells) <= value || strings.TrimSpace(cells[value]) == "" {
			continue // not read
		}
		row := Row{Height: height, Over: over, Value: length(head[value], value)}
		if numbered {
			text := ""
			if at := column["point"]; at < len(cells) {
				text = strings.TrimSpace(cells[at])
			}
			n, bad := strconv.Atoi(text)
			if bad != nil || n < 1 {
				return nil, fmt.Errorf("line %d: found point %q; write its number on the page of shots", line, text)
			}
			row.Number = n
		} else {
			row.At = geometry.Point{X: length("x", column["x"]), Y: length("y", column["y"])}
		}
		if err != nil {
			return nil, err
		}
		if len(out) == 2000 {
			return nil, errors.New("found more than 2000 readings; leave some out")
		}
		out = append(out, row)
	}
}
