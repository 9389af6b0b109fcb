// Package workbook writes a job as an XLSX workbook: the order by supplier, the
// concrete, steel, bolts, forms and labor behind it, the price, options side by
// side, and the working of every figure.
//
// The workbook lives: totals are formulas over named cells, with the program's
// own results as their stored values, so that a program that does not recalculate
// shows the same figures. Changing the waste, a price or a labor rate recomputes
// the bid. Cells to fill in are yellow and unlocked; sheets are protected without
// a password, against slips only.
//
// Named cells: ConcreteNet, WastePercent, OrderStep, TruckSize, ConcreteOrder,
// Trucks, LastLoad, OrderTotal, Wage, Crew, LaborHours, LaborTotal, FeeTotal,
// ExtraTotal, MaterialTotal, CostTotal, OverheadPercent, OverheadTotal,
// ProfitPercent, ProfitBasis, ProfitTotal, PriceBeforeTax, TaxPercent, TaxBasis,
// TaxTotal, BidTotal, and by takeoff line, task and fee Price_…, Rate_… and
// Fee_…, as Price_Concrete_to_order.
//
// Options are worked out line by line with the same named cells, so that they
// follow what is changed as the job itself does; what each takes of a line, and
// the depths that matter, are the drawing's and stand as numbers.
//
// The same job and options give the same bytes.
package workbook

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Options say how a workbook is written. The zero Options are usual.
type Options struct {
	// Date is written into the file as the time it was made; zero for a fixed
	// one, so that the bytes depend on the job alone.
	Date time.Time
	// Company heads the sheets; "" for none.
	Company string
	// Language is what its words are said in; the zero one is English. The names of
	// cells are English in every language.
	Language language.Language
}

// fixedDate stands in for the time a workbook was made.
var fixedDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// Write writes the workbook of a job.
func Write(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	b, err := build(ctx, h, o)
	if err != nil {
		return err
	}
	return b.write(w)
}

// build makes the workbook of a job.
func build(ctx context.Context, h *handover.Handover, o Options) (*builder, error) {
	t, err := h.Takeoff(ctx)
	if err != nil {
		return nil, err
	}
	e, err := h.Estimate(ctx)
	if err != nil {
		return nil, err
	}
	outcomes, err := h.SideBySide(ctx)
	if err != nil {
		return nil, err
	}
	thresholds, err := h.Thresholds(ctx)
	if err != nil && !errors.Is(err, estimate.ErrNoEdge) {
		return nil, err
	}
	b := newBuilder(h, o, suppliers(e)...)
	b.held = hold.Line(h.Held())
	b.frost, b.takeoff, b.estimate, b.outcomes, b.thresholds = h.Frost(), t, e, outcomes, thresholds
	for _, write := range []func() error{
		b.order, b.concrete, b.steel, b.bolts, b.forms, b.labor, b.price, b.optionsPage, b.optionLines, b.working,
	} {
		if err := write(); err != nil {
			return nil, errors.Join(err, b.f.Close())
		}
	}
	if err := b.finish(); err != nil {
		return nil, errors.Join(err, b.f.Close())
	}
	return b, nil
}

// suppliers gives the names of those that an estimate buys from.
func suppliers(e estimate.Estimate) (out []string) {
	for _, l := range e.Lines {
		out = append(out, l.Supplier)
	}
	return out
}

// newBuilder starts a workbook about a job; own are texts that are the user's, beside
// those of the job.
func newBuilder(h *handover.Handover, o Options, own ...string) *builder {
	if o.Date.IsZero() {
		o.Date = fixedDate
	}
	j := h.Job()
	return &builder{f: excelize.NewFile(), job: j, o: o, say: o.Language.Speaker(slices.Concat(j.Own(), own, []string{o.Company})), styles: map[style]int{}, names: map[string]bool{},
		ordered: map[takeoff.ID]int{}, tasks: map[string]int{}, charged: map[string]int{}}
}

// write writes what was made, and lets go of it.
func (b *builder) write(w io.Writer) (err error) {
	defer func() { err = errors.Join(err, b.f.Close()) }()
	buf, err := b.f.WriteToBuffer()
	if err != nil {
		return err
	}
	return rezip(w, buf.Bytes(), b.o.Date)
}

// builder is one workbook in the making.
type builder struct {
	f          *excelize.File
	job        job.Job
	takeoff    takeoff.Takeoff
	held       string // what holds the pour and its order back; "" for nothing
	estimate   estimate.Estimate
	outcomes   []estimate.Outcome // the job as it is drawn, and its options
	thresholds []estimate.Threshold
	frost      geometry.Length // depth that edges are to reach; 0 where it does not matter
	o          Options
	say        *language.Speaker
	styles     map[style]int
	names      map[string]bool // defined, in small letters
	sheets     int

	// Where inputs stand, by takeoff line, task and fee.
	ordered        map[takeoff.ID]int
	tasks, charged map[string]int

	none []string // how many lines have no price, and which
}

// nameFor gives a name for a cell that no other has: what it is, and for what.
func (b *builder) nameFor(what, of string) string {
	base := what + "_" + strings.Map(func(r rune) rune {
		if r < utf8.RuneSelf && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			return r
		}
		return '_'
	}, of)
	base = base[:min(len(base), 80)]
	name := base
	for n := 2; b.names[strings.ToLower(name)]; n++ {
		name = fmt.Sprintf("%s_%d", base, n)
	}
	b.names[strings.ToLower(name)] = true
	return name
}

func (b *builder) metric() bool { return b.job.Units == geometry.Millimeters }

// line gives the takeoff line of that kind; the zero Line if there is none.
func (b *builder) line(k takeoff.Kind) takeoff.Line {
	l, _ := b.takeoff.Line(k)
	return l
}

func (b *builder) finish() error {
	yes := true
	return errors.Join(
		b.f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &yes}),
		b.properties(plain(b.job.Name), b.say.Word("Materials, labor and price")),
	)
}

// properties says what the file is.
func (b *builder) properties(title, subject string) error {
	stamp := b.o.Date.UTC().Format(time.RFC3339)
	return b.f.SetDocProps(&excelize.DocProperties{
		Title: title, Subject: subject, Creator: job.Program(), LastModifiedBy: job.Program(), Created: stamp, Modified: stamp,
	})
}

func number(d decimal.Decimal) float64 { return d.InexactFloat64() }
