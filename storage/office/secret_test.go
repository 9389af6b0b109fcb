package office_test

import (
	"testing"

	"github.com/zalando/go-keyring"

	"haunchbook.example/storage/office"
)

// The keyring's password is tried first whenever one connects, not only the first time;
// what is typed comes after it.
func TestKeptPassword(t *testing.T) {
	keyring.MockInit()
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/none")
	a, err := office.ParseAddress("postgres://anna@office.example/shop")
	if err != nil {
		t.Fatal(err)
	}
	if err := office.KeepPassword(a, "kept"); err != nil {
		t.Fatal(err)
	}
	ask := office.KeptOr(func(office.Address, bool) (string, error) { return "typed", nil })
	for range 2 {
		for again, want := range map[bool]string{false: "kept", true: "typed"} {
			if got, err := ask(a, again); got != want || err != nil {
				t.Errorf("again %v: %q, %v", again, got, err)
			}
		}
	}
	office.ForgetPassword(a)
	if got, err := ask(a, false); got != "typed" || err != nil {
		t.Errorf("%q, %v", got, err)
	}
	if _, err := office.KeptOr(nil)(a, false); err == nil {
		t.Error("a password comes from nowhere")
	}
}
