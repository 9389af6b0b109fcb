package spoken

import "testing"

func TestUnknown(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want bool
	}{
		{map[string]string{"LANG": "C.UTF-8"}, true},
		{map[string]string{"LANG": "POSIX"}, true},
		{map[string]string{"LANG": "en_US.UTF-8"}, false},
		{map[string]string{"LANG": "C.UTF-8", "LC_ALL": "es_MX.UTF-8"}, false},
		{map[string]string{"LANG": "es_MX.UTF-8", "LC_MESSAGES": "C"}, true},
		{map[string]string{"LANG": "C.UTF-8", "LANGUAGE": "de"}, false},
		{map[string]string{}, false},
	} {
		if got := unknown(func(name string) string { return c.env[name] }); got != c.want {
			t.Errorf("%v: %v, want %v", c.env, got, c.want)
		}
	}
}
