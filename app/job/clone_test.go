package job

import (
	"bytes"
	"reflect"
	"testing"

	"haunchbook.example/assets"
	"haunchbook.example/geometry/layout/sawcuts"
)

// A copy is the same, and no list in it is the same memory.
func TestCloneSharesNothing(t *testing.T) {
	j, err := Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	c := j.Clone()
	if !reflect.DeepEqual(j, c) {
		t.Fatal("the copy differs")
	}
	lists := 0
	var apart func(a, b reflect.Value, path string)
	apart = func(a, b reflect.Value, path string) {
		switch a.Kind() {
		case reflect.Slice:
			if a.Len() > 0 && a.Pointer() == b.Pointer() {
				t.Errorf("%s is shared", path)
			}
			lists++
			for i := range a.Len() {
				apart(a.Index(i), b.Index(i), path+"[]")
			}
		case reflect.Struct:
			for i := range a.NumField() {
				// Saw cuts that variations of a job share are no part of the job.
				if f := a.Type().Field(i); f.IsExported() && f.Type != reflect.TypeFor[*sawcuts.Known]() {
					apart(a.Field(i), b.Field(i), path+"."+f.Name)
				}
			}
		case reflect.Map, reflect.Pointer:
			t.Errorf("%s is a %s, which a copy would share", path, a.Kind())
		}
	}
	apart(reflect.ValueOf(j), reflect.ValueOf(c), "job")
	if lists < 10 {
		t.Errorf("only %d lists were looked at", lists)
	}
}
