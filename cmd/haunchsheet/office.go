package main

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"time"

	"haunchbook.example/app/account"
	"haunchbook.example/app/calendar"
	"haunchbook.example/app/date"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/revision"
	"haunchbook.example/export/exchange"
	"haunchbook.example/export/sheet"
)

// officeFiles are papers of the office, written where they are named and where the job has
// what they are about.
var officeFiles = []string{"invoices.pdf", "account.csv", "papers.pdf", "change-order.pdf", "pour.ics", "visit.pdf", "photographs.pdf"}

// officeOf gives those that a job has something for; with an earlier state of it also the
// change order.
func officeOf(j job.Job, since string) (names []string) {
	if len(j.Account.Invoices) > 0 {
		names = append(names, "invoices.pdf")
	}
	if !j.Account.Empty() {
		names = append(names, "account.csv")
	}
	if len(j.Account.Papers) > 0 {
		names = append(names, "papers.pdf")
	}
	if j.Pour.Date.Known() {
		names = append(names, "pour.ics")
	}
	if len(j.Visit.Photos) > 0 {
		names = append(names, "photographs.pdf")
	}
	if since != "" {
		names = append(names, "change-order.pdf")
	}
	return names
}

// errNoEarlier tells that nothing is known to set a change order against.
var errNoEarlier = errors.New("an earlier state of the job is needed; name its file with -since")

// errNoDay tells that a job has nothing to stand in a calendar.
var errNoDay = errors.New("the job has no day: set that of its pour, pour.date")

// officeMakers are what writes them.
func officeMakers(ctx context.Context, h *handover.Handover, o sheet.Options, since string) map[string]func(io.Writer) error {
	return map[string]func(io.Writer) error{
		"invoices.pdf":     func(w io.Writer) error { return sheet.WriteInvoices(ctx, w, h, 0, o) },
		"account.csv":      func(w io.Writer) error { return sheet.WriteAccounts(w, []sheet.Kept{{Job: h}}) },
		"papers.pdf":       func(w io.Writer) error { return sheet.WritePapers(ctx, w, h, o) },
		"visit.pdf":        func(w io.Writer) error { return sheet.WriteVisit(ctx, w, h, o) },
		"photographs.pdf":  func(w io.Writer) error { return sheet.WritePhotos(ctx, w, h, o) },
		"pour.ics":         func(w io.Writer) error { return writeDays(ctx, w, h, o) },
		"change-order.pdf": func(w io.Writer) error { return writeChange(ctx, w, h, o, since) },
	}
}

// writeDays writes the pour of a job, and what goes before and after it, for a calendar.
func writeDays(ctx context.Context, w io.Writer, h *handover.Handover, o sheet.Options) error {
	j := h.Job()
	id := fnv.New64a()
	fmt.Fprint(id, j.Name, "\n", j.Site)
	entries, err := calendar.Of(ctx, []calendar.Job{{ID: fmt.Sprintf("%x", id.Sum64()), Handover: h}}, date.Of(1971, time.January, 1), 300*366)
	if err != nil {
		return err
	}
	if len(entries) == 0 { // RFC 5545 has no empty calendar
		return errNoDay
	}
	return exchange.WriteCalendar(w, entries, o.Date)
}

// writeChange writes the change order between an earlier state of a job and this. It is
// the last of its account that is not decided, or else one that is offered here, by as much
// as the bid changes.
func writeChange(ctx context.Context, w io.Writer, h *handover.Handover, o sheet.Options, since string) error {
	if since == "" {
		return errNoEarlier
	}
	before, err := read(since, nil)
	if err != nil {
		return err
	}
	was, is := revision.State{Job: before, Prices: h.Prices()}, revision.State{Job: h.Job(), Prices: h.Prices()}
	if before.Units != h.Units() {
		was.Prices = estimate.Starting(before.Units)
	}
	var c account.Change
	if all := h.Job().Account.Changes; len(all) > 0 && all[len(all)-1].State == account.Open {
		c = all[len(all)-1]
	} else if c, err = handover.Offered(ctx, was, is); err != nil {
		return err
	}
	order, err := h.ChangeOrder(ctx, c, was, is)
	if err != nil {
		return err
	}
	return sheet.WriteChangeOrder(ctx, w, h, order, o)
}
