// Package spoken sets what language the window's toolkit finds in the environment. Of
// C.UTF-8, usual on bare machines, it reports on standard error that it knows no such
// language, as soon as it is loaded.
//
// Go loads packages in the order of their paths, those first that need nothing else
// that is not loaded yet (The Go Programming Language Specification, Package
// initialization). So this one, which needs syscall alone, is loaded before the toolkit,
// which needs os. The locale itself stays as it is.
package spoken

import "syscall"

func init() {
	get := func(name string) string {
		v, _ := syscall.Getenv(name)
		return v
	}
	if unknown(get) {
		syscall.Setenv("LANGUAGE", "en")
	}
}

// unknown tells whether the environment names a locale, but no language.
func unknown(get func(string) string) bool {
	if get("LANGUAGE") != "" {
		return false
	}
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := get(name); v != "" {
			return v == "C" || v == "POSIX" || len(v) > 1 && v[:2] == "C."
		}
	}
	return false
}
