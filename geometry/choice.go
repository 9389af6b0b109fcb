package geometry

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Choice is one of a few things that files and people know by name: its value is
// the place of its name in the list that N gives. A type of such a choice is an
// alias,
//
//	type Corner = geometry.Choice[corners]
//
// with constants for its values and a type corners that names them.
type Choice[N Named] uint8

// Named lists the names of a choice, in the order of its values.
type Named interface{ Names() []string }

// Choices lists the names.
func (Choice[N]) Choices() []string {
	var n N
	return n.Names()
}

// String gives the name used in job files.
func (c Choice[N]) String() string {
	if names := c.Choices(); int(c) < len(names) {
		return names[c]
	}
	return fmt.Sprintf("no choice: %d", uint8(c))
}

// MarshalText gives the name that String gives.
func (c Choice[N]) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads the name that String gives. The error lists the names.
func (c *Choice[N]) UnmarshalText(text []byte) error {
	names := c.Choices()
	i := slices.Index(names, string(text))
	if i < 0 {
		last := len(names) - 1
		return errors.New("write " + strings.Join(names[:last], ", ") + " or " + names[last])
	}
	*c = Choice[N](i)
	return nil
}
