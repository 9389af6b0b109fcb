package storage

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"os"
)

// verifyPages walks the pages of a bbolt file and gives an error if any is not as
// it must be: a page of the wrong kind, an element outside its page, keys out of
// order, a page reached twice, or one both in use and listed as free. A process
// that writes the file meanwhile does no harm: until it commits it leaves the
// pages in use alone, and if it commits the walk starts anew. The database itself
// trusts its pages; a loop among them would overflow its stack, which nothing can
// catch. Values are not read: each record has its own checksum.
//
// The form is that of bbolt's file version 2: a 16-byte page header (id uint64,
// flags uint16, count uint16, overflow uint32), then elements; numbers in the
// byte order of the machine.
func verifyPages(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	for range 20 {
		m, err := readMeta(f)
		if err != nil {
			return err
		}
		err = walk(f, m)
		if err == nil {
			return nil
		}
		if after, metaErr := readMeta(f); metaErr == nil && after == m {
			return err
		}
	}
	return nil // someone writes to it without pause, so that they can read it
}

func walk(f *os.File, m fileMeta) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	if m.pages < 4 || info.Size() < m.size() {
		return fmt.Errorf("the file is cut short: %d bytes of %d", info.Size(), m.size())
	}
	w := pageWalk{f: f, meta: m, used: make([]bool, m.pages)}
	w.used[0], w.used[1] = true, true
	if err := w.freelist(m.freelist); err != nil {
		return err
	}
	return w.tree(m.root, 0, true, nil)
}

var errNoStart = errors.New("no valid start")

// fileMeta is the newer valid meta page of a file.
type fileMeta struct {
	pageSize             uint32
	root, freelist       uint64
	pages, transaction   uint64
	single               bool     // the other one is damaged
	newest, olderOrEqual [64]byte // raw, to see whether a commit came between
}

// size gives how many bytes the file's pages take.
func (m fileMeta) size() int64 { return int64(m.pages) * int64(m.pageSize) }

const (
	boltMagic   = 0xED0CDAED
	boltVersion = 2
	pageHeader  = 16
	elementSize = 16
	metaSize    = 64

	branchPage   = 0x01
	leafPage     = 0x02
	freelistPage = 0x10

	bucketElement = 0x01
)

var order = binary.NativeEndian

// readMeta reads the two meta pages and gives the newer valid one.
func readMeta(f io.ReaderAt) (fileMeta, error) {
	first := make([]byte, pageHeader+metaSize)
	if _, err := f.ReadAt(first, 0); err == io.EOF {
		return fileMeta{}, errNoStart
	} else if err != nil {
		return fileMeta{}, err
	}
	a, okA := parseMeta(first[pageHeader:])
	// The first meta page tells where the second is; if it does not, try the
	// page sizes in use.
	sizes := []uint32{4096, 8192, 16384, 32768, 65536}
	if okA {
		sizes = []uint32{a.pageSize}
	}
	for _, size := range sizes {
		second := make([]byte, pageHeader+metaSize)
		if _, err := f.ReadAt(second, int64(size)); err != nil {
			continue
		}
		b, okB := parseMeta(second[pageHeader:])
		switch {
		case okA && okB && a.transaction > b.transaction:
			a.olderOrEqual = [64]byte(second[pageHeader:])
			return a, nil
		case okA && okB:
			b.olderOrEqual = [64]byte(first[pageHeader:])
			return b, nil
		case okB && b.pageSize == size:
			b.single = true
			return b, nil
		}
	}
	if okA {
		a.single = true
		return a, nil
	}
	return fileMeta{}, errNoStart
}

func parseMeta(b []byte) (fileMeta, bool) {
	h := fnv.New64a()
	h.Write(b[:56])
	m := fileMeta{
		pageSize: order.Uint32(b[8:]), root: order.Uint64(b[16:]), freelist: order.Uint64(b[32:]),
		pages: order.Uint64(b[40:]), transaction: order.Uint64(b[48:]), newest: [64]byte(b),
	}
	ok := order.Uint32(b) == boltMagic && order.Uint32(b[4:]) == boltVersion && order.Uint64(b[56:]) == h.Sum64() &&
		m.pageSize >= 512 && m.pageSize <= 1<<20 && m.pages < 1<<40
	return m, ok
}

type pageWalk struct {
	f    io.ReaderAt
	meta fileMeta
	used []bool
}

// page reads the page id with its overflow and claims it.
func (w *pageWalk) page(id uint64) ([]byte, error) {
	if id < 2 || id >= w.meta.pages {
		return nil, fmt.Errorf("page %d is outside the file", id)
	}
	size := int64(w.meta.pageSize)
	buf := make([]byte, size)
	if _, err := w.f.ReadAt(buf, int64(id)*size); err != nil {
		return nil, fmt.Errorf("page %d does not read", id)
	}
	over := uint64(order.Uint32(buf[12:]))
	if order.Uint64(buf) != id || over >= w.meta.pages-id {
		return nil, fmt.Errorf("page %d is not itself", id)
	}
	for i := id; i <= id+over; i++ {
		if w.used[i] {
			return nil, fmt.Errorf("page %d is in use twice", i)
		}
		w.used[i] = true
	}
	if over > 0 && order.Uint16(buf[8:])&(branchPage|freelistPage) != 0 || over > 0 && order.Uint16(buf[10:]) > 1 {
		rest := make([]byte, int64(over)*size)
		if _, err := w.f.ReadAt(rest, int64(id)*size+size); err != nil {
			return nil, fmt.Errorf("page %d does not read", id)
		}
		return append(buf, rest...), nil
	}
	// One long value: only its start is looked at, its extent is known.
	return buf[:size:size], nil
}

// extent gives the bytes of page buf with its overflow.
func (w *pageWalk) extent(buf []byte) uint64 {
	return (1 + uint64(order.Uint32(buf[12:]))) * uint64(w.meta.pageSize)
}

func (w *pageWalk) freelist(id uint64) error {
	if id == 1<<64-1 {
		return nil // not stored
	}
	p, err := w.page(id)
	if err != nil {
		return err
	}
	if order.Uint16(p[8:]) != freelistPage {
		return fmt.Errorf("page %d is no list of free pages", id)
	}
	n, at := uint64(order.Uint16(p[10:])), pageHeader
	if n == 0xFFFF {
		n, at = order.Uint64(p[at:]), at+8
	}
	if n > uint64(len(p)-at)/8 {
		return errors.New("the list of free pages is too long")
	}
	for i := range n {
		free := order.Uint64(p[at+int(i)*8:])
		if free < 2 || free >= w.meta.pages || w.used[free] {
			return fmt.Errorf("page %d is both free and in use", free)
		}
		w.used[free] = true
	}
	return nil
}

// maxTreeDepth is far beyond any tree of 16 TB.
const maxTreeDepth = 24

// tree walks the tree under page id. least is the key the tree may start at.
func (w *pageWalk) tree(id uint64, depth int, top bool, least []byte) error {
	if depth > maxTreeDepth {
		return fmt.Errorf("page %d is too deep", id)
	}
	p, err := w.page(id)
	if err != nil {
		return err
	}
	return w.elements(p, w.extent(p), fmt.Sprintf("page %d", id), depth, top, least)
}

// elements checks the elements of a page, or of a small bucket kept in a value.
// top is the tree of buckets, whose values are buckets.
func (w *pageWalk) elements(p []byte, extent uint64, name string, depth int, top bool, least []byte) error {
	flags, count := order.Uint16(p[8:]), int(order.Uint16(p[10:]))
	if flags != branchPage && flags != leafPage || pageHeader+count*elementSize > len(p) {
		return fmt.Errorf("%s is damaged", name)
	}
	last, first := least, true
	for i := range count {
		at := uint64(pageHeader + i*elementSize)
		e := p[at:]
		var pos, ksize, vsize uint64
		if flags == branchPage {
			pos, ksize = uint64(order.Uint32(e)), uint64(order.Uint32(e[4:]))
		} else {
			pos, ksize, vsize = uint64(order.Uint32(e[4:])), uint64(order.Uint32(e[8:])), uint64(order.Uint32(e[12:]))
		}
		from := at + pos
		if from+ksize > uint64(len(p)) || from+ksize+vsize > extent {
			return fmt.Errorf("%s has an element outside it", name)
		}
		k := p[from : from+ksize]
		if c := bytes.Compare(k, last); c < 0 || c == 0 && !first {
			return fmt.Errorf("%s has keys out of order", name)
		}
		last, first = k, false
		switch {
		case flags == branchPage:
			if err := w.tree(order.Uint64(e[8:]), depth+1, top, k); err != nil {
				return err
			}
		case order.Uint32(e)&^bucketElement != 0 || (order.Uint32(e) == bucketElement) != top:
			return fmt.Errorf("%s has an element of the wrong kind", name)
		case top:
			if from+ksize+vsize > uint64(len(p)) || vsize < 16 {
				return fmt.Errorf("%s has a bucket outside it", name)
			}
			if err := w.bucket(p[from+ksize:from+ksize+vsize], string(k), depth); err != nil {
				return err
			}
		}
	}
	return nil
}

// bucket walks a bucket: a root page, or the page within its value.
func (w *pageWalk) bucket(v []byte, name string, depth int) error {
	if root := order.Uint64(v); root != 0 {
		return w.tree(root, depth+1, false, nil)
	}
	inline := v[16:]
	if len(inline) < pageHeader {
		return fmt.Errorf("bucket %s is damaged", name)
	}
	if order.Uint16(inline[8:]) != leafPage {
		return fmt.Errorf("bucket %s is damaged", name)
	}
	return w.elements(inline, uint64(len(inline)), "bucket "+name, depth+1, false, nil)
}
