package sheet

import "fmt"

// paged is a document of letter pages in the making, written from the top down.
type paged struct {
	*set
	paper Paper
	r     rect
	pages []*draft
	top   float64 // of what is free on the last page
}

func (s *set) paged() *paged {
	p := &paged{set: s}
	p.paper, p.r = letter(s.job, s.options)
	return p
}

// turn begins a page.
func (p *paged) turn(title string) *draft {
	d := newDraft(p.say.Word(title), p.paper.Width, p.paper.Height)
	p.pages = append(p.pages, d)
	y := p.r.Y1 - 5
	d.write(p.r.X0, y, sizeTitle, true, p.say.Word(title))
	d.writeRight(p.r.X1, y, sizeBody, true, shorten(p.job.Name, p.r.Width()-40, sizeBody, true))
	d.writeRight(p.r.X1, y-4.5, sizeSmall, false, shorten(p.job.Site, p.r.Width()-40, sizeSmall, false))
	d.line(Notes, penHeavy, Point{X: p.r.X0, Y: y - 7}, Point{X: p.r.X1, Y: y - 7})
	p.top = y - 10
	return d
}

func (p *paged) page() *draft { return p.pages[len(p.pages)-1] }

// tell writes paragraphs.
func (p *paged) tell(texts ...string) {
	for _, t := range texts {
		p.top = p.page().paragraph(p.r.X0, p.top, p.r.Width(), sizeSmall, false, p.say.Say(t)) - 1
	}
}

// put sets a table, going on over pages.
func (p *paged) put(title string, t table, groups int) {
	t.title, t.head = p.say.Say(t.title), p.words(t.head)
	for i, r := range t.rows {
		t.rows[i] = p.say.Each(r)
	}
	for len(t.rows) > 0 {
		room := int((p.top - p.r.Y0 - titleSkip - 2*t.rowHeight()) / t.rowHeight())
		if room < 3 {
			p.turn(title)
			continue
		}
		part := t
		part.rows = t.rows[:min(len(t.rows), room*groups)]
		t.rows = t.rows[len(part.rows):]
		if groups > 1 {
			part = part.folded(groups)
		}
		p.top = p.page().table(p.r.X0, p.top, p.r.Width(), part) - 3
	}
}

// done gives the pages, numbered.
func (p *paged) done() []Page {
	out := make([]Page, len(p.pages))
	for i, d := range p.pages {
		d.writeRight(p.r.X1, p.r.Y0-4, sizeFine, false, fmt.Sprintf("%d / %d", i+1, len(p.pages)))
		out[i] = d.finish()
	}
	return out
}
