package office

import (
	"errors"
	"fmt"
	"os"
	"runtime"

	"github.com/zalando/go-keyring"

	"haunchbook.example/storage"
)

// A password is in the system's keyring or in somebody's head, never in a file, an argument
// or the environment.

// service is what passwords are kept under; beside it stands the address.
const service = "haunchbook"

var errNoKeyring = errors.New("this system has no keyring")

// hasKeyring tells whether there is a keyring to ask: on Linux the session's, which must
// not be started for that.
func hasKeyring() bool {
	if runtime.GOOS != "linux" || os.Getenv("DBUS_SESSION_BUS_ADDRESS") != "" {
		return true
	}
	_, err := os.Stat(fmt.Sprintf("/run/user/%d/bus", os.Getuid()))
	return err == nil
}

// KeptPassword gives the password that the system's keyring has for an address.
func KeptPassword(a Address) (password string, ok bool) {
	if !hasKeyring() {
		return "", false
	}
	password, err := keyring.Get(service, a.String())
	return password, err == nil
}

// KeepPassword has the system's keyring keep the password for an address.
func KeepPassword(a Address, password string) error {
	err := errNoKeyring
	if hasKeyring() {
		err = keyring.Set(service, a.String(), password)
	}
	if err != nil {
		return &storage.Fault{Text: "the password is not kept: " + err.Error(), Way: "it is asked for the next time", Err: err}
	}
	return nil
}

// ForgetPassword has the system's keyring forget the password for an address.
func ForgetPassword(a Address) {
	if hasKeyring() {
		_ = keyring.Delete(service, a.String()) // there may be none
	}
}

// KeptOr gives what takes the password from the keyring first, each time one is connected
// to anew, and asks for it where that has none or a wrong one.
func KeptOr(ask Password) Password {
	return func(a Address, again bool) (string, error) {
		if !again {
			if p, ok := KeptPassword(a); ok {
				return p, nil
			}
		}
		if ask == nil {
			return "", &storage.Fault{Kind: storage.Forbidden, Text: "the office book asks for a password", Way: "connect again, and type it"}
		}
		return ask(a, again)
	}
}
