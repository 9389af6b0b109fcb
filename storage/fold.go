package storage

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"encoding/json"
	"errors"
	"hash/crc32"
	"io"
)

// Every edit of a job can be undone, however many there are. So that this costs
// little room, most edits are stored folded: as what differs from an edit before
// them, the base, which is stored whole. What differs is one stretch of the job
// file, compressed with the stretch that it replaces as its dictionary:
//
//	0  magic "d1\n"
//	3  base: number of the edit (uint64)
//	11 checksum (uint32): CRC-32C of the job file
//	15 bytes as in the base at the start, bytes as in the base at the end (2 × uint32)
//	23 label and time: a line of JSON
//	   the stretch between, compressed
//
// Numbers are big-endian. The checksum tells a base that was replaced, when
// records are searched for in a damaged file.

const (
	foldMark   = "d1\n"
	foldHeader = len(foldMark) + 8 + 4 + 4 + 4
	// wholeEvery is how many edits there are to a base.
	wholeEvery = 32
)

// baseOf gives the base of edit seq of a history that starts at first; seq itself
// is stored whole.
func baseOf(seq, first uint64) uint64 { return max(first, seq-(seq-1)%wholeEvery) }

// folded is what of a folded edit is not yet unfolded.
type folded struct {
	base       uint64 // 0 for an edit that is whole
	sum        uint32
	head, tail int
	packed     []byte
}

// fold gives edit e as it differs from the base edit.
func fold(base uint64, was []byte, e edit) ([]byte, error) {
	head, tail := common(was, e.data)
	line, err := json.Marshal(e)
	if err != nil {
		return nil, err
	}
	b := []byte(foldMark)
	b = binary.BigEndian.AppendUint64(b, base)
	b = binary.BigEndian.AppendUint32(b, crc32.Checksum(e.data, castagnoli))
	b = binary.BigEndian.AppendUint32(b, uint32(head))
	b = binary.BigEndian.AppendUint32(b, uint32(tail))
	b = append(append(b, line...), '\n')
	buf := bytes.NewBuffer(b)
	w, err := flate.NewWriterDict(buf, flate.DefaultCompression, was[head:len(was)-tail])
	if err != nil {
		return nil, err
	}
	_, err = w.Write(e.data[head : len(e.data)-tail])
	err = errors.Join(err, w.Close())
	return buf.Bytes(), err
}

// common gives how many bytes two files share at the start, and at the end.
func common(a, b []byte) (head, tail int) {
	n := min(len(a), len(b))
	for head < n && a[head] == b[head] {
		head++
	}
	for tail < n-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return head, tail
}

func isFolded(payload []byte) bool { return bytes.HasPrefix(payload, []byte(foldMark)) }

// parseFolded reads a folded edit; its job file comes with unfold.
func parseFolded(payload []byte) (edit, error) {
	var e edit
	if len(payload) < foldHeader {
		return e, errRecord
	}
	b := payload[len(foldMark):]
	e.folded = folded{
		base: binary.BigEndian.Uint64(b), sum: binary.BigEndian.Uint32(b[8:]),
		head: int(binary.BigEndian.Uint32(b[12:])), tail: int(binary.BigEndian.Uint32(b[16:])),
	}
	line, packed, ok := bytes.Cut(payload[foldHeader:], []byte("\n"))
	if !ok || e.base == 0 {
		return e, errRecord
	}
	e.packed = packed
	return e, json.Unmarshal(line, &e)
}

// unfold gives the job file of a folded edit from that of its base.
func (e *edit) unfold(was []byte) error {
	if e.head < 0 || e.tail < 0 || e.head+e.tail > len(was) {
		return errRecord
	}
	r := flate.NewReaderDict(bytes.NewReader(e.packed), was[e.head:len(was)-e.tail])
	middle, err := io.ReadAll(io.LimitReader(r, maxPayload+1))
	if err != nil {
		return err
	}
	data := make([]byte, 0, e.head+len(middle)+e.tail)
	data = append(append(append(data, was[:e.head]...), middle...), was[len(was)-e.tail:]...)
	if crc32.Checksum(data, castagnoli) != e.sum {
		return errChecksum
	}
	e.data, e.folded = data, folded{}
	return nil
}
