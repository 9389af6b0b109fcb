package office_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/storage/office"
)

// check holds books and office book against the model, and the books against each other.
func (s *sim) check() {
	t := s.t
	first := s.state(s.people[0])
	for _, p := range s.people[1:] {
		got := s.state(p)
		for k, v := range first {
			if strings.HasPrefix(k, "money ") && !p.seesIt {
				continue
			}
			if got[k] != v {
				t.Errorf("%s and ed differ in %s:\n%s\n%s", p.name, k, got[k], v)
			}
		}
		for k := range got {
			if _, ok := first[k]; !ok {
				t.Errorf("%s has %s, and ed has not", p.name, k)
			}
		}
	}
	ed := s.people[0]
	for _, sum := range must(ed.book.List())(t) {
		j := must(ed.book.Get(sum.ID))(t)
		r, _, _ := ed.book.Record(sum.ID)
		for field, got := range map[string]string{
			"ed": j.Customer, "eve": j.Site, "frank": j.Spec.Mix.Notes, "money": fmt.Sprint(j.Price.Extras),
			"record ed": r.Weather, "record frank": strconv.Itoa(r.Trucks),
			"olga": fmt.Sprint(j.Account.Papers),
		} {
			if want, ok := s.model.own[j.Name+"/"+field]; ok && got != want && !strings.Contains(got, want) {
				t.Errorf("%s, %s: %q, and the last that was written is %q", j.Name, field, got, want)
			}
		}
	}
	all := office.Texts(ed.conn)
	for _, p := range s.people {
		all = append(all, s.history(p)...)
	}
	for _, text := range s.model.fights {
		if !slices.ContainsFunc(all, func(state string) bool { return strings.Contains(state, text) }) {
			t.Errorf("%s is nowhere", text)
		}
	}
	var notes []string
	for _, sum := range must(ed.book.List())(t) {
		for _, r := range must(ed.book.Revisions(sum.ID))(t) {
			notes = append(notes, r.Note)
		}
	}
	for _, n := range s.model.notes {
		if !slices.ContainsFunc(notes, func(s string) bool { return strings.HasPrefix(s, n) }) {
			t.Errorf("revision %s is nowhere", n)
		}
	}
	var wages []int64
	for _, v := range must(ed.book.PriceHistory(geometry.FeetInches))(t) {
		wages = append(wages, v.List.Wage.IntPart())
	}
	for _, w := range s.model.wages {
		if !slices.Contains(wages, w) {
			t.Errorf("the price list with a wage of %d is nowhere", w)
		}
	}
}

// history gives what somebody wrote in the jobs of fights, as his undo history has it.
func (s *sim) history(p *one) (out []string) {
	for _, sum := range must(p.book.List())(s.t) {
		if !s.model.fighted[sum.Name] {
			continue
		}
		h := must(p.book.History(sum.ID))(s.t)
		for _, e := range append(h.Done, h.Undone...) {
			out = append(out, must(p.book.After(sum.ID, e.Number))(s.t).Notes)
		}
	}
	return out
}

// state gives all that a book holds, by what it is.
func (s *sim) state(p *one) map[string]string {
	out := map[string]string{}
	for _, sum := range must(p.book.List())(s.t) {
		j := must(p.book.Get(sum.ID))(s.t)
		out["job "+j.Name] = string(open(j).Encode())
		out["money "+j.Name] = string(j.Money())
		out["state "+j.Name] = sum.State.String()
		r, ok, err := p.book.Record(sum.ID)
		if err != nil {
			s.t.Fatal(err)
		}
		r.Invoices = nil
		out["record "+j.Name] = fmt.Sprint(ok, r)
		for _, rev := range must(p.book.Revisions(sum.ID))(s.t) {
			was := must(p.book.Revision(sum.ID, rev.Number))(s.t)
			note, _, _ := strings.Cut(rev.Note, " (") // who made it has no name in it
			at := fmt.Sprintf("revision %d of %s", rev.Number, j.Name)
			out[at] = string(open(was).Encode())
			out["money "+at] = note + string(was.Money()) // a note with figures is money too
		}
	}
	if err := p.book.Verify(); err != nil {
		s.t.Error(err)
	}
	if p.seesIt {
		for _, v := range must(p.book.PriceHistory(geometry.FeetInches))(s.t) {
			out[fmt.Sprintf("money list %d", v.Number)] = v.List.Wage.String()
		}
	}
	return out
}
