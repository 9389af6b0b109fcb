package sheet

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"time"
	"unicode/utf16"

	"haunchbook.example/app/guard"
	"haunchbook.example/app/job"
)

// The library that writes the PDF takes two times from the clock and knows no
// bookmarks. finishPDF sets the times and adds the bookmarks, so that the same
// pages give the same bytes. It reads only what that library writes: one
// cross-reference table, no object streams.

var errPDF = errors.New("sheet: the PDF is not as expected")

// object is one numbered object of a PDF file.
type object struct {
	body []byte // between "n 0 obj" and "endobj"
}

// metadata is what a PDF file says of itself.
type metadata struct {
	title, author, locale string
	date                  time.Time
}

// finishPDF gives raw with its creation date set, the fonts' dates
// cleared, and a bookmark for each page.
func finishPDF(raw []byte, names []string, doc metadata) ([]byte, error) {
	objs, err := splitPDF(raw)
	if err != nil {
		return nil, err
	}
	work, faults := make([]func(), len(objs)), make([]error, len(objs))
	for i := range objs {
		work[i] = func() { objs[i].body, faults[i] = finishStream(objs[i].body) }
	}
	guard.Each(work...)
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	const catalog, info, tree = 0, 1, 2 // the library's fixed object numbers, less one
	objs[info].body = fmt.Appendf(nil, "<</Title %s/Author %s/Creator %s/Producer %s/CreationDate(D:%sZ)>>",
		pdfText(doc.title), pdfText(doc.author), pdfText(job.Program()), pdfText(job.Program()), doc.date.UTC().Format("20060102150405"))
	pages := pageRefs.FindAllSubmatch(objs[tree].body, -1)
	if len(pages) != len(names) {
		return nil, errPDF
	}
	root := len(objs) + 1
	objs = append(objs, object{fmt.Appendf(nil, "<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>", root+1, root+len(names), len(names))})
	for i, name := range names {
		b := fmt.Appendf(nil, "<</Title %s/Parent %d 0 R/Dest[%s 0 R/Fit]", pdfText(name), root, pages[i][1])
		if i > 0 {
			b = fmt.Appendf(b, "/Prev %d 0 R", root+i)
		}
		if i < len(names)-1 {
			b = fmt.Appendf(b, "/Next %d 0 R", root+i+2)
		}
		objs = append(objs, object{append(b, ">>"...)})
	}
	objs[catalog].body = bytes.Replace(objs[catalog].body, []byte("/Catalog"),
		fmt.Appendf(nil, "/Catalog/Outlines %d 0 R/PageMode/UseOutlines/ViewerPreferences<</DisplayDocTitle true/PrintScaling/None>>/Lang(%s)", root, doc.locale), 1)
	return joinPDF(objs), nil
}

var (
	pageRefs  = regexp.MustCompile(`(\d+) 0 R`)
	startXref = regexp.MustCompile(`startxref\s+(\d+)\s+%%EOF\s*$`)
	xrefHead  = regexp.MustCompile(`^xref\s+0 (\d+)\s+`)
	objHead   = regexp.MustCompile(`^\d+ 0 obj\s`)
	lengthKey = regexp.MustCompile(`/Length \d+`)
)

func splitPDF(raw []byte) ([]object, error) {
	m := startXref.FindSubmatch(raw)
	if m == nil {
		return nil, errPDF
	}
	at, err := strconv.Atoi(string(m[1]))
	if err != nil || at >= len(raw) {
		return nil, errPDF
	}
	head := xrefHead.FindSubmatch(raw[at:])
	if head == nil {
		return nil, errPDF
	}
	n, err := strconv.Atoi(string(head[1]))
	rows := raw[at+len(head[0]):]
	const row = 20 // bytes of an entry, ISO 32000-1, 7.5.4
	if err != nil || n < 4 || len(rows) < n*row {
		return nil, errPDF
	}
	objs := make([]object, n-1)
	for i := range objs {
		off, err := strconv.Atoi(string(rows[(i+1)*row : (i+1)*row+10]))
		if err != nil || off >= at {
			return nil, errPDF
		}
		h := objHead.Find(raw[off:at])
		if h == nil {
			return nil, errPDF
		}
		body := raw[off+len(h) : at]
		end := objectEnd(body)
		if end < 0 {
			return nil, errPDF
		}
		objs[i].body = body[:end:end]
	}
	return objs, nil
}

// objectEnd gives where an object's body ends, stepping over its stream.
func objectEnd(body []byte) int {
	skip := 0
	stream, end := bytes.Index(body, []byte("stream\n")), bytes.Index(body, []byte("endobj"))
	if stream >= 0 && stream < end {
		if dict, data, ok := streamOf(body); ok {
			skip = len(dict) + len("stream\n") + len(data)
		}
	}
	if end = bytes.Index(body[skip:], []byte("\nendobj")); end < 0 {
		return -1
	}
	return skip + end
}

// streamOf parts a stream object into its dictionary and its data.
func streamOf(body []byte) (dict, data []byte, ok bool) {
	at := bytes.Index(body, []byte("stream\n"))
	if at < 0 {
		return nil, nil, false
	}
	dict = body[:at]
	m := lengthKey.Find(dict)
	if m == nil {
		return nil, nil, false
	}
	n, err := strconv.Atoi(string(m[len("/Length "):]))
	at += len("stream\n")
	if err != nil || n > len(body)-at {
		return nil, nil, false
	}
	return dict, body[at : at+n], true
}

// joinPDF writes the objects as a file: catalog first, information second.
func joinPDF(objs []object) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	offsets := make([]int, len(objs))
	for i, o := range objs {
		offsets[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o.body)
	}
	at := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objs)+1)
	for _, off := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", off)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root 1 0 R/Info 2 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(objs)+1, at)
	return b.Bytes()
}

// finishStream packs a stream that the library left as it is, for many to be packed at
// once, and clears the date of a font. Other objects stay as they are.
func finishStream(body []byte) ([]byte, error) {
	dict, data, ok := streamOf(body)
	switch {
	case !ok:
		return body, nil
	case bytes.Contains(dict, []byte("/FlateDecode")):
		return clearFontDate(body, dict, data)
	case bytes.Contains(dict, []byte("/Filter")):
		return body, nil
	}
	return deflated(bytes.Replace(dict, []byte("/Length "), []byte("/Filter/FlateDecode/Length "), 1), data)
}

// deflated gives a stream object with its data packed.
func deflated(dict, data []byte) ([]byte, error) {
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	if _, err := z.Write(data); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	out := append(lengthKey.ReplaceAll(dict, fmt.Appendf(nil, "/Length %d", b.Len())), "stream\n"...)
	return append(append(out, b.Bytes()...), "\nendstream"...), nil
}

// clearFontDate sets the date of change in an embedded TrueType font to zero and
// mends the two checksums that cover it. Other objects stay as they are.
func clearFontDate(body, dict, data []byte) ([]byte, error) {
	z, err := zlib.NewReader(bytes.NewReader(data))
	if err != nil {
		return body, nil
	}
	font, err := io.ReadAll(z)
	if err != nil || len(font) < 12 || binary.BigEndian.Uint32(font) != 0x00010000 {
		return body, nil
	}
	if !setFontDate(font) {
		return nil, errPDF
	}
	return deflated(dict, font)
}

// setFontDate zeroes head.modified; see the OpenType specification, "head" and
// "Calculating checksums".
func setFontDate(font []byte) bool {
	n := int(binary.BigEndian.Uint16(font[4:]))
	for i := range n {
		e := 12 + 16*i
		if e+16 > len(font) {
			return false
		}
		if string(font[e:e+4]) != "head" {
			continue
		}
		off, size := int(binary.BigEndian.Uint32(font[e+8:])), int(binary.BigEndian.Uint32(font[e+12:]))
		if size < 54 || off+size > len(font) {
			return false
		}
		head := font[off : off+size]
		clear(head[28:36])
		clear(head[8:12])
		binary.BigEndian.PutUint32(font[e+4:], checksum(font[off:min(len(font), off+(size+3)&^3)]))
		binary.BigEndian.PutUint32(head[8:], 0xB1B0AFBA-checksum(font))
		return true
	}
	return false
}

func checksum(b []byte) (s uint32) {
	for ; len(b) >= 4; b = b[4:] {
		s += binary.BigEndian.Uint32(b)
	}
	if len(b) > 0 {
		var last [4]byte
		copy(last[:], b)
		s += binary.BigEndian.Uint32(last[:])
	}
	return s
}

// pdfText writes a text string as UTF-16 in hexadecimal, which needs no escapes.
func pdfText(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}
