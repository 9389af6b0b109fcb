package field_test

import (
	"bytes"
	"encoding"
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
)

// schema compiles the schema of job files.
func schema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(field.Schema(job.Job{}, job.Version)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(field.SchemaName(job.Version), doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(field.SchemaName(job.Version))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func validate(s *jsonschema.Schema, file []byte) error {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
	if err != nil {
		return err
	}
	return s.Validate(doc)
}

func TestSchemaTakesTheDemoAndANewJob(t *testing.T) {
	s := schema(t)
	full := demo(t)
	full.Price.Prices = estimate.Starting(geometry.FeetInches)
	metric := full.In(geometry.Millimeters)
	for name, file := range map[string][]byte{"demo": assets.Demo(), "new": job.New().Encode(), "with prices": full.Encode(), "metric": metric.Encode()} {
		if err := validate(s, file); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// anyValue draws a value that a row takes.
func anyValue(t *rapid.T, r field.Row, v reflect.Value) any {
	hard := func(least, most float64) float64 {
		if r.Hard.Any() {
			least, most = max(least, r.Hard.Least), min(most, r.Hard.Most)
		}
		f := rapid.Float64Range(least, most).Draw(t, r.Path)
		if r.Hard.Above && f == least {
			f = most
		}
		if r.Hard.Below && f == most {
			f = least
		}
		return f
	}
	switch {
	case r.Kind.Length() && v.Type() == reflect.TypeFor[estimate.Change]():
		return geometry.Length(rapid.Int64Range(0, int64(4*foot)).Draw(t, r.Path))
	case r.Kind.Length():
		return geometry.Length(hard(-float64(geometry.MaxLength), float64(geometry.MaxLength)))
	case r.Kind == field.Choice:
		names := make([]string, len(r.Names))
		for i, n := range r.Names {
			names[i] = n.Name
		}
		if r.Zero != "" {
			names = append(names, map[bool]string{true: "0", false: ""}[v.CanInt()])
		}
		return rapid.SampledFrom(names).Draw(t, r.Path)
	case r.Kind == field.Switch:
		return rapid.Bool().Draw(t, r.Path)
	case r.Path == "price.others[].kind" || r.Path == "price.figures[].kind":
		return rapid.SampledFrom([]string{"sill plate", "bar", "mix strength", "unknown"}).Draw(t, r.Path)
	case r.Kind == field.Text && r.Letters > 0:
		return rapid.StringOfN(rapid.RuneFrom([]rune("aé漢🙂 ")), 1, r.Letters, -1).Draw(t, r.Path)
	case r.Kind == field.Text || r.Kind == field.Picture:
		return rapid.StringMatching(`[a-z"\\\n]{1,6}`).Draw(t, r.Path)
	case r.Kind == field.Temperature:
		return rapid.SampledFrom([]string{"58 °F", "-3.5 °C", "0 °C"}).Draw(t, r.Path)
	case r.Kind == field.Speed:
		return rapid.SampledFrom([]string{"8 mph", "12.5 km/h"}).Draw(t, r.Path)
	case r.Kind == field.Date:
		return rapid.SampledFrom([]string{"2026-12-03", "1971-01-01", "2199-12-31"}).Draw(t, r.Path)
	case r.Kind == field.Time:
		return rapid.SampledFrom([]string{"07:30", "23:59", "00:00"}).Draw(t, r.Path)
	case v.CanInt():
		return decimal.NewFromFloat(math.Round(hard(-1e6, 1e6)))
	}
	return decimal.NewFromFloat(hard(-1e6, 1e6)).Round(9)
}

// fill draws a value for every field of a job, and things for every list.
func fill(t *rapid.T, v reflect.Value, path string) {
	switch {
	case path == "haunchbook" || path == "spec.mix.fiber":
	case v.Type() == reflect.TypeFor[geometry.Point]():
		l := rapid.Int64Range(-int64(geometry.MaxLength), int64(geometry.MaxLength))
		v.Set(reflect.ValueOf(geometry.Point{X: geometry.Length(l.Draw(t, "x")), Y: geometry.Length(l.Draw(t, "y"))}))
	case field.Value(v.Type()):
		r, _ := field.At(path)
		x := anyValue(t, r, v)
		holder := reflect.New(reflect.StructOf([]reflect.StructField{{Name: "X", Type: v.Type(), Tag: `json:"x"`}}))
		if err := field.Set(holder.Interface(), "x", x); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		v.Set(holder.Elem().Field(0))
	case v.Kind() == reflect.Slice:
		r, _ := field.At(path + "[]")
		n := rapid.IntRange(r.Items[0], max(r.Items[0], 2)).Draw(t, path)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			fill(t, v.Index(i), path+"[]")
		}
	default:
		for i, name := range field.Names(v.Type()) {
			if name != "" {
				fill(t, v.Field(i), field.Join(path, name))
			}
		}
	}
}

// Whatever a job holds that its rows take, the schema takes its file.
func TestSchemaTakesWhatIsWritten(t *testing.T) {
	s := schema(t)
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		fill(t, reflect.ValueOf(&j).Elem(), "")
		file := j.Encode()
		if err := validate(s, file); err != nil {
			t.Fatalf("%v\n%s", err, file)
		}
		if _, ok := any(j.Units).(encoding.TextMarshaler); !ok {
			t.Fatal("units are not written as text")
		}
	})
}

// broken changes one value of a JSON document to one of another form.
func broken(t *rapid.T, v any) any {
	switch x := v.(type) {
	case map[string]any:
		names := make([]string, 0, len(x))
		for name := range x {
			names = append(names, name)
		}
		if len(names) == 0 || rapid.IntRange(0, 12).Draw(t, "unknown") == 0 {
			x["unknown"] = 1
			return x
		}
		name := rapid.SampledFrom(sortedNames(names)).Draw(t, "name")
		x[name] = broken(t, x[name])
		return x
	case []any:
		if len(x) == 0 {
			return "no list"
		}
		i := rapid.IntRange(0, len(x)-1).Draw(t, "item")
		x[i] = broken(t, x[i])
		return x
	}
	return rapid.SampledFrom([]any{nil, true, false, json.Number("12"), json.Number("-1"), json.Number("1e6"), json.Number("0.5"), json.Number("99"),
		"", "6", "six", "0", "12'", "-3 1/2\"", "7.25 m", "½\"", "24 hands", "58 °F", "12 km/h", "25:00", "7:30", "mesh", "bent", "1.5", "1e9",
		[]any{}, []any{"0", "0"}, map[string]any{}}).Draw(t, "other")
}

func sortedNames(names []string) []string {
	for i := range names {
		for k := i; k > 0 && names[k] < names[k-1]; k-- {
			names[k], names[k-1] = names[k-1], names[k]
		}
	}
	return names
}

// What the schema refuses the reader refuses; and a file whose form the reader
// refuses, as against its figures, the schema refuses.
func TestSchemaAndReaderAgree(t *testing.T) {
	s := schema(t)
	full := demo(t)
	full.Price.Prices = estimate.Starting(geometry.FeetInches)
	full.Price.Prices.Items = full.Price.Prices.Items[:2]
	file := full.Encode()
	refused, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		bad, err := json.Marshal(broken(t, doc))
		if err != nil {
			t.Fatal(err)
		}
		bySchema := validate(s, bad)
		j, byReader := job.Read(bytes.NewReader(bad))
		if bySchema != nil && byReader == nil {
			t.Fatalf("only the schema refuses it: %v", bySchema)
		}
		if ofForm := byReader != nil && j.Version == 0; ofForm && bySchema == nil {
			t.Fatalf("the schema takes what the reader cannot: %v", byReader)
		}
		if tried++; bySchema != nil {
			refused++
		}
	})
	if refused < tried/4 {
		t.Errorf("only %d of %d files are refused", refused, tried)
	}
}

func TestSchemaRefuses(t *testing.T) {
	s, sound := schema(t), string(demo(t).Encode())
	for name, c := range map[string][2]string{
		"no version":       {`"haunchbook": `, `"version": `},
		"another version":  {`"haunchbook": `, `"haunchbook": 9`},
		"a number as text": {`"air": 6`, `"air": "6"`},
		"unknown field":    {`"waste": "5"`, `"waist": "5"`},
		"bare number":      {`"slump": "5\""`, `"slump": 5`},
		"no unit":          {`"slump": "5\""`, `"slump": "5"`},
		"unknown unit":     {`"slump": "5\""`, `"slump": "5 hands"`},
		"unknown choice":   {`"corner": "bent"`, `"corner": "kinked"`},
		"unknown bar":      {`"size": 4`, `"size": 9`},
		"out of range":     {`"air": 6`, `"air": 60`},
		"no whole number":  {`"people": 5`, `"people": 5.5`},
		"no time":          {`"start": "07:30"`, `"start": "half past"`},
		"no temperature":   {`"air": "58 °F"`, `"air": "58"`},
		"an empty list":    {`"stock": ["20'-0\""]`, `"stock": []`},
		"a door of no use": {`"width": "12'-0\""`, `"widthh": "12'-0\""`},
	} {
		text := strings.Replace(sound, c[0], c[1], 1)
		if text == sound {
			t.Errorf("%s: nothing to replace", name)
		} else if validate(s, []byte(text)) == nil {
			t.Errorf("%s is taken", name)
		}
	}
}
