package job

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// The codec reads and writes plain structs by their json tags. It differs from
// encoding/json in what a hand-written file needs: a fault names its full path;
// unknown and repeated fields are faults; a length is a string with its unit;
// and lengths are written in the job's units.

// fault is one thing wrong with a file, at a path.
type fault struct{ path, found, want string }

// theFile is the path of what concerns all of a file.
const theFile = "job file"

func (f fault) Error() string {
	if f.path == "" {
		f.path = theFile
	}
	return fmt.Sprintf("%s: found %s; %s", f.path, f.found, f.want)
}

// node is a JSON value with its fields in order.
type node struct {
	kind   byte // one of { [ s n b 0
	text   string
	keys   []string
	values []node
}

func (n node) describe() string {
	switch n.kind {
	case '{':
		return "an object"
	case '[':
		return "a list"
	case 's':
		return "“" + short(n.text) + "”"
	case '0':
		return "null"
	}
	return n.text
}

// parser reads JSON values.
type parser struct {
	*json.Decoder
	values int // read so far
}

func parseJSON(data []byte) (node, error) {
	p := parser{Decoder: json.NewDecoder(bytes.NewReader(data))}
	p.UseNumber()
	n, err := p.value(0)
	if err != nil {
		return node{}, located(err, data, p.Decoder)
	}
	if _, err := p.Token(); err != io.EOF {
		return node{}, fault{"", "more after the end of the job", "one file holds one job"}
	}
	return n, nil
}

// located turns a syntax error into a fault with its line.
func located(err error, data []byte, dec *json.Decoder) error {
	if f, ok := err.(fault); ok {
		return f
	}
	at := min(int(dec.InputOffset()), len(data))
	line := 1 + bytes.Count(data[:at], []byte("\n"))
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		return fault{fmt.Sprintf("line %d", line), "the end of the file", "the job is cut short; a } or ] is missing"}
	}
	return fault{fmt.Sprintf("line %d", line), strings.TrimPrefix(err.Error(), "json: "), "the file must be JSON"}
}

// value reads a value. The path of a fault grows as it is handed up.
func (p *parser) value(depth int) (node, error) {
	if depth > maxNesting {
		return node{}, fault{"", "too many levels", "a job nests less deep"}
	}
	p.values++
	tok, err := p.Token()
	if err != nil {
		return node{}, err
	}
	switch t := tok.(type) {
	case json.Delim:
		n := node{kind: byte(t)}
		for p.More() {
			if t == '{' {
				key, err := p.Token()
				if err != nil {
					return node{}, err
				}
				name := key.(string)
				if slices.Contains(n.keys, name) {
					return node{}, fault{name, "the field a second time", "remove one of the two"}
				}
				n.keys = append(n.keys, name)
			}
			if err := counted(p.values, n); err != nil {
				return node{}, err
			}
			v, err := p.value(depth + 1)
			if err != nil {
				return node{}, n.under(err)
			}
			n.values = append(n.values, v)
		}
		_, err := p.Token() // the closing bracket
		return n, err
	case string:
		return node{kind: 's', text: t}, nil
	case json.Number:
		return node{kind: 'n', text: t.String()}, nil
	case bool:
		return node{kind: 'b', text: strconv.FormatBool(t)}, nil
	}
	return node{kind: '0'}, nil
}

// under puts the place of the value that comes next before the path of a fault in it.
func (n node) under(err error) error {
	f, ok := err.(fault)
	if !ok || f.path == theFile {
		return err
	}
	at := fmt.Sprintf("[%d]", len(n.values))
	if n.kind == '{' {
		at = n.keys[len(n.keys)-1]
	}
	if strings.HasPrefix(f.path, "[") {
		f.path = at + f.path
	} else {
		f.path = field.Join(at, f.path)
	}
	return f
}

var (
	lengthType  = reflect.TypeFor[geometry.Length]()
	barType     = reflect.TypeFor[bars.Size]()
	pointType   = reflect.TypeFor[geometry.Point]()
	textDecoder = reflect.TypeFor[encoding.TextUnmarshaler]()
	textEncoder = reflect.TypeFor[encoding.TextMarshaler]()
)

// decode sets v from n.
func decode(n node, v reflect.Value, path string) error {
	wrong := func(want string) error { return fault{path, n.describe(), want} }
	switch {
	case v.Type() == lengthType:
		if n.kind != 's' {
			return wrong(`write a length as a string with its unit, such as "24'" or "1066.8 mm"`)
		}
		if len(n.text) > maxLength {
			return wrong("a length takes fewer letters")
		}
		l, err := geometry.ParseWritten(n.text)
		if err != nil {
			return fault{path, "“" + n.text + "”", errors.Unwrap(err).Error()}
		}
		v.SetInt(int64(l))
		return nil
	case v.Type() == pointType:
		if n.kind != '[' || len(n.values) != 2 {
			return wrong(`write a point as [x, y], such as ["24'", "0"]`)
		}
		for i := range 2 {
			if err := decode(n.values[i], v.Field(i), fmt.Sprintf("%s[%d]", path, i)); err != nil {
				return err
			}
		}
		return nil
	case v.Addr().Type().Implements(textDecoder):
		if n.kind != 's' && n.kind != 'n' {
			return wrong("write a string")
		}
		if err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(n.text)); err != nil {
			return fault{path, n.describe(), strings.TrimPrefix(err.Error(), fmt.Sprintf("found %q, ", n.text))} // which the fault says
		}
		return nil
	}
	switch v.Kind() {
	case reflect.Struct:
		return decodeStruct(n, v, path)
	case reflect.Slice:
		if n.kind != '[' {
			return wrong("write a list in [ ]")
		}
		v.Set(reflect.MakeSlice(v.Type(), len(n.values), len(n.values)))
		for i, c := range n.values {
			if err := decode(c, v.Index(i), fmt.Sprintf("%s[%d]", path, i)); err != nil {
				return err
			}
		}
		return nil
	case reflect.String:
		if n.kind != 's' {
			return wrong("write a string")
		}
		v.SetString(n.text)
		return nil
	case reflect.Bool:
		if n.kind != 'b' {
			return wrong("write true or false")
		}
		v.SetBool(n.text == "true")
		return nil
	case reflect.Int:
		i, err := strconv.ParseInt(n.text, 10, 64)
		if n.kind != 'n' || err != nil {
			return wrong("write a whole number")
		}
		v.SetInt(i)
		return nil
	case reflect.Float64:
		f, err := strconv.ParseFloat(n.text, 64)
		if n.kind != 'n' || err != nil {
			return wrong("write a number")
		}
		v.SetFloat(f)
		return nil
	}
	panic("job: no way to read a " + v.Type().String())
}

func decodeStruct(n node, v reflect.Value, path string) error {
	if n.kind != '{' {
		return fault{path, n.describe(), "write an object in { }"}
	}
	names := field.Names(v.Type())
	for i, key := range n.keys {
		k := slices.Index(names, key)
		if k < 0 {
			return fault{field.Join(path, key), "an unknown field", "the fields here are " + strings.Join(slices.DeleteFunc(slices.Clone(names), func(s string) bool { return s == "" }), ", ")}
		}
		if err := decode(n.values[i], v.Field(k), field.Join(path, key)); err != nil {
			return err
		}
	}
	return nil
}

// encode appends v as JSON to b. Zero fields are left out where their tag says
// omitzero; small values stand on one line.
func encode(b []byte, v reflect.Value, u geometry.Units, indent string) []byte {
	switch {
	case v.Type() == lengthType:
		return quote(b, geometry.Length(v.Int()).Exact(u))
	case v.Type() == pointType:
		b = encode(append(b, '['), v.Field(0), u, "")
		b = encode(append(b, ", "...), v.Field(1), u, "")
		return append(b, ']')
	case v.Type() == barType: // a number or a text
		text, err := v.Interface().(bars.Size).MarshalJSON()
		if err != nil {
			panic(err) // it does not fail
		}
		return append(b, text...)
	case v.Type().Implements(textEncoder):
		text, err := v.Interface().(encoding.TextMarshaler).MarshalText()
		if err != nil {
			panic(err) // our own types do not fail
		}
		return quote(b, string(text))
	}
	switch v.Kind() {
	case reflect.Struct:
		return encodeStruct(b, v, u, indent)
	case reflect.Slice:
		var items [][]byte
		for i := range v.Len() {
			items = append(items, encode(nil, v.Index(i), u, indent+"  "))
		}
		return bracket(b, '[', ']', items, indent)
	case reflect.String:
		return quote(b, v.String())
	case reflect.Bool:
		return strconv.AppendBool(b, v.Bool())
	case reflect.Int:
		return strconv.AppendInt(b, v.Int(), 10)
	case reflect.Float64:
		return strconv.AppendFloat(b, v.Float(), 'g', -1, 64)
	}
	panic("job: no way to write a " + v.Type().String())
}

func encodeStruct(b []byte, v reflect.Value, u geometry.Units, indent string) []byte {
	var items [][]byte
	for i, name := range field.Names(v.Type()) {
		f := v.Field(i)
		omit := strings.Contains(v.Type().Field(i).Tag.Get("json"), ",omitzero")
		if name == "" || omit && (f.IsZero() || f.Kind() == reflect.Slice && f.Len() == 0) {
			continue
		}
		item := quote(nil, name)
		item = append(item, ": "...)
		items = append(items, encode(item, f, u, indent+"  "))
	}
	return bracket(b, '{', '}', items, indent)
}

// lineWidth is how long a value may be and still stand on one line.
const lineWidth = 100

func bracket(b []byte, open, shut byte, items [][]byte, indent string) []byte {
	width, nested := len(indent), false
	for _, item := range items {
		width += len(item) + 2
		nested = nested || bytes.ContainsRune(item, '\n')
	}
	b = append(b, open)
	if !nested && width <= lineWidth {
		b = append(b, bytes.Join(items, []byte(", "))...)
		return append(b, shut)
	}
	for i, item := range items {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, '\n')
		b = append(b, indent...)
		b = append(b, "  "...)
		b = append(b, item...)
	}
	b = append(b, '\n')
	b = append(b, indent...)
	return append(b, shut)
}

func quote(b []byte, s string) []byte {
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(s); err != nil {
		panic(err) // a string never fails
	}
	return append(b, bytes.TrimRight(buf.Bytes(), "\n")...)
}

// json gives a value as JSON again.
func (n node) json() []byte {
	switch n.kind {
	case '{', '[':
		b := []byte{n.kind}
		for i, v := range n.values {
			if i > 0 {
				b = append(b, ',')
			}
			if n.kind == '{' {
				b = append(quote(b, n.keys[i]), ':')
			}
			b = append(b, v.json()...)
		}
		return append(b, n.kind+2) // } and ] follow two after { and [
	case 's':
		return quote(nil, n.text)
	case '0':
		return []byte("null")
	}
	return []byte(n.text)
}
