package office

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/storage"
)

// Part is what somebody is in an office book.
type Part struct {
	Owner, Estimator, Foreman bool
	Prices                    bool // may see prices
}

// String gives "owner", "estimator" or "foreman", and whether a foreman sees prices.
func (p Part) String() string {
	switch {
	case p.Owner:
		return "owner"
	case p.Estimator:
		return "estimator"
	case p.Foreman && p.Prices:
		return "foreman, with prices"
	case p.Foreman:
		return "foreman, without prices"
	}
	return "none"
}

// settles tells whether the part may write settings and price lists.
func (p Part) settles() bool { return p.Owner || p.Estimator }

// Conn is a connection to an office book. It is used by one goroutine at a time.
type Conn struct {
	address  Address
	password string
	pg       *pgx.Conn
	lastJob  uint64        // the highest number of a job there, when changes were asked for last
	Epoch    string        // names the office book
	User     string        // as the server knows it
	Part     Part          // what the user is
	Form     int           // of the office book
	Skew     time.Duration // of this machine's clock: more than 0 where it is ahead
}

// Password asks for the password of an address; again is true where the last one was wrong.
type Password func(a Address, again bool) (string, error)

// Connect connects to an office book. A password is asked for only where the server wants
// one; nil has none to give.
func Connect(ctx context.Context, a Address, password Password) (*Conn, error) {
	c := &Conn{address: a}
	if err := c.login(ctx, password); err != nil {
		return nil, err
	}
	if err := c.greet(ctx); err != nil {
		return nil, errors.Join(err, c.Close())
	}
	return c, nil
}

// login opens the connection. One that answers nothing for long is given up.
func (c *Conn) login(ctx context.Context, password Password) error {
	again := false
	for range 4 {
		err := c.dial(ctx)
		if err == nil || !isPassword(err) || password == nil {
			return explain(err)
		}
		if c.password, err = password(c.address, again); err != nil {
			return err
		}
		again = true
	}
	return &storage.Fault{Kind: storage.Forbidden, Text: "the office book does not take the password", Way: "ask its owner for another"}
}

// patience is how long a server may take to answer a call.
const patience = 20 * time.Second

func (c *Conn) dial(ctx context.Context) error {
	cfg, err := c.address.config(c.password)
	if err != nil {
		return err
	}
	cfg.ConnectTimeout = patience
	cfg.RuntimeParams["application_name"] = "haunchbook"
	cfg.RuntimeParams["timezone"] = "UTC"
	c.pg, err = pgx.ConnectConfig(ctx, cfg)
	return err
}

// greet asks what the office book is, and who one is in it.
func (c *Conn) greet(ctx context.Context) error {
	var there bool
	sent := time.Now()
	var server time.Time
	err := c.pg.QueryRow(ctx, `SELECT session_user, to_regnamespace('haunchbook') IS NOT NULL, clock_timestamp()`).Scan(&c.User, &there, &server)
	if err != nil {
		return explain(err)
	}
	c.Skew = sent.Add(time.Since(sent) / 2).Sub(server)
	if !there {
		return &storage.Fault{Kind: storage.Missing, Text: fmt.Sprintf("there is no office book in the database %s", c.address.Database()), Way: "its owner makes one: haunchsheet office init " + c.address.String()}
	}
	var inside bool
	if err := c.pg.QueryRow(ctx, `SELECT has_schema_privilege('haunchbook', 'USAGE')`).Scan(&inside); err != nil {
		return explain(err)
	}
	if !inside {
		return c.stranger()
	}
	if err := c.pg.QueryRow(ctx, `SELECT form, epoch FROM haunchbook.about`).Scan(&c.Form, &c.Epoch); err != nil {
		return explain(err)
	}
	p := &c.Part
	err = c.pg.QueryRow(ctx, `SELECT haunchbook.may('owner'), haunchbook.may('estimator'), haunchbook.may('foreman'), haunchbook.may('prices')`).Scan(&p.Owner, &p.Estimator, &p.Foreman, &p.Prices)
	switch {
	case err != nil:
		return explain(err)
	case c.Form > form():
		return &storage.Fault{Kind: storage.Newer, Text: fmt.Sprintf("the office book is of a newer form (%d; this program knows up to %d)", c.Form, form()), Way: "update this program; your own book goes on as it is"}
	case c.Form < form():
		return &storage.Fault{Kind: storage.Invalid, Text: fmt.Sprintf("the office book is of an older form (%d; this program writes %d)", c.Form, form()), Way: "its owner brings it up to date: haunchsheet office init " + c.address.String()}
	case *p == Part{}:
		return c.stranger()
	}
	return nil
}

func (c *Conn) stranger() error {
	return &storage.Fault{Kind: storage.Forbidden, Text: fmt.Sprintf("%s has no part in this office book", c.User),
		Way: fmt.Sprintf("its owner gives one: GRANT %s TO %s", name(c.address.Database(), "estimator"), pgx.Identifier{c.User}.Sanitize())}
}

// Address gives where the office book is.
func (c *Conn) Address() Address { return c.address }

// Close ends the connection.
func (c *Conn) Close() error {
	if c.pg == nil {
		return nil
	}
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Second)
	defer stop()
	_ = c.pg.Close(ctx) // everything is acknowledged already, or is not
	return nil
}

// skewed is from when on a clock that differs is told. Nothing hangs on clocks but the times
// that are shown.
const skewed = 2 * time.Minute

// ClockTold says how far this machine's clock is off; "" where nobody would notice.
func (c *Conn) ClockTold() string {
	switch d := c.Skew.Round(time.Minute); {
	case d >= skewed:
		return fmt.Sprintf("this machine's clock is %s ahead of the office book's; the times of edits differ so, their order does not", spoken(d))
	case -d >= skewed:
		return fmt.Sprintf("this machine's clock is %s behind the office book's; the times of edits differ so, their order does not", spoken(-d))
	}
	return ""
}

func spoken(d time.Duration) string {
	const day = 24 * time.Hour
	switch {
	case d < 2*time.Hour:
		return fmt.Sprintf("%d minutes", int(d.Minutes()))
	case d < 2*day:
		return fmt.Sprintf("%d hours", int(d.Hours()+0.5))
	case d < 2*365*day:
		return fmt.Sprintf("%d days", int(d.Hours()/24+0.5))
	}
	return fmt.Sprintf("%d years", int(d.Hours()/24/365.25+0.5))
}
