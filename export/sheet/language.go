package sheet

import (
	"context"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
)

// own gives the texts of a document that are the user's own and stay as they are.
func own(j job.Job, o Options) []string {
	out := append(j.Own(), o.Company.Name)
	out = append(out, o.Company.Lines...)
	for _, r := range o.Revisions {
		out = append(out, r.Mark, r.Why)
	}
	return out
}

// sets makes the set in each of its languages. Sheets are numbered through all of them.
func sets(ctx context.Context, h *handover.Handover, o Options) ([]*set, error) {
	out, err := unpaged(ctx, h, o)
	before := 0
	for _, s := range out {
		s.before = before
		if err := s.compose(ctx); err != nil {
			return nil, err
		}
		before += len(s.made)
	}
	return out, err
}

// unpaged makes a set in each of its languages, which nothing is set on sheets of yet.
func unpaged(ctx context.Context, h *handover.Handover, o Options) ([]*set, error) {
	var out []*set
	for _, l := range o.languages() {
		s, err := newSet(ctx, h, o)
		if err != nil {
			return nil, err
		}
		s.in, s.say = l, l.Speaker(own(s.job, o))
		out = append(out, s)
	}
	return out, nil
}

// languages gives the languages of a document.
func (o Options) languages() []language.Language {
	if len(o.Languages) == 0 {
		return []language.Language{language.English}
	}
	return o.Languages
}

// speakers gives who speaks each language of a document about a job.
func (o Options) speakers(j job.Job) []*language.Speaker {
	var out []*language.Speaker
	for _, l := range o.languages() {
		out = append(out, l.Speaker(own(j, o)))
	}
	return out
}

// locale gives that of a document of some languages.
func (o Options) locale() string { return o.languages()[0].Locale }

// said says blocks in the set's language, before any is measured.
func (s *set) said(blocks []block) []block {
	if s.say == nil {
		return blocks
	}
	out := make([]block, len(blocks))
	for i, b := range blocks {
		out[i] = s.saidBlock(b)
	}
	return out
}

func (s *set) saidBlock(b block) block {
	more := s.say.Word(goesOn)
	switch v := b.(type) {
	case notes:
		v.title, v.items, v.more = s.say.Say(v.title), s.say.Each(v.items), more
		return v
	case tableBlock:
		rows := make([][]string, len(v.rows))
		for i, r := range v.rows {
			rows[i] = s.say.Each(r)
		}
		v.title, v.head, v.rows, v.more = s.say.Say(v.title), s.words(v.head), rows, more
		return v
	case detailBlock:
		v.title, v.notes = s.say.Say(v.title), s.say.Each(v.notes)
		v.figure.Say(s.say.Say)
		return v
	case figure:
		v.title = s.say.Say(v.title)
		return v
	case legend:
		out := make(legend, len(v))
		for i, e := range v {
			e.text = s.say.Word(e.text)
			out[i] = e
		}
		return out
	case ledger:
		v.title, v.head, v.rows = s.say.Word(v.title), s.words(v.head), s.say.Each(v.rows)
		return v
	case ruled:
		v.title, v.blanks = s.say.Word(v.title), s.words(v.blanks)
		return v
	case keyBlock:
		v.title = s.say.Say(v.title)
		return v
	case cutDiagram:
		v.text, v.parts = s.say.Say(v.text), map[float64][]string{}
		return v
	case pile:
		return pile(s.said(v))
	}
	return b
}

// words says texts of the program's own.
func (s *set) words(texts []string) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = s.say.Word(t)
	}
	return out
}
