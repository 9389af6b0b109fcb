package office

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"time"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// What goes over the wire is a job file in two parts, packed: the open one, and money.

// mostBytes bounds what is unpacked: the server may hold anything.
const mostBytes = 64 << 20

func pack(b []byte) []byte {
	var buf bytes.Buffer
	w, err := flate.NewWriter(&buf, flate.BestSpeed)
	if err != nil {
		panic(err) // the level is a constant
	}
	_, _ = w.Write(b) // a buffer takes everything
	_ = w.Close()
	return buf.Bytes()
}

func unpack(b []byte) ([]byte, error) {
	out, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(b)), mostBytes+1))
	if err == nil && len(out) > mostBytes {
		err = errors.New("it is larger than 64 MB")
	}
	return out, err
}

// readKept reads a kept job file. Faults of its plan are no error.
func readKept(data []byte) (job.Job, error) {
	j, err := job.Read(bytes.NewReader(data))
	var faults plan.Faults
	if errors.As(err, &faults) {
		err = nil
	}
	return j, err
}

// openOf gives a kept job file without its money.
func openOf(data []byte) ([]byte, error) {
	j, err := readKept(data)
	return withoutMoney(j).Encode(), err
}

func withoutMoney(j job.Job) job.Job { return j.WithMoney(job.NewIn(j.Units)) }

// joined puts the parts of a job together; money nil takes that of the job was.
func joined(open, money, was []byte) ([]byte, error) {
	text, err := unpack(open)
	if err != nil {
		return nil, err
	}
	j, err := readKept(text)
	if err != nil {
		return nil, err
	}
	with := job.NewIn(j.Units)
	if money != nil {
		if was, err = unpack(money); err != nil {
			return nil, err
		}
	}
	if was != nil {
		if with, err = readKept(was); err != nil {
			return nil, err
		}
	}
	return j.WithMoney(with).Encode(), nil
}

// course puts the edits of one job together, one after the other. The money that stands is
// read once, however many edits leave it as it is.
type course struct {
	kept  storage.Kept
	money *job.Job // nil for none
}

// courseOf begins after a job as it was kept.
func courseOf(k storage.Kept) (course, error) {
	c := course{kept: k}
	if k.Data == nil {
		return c, nil
	}
	j, err := readKept(k.Data)
	c.money = &j
	return c, err
}

// join puts the parts of a job together; money nil takes that of the edit before.
func (c *course) join(open, money []byte) ([]byte, error) {
	text, err := unpack(open)
	if err != nil {
		return nil, err
	}
	j, err := readKept(text)
	if err != nil {
		return nil, err
	}
	if money != nil {
		if text, err = unpack(money); err != nil {
			return nil, err
		}
		with, err := readKept(text)
		if err != nil {
			return nil, err
		}
		c.money = &with
	}
	if c.money == nil {
		return withoutMoney(j).Encode(), nil
	}
	return j.WithMoney(*c.money).Encode(), nil
}

// invoicesOf is what of a record is money.
type invoicesOf struct {
	Invoices []actual.Invoice `json:"invoices,omitempty"`
}

// partRecord parts what was written down after the pour.
func partRecord(record []byte) (open, money []byte, err error) {
	if record == nil {
		return nil, nil, nil
	}
	var r actual.Record
	if err := json.Unmarshal(record, &r); err != nil {
		return nil, nil, err
	}
	m := invoicesOf{r.Invoices}
	r.Invoices = nil
	if open, err = json.Marshal(r); err == nil {
		money, err = json.Marshal(m)
	}
	return open, money, err
}

// joinRecord puts a record together; money nil takes that of the record was.
func joinRecord(open, money, was []byte) ([]byte, error) {
	if open == nil {
		return nil, nil
	}
	var r, old actual.Record
	if err := json.Unmarshal(open, &r); err != nil {
		return nil, err
	}
	if was != nil {
		if err := json.Unmarshal(was, &old); err != nil {
			return nil, err
		}
	}
	m := invoicesOf{old.Invoices}
	if money != nil {
		m = invoicesOf{}
		if err := json.Unmarshal(money, &m); err != nil {
			return nil, err
		}
	}
	r.Invoices = m.Invoices
	if err := r.Validate(); err != nil {
		return nil, err
	}
	return json.Marshal(r)
}

// named gives the name of a message by what it says: the same message, the same name.
func named(parts ...any) string {
	h := sha256.New()
	for _, p := range parts {
		var text []byte
		switch p := p.(type) {
		case []byte:
			text = p
		case time.Time:
			text = p.UTC().AppendFormat(nil, time.RFC3339Nano)
		default:
			text = fmt.Append(nil, p)
		}
		fmt.Fprintf(h, "%d:", len(text))
		h.Write(text)
	}
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// seen gives of a kept job what one with a part sees, to compare.
func (p Part) seen(k storage.Kept) (storage.Kept, error) {
	if p.Prices {
		return k, nil
	}
	open, err := openOf(k.Data)
	if err != nil {
		return k, err
	}
	record, _, err := partRecord(k.Record)
	k.Data, k.Record = open, record
	return k, err
}

// same tells whether two are one for who has a part.
func (p Part) same(a, b storage.Kept) (bool, error) {
	if a.Equal(b) {
		return true, nil
	}
	if p.Prices {
		return false, nil
	}
	a, err := p.seen(a)
	if err != nil {
		return false, err
	}
	b, err = p.seen(b)
	return a.Equal(b), err
}
