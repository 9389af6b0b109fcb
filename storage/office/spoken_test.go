package office

import (
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5/pgconn"

	"haunchbook.example/app/language"
	"haunchbook.example/storage"
)

// What the office book says to people is said in every language that there is, but for what
// the server itself says.
func TestSpokenInEveryLanguage(t *testing.T) {
	refused := func(code string) error { return explain(&pgconn.PgError{Code: code, Message: "x"}) }
	address := func(text string) error {
		_, err := ParseAddress(text)
		return err
	}
	texts := []string{
		Sentence(address("x")), Sentence(address("postgres://ann:x@h/d")), Sentence(address("postgres://ann@/")), Sentence(address("postgres://a@h,g/d")), Sentence(address("postgres://ann@h/d?service=x")),
		Sentence(address("postgres://ann@h/d?sslmode=require")),
		Sentence(refused(codeFull)), Sentence(refused(codeMany)), Sentence(refused(codeReadOnly)), Sentence(refused("57P01")), Sentence(refused("08006")),
		Sentence(explain(x509.UnknownAuthorityError{})), Sentence(explain(errors.New("server refused TLS connection"))), Sentence(explain(io.EOF)),
		Sentence((&Conn{User: "ann", address: must(ParseAddress("postgres://ann@h/shop"))}).stranger()),
		Sentence(tooNew(99, "ann")),
		otherNumber(4, 5),
		titled(storage.Summary{ID: 4, Name: "shop"}) + deletedBy + "ann",
		fmt.Sprintf(twiceText, 7, "J-0004, shop", "J-0005, ann"),
		Conflict{Job: 4, Who: []string{"ann"}, Clashes: []string{"notes"}}.String(),
		"a note with figures",
	}
	for _, skew := range []time.Duration{time.Hour, 30 * time.Hour, 200 * time.Hour, 30000 * time.Hour} {
		texts = append(texts, (&Conn{Skew: skew}).ClockTold(), (&Conn{Skew: -skew}).ClockTold())
	}
	texts = append(texts, ErasePlan()...)
	all, err := language.All()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range all {
		s := l.Speaker([]string{"ann", "shop", "x"})
		if s == nil {
			continue
		}
		for _, text := range texts {
			s.Say(text)
		}
		for _, key := range s.Unknown() {
			if strings.HasPrefix(key, says) || strings.HasPrefix(key, `the address of the office book: found "`) || strings.HasPrefix(key, "the address of the office book: found sslmode=") {
				continue // what was typed, and what the server says
			}
			t.Errorf("%s lacks %q", l.Name, key)
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
