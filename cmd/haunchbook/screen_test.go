package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// screen is the memory of a virtual display, which the server keeps in a file: it is
// looked at without another program that takes its time, most of all where the
// machine is busy.
type screen struct{ file string }

// look gives the pixels as they are now.
func (s screen) look() (*picture, error) {
	data, err := os.ReadFile(s.file)
	if err != nil {
		return nil, err
	}
	// The header of the X Window Dump, version 7: 25 words, most significant byte first.
	const words = 25
	if len(data) < 4*words {
		return nil, errors.New("the display's memory is not there yet")
	}
	word := func(i int) int { return int(binary.BigEndian.Uint32(data[4*i:])) }
	const headerSize, width, height, order, bits, line, colors = 0, 4, 5, 7, 11, 12, 19
	if word(order) != 0 || word(bits) != 32 {
		return nil, errors.New("the display's pixels are not 32 bits, least significant byte first")
	}
	start := word(headerSize) + 12*word(colors)
	p := &picture{stride: word(line), rect: image.Rect(0, 0, word(width), word(height))}
	if len(data) < start+p.stride*word(height) {
		return nil, errors.New("the display's memory is cut off")
	}
	p.pix = data[start : start+p.stride*word(height)]
	return p, nil
}

// picture is a look at the display: blue, green, red and nothing for each pixel.
type picture struct {
	pix    []byte
	stride int
	rect   image.Rectangle
}

func (p *picture) same(as *picture) bool { return bytes.Equal(p.pix, as.pix) }

// part copies a part, with its upper left corner at 0, 0.
func (p *picture) part(r image.Rectangle) *image.NRGBA {
	r = r.Intersect(p.rect)
	m := image.NewNRGBA(image.Rect(0, 0, r.Dx(), r.Dy()))
	for y := range r.Dy() {
		for x := range r.Dx() {
			at := p.pix[(r.Min.Y+y)*p.stride+4*(r.Min.X+x):]
			m.SetNRGBA(x, y, color.NRGBA{R: at[2], G: at[1], B: at[0], A: 255})
		}
	}
	return m
}

// work is what processes have done and have to do.
type work struct {
	used    time.Duration // of a processor
	waiting bool          // a thread runs, or would if the machine were not busy
}

// workOf asks the system about processes, those that have ended left out.
func workOf(processes []int) work {
	const tick = 10 * time.Millisecond // Linux: USER_HZ is 100 on every machine that Go knows
	var w work
	for _, id := range processes {
		threads, _ := filepath.Glob(filepath.Join("/proc", strconv.Itoa(id), "task", "*", "stat"))
		for _, t := range threads {
			data, err := os.ReadFile(t)
			if err != nil {
				continue // it has ended
			}
			// After the name in brackets, proc(5): the state first, then the times.
			_, rest, _ := strings.Cut(string(data), ") ")
			f := strings.Fields(rest)
			if len(f) < 13 {
				continue
			}
			w.waiting = w.waiting || f[0] == "R"
			for _, s := range f[11:13] {
				if n, err := strconv.Atoi(s); err == nil {
					w.used += time.Duration(n) * tick
				}
			}
		}
	}
	return w
}
