package sheet

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/geometry/drawing"
)

// WritePhone writes what the sheets of a job show as one page for a telephone: HTML with
// its drawings inside, which needs no network and runs no script. It prints too. The
// options' paper and part do not matter. The layout is drawn where it is nil, or not in the
// page's language.
func WritePhone(ctx context.Context, w io.Writer, h *handover.Handover, o Options, drawn func() (Layout, error)) error {
	all, err := unpaged(ctx, h, o)
	if err != nil {
		return err
	}
	last, err := lastOf(ctx, h)
	if err != nil {
		return err
	}
	b := bufio.NewWriterSize(w, 1<<16) // keeps the first error
	fmt.Fprintf(b, "<!DOCTYPE html>\n<html lang=%q>\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n", o.locale())
	fmt.Fprintf(b, "<meta name=\"generator\" content=\"%s\">\n<title>%s</title>\n<style>%s</style>\n</head>\n<body>\n", escaped(job.Program()), escaped(h.Job().Name), phoneStyle)
	for _, s := range all {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		p := phone{set: s, Writer: b, layout: drawn, last: last}
		if err := p.write(); err != nil {
			return err
		}
	}
	b.WriteString("</body>\n</html>\n")
	return b.Flush()
}

const phoneStyle = `
body{font:16px/1.4 "DejaVu Sans","Noto Sans",Arial,sans-serif;color:#111;background:#fff;margin:0 auto;padding:12px;max-width:60rem;overflow-wrap:break-word}
h1{font-size:1.4rem;margin:.3rem 0}h2{font-size:1.2rem;border-bottom:2px solid #111;margin:1.6rem 0 .4rem}h3{font-size:1rem;margin:1.1rem 0 .3rem}
p,ul{margin:.3rem 0}ul{padding-left:1.2rem}nav a{display:inline-block;padding:.6rem .8rem .6rem 0;color:#0b4f8a}
.table{overflow-x:auto}table{border-collapse:collapse;font-size:.92rem;font-variant-numeric:tabular-nums}
th,td{border:1px solid #999;padding:.3rem .35rem;text-align:left;vertical-align:top}th{background:#eee}.n{text-align:right}td.s{white-space:nowrap}
pre{white-space:pre-line;border:1px solid #999;padding:.6rem;user-select:all;-webkit-user-select:all;font:inherit}
.drawing{overflow-x:auto;border:1px solid #ddd}.drawing svg{display:block;width:100%;max-width:calc(var(--wide)*5px)!important}
.larger{display:inline-block;padding:.5rem 0}input{width:1.3rem;height:1.3rem;vertical-align:middle}
input:checked~.drawing svg{width:calc(var(--wide)*5px);max-width:none!important}
@media print{body{font-size:9pt;max-width:none;padding:0}section{columns:2}h2,.plan{column-span:all}table{font-size:8pt}th,td{padding:1pt 2pt}nav,.larger,input{display:none}.drawing{overflow:visible;border:0}
.drawing svg,input:checked~.drawing svg{width:100%;max-width:calc(var(--wide)*1mm)!important}h2,h3{break-after:avoid}tr,.drawing{break-inside:avoid}}
`

// chapters gives all that the sheets show of the set, in the order of the work, said in
// its language.
func (s *set) chapters() []topic {
	needed, more := s.firstBlocks(nil, s.takeoff.Slabs, false)
	out := []topic{{stakeOut, slices.Concat(needed, more)}, {edges, s.edges()}, {forms, s.forms()}, {ground, s.ground()}, {steel, s.steel()}, {pourDay, s.pour()}}
	for i, t := range out {
		out[i].blocks = s.said(t.blocks)
	}
	return out
}

// phone is a page for a telephone in the making, in one language.
type phone struct {
	*set
	*bufio.Writer
	drawings int
	layout   func() (Layout, error)
	last     *handover.LastLoad
}

func (p *phone) write() error {
	j, code := p.job, p.in.Code
	fmt.Fprintf(p, "<main lang=%q>\n<h1>%s</h1>\n", p.in.Locale, escaped(j.Name))
	for _, line := range []string{j.Site, p.options.Company.Name, revision(j, p.options, p.say)} {
		if line != "" {
			fmt.Fprintf(p, "<p>%s</p>\n", escaped(line))
		}
	}
	fmt.Fprintf(p, "<p>%s</p>\n<nav>", escaped(p.say.Say(cautionDefer)))
	chapters := p.chapters()
	for _, c := range chapters {
		fmt.Fprintf(p, "<a href=\"#%s-%s\">%s</a> ", code, c.name, escaped(p.say.Word(c.name)))
	}
	p.WriteString("</nav>\n")
	for i, c := range chapters {
		fmt.Fprintf(p, "<section id=\"%s-%s\">\n<h2>%s</h2>\n", code, c.name, escaped(p.say.Word(c.name)))
		if i == 0 {
			l, err := p.whole()
			if err != nil {
				return err
			}
			p.drawing(l.Page)
			p.block(p.unmarked(l.rows))
		}
		if c.name == pourDay {
			p.order()
			if p.last != nil {
				p.lastLoad()
			}
		}
		for _, b := range c.blocks {
			p.block(b)
		}
		p.WriteString("</section>\n")
	}
	p.WriteString("</main>\n")
	return nil
}

// whole gives the plan of all slabs: in English the one that is drawn already.
func (p *phone) whole() (Layout, error) {
	if p.say != nil || p.layout == nil {
		d := p.layOut(layoutShown)
		return Layout{Page: d.finish(), rows: d.rows}, nil
	}
	l, err := p.layout()
	p.aside += len(l.rows)
	return l, err
}

// lastOf gives what to call the last load by, for a job whose ground was shot; nil for
// others, and where there is no last load to call.
func lastOf(ctx context.Context, h *handover.Handover) (*handover.LastLoad, error) {
	if len(h.Job().Survey.Shots) == 0 {
		return nil, nil
	}
	l, err := h.LastLoad(ctx)
	if err != nil || !l.Shot || !l.Needed {
		return nil, err
	}
	return &l, nil
}

// lastLoad writes the tables to call the last load by.
func (p *phone) lastLoad() {
	for _, t := range []table{bayLeftTable(*p.last, p.job.Units), leftTable(*p.last, p.job.Units)} {
		if len(t.rows) > 0 {
			p.block(p.saidBlock(tableBlock{table: t}))
		}
	}
	for _, text := range leftTexts(*p.last) {
		p.list([]string{p.say.Say(text)})
	}
}

// order writes the order as it is read out on the telephone, to be marked at a touch.
func (p *phone) order() {
	j := p.job
	for i, day := range p.days {
		if i == 0 {
			p.heading(p.say.Word("To order"))
		}
		items := pour.Said(p.say, day.OrderItems(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units))
		fmt.Fprintf(p, "<pre>%s</pre>\n", escaped(strings.TrimRight(pour.Lines(items), "\n")))
	}
}

func (p *phone) heading(title string) {
	if title != "" {
		fmt.Fprintf(p, "<h3>%s</h3>\n", escaped(title))
	}
}

// The widths at which details and plans are drawn, mm: what a telephone shows, and what
// holds the labels of a plan.
const (
	phoneDetail = 78.0
	phonePlan   = 180.0
)

// block writes a block. Blanks to fill in are for paper, and left out.
func (p *phone) block(b block) {
	switch v := b.(type) {
	case notes:
		p.heading(v.title)
		p.list(v.items)
	case tableBlock:
		p.heading(v.title)
		p.table(v.table)
	case ledger:
		p.heading(v.title)
		p.list(v.rows)
	case pile:
		for _, b := range v {
			p.block(b)
		}
	case cutDiagram:
		fmt.Fprintf(p, "<p>%s</p>\n", escaped(v.text))
	case detailBlock:
		p.heading(v.title)
		l := v.layout(max(phoneDetail, v.least))
		p.list(l.said)
		p.drawing(p.drawn(max(phoneDetail, v.least), l.bounds.Height(), func(d *draft) {
			l.placed.Draw(ink{d, Point{Y: -l.bounds.Y0}})
		}))
	case figure:
		p.heading(v.title)
		v.title = ""
		var rows []drawing.Row
		p.drawing(p.drawn(phonePlan, v.height(phonePlan), func(d *draft) {
			v.draw(d, 0, d.area.Y1, phonePlan)
			rows = d.rows
		}))
		p.block(p.unmarked(rows))
	case legend, keyBlock:
		p.drawing(p.drawn(phoneDetail, v.height(phoneDetail), func(d *draft) { v.draw(d, 0, d.area.Y1, phoneDetail) }))
	}
}

// drawn gives a drawing of a size.
func (p *phone) drawn(wide, tall float64, draw func(*draft)) Page {
	d := newDraft("", wide, tall)
	d.say = p.say
	draw(d)
	return d.finish()
}

// drawing writes a drawing, which a box that is ticked enlarges.
func (p *phone) drawing(page Page) {
	p.drawings++
	name := fmt.Sprintf("%s-%d", p.in.Code, p.drawings)
	if page.Width <= phoneDetail+1 {
		p.WriteString("<div>")
	} else {
		p.WriteString("<div class=\"plan\">")
		fmt.Fprintf(p, "<input type=\"checkbox\" id=%q> <label class=\"larger\" for=%q>%s</label>", name, name, escaped(p.say.Word("enlarge")))
	}
	fmt.Fprintf(p, "<div class=\"drawing\" style=\"--wide:%s\">\n", svgNumber(page.Width))
	_ = page.WriteSVG(p.Writer) // which keeps an error
	p.WriteString("</div></div>\n")
}

func (p *phone) list(items []string) {
	for _, it := range items {
		fmt.Fprintf(p, "<p>%s</p>\n", strings.ReplaceAll(escaped(it), "&#xA;", "<br>"))
	}
}

// unbroken is how long a text may be that stands in one line of a table, in letters.
const unbroken = 16

func (p *phone) table(t table) {
	p.WriteString("<div class=\"table\"><table>\n")
	row := func(tag string, cells []string) {
		p.WriteString("<tr>")
		for i, c := range cells {
			var class []string
			if t.right != nil && t.right[i] {
				class = append(class, "n")
			}
			if utf8.RuneCountInString(c) <= unbroken {
				class = append(class, "s")
			}
			fmt.Fprintf(p, "<%s class=%q>%s</%s>", tag, strings.Join(class, " "), escaped(c), tag)
		}
		p.WriteString("</tr>\n")
	}
	if len(t.head) > 0 {
		p.WriteString("<thead>")
		row("th", t.head)
		p.WriteString("</thead>")
	}
	for _, r := range t.rows {
		row("td", r)
	}
	p.WriteString("</table></div>\n")
}
