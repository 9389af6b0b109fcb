package plan

import (
	"math"
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

func TestSurveyFaults(t *testing.T) {
	sound := Survey{
		North:      North{Known: true, Turn: -30},
		Benchmarks: []Benchmark{{Name: "BM 1", At: pt(ft, ft), Height: 100 * ft}},
		Notes:      []Note{{Text: "Pipe here", At: pt(0, 0), Leader: true, To: pt(ft, 0)}},
	}
	if fs := sound.Validate(geometry.FeetInches); len(fs) != 0 {
		t.Errorf("a sound survey has faults: %v", fs)
	}
	for _, c := range []struct {
		name   string
		change func(*Survey)
		want   string
	}{
		{"turn", func(s *Survey) { s.North.Turn = 361 }, "north.turn: found 361°"},
		{"no number", func(s *Survey) { s.North.Turn = math.NaN() }, "north.turn"},
		{"no name", func(s *Survey) { s.Benchmarks[0].Name = "" }, "benchmarks[0].name: found no name"},
		{"far away", func(s *Survey) { s.Benchmarks[0].At.X = geometry.MaxLength + 1 }, "benchmarks[0].at"},
		{"high", func(s *Survey) { s.Benchmarks[0].Height = math.MinInt64 }, "benchmarks[0].height"},
		{"no text", func(s *Survey) { s.Notes[0].Text = "" }, "notes[0].text: found 0 letters"},
		{"a book", func(s *Survey) { s.Notes[0].Text = strings.Repeat("x", maxNoteText+1) }, "notes[0].text"},
		{"note far away", func(s *Survey) { s.Notes[0].At.Y = -geometry.MaxLength - 1 }, "notes[0].at"},
		{"leader far away", func(s *Survey) { s.Notes[0].To.Y = math.MinInt64 }, "notes[0].to"},
		{"too many", func(s *Survey) { s.Notes = make([]Note, maxNotes+1) }, "at most 500"},
	} {
		s := sound.Clone()
		c.change(&s)
		if got := s.Validate(geometry.FeetInches).Error(); !strings.Contains(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
	if sound.Benchmarks[0].Name == "" || sound.Notes[0].Text == "" {
		t.Error("a clone shares memory with its original")
	}
}

// Bolts given by the builder stay where they are on the ground when an edge is
// split, joined again, run the other way round, or has its start corner moved.
func TestBoltsStayInPlace(t *testing.T) {
	p := Plan{Outline: Loop{{At: pt(0, 0)}, {At: pt(20*ft, 0)}, {At: pt(20*ft, 10*ft)}, {At: pt(0, 10*ft)}}}
	p, err := p.SetBolts(0, 0, []BoltMark{{Along: 15 * ft, HoldDown: true}, {Along: 2 * ft}})
	if err != nil {
		t.Fatal(err)
	}
	where := func(p Plan) map[geometry.Point]bool {
		at := map[geometry.Point]bool{}
		for i, e := range p.Outline {
			a, b := p.Outline.Ends(i)
			for _, m := range e.Bolts {
				at[geometry.Along(a, b, m.Along)] = m.HoldDown
			}
		}
		return at
	}
	split, err := p.SplitEdge(0, 0, 8*ft)
	if err != nil {
		t.Fatal(err)
	}
	joined, err := split.RemoveCorner(0, 1)
	if err != nil {
		t.Fatal(err)
	}
	moved, err := p.MoveCorner(0, 0, pt(-3*ft, 0))
	if err != nil {
		t.Fatal(err)
	}
	reversed := p.Clone()
	reversed.Outline = p.Outline.Reversed()
	for name, q := range map[string]Plan{"split": split, "joined": joined, "start moved": moved, "reversed": reversed} {
		got := where(q)
		if hold, ok := got[pt(15*ft, 0)]; !ok || !hold || len(got) != 2 {
			t.Errorf("%s: %v", name, got)
		}
		if hold, ok := got[pt(2*ft, 0)]; !ok || hold {
			t.Errorf("%s: %v", name, got)
		}
	}
	if len(split.Outline[0].Bolts) != 1 || len(split.Outline[1].Bolts) != 1 {
		t.Error("each half has its bolt")
	}
}
