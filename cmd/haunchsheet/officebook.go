package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"

	"golang.org/x/term"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
)

const officeUsage = `usage: haunchsheet office init URL     make an office book, or bring it up to date
       haunchsheet office sync [URL]   bring the job book and the office book together;
                                       the URL says which, the first time
       haunchsheet office status       say how the two stand
       haunchsheet office erase JOB    delete a job for good, for everyone; as J-0012
       haunchsheet office leave        go on with the job book alone
       haunchsheet office drop URL     remove an office book

An office book is a PostgreSQL database that several people's job books are kept
together in: postgres://NAME@HOST/DATABASE. A password is asked for on standard
input, or is in the system's keyring; it never stands in the URL.

`

// officeBook is a run of one of these commands.
type officeBook struct {
	book      string
	yes, keep bool
	follow    bool
	in        *bufio.Reader
	terminal  *os.File // standard input, where somebody types; nil for none
	out, ask  io.Writer
}

// runOffice runs "haunchsheet office".
func runOffice(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	o := &officeBook{in: bufio.NewReader(stdin), out: stdout, ask: stderr}
	if f, ok := stdin.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		o.terminal = f
	}
	fs := flag.NewFlagSet("haunchsheet office", flag.ContinueOnError)
	fs.SetOutput(stderr)
	fs.Usage = func() {
		fmt.Fprint(stderr, officeUsage)
		fs.PrintDefaults()
	}
	fs.StringVar(&o.book, "book", "", "the job book, a `file`; without it the usual one")
	fs.BoolVar(&o.yes, "yes", false, "init, erase and drop: do it without asking")
	fs.BoolVar(&o.keep, "keep", false, "sync: have the system's keyring keep the password")
	fs.BoolVar(&o.follow, "follow", false, "sync: go on until it is stopped, and say what comes")
	var words []string
	for len(args) > 0 {
		if err := fs.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return 0
			}
			return misused
		}
		if fs.NArg() == 0 {
			break
		}
		words, args = append(words, fs.Arg(0)), fs.Args()[1:]
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	var err error
	url := ""
	if len(words) > 1 {
		url = words[1]
	}
	switch {
	case len(words) == 2 && words[0] == "init":
		err = o.setUp(ctx, url, false)
	case len(words) == 2 && words[0] == "drop":
		err = o.setUp(ctx, url, true)
	case (len(words) == 1 || len(words) == 2) && words[0] == "sync":
		err = o.sync(ctx, url)
	case len(words) == 2 && words[0] == "erase":
		err = o.erase(ctx, words[1])
	case len(words) == 1 && words[0] == "status":
		err = o.status(ctx)
	case len(words) == 1 && words[0] == "leave":
		err = o.leave()
	default:
		fs.Usage()
		return misused
	}
	switch {
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "haunchsheet: stopped; what was acknowledged is kept, and the next sync goes on from there")
		return atFault
	case err != nil:
		fmt.Fprintln(stderr, "haunchsheet:", office.Sentence(err))
		return atFault
	}
	return 0
}

// line reads a line of standard input.
func (o *officeBook) line() (string, error) {
	text, err := o.in.ReadString('\n')
	if err != nil && text == "" {
		return "", errors.New("standard input has ended; answer there")
	}
	return strings.TrimRight(text, "\r\n"), nil
}

// password asks for a password. Where it is typed, nobody sees it.
func (o *officeBook) password(a office.Address, again bool) (string, error) {
	if again {
		fmt.Fprintln(o.ask, "The office book does not take it.")
	}
	fmt.Fprintf(o.ask, "Password of %s for %s: ", orYou(a.User()), a)
	if o.terminal != nil {
		text, err := term.ReadPassword(int(o.terminal.Fd()))
		fmt.Fprintln(o.ask)
		return string(text), err
	}
	return o.line()
}

func orYou(name string) string {
	if name == "" {
		return "yours"
	}
	return name
}

// agreed tells whether the user wants what was told.
func (o *officeBook) agreed(plan []string) (bool, error) {
	for _, l := range plan {
		fmt.Fprintln(o.out, l)
	}
	if o.yes {
		return true, nil
	}
	fmt.Fprint(o.ask, "Go on? Type yes: ")
	text, err := o.line()
	return text == "yes", err
}

// setUp makes an office book, or removes one.
func (o *officeBook) setUp(ctx context.Context, url string, drop bool) error {
	a, err := office.ParseAddress(url)
	if err != nil {
		return err
	}
	dir, err := os.Getwd()
	if err != nil {
		return err
	}
	s, err := office.Prepare(ctx, a, office.KeptOr(o.password), dir)
	if err != nil {
		return err
	}
	defer s.Close()
	plan, due := s.Plan(), s.Due()
	if drop {
		plan, due = s.PlanDrop(), s.Exists()
	}
	if !due {
		fmt.Fprintln(o.out, strings.Join(plan, "\n"))
		return nil
	}
	switch ok, err := o.agreed(plan); {
	case err != nil:
		return err
	case !ok:
		fmt.Fprintln(o.out, "Nothing was done.")
		return nil
	case drop:
		if err := s.Drop(ctx); err != nil {
			return err
		}
		fmt.Fprintln(o.out, "The office book is gone.")
		return nil
	}
	told, err := s.Do(ctx)
	if err != nil {
		return err
	}
	fmt.Fprintln(o.out, "Done.")
	for _, l := range told {
		fmt.Fprintln(o.out, l)
	}
	return nil
}

// opened opens the job book.
func (o *officeBook) opened(readOnly bool) (*storage.Book, error) {
	if o.book == "" {
		path, err := storage.UsualPath()
		if err != nil {
			return nil, err
		}
		o.book = path
	}
	path, err := filepath.Abs(o.book)
	if err != nil {
		return nil, err
	}
	return storage.Open(path, storage.Options{ReadOnly: readOnly, NoBackup: readOnly})
}

// errNoOffice tells that a book is nobody's copy.
func errNoOffice(b *storage.Book) error {
	return &storage.Fault{Kind: storage.Missing, Text: b.Path() + " has no office book", Way: "name one: haunchsheet office sync URL"}
}

// ours gives the address of a book's office book.
func ours(b *storage.Book) (office.Address, storage.Office, error) {
	our, ok, err := b.Office()
	if err == nil && (!ok || our.Left) {
		err = errNoOffice(b)
	}
	if err != nil {
		return office.Address{}, our, err
	}
	a, err := office.ParseAddress(our.Address)
	return a, our, err
}

func (o *officeBook) sync(ctx context.Context, url string) (err error) {
	b, err := o.opened(false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	var a office.Address
	if url == "" {
		a, _, err = ours(b)
	} else {
		a, err = office.ParseAddress(url)
	}
	if err != nil {
		return err
	}
	typed := ""
	c, err := office.Connect(ctx, a, office.KeptOr(func(a office.Address, again bool) (p string, err error) {
		typed, err = o.password(a, again)
		return typed, err
	}))
	if err != nil {
		return err
	}
	defer c.Close()
	if o.keep && typed != "" {
		if err := office.KeepPassword(a, typed); err != nil {
			fmt.Fprintln(o.out, "! "+office.Sentence(err))
		}
	}
	r, err := c.Sync(ctx, b, office.Options{})
	printReport(o.out, r)
	if err == nil && o.follow {
		o.following(ctx, b, a, typed)
	}
	return err
}

// following keeps the books one until it is stopped. What is typed here waits for nobody,
// so that a password that no longer holds is told, not asked for.
func (o *officeBook) following(ctx context.Context, b *storage.Book, a office.Address, password string) {
	last := ""
	f := office.Follow(b, a, office.KeptOr(func(office.Address, bool) (string, error) { return password, nil }), office.Options{}, func(s office.Status) {
		text := "Up to date."
		switch {
		case s.Err != nil:
			text = "! " + office.Sentence(s.Err) + "."
		case !s.Online:
			return
		}
		if s.Report.Any() || s.Report.Up > 0 {
			printReport(o.out, s.Report)
		}
		if text != last {
			fmt.Fprintln(o.out, text)
			last = text
		}
	})
	<-ctx.Done()
	f.Stop()
}

func printReport(w io.Writer, r office.Report) {
	fmt.Fprintf(w, "Came: %d edits, %d revisions, %d price lists.", r.Down, r.Revisions, r.Lists)
	if r.Settings {
		fmt.Fprint(w, " The settings are the office's.")
	}
	fmt.Fprintf(w, "\nWent: %d edits.\n", r.Up)
	if r.Erased > 0 {
		fmt.Fprintf(w, "Deleted for good: %d jobs.\n", r.Erased)
	}
	if r.Merged > 0 {
		fmt.Fprintf(w, "Of %d jobs, edits made here and there were brought together.\n", r.Merged)
	}
	for _, c := range r.Conflicts {
		fmt.Fprintln(w, "! "+c.String()+".")
	}
	for _, n := range r.Notes {
		fmt.Fprintln(w, "! "+n+".")
	}
}

// status says how the books stand; of the office book, where it answers.
func (o *officeBook) status(ctx context.Context) error {
	b, err := o.opened(true)
	if err != nil {
		return err
	}
	defer b.Close()
	a, _, err := ours(b)
	if err != nil {
		return err
	}
	n, err := office.Waiting(b)
	if err != nil {
		return err
	}
	fmt.Fprintf(o.out, "Job book: %s\nOffice book: %s\n", b.Path(), a)
	if n == 0 {
		fmt.Fprintln(o.out, "Nothing waits to be sent.")
	} else {
		fmt.Fprintf(o.out, "%d edits and revisions wait to be sent.\n", n)
	}
	c, err := office.Connect(ctx, a, office.KeptOr(o.password))
	if err != nil {
		return err
	}
	defer c.Close()
	s, err := c.Standing(ctx, b)
	if err != nil {
		return err
	}
	fmt.Fprintf(o.out, "%s is in it as %s. It has %d jobs; %d of its changes are not here yet.\n", c.User, c.Part, s.Jobs, s.Behind)
	for _, p := range s.Present {
		fmt.Fprintf(o.out, "%s is on %s.\n", p.Who, p.Job)
	}
	if told := c.ClockTold(); told != "" {
		fmt.Fprintln(o.out, "! "+told+".")
	}
	return nil
}

func (o *officeBook) leave() (err error) {
	b, err := o.opened(false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	a, _, err := ours(b)
	if err != nil {
		return err
	}
	n, err := office.Waiting(b)
	if err == nil {
		err = b.LeaveOffice()
	}
	if err != nil {
		return err
	}
	office.ForgetPassword(a)
	fmt.Fprintf(o.out, "%s goes on alone, with everything that is in it. The office book %s is as it was.\n", b.Path(), a)
	if n > 0 {
		fmt.Fprintf(o.out, "! %d edits and revisions that were not sent yet are here only; haunchsheet office sync %s sends them after all.\n", n, a)
	}
	return nil
}
