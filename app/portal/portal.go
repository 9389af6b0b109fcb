// Package portal asks the desktop for files by its own dialogs, where it offers them
// through a portal: the interfaces org.freedesktop.portal.FileChooser and .Request of the
// XDG Desktop Portal documentation, over the session's D-Bus. Elsewhere, and on other
// systems, there is none, and the program shows dialogs of its own.
package portal

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"net/url"
	"strings"
	"time"

	"github.com/godbus/dbus/v5"
)

// ErrNone is the error where the desktop offers no dialogs for files.
var ErrNone = errors.New("this desktop offers no dialogs for files")

const (
	service = "org.freedesktop.portal.Desktop"
	object  = dbus.ObjectPath("/org/freedesktop/portal/desktop")
	chooser = "org.freedesktop.portal.FileChooser"
	request = "org.freedesktop.portal.Request"
)

// patience is how long a desktop may take to say whether it offers dialogs. Bringing up
// the service that does takes a while.
const patience = 4 * time.Second

// Portal is the desktop of the user's session.
type Portal struct{ bus *dbus.Conn }

// Session finds the desktop of the session; nil where there is no session bus. It starts
// nothing.
func Session() *Portal {
	bus, err := dbus.SessionBusPrivateNoAutoStartup()
	if err != nil {
		return nil
	}
	if err = bus.Auth(nil); err == nil {
		err = bus.Hello()
	}
	if err != nil {
		_ = bus.Close() // it is of no use
		return nil
	}
	return &Portal{bus}
}

// Close ends the connection.
func (p *Portal) Close() error { return p.bus.Close() }

// Ask is a question for a file or a folder.
type Ask struct {
	Parent string   // the window it belongs to, as Window gives it; "" for none
	Title  string   // of the dialog
	Accept string   // on the button that takes what is chosen; "" for what is usual
	Begin  string   // the folder shown first; "" for the desktop's choice
	Name   string   // to save under; "" to open something
	Folder bool     // a folder is opened, not a file
	Ends   []string // how names of files to open end, as ".json"; any where there is none
}

// Window names a window of the X Window System for Ask.
func Window(x11 uintptr) string { return fmt.Sprintf("x11:%x", x11) }

// Choose shows the desktop's dialog and waits for the user; the path is "" where they
// chose nothing. ErrNone is where the desktop has none. Where the context ends the dialog
// is closed.
func (p *Portal) Choose(ctx context.Context, a Ask) (path string, err error) {
	if !p.offers(ctx, a) {
		return "", ErrNone
	}
	// What the request is called is known beforehand, so that no answer comes before it is
	// listened for.
	token := "haunchbook_" + rand.Text()
	sender := strings.ReplaceAll(strings.TrimPrefix(p.bus.Names()[0], ":"), ".", "_")
	handle := object + dbus.ObjectPath("/request/"+sender+"/"+token)
	match := []dbus.MatchOption{dbus.WithMatchInterface(request), dbus.WithMatchMember("Response"), dbus.WithMatchObjectPath(handle)}
	gone := []dbus.MatchOption{dbus.WithMatchInterface("org.freedesktop.DBus"), dbus.WithMatchMember("NameOwnerChanged"), dbus.WithMatchArg(0, service)}
	heard := make(chan *dbus.Signal, 8)
	p.bus.Signal(heard)
	defer p.bus.RemoveSignal(heard)
	for _, m := range [][]dbus.MatchOption{match, gone} {
		if err := p.bus.AddMatchSignalContext(ctx, m...); err != nil {
			return "", fmt.Errorf("the desktop's dialog: %w", err)
		}
		defer func() { _ = p.bus.RemoveMatchSignal(m...) }() // the connection may be gone
	}
	method := chooser + ".OpenFile"
	if a.Name != "" {
		method = chooser + ".SaveFile"
	}
	var given dbus.ObjectPath
	if err := p.bus.Object(service, object).CallWithContext(ctx, method, 0, a.Parent, a.Title, a.options(token)).Store(&given); err != nil {
		return "", fmt.Errorf("the desktop's dialog: %w", err)
	}
	for {
		select {
		case <-ctx.Done():
			p.bus.Object(service, given).Call(request+".Close", dbus.FlagNoReplyExpected)
			return "", ctx.Err()
		case <-p.bus.Context().Done():
			return "", errors.New("the desktop's dialog: the session ended")
		case s := <-heard:
			switch {
			case s == nil:
				return "", errors.New("the desktop's dialog: the session ended")
			case s.Name == request+".Response" && (s.Path == handle || s.Path == given):
				return chosen(s.Body)
			case s.Name == "org.freedesktop.DBus.NameOwnerChanged" && len(s.Body) == 3 && s.Body[0] == service && s.Body[2] == "":
				return "", errors.New("the desktop's dialog ended by itself; try once more")
			}
		}
	}
}

// offers tells whether the desktop has a dialog for that.
func (p *Portal) offers(ctx context.Context, a Ask) bool {
	ctx, stop := context.WithTimeout(ctx, patience)
	defer stop()
	var version dbus.Variant
	err := p.bus.Object(service, object).CallWithContext(ctx, "org.freedesktop.DBus.Properties.Get", 0, chooser, "version").Store(&version)
	v, ok := version.Value().(uint32)
	return err == nil && ok && (v >= folders || v > 0 && !a.Folder)
}

// folders is the version of the interface from which on a folder can be asked for.
const folders = 3

// filter is one kind of files to choose from: its name, and patterns of names.
type filter struct {
	Name  string
	Rules []rule
}

type rule struct {
	Kind    uint32 // 0 for a pattern of names
	Pattern string
}

func (a Ask) options(token string) map[string]dbus.Variant {
	o := map[string]dbus.Variant{"handle_token": dbus.MakeVariant(token), "modal": dbus.MakeVariant(true)}
	if a.Accept != "" {
		o["accept_label"] = dbus.MakeVariant(a.Accept)
	}
	if a.Begin != "" {
		o["current_folder"] = dbus.MakeVariant(append([]byte(a.Begin), 0))
	}
	if a.Name != "" {
		o["current_name"] = dbus.MakeVariant(a.Name)
	}
	if a.Folder {
		o["directory"] = dbus.MakeVariant(true)
	}
	if len(a.Ends) > 0 {
		f := filter{Name: "*" + strings.Join(a.Ends, ", *")}
		for _, end := range a.Ends {
			f.Rules = append(f.Rules, rule{Pattern: "*" + end})
		}
		o["filters"] = dbus.MakeVariant([]filter{f})
	}
	return o
}

// chosen reads an answer: 0 and what was chosen, or 1 or 2 for nothing.
func chosen(body []any) (path string, err error) {
	if len(body) != 2 {
		return "", errors.New("the desktop's dialog: it answers something else than files")
	}
	code, ok := body[0].(uint32)
	if !ok || code != 0 {
		return "", nil
	}
	results, _ := body[1].(map[string]dbus.Variant)
	files, _ := results["uris"].Value().([]string)
	if len(files) == 0 {
		return "", nil
	}
	u, err := url.Parse(files[0])
	if err != nil || u.Scheme != "file" || u.Path == "" {
		return "", fmt.Errorf("%s is not on this machine; choose a file in a folder of its own", files[0])
	}
	return u.Path, nil
}
