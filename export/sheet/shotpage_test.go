package sheet

import (
	"bytes"
	"strings"
	"testing"

	"haunchbook.example/app/language"
)

// The pages of shots name every place once, with what is wanted there; a job with shots
// has the map and the order besides. No text stands off the paper.
func TestShotPages(t *testing.T) {
	h := handed(t, demoJob(t))
	g, err := h.Ground(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	j := shot(t, h)
	for _, c := range []struct {
		name string
		want []string
		not  string
		of   func() ([]Page, error)
	}{
		{"without shots", []string{"What is left to fill", "Below top"}, "What to order", func() ([]Page, error) { return ShotPages(t.Context(), h, Options{}) }},
		{"with shots", []string{"What to order", "costs least", "by percent", "Wanted", "give or take"}, "Below top", func() ([]Page, error) { return ShotPages(t.Context(), handed(t, j), Options{}) }},
		{"in Spanish", []string{"Qué pedir"}, "What to order", func() ([]Page, error) {
			return ShotPages(t.Context(), handed(t, j), Options{Languages: others(t)})
		}},
	} {
		pages, err := c.of()
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		blanks := 0
		for _, p := range pages {
			for _, it := range p.Items {
				if text, ok := it.(Text); ok {
					all.WriteString(text.Text + "\n")
					if text.Text == "________" {
						blanks++
					}
					if text.At.X < 0 || text.At.X+text.Width() > p.Width || text.At.Y < 0 || text.At.Y > p.Height {
						t.Errorf("%s: %q stands off the paper", c.name, text.Text)
					}
				}
			}
		}
		for _, w := range c.want {
			if !strings.Contains(all.String(), w) {
				t.Errorf("%s: no %q", c.name, w)
			}
		}
		if strings.Contains(all.String(), c.not) {
			t.Errorf("%s: it has %q", c.name, c.not)
		}
		if blanks != len(g.Slabs[0].Wanted) {
			t.Errorf("%s: %d blanks for %d places", c.name, blanks, len(g.Slabs[0].Wanted))
		}
	}
	var b bytes.Buffer
	if err := WriteShots(t.Context(), &b, handed(t, j), Options{Languages: []language.Language{language.English}}); err != nil || !bytes.HasPrefix(b.Bytes(), []byte("%PDF")) {
		t.Errorf("%v, %d bytes", err, b.Len())
	}
}
