package storage

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io"
	"sync"
)

// A stored value is a header and a payload:
//
//	0  magic "HBr1"
//	4  bucket (1 byte), packing (1 byte), 2 bytes zero
//	8  payload length (uint32)
//	12 checksum (uint32): CRC-32C of the rest of the header, then the payload
//	16 stamp (uint64): counts up through the book, so that of two versions of
//	   one record the newer is known
//	24 key (16 bytes)
//	40 payload
//
// Numbers are big-endian. Bucket, key and stamp stand in the value so that it
// can be known for what it is when nothing around it reads.

const (
	recordMagic  = "HBr1"
	recordHeader = 40
	maxPayload   = 64 << 20
)

// bucket is a kind of record.
type bucket byte

const (
	inMeta      bucket = iota + 1 // the book itself: schema, stamp
	inEntries                     // a job's place in the list
	inJobs                        // a job as it is now
	inEdits                       // a job after each edit
	inRevisions                   // a job as it was printed or set aside
	inRecords                     // after the pour
	inPrices                      // price lists, old and new
	inSettings                    // settings
	inNotes                       // what a window wants remembered
	inGone                        // marks of deleted jobs
	inPictures                    // sketches of jobs
	inOffice                      // how far book and jobs are one with the office's
	inShared                      // jobs by their names in the office book; 0 for deleted here

	lastBucket = inShared
)

// ofJobs are the buckets whose keys start with the number of a job.
var ofJobs = []bucket{inEntries, inJobs, inEdits, inRevisions, inRecords, inPictures, inOffice}

var bucketNames = map[bucket]string{
	inMeta: "book", inEntries: "entries", inJobs: "jobs", inEdits: "edits", inRevisions: "revisions",
	inRecords: "records", inPrices: "prices", inSettings: "settings", inNotes: "notes", inGone: "gone",
	inPictures: "pictures", inOffice: "office", inShared: "shared",
}

func (b bucket) name() []byte { return []byte(bucketNames[b]) }

// key is a record's key: two numbers, so that the records of one job lie together.
type key struct{ a, b uint64 }

func (k key) bytes() []byte {
	return binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(nil, k.a), k.b)
}

func keyOf(b []byte) (key, bool) {
	if len(b) != 16 {
		return key{}, false
	}
	return key{binary.BigEndian.Uint64(b), binary.BigEndian.Uint64(b[8:])}, true
}

// record is a stored value, taken apart.
type record struct {
	in      bucket
	packed  bool
	stamp   uint64
	key     key
	payload []byte
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

var (
	errRecord   = errors.New("not a record")
	errChecksum = errors.New("checksum does not match")
)

// seal gives the bytes to store. A packed payload is compressed.
func (r record) seal() []byte {
	body := r.payload
	if r.packed {
		body = pack(body)
	}
	b := make([]byte, recordHeader, recordHeader+len(body))
	copy(b, recordMagic)
	b[4] = byte(r.in)
	if r.packed {
		b[5] = 1
	}
	binary.BigEndian.PutUint32(b[8:], uint32(len(body)))
	binary.BigEndian.PutUint64(b[16:], r.stamp)
	copy(b[24:], r.key.bytes())
	b = append(b, body...)
	binary.BigEndian.PutUint32(b[12:], checksum(b))
	return b
}

// stampOf gives the stamp in a stored value, without a look at the rest; 0 for
// what is too short to be one.
func stampOf(v []byte) uint64 {
	if len(v) < recordHeader {
		return 0
	}
	return binary.BigEndian.Uint64(v[16:])
}

func checksum(b []byte) uint32 {
	return crc32.Update(crc32.Update(0, castagnoli, b[:12]), castagnoli, b[16:])
}

// unseal takes the record at the start of b apart; b may go on after it. It
// gives the record's size. The payload shares memory with b unless packed.
func unseal(b []byte) (record, int, error) {
	if len(b) < recordHeader || string(b[:4]) != recordMagic || b[5] > 1 || b[6] != 0 || b[7] != 0 {
		return record{}, 0, errRecord
	}
	n := int64(binary.BigEndian.Uint32(b[8:]))
	if n > maxPayload || n > int64(len(b)-recordHeader) {
		return record{}, 0, errRecord
	}
	size := recordHeader + int(n)
	b = b[:size]
	if checksum(b) != binary.BigEndian.Uint32(b[12:]) {
		return record{}, 0, errChecksum
	}
	k, _ := keyOf(b[24:40])
	r := record{bucket(b[4]), b[5] == 1, binary.BigEndian.Uint64(b[16:]), k, b[recordHeader:]}
	if r.packed {
		p, err := unpack(r.payload)
		if err != nil {
			return record{}, 0, err
		}
		r.payload = p
	}
	return r, size, nil
}

// packers are compressors at rest: making one costs more than what it packs.
var packers = sync.Pool{New: func() any {
	w, err := flate.NewWriter(nil, flate.BestSpeed)
	if err != nil {
		panic(err) // the level is a constant
	}
	return w
}}

func pack(b []byte) []byte {
	var buf bytes.Buffer
	w := packers.Get().(*flate.Writer)
	defer packers.Put(w)
	w.Reset(&buf)
	// Writing to a buffer does not fail.
	_, _ = w.Write(b)
	_ = w.Close()
	return buf.Bytes()
}

func unpack(b []byte) ([]byte, error) {
	out, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(b)), maxPayload+1))
	if err == nil && len(out) > maxPayload {
		err = errRecord
	}
	return out, err
}
