package window

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/app/pour"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/storage"
)

// settingsPart is what heads the sheets of the book, and what new jobs start as.
func (p *bookPage) settingsPart() (fyne.CanvasObject, func()) {
	w := p.w
	f := newPageForm(w)
	get := func() storage.Settings {
		s, err := w.book.Settings()
		p.say(err)
		return s
	}
	set := w.changeSettings
	f.add(title("Company, on every sheet and bid"), nil)
	f.text("Name", func() string { return get().Company.Name }, func(v string) error {
		return set(func(s *storage.Settings) { s.Company.Name = strings.TrimSpace(v) })
	})
	for i, label := range companyLines {
		f.text(label, func() string {
			if l := get().Company.Lines; i < len(l) {
				return l[i]
			}
			return ""
		}, func(v string) error {
			return set(func(s *storage.Settings) { s.Company.Lines = withLine(s.Company.Lines, i, strings.TrimSpace(v)) })
		})
	}
	p.logo(f, get, set)
	f.heading("Sheets")
	var names []string
	for _, s := range papers {
		names = append(names, s.Name)
	}
	f.choice("Paper", names, func() string {
		if s := get(); slices.Contains(names, s.Paper) {
			return s.Paper
		}
		return names[0]
	}, func(v string) {
		if v == names[0] {
			v = ""
		}
		p.say(set(func(s *storage.Settings) { s.Paper = v }))
	})
	f.text("Frost depth", func() string {
		if s := get(); s.Frost > 0 {
			return lengthText(s.Frost, w.doc.Units())
		}
		return ""
	}, func(v string) error {
		l := geometry.Length(0)
		if strings.TrimSpace(v) != "" {
			var err error
			if l, err = geometry.ParseLength(v, w.doc.Units().Foot()); err != nil {
				return err
			}
		}
		return set(func(s *storage.Settings) { s.Frost = l })
	})
	f.note("The local code and the building official give the frost depth.")
	p.newJobs(f, get, set)
	return f.box, f.sync
}

// changeSettings changes the settings of the book. While none are stored, new
// jobs start as blank ones do.
func (w *Window) changeSettings(change func(*storage.Settings)) error {
	s, err := w.book.Settings()
	if err != nil {
		return err
	}
	if !s.Stored {
		s.Start = startOf(Blank(w.doc.Units()))
	}
	change(&s)
	return w.book.SetSettings(s)
}

// companyLines are the lines below the company's name.
var companyLines = []string{"Address", "Phone", "License"}

// withLine sets one of the lines; empty ones at the end go.
func withLine(lines []string, i int, text string) []string {
	out := slices.Clone(lines)
	for len(out) <= i {
		out = append(out, "")
	}
	out[i] = text
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out
}

// maxLogo bounds the file of a logo: it is printed a thumb wide.
const maxLogo = 4 << 20

// logo is the company's picture, to choose and to take away.
func (p *bookPage) logo(f *pageForm, get func() storage.Settings, set func(func(*storage.Settings)) error) {
	w := p.w
	picture := container.NewCenter()
	show := func() {
		picture.RemoveAll()
		if img := logoOf(get().Company); img != nil {
			c := canvas.NewImageFromImage(img)
			c.FillMode = canvas.ImageFillContain
			c.SetMinSize(fyne.NewSize(120, 60))
			picture.Add(c)
		} else {
			picture.Add(caption("No logo", false))
		}
		picture.Refresh()
	}
	show()
	choose := newPageButton(w, "Logo…", func() {
		p.load([]string{".png", ".jpg", ".jpeg", ".PNG", ".JPG", ".JPEG"}, func(data []byte) {
			err := checkLogo(data)
			if err == nil {
				err = set(func(s *storage.Settings) { s.Company.Logo = data })
			}
			p.say(err)
			show()
		})
	})
	remove := newPageButton(w, "Without a logo", func() {
		p.say(set(func(s *storage.Settings) { s.Company.Logo = nil }))
		show()
	})
	f.add(container.NewGridWithColumns(3, picture, container.NewCenter(choose), container.NewCenter(remove)), nil)
}

// checkLogo tells what is wrong with a picture for the sheets.
func checkLogo(data []byte) error {
	if len(data) > maxLogo {
		return fmt.Errorf("the picture has %d MB; give one of at most %d MB", len(data)>>20, maxLogo>>20)
	}
	_, _, err := picture.Check(data)
	return err
}

// newJobs is what jobs start as.
func (p *bookPage) newJobs(f *pageForm, get func() storage.Settings, set func(func(*storage.Settings)) error) {
	w := p.w
	f.heading("New jobs start with")
	f.choice("Units", []string{geometry.FeetInches.String(), geometry.Millimeters.String()}, func() string {
		if s := get(); s.Stored {
			return s.Start.Units.String()
		}
		return w.doc.Units().String()
	}, func(v string) {
		p.say(set(func(s *storage.Settings) {
			for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
				if u.String() == v && u != s.Start.Units {
					fresh := startOf(Blank(u))
					s.Start.Units, s.Start.Slabs = u, fresh.Slabs
				}
			}
		}))
		f.sync()
	})
	f.choice("Weathering region", []string{pour.Unstated.String(), pour.Negligible.String(), pour.Moderate.String(), pour.Severe.String()},
		func() string { return get().Start.Pour.Weathering.String() },
		func(v string) {
			p.say(set(func(s *storage.Settings) {
				if err := s.Start.Pour.Weathering.UnmarshalText([]byte(v)); err != nil {
					p.say(err)
				}
			}))
		})
	number := func(label string, at func(*job.Job) *decimal.Decimal) {
		f.text(label, func() string { s := get(); return at(&s.Start).String() }, amountSetter(func(d decimal.Decimal) error {
			s := get()
			*at(&s.Start) = d
			if faults := s.Start.Validate(); len(faults) > 0 {
				for _, f := range faults {
					if !strings.HasPrefix(f.Path, "slab") { // there is none yet
						return fmt.Errorf("found %s; %s", f.Found, f.Want)
					}
				}
			}
			return set(func(s *storage.Settings) { *at(&s.Start) = d })
		}))
	}
	number("Waste, %", func(j *job.Job) *decimal.Decimal { return &j.Spec.Order.Waste })
	number("Overhead, % of cost", func(j *job.Job) *decimal.Decimal { return &j.Price.Overhead })
	number("Profit, %", func(j *job.Job) *decimal.Decimal { return &j.Price.Profit })
	number("Sales tax, %", func(j *job.Job) *decimal.Decimal { return &j.Price.Tax })
	f.add(newPageButton(w, "Start new jobs as the open one", func() {
		if err := set(func(s *storage.Settings) { s.Start = startOf(w.doc.Base()) }); err != nil {
			p.say(err)
			return
		}
		f.sync()
		w.tell("New jobs start as this one: without its outline, its customer and its own prices")
	}), nil)
	f.note("That takes over everything of the open job that is not its own: its units, field thickness and sections, what goes in and by which rules, the pour, the percentages. Change any of it in a job, then take it over here.")
}

// startOf gives what of a job is usual for others: everything but what is its
// own.
func startOf(j job.Job) job.Job {
	s := job.New()
	s.Units, s.Spec, s.Pour, s.Price = j.Units, j.Spec, j.Pour, j.Price
	if len(j.Slabs) > 0 {
		s.Slabs = []plan.Plan{{Field: j.Slabs[0].Field, Sections: slices.Clone(j.Slabs[0].Sections)}}
	}
	s.Pour.Stations, s.Pour.Weather = nil, nil
	s.Price.Extras, s.Price.Options = nil, nil
	t := &s.Price.Terms
	t.Included, t.Start, t.Finish = nil, "", ""
	s.Price.Prices = job.New().Price.Prices
	return s
}
