// Package picture reads pictures from files that anybody may have made: PNG and
// JPEG, of a size that is looked at before anything is unpacked.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/jpeg" // photographs come as JPEG, scans as PNG
	_ "image/png"
	"io"
)

// Bounds of a picture: enough for a photograph or a large drawing scanned at 300
// points to the inch. A picture of few bytes can have any number of points.
const (
	MaxBytes  = 64 << 20  // of the file
	MaxPoints = 120e6     // width times height
	maxMemory = 512 << 20 // bytes, unpacked
)

// Check tells whether a file is a picture that Read reads, from its head: its size in
// points, and "png" or "jpeg".
func Check(data []byte) (size image.Point, kind string, err error) {
	if len(data) > MaxBytes {
		return size, "", fmt.Errorf("found a picture of more than %d MB; use a smaller one", MaxBytes>>20)
	}
	c, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return size, "", errors.New("found no PNG or JPEG picture; use a photograph or scan in one of these")
	}
	size = image.Point{X: c.Width, Y: c.Height}
	if points := float64(c.Width) * float64(c.Height); c.Width < 1 || c.Height < 1 || points > MaxPoints || points*float64(bytesOf(c.ColorModel)) > maxMemory {
		return size, "", fmt.Errorf("found a picture of %d by %d points; use one of at most %d million", c.Width, c.Height, int(MaxPoints/1e6))
	}
	return size, kind, nil
}

// bytesOf gives how many bytes a point takes in memory.
func bytesOf(m color.Model) int {
	switch m {
	case color.GrayModel:
		return 1
	case color.Gray16Model:
		return 2
	case color.YCbCrModel:
		return 3
	case color.RGBA64Model, color.NRGBA64Model:
		return 8
	}
	if _, ok := m.(color.Palette); ok {
		return 1
	}
	return 4
}

// Read unpacks a picture.
func Read(data []byte) (image.Image, error) {
	if _, _, err := Check(data); err != nil {
		return nil, err
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("the picture is damaged: %w", err)
	}
	return img, nil
}

// Load reads the file of a picture, no further than one may be long.
func Load(r io.Reader) ([]byte, error) { return io.ReadAll(io.LimitReader(r, MaxBytes+1)) }
