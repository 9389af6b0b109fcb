package field

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
)

// SchemaName is where the schema of job files of a version is found. Each file
// names it.
func SchemaName(version int) string {
	return fmt.Sprintf("https://haunchbook.example/job-%d.schema.json", version)
}

// Schema gives the JSON Schema (draft 2020-12) of files that hold a job of that
// version. It tells a file of the wrong form; whether lengths fit together only
// the program tells.
func Schema(job any, version int) []byte {
	root := schemaOf(reflect.TypeOf(job), "")
	properties := root["properties"].(object)
	properties["$schema"] = object{"type": "string", "description": describe(table["$schema"])}
	properties["haunchbook"] = object{"const": version, "description": describe(table["haunchbook"])}
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["$id"] = SchemaName(version)
	root["title"] = "A job of Haunchbook"
	root["required"] = []string{"haunchbook"}
	root["$defs"] = object{
		"length": object{"type": "string", "maxLength": 64, "pattern": lengthPattern, "description": `A length with its unit: 24'-6 1/2", 18", 7.25 m, 1066.8 mm. Zero may go without.`},
		"point":  object{"type": "array", "prefixItems": []any{lengthRef, lengthRef}, "minItems": 2, "maxItems": 2, "description": "A place on the drawing: right and up."},
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(root); err != nil {
		panic(err) // plain data does not fail
	}
	return b.Bytes()
}

type object map[string]any

var (
	lengthRef = object{"$ref": "#/$defs/length"}
	pointRef  = object{"$ref": "#/$defs/point"}
)

// The patterns of what is written as text. Zero is a length without a unit too.
const (
	digit         = `[0-9½¼¾⅓⅔⅛⅜⅝⅞]`
	figures       = `[-–—−‐‑0-9½¼¾⅓⅔⅛⅜⅝⅞./⁄∕\s]*`
	unitWord      = `(['’‘′` + "`" + `´"”“″]+|(ft|foot|feet|in|inch|inches|yd|yards?|mm|cm|m|FT|IN|MM|CM|M)\.?)`
	lengthPattern = `^(\s*[-–—−]?\s*0+(\.0*)?\s*|` + figures + digit + `\s*` + unitWord + `(` + figures + digit + `\s*` + unitWord + `?)?\s*)$`
	numberPattern = `[0-9]+(\.[0-9]+)?([eE][-+]?[0-9]+)?$`
	timePattern   = `^\s*([01]?[0-9]|2[0-3]):[0-5][0-9]\s*$`
	datePattern   = `^\s*(19[7-9][0-9]|2[01][0-9]{2})-(0?[1-9]|1[0-2])-(0?[1-9]|[12][0-9]|3[01])\s*$`
	heatPattern   = `^\s*[-+]?[0-9.]+\s*°?\s*[FfCc]\s*$`
	speedPattern  = `^\s*\+?[0-9.]+\s*([mM][pP][hH]|[kK][mM]/[hH])\s*$`
)

// schemaOf gives the schema of a type that stands at a path without numbers.
func schemaOf(t reflect.Type, path string) object {
	r := rowAt(path)
	switch {
	case r != nil && r.Like != "":
		return object{"$ref": pointer(r.Like)}
	case t.Kind() == reflect.Slice && !Value(t):
		items := path + "[]"
		r = rowAt(items)
		s := object{"type": "array", "items": schemaOf(t.Elem(), items)}
		if r != nil {
			s["description"] = describe(r)
			if r.Items[0] > 0 {
				s["minItems"] = r.Items[0]
			}
			if r.Items[1] > 0 {
				s["maxItems"] = r.Items[1]
			}
		}
		return s
	case Value(t):
		s := r.schema(t)
		if !strings.HasSuffix(path, "[]") {
			if _, ref := s["$ref"]; ref {
				s = object{"$ref": s["$ref"]}
			}
			s["description"] = describe(r)
		}
		return s
	}
	properties, required := object{}, []string{}
	for i, name := range Names(t) {
		if name == "" {
			continue
		}
		at := Join(path, name)
		properties[name] = schemaOf(t.Field(i).Type, at)
		if f := rowAt(at); strings.Contains(path, "[]") && f != nil && f.required() {
			required = append(required, name)
		}
	}
	s := object{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	if r != nil && r.Kind == Part {
		s["description"] = describe(r)
	}
	return s
}

// pointer gives the JSON pointer to the schema of a thing of a list.
func pointer(path string) string {
	var b strings.Builder
	b.WriteByte('#')
	for _, part := range strings.Split(path, ".") {
		name, list := strings.CutSuffix(part, "[]")
		b.WriteString("/properties/" + name)
		if list {
			b.WriteString("/items")
		}
	}
	return b.String()
}

func describe(r *Row) string {
	if r.Label == "" {
		return r.Help
	}
	return Upper(r.Label) + ". " + r.Help
}

// required tells whether a thing of a list must have the field: to leave it out is
// to say 0 or nothing.
func (r *Row) required() bool {
	return len(r.When) == 0 && (r.Needed || r.Kind != Choice && r.Hard.Any() && r.Zero == "" && !r.Hard.holds(0))
}

// schema gives the schema of one value.
func (r *Row) schema(t reflect.Type) object {
	switch r.Kind {
	case Inches, Feet:
		if r.Blank != "" {
			return object{"anyOf": []any{lengthRef, object{"const": ""}}}
		}
		return lengthRef
	case Point:
		return pointRef
	case Switch:
		return object{"type": "boolean"}
	case Choice:
		return r.choiceSchema(t)
	case Time:
		return object{"type": "string", "pattern": timePattern}
	case Date:
		return r.textSchema(datePattern)
	case Temperature:
		return r.textSchema(heatPattern)
	case Speed:
		return r.textSchema(speedPattern)
	case Text, Picture:
		if c, ok := reflect.Zero(t).Interface().(interface{ Choices() []string }); ok {
			return object{"enum": c.Choices()}
		}
		s := object{"type": "string"}
		if r.Letters > 0 {
			s["maxLength"] = r.Letters
		}
		if r.Needed {
			s["minLength"] = 1
		}
		return s
	}
	return r.numberSchema(t)
}

func (r *Row) textSchema(pattern string) object {
	if r.Blank != "" {
		return object{"anyOf": []any{object{"type": "string", "pattern": pattern}, object{"const": ""}}}
	}
	return object{"type": "string", "pattern": pattern}
}

func (r *Row) choiceSchema(t reflect.Type) object {
	var names []any
	for _, n := range r.Names {
		names = append(names, n.Name)
	}
	if r.Zero != "" || r.Blank != "" {
		names = append(names, "")
	}
	if r.bars == anyBars {
		return object{"anyOf": []any{object{"type": "integer", "minimum": 0}, object{"type": "string", "pattern": "^[0-9]+ mm$"}}}
	}
	if t.Kind() == reflect.Int || r.bars != noBars {
		for i, n := range names {
			number, err := strconv.Atoi(n.(string))
			if err == nil || n == "" { // nothing is 0
				names[i] = number
			}
		}
	}
	return object{"enum": names}
}

// numberSchema is of a number, which the types that are exact or may be left out
// write as text, too. What is used only at times is not bounded.
func (r *Row) numberSchema(t reflect.Type) object {
	s := object{"type": "number"}
	if t.Kind() == reflect.Int {
		s["type"] = "integer"
	}
	negative := "[-+]?"
	if r.Hard.Any() && len(r.When) == 0 {
		if r.Hard.Most < 1e12 {
			s[map[bool]string{false: "maximum", true: "exclusiveMaximum"}[r.Hard.Below]] = r.Hard.Most
		}
		least := r.Hard.Least
		if r.Zero != "" {
			least = min(0, least)
		}
		s[map[bool]string{false: "minimum", true: "exclusiveMinimum"}[r.Hard.Above && r.Zero == ""]] = least
		if r.Hard.Least >= 0 {
			negative = ""
		}
	}
	if t != decimalType && t.Kind() != reflect.Struct {
		return s
	}
	written := []any{s, object{"type": "string", "pattern": "^" + negative + numberPattern}}
	if r.Blank != "" {
		written = append(written, object{"const": ""})
	}
	return object{"anyOf": written}
}

// inFile prints a default as a job file has it, in feet and inches.
func (r *Row) inFile() string {
	switch x := r.Default.(type) {
	case nil:
		return ""
	case bool:
		return strconv.FormatBool(x)
	case []Element:
		var things []string
		for _, e := range x {
			var fields []string
			for _, name := range sorted(e) {
				of := rowAt(r.Path + "." + name)
				fields = append(fields, name+" "+of.Text(of.value(e[name], false), geometry.FeetInches))
			}
			things = append(things, strings.Join(fields, ", "))
		}
		return strings.Join(things, "; ")
	case []string:
		return strings.Join(x, "; ")
	}
	return r.Text(r.value(r.Default, false), geometry.FeetInches)
}
