package geometry

import (
	"errors"
	"slices"
	"strings"
)

// Choose sets *v to the place of text among names, as a value is named in a file.
// The error lists the names.
func Choose[T ~uint8](v *T, names []string, text []byte) error {
	i := slices.Index(names, string(text))
	if i < 0 {
		last := len(names) - 1
		return errors.New("write " + strings.Join(names[:last], ", ") + " or " + names[last])
	}
	*v = T(i)
	return nil
}
