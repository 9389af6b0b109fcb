package portal_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"

	"haunchbook.example/app/portal"
)

// session starts a session bus of its own.
func session(t *testing.T) (address string, bus *exec.Cmd) {
	t.Helper()
	if _, err := exec.LookPath("dbus-daemon"); err != nil {
		t.Skip("dbus-daemon, the message bus of desktops, is not installed")
	}
	c := exec.Command("dbus-daemon", "--session", "--nofork", "--print-address")
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = c.Process.Kill()
		_ = c.Wait() // it was killed
	})
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", strings.TrimSpace(line))
	return strings.TrimSpace(line), c
}

// desktop is one with dialogs, and a user who answers at once. It is written from the
// documentation of the interfaces, not from the package.
type desktop struct {
	bus    *dbus.Conn
	answer func(method string, o map[string]dbus.Variant) (code uint32, uris []string)
	asked  chan question
	shut   chan bool
}

// question is what a desktop was asked.
type question struct {
	method, parent string
	options        map[string]dbus.Variant
}

func (d *desktop) dialog(method string, from dbus.Sender, parent string, o map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
	d.asked <- question{method, parent, o}
	name := strings.ReplaceAll(strings.TrimPrefix(string(from), ":"), ".", "_")
	handle := dbus.ObjectPath(fmt.Sprintf("/org/freedesktop/portal/desktop/request/%s/%s", name, o["handle_token"].Value()))
	_ = d.bus.ExportMethodTable(map[string]any{"Close": func() *dbus.Error { d.shut <- true; return nil }}, handle, "org.freedesktop.portal.Request")
	if d.answer != nil {
		code, uris := d.answer(method, o)
		// Before the call has come back, as a quick desktop may.
		_ = d.bus.Emit(handle, "org.freedesktop.portal.Request.Response", code, map[string]dbus.Variant{"uris": dbus.MakeVariant(uris)})
	}
	return handle, nil
}

// newDesktop puts one on a bus, that answers every question alike; with nil none.
func newDesktop(t *testing.T, address string, version uint32, answer func(method string, o map[string]dbus.Variant) (code uint32, uris []string)) *desktop {
	t.Helper()
	bus, err := dbus.Connect(address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = bus.Close() })
	d := &desktop{bus: bus, answer: answer, asked: make(chan question, 1), shut: make(chan bool, 1)}
	const path = "/org/freedesktop/portal/desktop"
	for name, methods := range map[string]map[string]any{
		"org.freedesktop.portal.FileChooser": {
			"OpenFile": func(from dbus.Sender, parent, title string, o map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
				return d.dialog("OpenFile", from, parent, o)
			},
			"SaveFile": func(from dbus.Sender, parent, title string, o map[string]dbus.Variant) (dbus.ObjectPath, *dbus.Error) {
				return d.dialog("SaveFile", from, parent, o)
			},
		},
		"org.freedesktop.DBus.Properties": {
			"Get": func(string, string) (dbus.Variant, *dbus.Error) { return dbus.MakeVariant(version), nil },
		},
	} {
		if err := bus.ExportMethodTable(methods, path, name); err != nil {
			t.Fatal(err)
		}
	}
	if r, err := bus.RequestName("org.freedesktop.portal.Desktop", dbus.NameFlagDoNotQueue); err != nil || r != dbus.RequestNameReplyPrimaryOwner {
		t.Fatal(r, err)
	}
	return d
}

func open(t *testing.T) *portal.Portal {
	t.Helper()
	p := portal.Session()
	if p == nil {
		t.Fatal("there is a session, and it was not found")
	}
	t.Cleanup(func() { _ = p.Close() })
	return p
}

func TestAnswers(t *testing.T) {
	for _, c := range []struct {
		name   string
		ask    portal.Ask
		code   uint32
		uris   []string
		method string
		path   string
		fault  string
		wants  map[string]any
	}{
		{
			name: "a file with a space and an umlaut", ask: portal.Ask{Title: "Open a file", Ends: []string{".json", ".JSON"}, Parent: portal.Window(0x1e00003)},
			uris: []string{"file:///home/crew/Lot%207/b%C3%BCro%20100%25+.json"}, method: "OpenFile", path: "/home/crew/Lot 7/büro 100%+.json",
			wants: map[string]any{"filters": [][]any{{"*.json, *.JSON", [][]any{{uint32(0), "*.json"}, {uint32(0), "*.JSON"}}}}},
		},
		{
			name: "a folder", ask: portal.Ask{Title: "Choose a folder", Folder: true, Begin: "/srv/jobs", Accept: "Make it here"},
			uris: []string{"file:///srv/jobs"}, method: "OpenFile", path: "/srv/jobs",
			wants: map[string]any{"directory": true, "current_folder": []byte("/srv/jobs\x00"), "accept_label": "Make it here"},
		},
		{
			name: "a name to save under", ask: portal.Ask{Title: "Save as a file", Name: "Garage.json"},
			uris: []string{"file:///tmp/Garage.json"}, method: "SaveFile", path: "/tmp/Garage.json", wants: map[string]any{"current_name": "Garage.json"},
		},
		{name: "nothing", ask: portal.Ask{Title: "Open a file"}, code: 1, method: "OpenFile"},
		{name: "ended otherwise", ask: portal.Ask{Title: "Open a file"}, code: 2, method: "OpenFile"},
		{name: "elsewhere", ask: portal.Ask{Title: "Open a file"}, uris: []string{"sftp://host/a.json"}, method: "OpenFile", fault: "sftp://host/a.json is not on this machine"},
	} {
		address, _ := session(t)
		d := newDesktop(t, address, 4, func(string, map[string]dbus.Variant) (uint32, []string) { return c.code, c.uris })
		path, err := open(t).Choose(t.Context(), c.ask)
		q := <-d.asked
		if path != c.path || (err == nil) != (c.fault == "") || err != nil && !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s: %q, %v", c.name, path, err)
		}
		if q.method != c.method || q.parent != c.ask.Parent {
			t.Errorf("%s: %s of %q", c.name, q.method, q.parent)
		}
		for k, want := range c.wants {
			if got := fmt.Sprint(q.options[k].Value()); got != fmt.Sprint(want) {
				t.Errorf("%s: %s is %s, want %v", c.name, k, got, want)
			}
		}
	}
}

// A desktop without dialogs, or whose dialogs know no folders, leaves it to the program.
func TestNone(t *testing.T) {
	address, _ := session(t)
	if _, err := open(t).Choose(t.Context(), portal.Ask{}); !errors.Is(err, portal.ErrNone) {
		t.Errorf("without a desktop: %v", err)
	}
	newDesktop(t, address, 2, nil)
	if _, err := open(t).Choose(t.Context(), portal.Ask{Folder: true}); !errors.Is(err, portal.ErrNone) {
		t.Errorf("a folder of a desktop that knows none: %v", err)
	}
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere/bus")
	if portal.Session() != nil {
		t.Error("a session without a bus")
	}
}

// What waits for the user ends with what it waits on.
func TestEnds(t *testing.T) {
	address, bus := session(t)
	wait := func(ctx context.Context, p *portal.Portal, d *desktop) chan error {
		ended := make(chan error)
		go func() {
			_, err := p.Choose(ctx, portal.Ask{Title: "Open a file"})
			ended <- err
		}()
		<-d.asked
		time.Sleep(200 * time.Millisecond) // until it waits; what comes before that ends it as well
		return ended
	}
	d := newDesktop(t, address, 4, nil)
	ctx, stop := context.WithCancel(t.Context())
	ended := wait(ctx, open(t), d)
	stop()
	if err := <-ended; !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
	<-d.shut // the dialog is closed

	ended = wait(t.Context(), open(t), d)
	_ = d.bus.Close() // the desktop's service ends
	if err := <-ended; err == nil || !strings.Contains(err.Error(), "try once more") {
		t.Errorf("the desktop ended: %v", err)
	}

	ended = wait(t.Context(), open(t), newDesktop(t, address, 4, nil))
	_ = bus.Process.Kill() // the session ends
	if err := <-ended; err == nil {
		t.Error("the session ended, and nothing is said")
	}
}

func Example() {
	p := portal.Session()
	if p == nil {
		return // a dialog of one's own
	}
	defer p.Close()
	path, err := p.Choose(context.Background(), portal.Ask{Title: "Open a job", Ends: []string{".json"}})
	if errors.Is(err, portal.ErrNone) {
		return // here too
	}
	fmt.Println(path, err)
}
