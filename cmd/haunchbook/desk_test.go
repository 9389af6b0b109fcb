package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"haunchbook.example/app/job"
)

// desk is a virtual display with a window manager.
type desk struct {
	t         *testing.T
	env       []string
	screen    screen
	processes []int // the server, the window manager, the program
	// quick does not wait after each key and click for the display to come to rest:
	// the window takes them in their order. Only before it is looked at, rest waits.
	quick bool
}

// newDesk starts a display of a size, with home as the user's folder. Displays start one
// after another, and one that does not come up is given up for another: two servers that
// look for a free number at once may find the same.
func newDesk(t *testing.T, home string, width, height int) *desk {
	t.Helper()
	for _, name := range []string{"Xvfb", "openbox", "xdotool", "wmctrl", "xwininfo"} {
		if _, err := exec.LookPath(name); err != nil {
			t.Fatalf("%s is missing: go run ./cmd/dev test installs it", name)
		}
	}
	stillness(t, home)
	displays.Lock()
	defer displays.Unlock()
	for range 20 {
		displays.last++
		d, err := startDesk(t, home, displays.last, width, height)
		if err == nil {
			return d
		}
		t.Logf("display %d does not start: %v", displays.last, err)
	}
	t.Fatal("no display starts")
	return nil
}

// displays are numbered from 100, far from those of people who work at the machine.
var displays = struct {
	sync.Mutex
	last int
}{last: 99}

// startDesk starts a display of a number and its window manager.
func startDesk(t *testing.T, home string, number, width, height int) (*desk, error) {
	memory := t.TempDir()
	name := ":" + strconv.Itoa(number)
	server := start(t, nil, "Xvfb", name, "-screen", "0", fmt.Sprintf("%dx%dx24", width, height), "-nolisten", "tcp", "-fbdir", memory)
	d := &desk{t: t, screen: screen{filepath.Join(memory, "Xvfb_screen0")}, env: append(os.Environ(),
		"DISPLAY="+name, "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home,
		"XDG_CACHE_HOME="+home, "LANG=en_US.UTF-8", "FYNE_SCALE=1", "FYNE_THEME=light", "WAYLAND_DISPLAY=")}
	if err := server.ready(d, "xwininfo", "-root"); err != nil {
		return nil, err
	}
	if _, err := os.Stat(d.screen.file); err != nil { // a display that somebody else has there answered
		server.stop()
		return nil, err
	}
	manager := start(t, d.env, "openbox", "--sm-disable")
	if err := manager.ready(d, "wmctrl", "-m"); err != nil {
		server.stop()
		return nil, err
	}
	d.processes = []int{server.Process.Pid, manager.Process.Pid}
	return d, nil
}

// stillness sets the toolkit's setting for no animations in home. The cursor of a
// field would fade for ever, and a display that never comes to rest cannot be waited
// for: where a look at it takes as long as a fade, each sees another cursor.
func stillness(t *testing.T, home string) {
	t.Helper()
	file := filepath.Join(home, "fyne", "settings.json")
	if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o777), os.WriteFile(file, []byte(`{"no_animations":true}`), 0o666)); err != nil {
		t.Fatal(err)
	}
}

// service is a process that runs until the test ends, and what it said.
type service struct {
	*exec.Cmd
	said  bytes.Buffer
	ended chan struct{}
	how   error // once ended
}

func start(t *testing.T, env []string, name string, args ...string) *service {
	t.Helper()
	s := &service{Cmd: exec.Command(name, args...), ended: make(chan struct{})}
	s.Env, s.Stdout, s.Stderr = env, &s.said, &s.said
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { s.how = s.Wait(); close(s.ended) }()
	t.Cleanup(s.stop)
	return s
}

// ready waits until a command succeeds that needs the service, which is stopped otherwise.
func (s *service) ready(d *desk, name string, args ...string) error {
	for end := time.Now().Add(patience / 6); ; time.Sleep(50 * time.Millisecond) {
		out, err := d.run(name, args...)
		if err == nil {
			return nil
		}
		select {
		case <-s.ended:
			return fmt.Errorf("%s ended: %w\n%s", s.Path, s.how, &s.said)
		default:
		}
		if time.Now().After(end) {
			s.stop()
			return fmt.Errorf("%s: %w: %s\n%s: %s", name, err, out, s.Path, &s.said)
		}
	}
}

func (s *service) stop() {
	_ = s.Process.Kill() // harmless after its end
	<-s.ended
}

// patience is how long something may take before the test gives up. It bounds a
// hang and asserts no speed.
const patience = 3 * time.Minute

func (d *desk) run(name string, args ...string) (string, error) {
	c := exec.Command(name, args...)
	c.Env = d.env
	out, err := c.CombinedOutput()
	return string(out), err
}

func (d *desk) must(name string, args ...string) string {
	d.t.Helper()
	out, err := d.run(name, args...)
	if err != nil {
		d.fail("%s %s: %v: %s", name, strings.Join(args, " "), err, out)
	}
	return out
}

// until waits for something to become true.
func (d *desk) until(what string, holds func() bool) {
	d.t.Helper()
	for end := time.Now().Add(patience); !holds(); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(end) {
			d.fail("waited in vain: %s", what)
		}
	}
}

// fail ends the test and keeps a picture of the display.
func (d *desk) fail(format string, args ...any) {
	d.t.Helper()
	d.picture("failed")
	d.t.Fatalf(format, args...)
}

// picture keeps a picture of the display in the folder HAUNCHBOOK_PICTURES, or
// in the system's temporary folder.
func (d *desk) picture(name string) {
	dir := pictures()
	if dir == "" {
		dir = os.TempDir()
	}
	p, err := d.screen.look()
	if err == nil {
		err = os.MkdirAll(dir, 0o777)
	}
	if err == nil {
		err = keep(p.part(p.rect), filepath.Join(dir, "haunchbook-"+name+".png"))
	}
	if err != nil {
		d.t.Logf("no picture: %v", err)
		return
	}
	d.t.Logf("picture: haunchbook-%s.png in %s", name, dir)
}

// keep writes a picture to a file.
func keep(m image.Image, file string) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	return errors.Join((&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(f, m), f.Close())
}

// pictures is the folder to keep pictures in, "" for none: HAUNCHBOOK_PICTURES,
// from the project's folder.
func pictures() string {
	dir := os.Getenv("HAUNCHBOOK_PICTURES")
	if dir != "" && !filepath.IsAbs(dir) {
		dir = filepath.Join("..", "..", dir)
	}
	return dir
}

// look gives the pixels of the display.
func (d *desk) look() *picture {
	d.t.Helper()
	p, err := d.screen.look()
	if err != nil {
		d.t.Fatal(err)
	}
	return p
}

// settle waits until the display has stopped changing, where it is not quick.
func (d *desk) settle() {
	d.t.Helper()
	if d.quick {
		time.Sleep(80 * time.Millisecond)
		return
	}
	d.rest()
}

// rest waits until the display has stopped changing and nobody is at work on it: on a
// busy machine, a display that stays the same for a while may only wait for its turn.
func (d *desk) rest() {
	d.t.Helper()
	const watched = 100 * time.Millisecond
	last, was := d.look(), workOf(d.processes)
	d.until("the display comes to rest", func() bool {
		time.Sleep(watched)
		now, is := d.look(), workOf(d.processes)
		rests := now.same(last) && !is.waiting && is.used-was.used <= watched/2
		last, was = now, is
		return rests
	})
}

// program is the window under test.
type program struct {
	*desk
	cmd    *exec.Cmd
	done   chan error
	log    bytes.Buffer
	window string // its number
}

func (d *desk) open(name string, args ...string) *program {
	d.t.Helper()
	p := &program{desk: d, cmd: exec.Command(name, args...), done: make(chan error, 1)}
	p.cmd.Env = d.env
	p.cmd.Stdout, p.cmd.Stderr = &p.log, &p.log
	if err := p.cmd.Start(); err != nil {
		d.t.Fatal(err)
	}
	d.processes = append(d.processes, p.cmd.Process.Pid)
	go func() { p.done <- p.cmd.Wait() }()
	d.t.Cleanup(func() { _ = p.cmd.Process.Kill() }) // harmless after its end
	d.until("the window opens", func() bool {
		select {
		case err := <-p.done:
			d.t.Fatalf("the program ended: %v\n%s", err, &p.log)
		default:
		}
		out, err := d.run("xdotool", "search", "--onlyvisible", "--name", "Haunchbook$")
		ids := strings.Fields(out)
		if err != nil || len(ids) == 0 {
			return false
		}
		p.window = ids[len(ids)-1]
		return true
	})
	d.must("xdotool", "windowactivate", "--sync", p.window)
	d.settle()
	return p
}

func (p *program) key(ks ...string) {
	p.t.Helper()
	for _, k := range ks {
		p.must("xdotool", "key", "--clearmodifiers", k)
		p.settle()
	}
}

func (p *program) typed(text string) {
	p.t.Helper()
	p.must("xdotool", "type", "--delay", "40", text)
	p.settle()
}

// move moves the mouse to a place in the window, from its upper left corner.
func (p *program) move(x, y int) {
	p.t.Helper()
	p.must("xdotool", "mousemove", "--window", p.window, strconv.Itoa(x), strconv.Itoa(y))
	p.settle()
}

func (p *program) click(x, y int) {
	p.t.Helper()
	p.move(x, y)
	p.must("xdotool", "click", "1")
	p.rest()                           // it is taken in,
	time.Sleep(400 * time.Millisecond) // and the next is no second one of a double click
}

// sized gives the window a size, at the corner of the display.
func (p *program) sized(width, height int) {
	p.t.Helper()
	p.must("xdotool", "windowmove", "--sync", p.window, "0", "0")
	p.must("xdotool", "windowsize", p.window, strconv.Itoa(width), strconv.Itoa(height))
	p.settle()
}

// seen gives the window's pixels.
func (p *program) seen() image.Image {
	p.t.Helper()
	// xdotool tells of a window in a frame a place that is off by the frame.
	var at [4]int
	out := p.must("xwininfo", "-id", p.window)
	for i, name := range []string{"Absolute upper-left X:", "Absolute upper-left Y:", "Width:", "Height:"} {
		_, rest, _ := strings.Cut(out, name)
		if _, err := fmt.Sscan(rest, &at[i]); err != nil {
			p.t.Fatalf("the window's %s %v in %q", name, err, out)
		}
	}
	return p.look().part(image.Rect(at[0], at[1], at[0]+at[2], at[1]+at[3]))
}

// titled waits until the window's title begins so.
func (p *program) titled(text string) {
	p.t.Helper()
	p.until("the title begins with "+text, func() bool {
		out, err := p.run("xdotool", "getwindowname", p.window)
		return err == nil && strings.HasPrefix(out, text)
	})
}

// save saves the job as a file in home, where the dialog opens, and reads it.
func (p *program) save(home, name string) job.Job {
	p.t.Helper()
	p.key("ctrl+s")
	p.key("ctrl+a")
	p.typed(name)
	p.key("Return")
	var j job.Job
	p.until(name+" is written", func() bool {
		f, err := os.Open(filepath.Join(home, name))
		if errors.Is(err, fs.ErrNotExist) {
			return false
		}
		if err != nil {
			p.t.Fatal(err)
		}
		defer f.Close()
		j, err = job.Read(f) // half a file is none
		return err == nil
	})
	p.settle()
	return j
}

// close closes the window as its user does, and waits for a clean end.
func (p *program) close() {
	p.t.Helper()
	p.must("wmctrl", "-i", "-c", p.window)
	select {
	case err := <-p.done:
		if err != nil {
			p.t.Errorf("the program ended with %v\n%s", err, &p.log)
		}
	case <-time.After(patience):
		p.fail("the program does not end")
	}
}

// print prints the sheets from a window of a width, into the folder that the
// program offers in home, and waits for the files, each with how it begins.
func (p *program) print(home string, width int, files map[string]string) {
	p.t.Helper()
	p.key("ctrl+p")
	p.rest()
	p.click(p.boldButton(width-320, 170)) // Write
	for name, start := range files {
		p.until(name+" is written", func() bool {
			found, err := filepath.Glob(filepath.Join(home, "*", "*-"+name))
			if err != nil || len(found) != 1 {
				return false
			}
			data, err := os.ReadFile(found[0])
			return err == nil && strings.HasPrefix(string(data), start)
		})
	}
	p.rest()
}

// boldButton finds the middle of the first wide button in the accent color in
// the part of the window right of x and below y, row by row.
func (p *program) boldButton(x, y int) (int, int) {
	p.t.Helper()
	const least = 60 // pixels
	var at [2]int
	p.until("a button in the accent color is there", func() bool {
		m := p.seen()
		b := m.Bounds()
		for row := y; row < b.Dy(); row++ {
			run := 0
			for col := x; col < b.Dx(); col++ {
				r, g, bl, _ := m.At(b.Min.X+col, b.Min.Y+row).RGBA()
				if max(r, g, bl)-min(r, g, bl) < 0x4000 {
					run = 0
				} else if run++; run == least {
					at = [2]int{col - least/2, row + 6}
					return true
				}
			}
		}
		return false
	})
	return at[0], at[1]
}
