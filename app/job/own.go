package job

import (
	"reflect"
	"strings"
)

// Own gives the texts of a job that are the user's own and stay as they are in every
// language: names, notes, and those terms of the bid that are not the usual ones.
func (j Job) Own() []string {
	out := []string{j.Name, j.Customer, j.Site, j.Date, j.Revision, j.Notes, j.Spec.Mix.Notes}
	for _, p := range j.Slabs {
		out = append(out, p.Name)
		for _, s := range p.Sections {
			out = append(out, s.Name)
		}
		for _, h := range p.Holes {
			out = append(out, h.Name)
		}
		for _, d := range p.Pads {
			out = append(out, d.Name)
		}
		for _, e := range p.Embeds {
			out = append(out, e.Name)
		}
		for _, l := range p.Lines {
			out = append(out, l.Name)
		}
		for _, w := range p.Walls {
			out = append(out, w.Name)
		}
		for _, c := range p.Construction {
			out = append(out, c.Name)
		}
		for _, d := range p.Strips {
			out = append(out, d.Name)
		}
		for _, l := range p.Loops() {
			for _, e := range l {
				for _, d := range e.Doors {
					out = append(out, d.Name)
				}
			}
		}
	}
	for _, b := range j.Survey.Benchmarks {
		out = append(out, b.Name)
	}
	for _, n := range j.Survey.Notes {
		out = append(out, n.Text)
	}
	for _, x := range j.Price.Extras {
		out = append(out, x.Name)
	}
	for _, o := range j.Price.Options {
		out = append(out, o.Name)
	}
	for _, t := range j.Price.Terms.Steps {
		out = append(out, t.When)
	}
	for _, h := range j.Holds {
		out = append(out, h.Name, h.Number, h.Note)
	}
	for _, c := range j.Account.Changes {
		out = append(out, c.Title)
	}
	for _, i := range j.Account.Invoices {
		out = append(out, i.For)
	}
	for _, p := range j.Account.Payments {
		out = append(out, p.How)
	}
	for _, p := range j.Account.Papers {
		out = append(out, p.Name, p.Text)
	}
	return append(out, j.ownTerms()...)
}

// ownTerms gives what the user wrote over the usual terms, or beside them.
func (j Job) ownTerms() (out []string) {
	usual := map[string]bool{}
	texts(reflect.ValueOf(NewIn(j.Units).Price.Terms), func(s string) { usual[s] = true })
	texts(reflect.ValueOf(j.Price.Terms), func(s string) {
		if !usual[s] {
			out = append(out, s)
		}
	})
	return out
}

// texts passes on the texts of fields and of lists of them.
func texts(v reflect.Value, pass func(string)) {
	for i := range v.NumField() {
		switch f := v.Field(i).Interface().(type) {
		case string:
			if strings.TrimSpace(f) != "" {
				pass(f)
			}
		case []string:
			for _, s := range f {
				pass(s)
			}
		}
	}
}
