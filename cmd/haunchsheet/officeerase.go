package main

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
)

// erase deletes a job for good from the office book, and from this book with its backups.
func (o *officeBook) erase(ctx context.Context, job string) (err error) {
	n, err := strconv.ParseUint(strings.TrimLeft(strings.TrimPrefix(strings.ToUpper(job), "J-"), "0"), 10, 32)
	if err != nil {
		return fmt.Errorf("found %q where the number of a job stands; write it as J-0012", job)
	}
	id := storage.ID(n)
	b, err := o.opened(false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	sum, err := b.Summary(id)
	if err != nil {
		return err
	}
	a, _, err := ours(b)
	if err != nil {
		return err
	}
	plan := append([]string{strings.TrimSuffix(fmt.Sprintf("Deletes %v, %s", id, sum.Name), ", ") + ", for good."}, office.ErasePlan()...)
	if ok, err := o.agreed(plan); err != nil || !ok {
		if err == nil {
			fmt.Fprintln(o.out, "Nothing was done.")
		}
		return err
	}
	c, err := office.Connect(ctx, a, office.KeptOr(o.password))
	if err != nil {
		return err
	}
	defer c.Close()
	if err := c.Erase(ctx, b, id); err != nil {
		return err
	}
	done, err := b.Erase(ctx, id)
	if err != nil {
		return err
	}
	fmt.Fprintf(o.out, "Deleted %v in the office book, and from this book and %d backups of it.\n", id, done.Files)
	for _, left := range done.Left {
		fmt.Fprintf(o.out, "! It may still be in a file: %s.\n", office.Sentence(left))
	}
	return nil
}
