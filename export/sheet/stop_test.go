package sheet

import (
	"bytes"
	"context"
	"errors"
	"testing"
)

// endsAfter is a context that ends when it is looked at once too often.
type endsAfter struct {
	context.Context
	looks *int
}

func (e endsAfter) Err() error {
	if *e.looks--; *e.looks < 0 {
		return context.Canceled
	}
	return nil
}

// Whenever the context of a document ends, its making ends with the error of that, and
// nothing is written; and it is looked at with every plan, topic, way of packing, sheet
// and page.
func TestStop(t *testing.T) {
	h := handed(t, demoJob(t))
	var b bytes.Buffer
	if err := Write(context.Background(), &b, h, Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	whole, stops := b.Len(), 0
	for n := 0; ; n++ {
		if n > 20 && testing.Short() {
			n += 9
		}
		b.Reset()
		looks := n
		err := Write(endsAfter{context.Background(), &looks}, &b, h, Options{Date: fixedDate})
		if err == nil {
			if b.Len() != whole || looks < 0 {
				t.Errorf("after %d looks there are %d bytes of %d", n, b.Len(), whole)
			}
			break
		}
		stops++
		if !errors.Is(err, context.Canceled) || b.Len() > 0 {
			t.Fatalf("stopped at look %d: %v, with %d bytes written", n, err, b.Len())
		}
	}
	if stops < 12 {
		t.Errorf("it is looked at %d times", stops)
	}
}
