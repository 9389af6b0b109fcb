package sheet

import (
	"fmt"
	"image"
	"slices"
	"strings"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/geometry"
)

// Company is who the sheets come from.
type Company struct {
	Name  string
	Lines []string    // address, telephone, license
	Logo  image.Image // nil for none
}

// Options say how the sheets are made. The same handover and options give the same
// bytes.
type Options struct {
	Date      time.Time // of the document; printed where the job has no date of its own
	Paper     Paper     // of all sheets; zero to choose
	Part      Part      // of the set
	Company   Company
	Languages []language.Language // of the sheets, one set after another; none for English
	// Revisions are the marks under which the job was handed out before, oldest first.
	Revisions []Revision
}

// Revision is a mark of the job's, such as "B", with when it was last handed out and why.
type Revision struct {
	Mark, Why string
	Date      time.Time
}

// Distances of the frame, in millimeters.
const (
	margin     = 9.0
	titleBlock = 21.0
	strip      = 9.0 // of a packed sheet's title block
	columnGap  = 4.0
	advised    = 4.0 // the line above the title block
)

// titles is what the title block says of one page.
type titles struct {
	sheet  string   // "Layout"
	topics []string // what stands on it: "Layout", "Steel"
	slab   string   // the slab it shows; "" for all of them, or the only one
	part   int      // of a split plan, from 1; 0 for a whole one
	scale  string   // `1/4" = 1'-0"`; "" where nothing is to scale
	paper  string   // that the scale is true on
	packed bool     // it has a strip for a title block
	n, of  int
	index  []string // of the set, on its first sheet: in full, and short
	say    *language.Speaker
}

// name gives what the page is called in the bookmarks.
func (t titles) name() string {
	s := t.sheet
	if t.slab != "" {
		s += ": " + t.slab
	}
	if t.part > 0 {
		s += ", " + t.say.Word(fmt.Sprintf("part %d", t.part))
	}
	return s
}

// indexOf tells on which sheets each step of the work stands: "Layout 1; Steel, Pour 2–3";
// short, steps that share sheets together. So many sheets stand before them.
func indexOf(all []titles, before int, short bool) string {
	type steps struct {
		names    []string
		from, to int
	}
	var runs []steps
	for i, t := range all {
		for _, name := range t.topics {
			k := slices.IndexFunc(runs, func(r steps) bool { return r.names[0] == name })
			if k < 0 {
				k, runs = len(runs), append(runs, steps{names: []string{name}, from: before + i + 1})
			}
			runs[k].to = before + i + 1
		}
	}
	var joined []steps
	for _, r := range runs {
		if n := len(joined) - 1; n >= 0 && (r.from == joined[n].from && r.to == joined[n].to || short && r.from <= joined[n].to) {
			joined[n].names, joined[n].to = append(joined[n].names, r.names...), max(joined[n].to, r.to)
			continue
		}
		joined = append(joined, r)
	}
	var out []string
	for _, r := range joined {
		text := fmt.Sprintf("%s %d", strings.Join(r.names, ", "), r.from)
		if r.to > r.from {
			text += fmt.Sprintf("–%d", r.to)
		}
		out = append(out, text)
	}
	return all[0].say.Word("Sheets:") + " " + strings.Join(out, "; ")
}

// lines gives what stands under the sheet's name.
func (t titles) lines() []string {
	what := t.slab
	if t.part > 0 {
		if what != "" {
			what += ", "
		}
		what += t.say.Word(fmt.Sprintf("part %d", t.part))
	}
	scale := t.paper
	if t.scale != "" {
		scale = t.say.Word("Scale "+t.scale+" on") + " " + t.paper
	}
	return []string{what, scale}
}

// advice stands on every sheet.
const advice = "Do not scale; print at 100 %. Written dimensions rule. " + cautionDefer

// rim draws the frame with a title block of a height, and the advice above that.
func (d *draft) rim(block float64) rect {
	r := rect{X0: margin, Y0: margin, X1: d.page.Width - margin, Y1: d.page.Height - margin}
	d.ring(Frame, penHeavy, noFill, Point{X: r.X0, Y: r.Y0}, Point{X: r.X1, Y: r.Y0}, Point{X: r.X1, Y: r.Y1}, Point{X: r.X0, Y: r.Y1})
	top := r.Y0 + block
	d.line(Frame, penHeavy, Point{X: r.X0, Y: top}, Point{X: r.X1, Y: top})
	d.write(r.X0+1.8, top+1.1, sizeFine, false, d.say.Word(advice))
	r.Y1 = top
	return r
}

// titleStrip draws the rim and the one line of a title block that a packed sheet
// has.
func (d *draft) titleStrip(j job.Job, o Options, t titles) {
	r := d.rim(strip)
	y := r.Middle().Y - 0.36*sizeBody*mmPerPoint
	right := t.say.Word(fmt.Sprintf("Sheet %d of %d", t.n, t.of))
	d.writeRight(r.X1-1.8, y, sizeBody, true, right)
	room := r.Width() - 3.6 - textWidth(right, sizeBody, true) - 6
	left := t.sheet + ", " + t.paper
	d.write(r.X0+1.8, y, sizeBody, true, shorten(left, 0.5*room, sizeBody, true))
	job := j.Name
	if rev := revision(j, o, t.say); rev != "" {
		job += ", " + rev
	}
	at := r.X0 + 1.8 + min(0.5*room, textWidth(left, sizeBody, true)) + 6
	d.write(at, y, sizeBody, false, shorten(job, r.X1-1.8-textWidth(right, sizeBody, true)-6-at, sizeBody, false))
}

// titleBlock draws the rim and the title block.
func (d *draft) titleBlock(j job.Job, o Options, t titles) {
	r := d.rim(titleBlock)
	top := r.Y1
	after := r.X0 + 1.8 + textWidth(t.say.Word(advice), sizeFine, false) + 8
	for _, text := range t.index { // on a narrow sheet the bookmarks must do
		if textWidth(text, sizeFine, false) <= r.X1-1.8-after {
			d.writeRight(r.X1-1.8, top+1.1, sizeFine, false, text)
			break
		}
	}
	// Four fields: company, job, sheet, and number.
	widths := []float64{0.28, 0.36, 0.24, 0.12}
	x := r.X0
	var field []rect
	for i, f := range widths {
		next := x + f*r.Width()
		field = append(field, rect{X0: x + 1.8, Y0: r.Y0 + 1.2, X1: next - 1.8, Y1: top - 1.2})
		if i > 0 {
			d.line(Frame, penRule, Point{X: x, Y: r.Y0}, Point{X: x, Y: top})
		}
		x = next
	}
	d.company(field[0], o.Company)
	lines := []string{j.Customer, j.Site}
	d.stacked(field[1], j.Name, sizeHead, append(lines, revision(j, o, t.say)))
	d.stacked(field[2], t.sheet, sizeHead, t.lines())
	by := t.say.Word("printed by")
	d.write(field[2].X0, field[2].Y0+0.7, sizeFine, false, by)
	d.line(Frame, penRule, Point{X: field[2].X0 + textWidth(by, sizeFine, false) + 1, Y: field[2].Y0 + 0.4}, Point{X: field[2].X1, Y: field[2].Y0 + 0.4})
	f := field[3]
	d.writeMid(f.Middle().X, f.Y1-capHeight*sizeFine*mmPerPoint, sizeFine, false, t.say.Word("Sheet"))
	d.writeMid(f.Middle().X, f.Middle().Y-3.2, sizeTitle, true, fmt.Sprint(t.n))
	d.writeMid(f.Middle().X, f.Y0+0.8, sizeFine, false, t.say.Word(fmt.Sprintf("of %d", t.of)))
}

func revision(j job.Job, o Options, say *language.Speaker) string {
	date := j.Date
	if date == "" && !o.Date.IsZero() {
		date = say.Word(printedDate(o.Date, j.Units))
	}
	s := date
	if j.Revision != "" {
		if s != "" {
			s += "   "
		}
		s += "Rev. " + j.Revision
	}
	return s
}

// revisions lists the marks the job has had, where it had more than one.
func (s *set) revisions() block {
	tb := table{title: "Revisions", head: []string{"Rev.", "Date", "Why"}, right: make([]bool, 3), size: sizeSmall}
	for _, r := range s.options.Revisions {
		if r.Mark != s.job.Revision {
			tb.rows = append(tb.rows, []string{r.Mark, printedDate(r.Date, s.job.Units), r.Why})
		}
	}
	if len(tb.rows) == 0 {
		return nothing{}
	}
	if s.job.Revision != "" {
		tb.rows = append(tb.rows, []string{s.job.Revision, revision(job.Job{Date: s.job.Date, Units: s.job.Units}, s.options, nil), "this set"})
	}
	return tableBlock{table: tb}
}

func printedDate(t time.Time, u geometry.Units) string {
	if u == geometry.Millimeters {
		return t.Format("2006-01-02")
	}
	return t.Format("Jan 2, 2006")
}

// stacked writes a bold heading with lines under it, cut to the field.
func (d *draft) stacked(f rect, head string, size float64, lines []string) {
	y := f.Y1 - capHeight*size*mmPerPoint
	if textWidth(head, size, true) > f.Width() {
		size = sizeSmall // before it is cut
	}
	d.write(f.X0, y, size, true, shorten(head, f.Width(), size, true))
	y -= 4.9
	for _, l := range lines {
		if l == "" {
			continue
		}
		if y < f.Y0 {
			return
		}
		d.write(f.X0, y, sizeFine, false, shorten(l, f.Width(), sizeFine, false))
		y -= 4.1
	}
}

func (d *draft) company(f rect, c Company) {
	if c.Logo != nil && c.Logo.Bounds().Dx() > 0 && c.Logo.Bounds().Dy() > 0 {
		b := c.Logo.Bounds()
		w := min(f.Width()*0.4, f.Height()*float64(b.Dx())/float64(b.Dy()))
		h := w * float64(b.Dy()) / float64(b.Dx())
		d.page.Items = append(d.page.Items, Picture{c.Logo, Point{X: f.X0, Y: f.Middle().Y - h/2}, w})
		f.X0 += w + 2
	}
	name := c.Name
	if name == "" {
		name = "Haunchbook"
	}
	d.stacked(f, name, sizeHead, c.Lines)
}

// scaleBar draws a graphic scale with its lower left corner at p, with its text no longer than
// there is room.
func (d *draft) scaleBar(v View, u geometry.Units, p Point, room float64) {
	step, n, name := geometry.Foot, 4, "ft"
	if u == geometry.Millimeters {
		step, name = geometry.Meter, "m"
	}
	for v.Scale.paperOf(step) < 6 {
		step *= 2
	}
	w := v.Scale.paperOf(step)
	room -= textWidth("00 "+name, sizeFine, false)
	for w*float64(n) > min(60, room) && n > 1 {
		n--
	}
	for i := range n {
		fill := white
		if i%2 == 0 {
			fill = black
		}
		x0 := p.X + float64(i)*w
		d.ring(Notes, penRule, fill, Point{X: x0, Y: p.Y}, Point{X: x0 + w, Y: p.Y}, Point{X: x0 + w, Y: p.Y + 1.4}, Point{X: x0, Y: p.Y + 1.4})
	}
	for i := range n + 1 {
		s := fmt.Sprint(int64(step) * int64(i) / int64(unitOf(u)))
		if i == n {
			s += " " + name
		}
		d.writeMid(p.X+float64(i)*w+textWidth(s, sizeFine, false)/2-textWidth(fmt.Sprint(i), sizeFine, false)/2, p.Y+2.2, sizeFine, false, s)
	}
}

func unitOf(u geometry.Units) geometry.Length {
	if u == geometry.Millimeters {
		return geometry.Meter
	}
	return geometry.Foot
}
