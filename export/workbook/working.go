package workbook

import "haunchbook.example/app/takeoff"

// working writes how every figure was computed.
func (b *builder) working() error {
	p := b.page("Working", landscape, []column{
		{"Figure", 36, false}, {"Step", 40, false}, {"Working", 52, false}, {"Result", 17, true}, {"Rule and source", 34, false},
	})
	show := func(name string, steps []takeoff.Step) {
		for i, s := range steps {
			label := ""
			if i == 0 {
				label = name
			}
			first := text(label)
			first.style.bold = true
			p.put(first, text(s.Text), text(s.Work), styled(s.Result, plainText.right()), indented(s.Source))
		}
	}
	p.band("Quantities")
	for _, l := range b.takeoff.Lines {
		show(l.Name, l.Working)
	}
	p.gap()
	p.band("Amounts")
	for _, l := range b.estimate.Lines {
		show(l.Name, l.Working)
	}
	p.gap()
	p.band("Price")
	show("Bid", b.estimate.Working)
	if len(b.takeoff.Findings) > 0 {
		p.gap()
		p.band("Findings")
		for _, f := range b.takeoff.Findings {
			p.put(text(f.Rule.Name), text(f.Severity.String()), text(f.Text), text(""), indented(f.Rule.Source))
		}
	}
	return p.close()
}
