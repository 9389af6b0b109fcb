package job

import "reflect"

// Clone gives a job that shares nothing that can be changed with j.
func (j Job) Clone() Job { return clone(reflect.ValueOf(j)).Interface().(Job) }

// clone copies lists all the way down. What has fields of its own package, such as an
// amount, is never changed in place and may be shared.
func clone(v reflect.Value) reflect.Value {
	switch v.Kind() {
	case reflect.Slice:
		if v.IsNil() {
			return v
		}
		out := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		for i := range v.Len() {
			out.Index(i).Set(clone(v.Index(i)))
		}
		return out
	case reflect.Struct:
		out := reflect.New(v.Type()).Elem()
		out.Set(v)
		for i := range v.NumField() {
			if k := v.Field(i).Kind(); out.Field(i).CanSet() && (k == reflect.Slice || k == reflect.Struct) {
				out.Field(i).Set(clone(v.Field(i)))
			}
		}
		return out
	}
	return v
}
