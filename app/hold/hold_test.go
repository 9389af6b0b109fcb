package hold

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/app/date"
	"haunchbook.example/geometry/layout/rule"
)

var pour = date.Of(2026, 12, 5)

// Each case by hand, at the limit and just beyond it.
func TestCheck(t *testing.T) {
	day := func(n int) date.Day { return pour.Plus(n) }
	for name, c := range map[string]struct {
		hold Hold
		want string // "" for nothing
		how  rule.Severity
	}{
		"not called":           {Hold{Kind: Locate}, "Utility locate: not called.", rule.Severe},
		"called":               {Hold{Kind: Locate, Number: "7", Asked: day(-2)}, "Utility locate 7: called on 2026-12-03, not marked yet.", rule.Severe},
		"runs out on the day":  {Hold{Kind: Locate, From: day(-9), Until: day(0)}, "", 0},
		"runs out before":      {Hold{Kind: Locate, From: day(-9), Until: day(-1)}, "Utility locate: runs out on 2026-12-04, before the pour on 2026-12-05.", rule.Severe},
		"from the day":         {Hold{Kind: Locate, From: day(0)}, "", 0},
		"from the day after":   {Hold{Kind: Locate, From: day(1)}, "Utility locate: valid only from 2026-12-06, after the pour on 2026-12-05.", rule.Severe},
		"ends before it began": {Hold{Kind: Locate, From: day(-2), Until: day(-3)}, "Utility locate: runs from 2026-12-03 to 2026-12-02, which is before it.", rule.Severe},
		"no permit":            {Hold{Kind: Permit}, "Permit: not applied for.", rule.Severe},
		"permit":               {Hold{Kind: Permit, Number: "B-7", From: day(-30)}, "", 0},
		"permit expired":       {Hold{Kind: Permit, Number: "B-7", Until: day(-1)}, "Permit B-7: runs out on 2026-12-04, before the pour on 2026-12-05.", rule.Severe},
		"not inspected":        {Hold{Kind: Footing}, "Footing inspection: not passed, no day is set for it.", rule.Severe},
		"set for the day":      {Hold{Kind: Steel, From: day(0)}, "Steel inspection: not passed, set for 2026-12-05.", rule.Severe},
		"set for after":        {Hold{Kind: PrePour, From: day(1)}, "Pre-pour inspection: not passed, and set for 2026-12-06, after the pour on 2026-12-05.", rule.Severe},
		"passed":               {Hold{Kind: Steel, Result: Passed, On: day(0)}, "", 0},
		"passed after":         {Hold{Kind: Steel, Result: Passed, On: day(1)}, "Steel inspection: passed on 2026-12-06, after the pour on 2026-12-05.", rule.Severe},
		"failed":               {Hold{Kind: Inspection, Name: "soils", Result: Failed, On: day(-1)}, "Inspection soils: failed (2026-12-04).", rule.Severe},
		"strip":                {Hold{Kind: Strip, From: day(1)}, "", 0},
		"strip before":         {Hold{Kind: Strip, From: day(-1)}, "Stripping: is set for 2026-12-04, before the pour on 2026-12-05.", rule.Note},
	} {
		got := Check([]Hold{c.hold}, pour)
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%s: %q", name, got[0].Text)
		case c.want != "" && (len(got) != 1 || got[0].Text != c.want || got[0].Severity != c.how):
			t.Errorf("%s: %v", name, got)
		}
	}
	if got := Check([]Hold{{Kind: Locate, From: day(-3), Until: day(2)}}, date.Day{}); len(got) != 1 || got[0].Severity != rule.Note || Line(got) != "" {
		t.Errorf("without a day: %v", got)
	}
}

// What was not passed, not called or failed holds the pour back whatever the days are;
// and a locate that runs out sooner never holds it back less.
func TestNothingIsOverridden(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		some := func(name string) date.Day {
			if n := rapid.IntRange(0, 20).Draw(t, name); n > 0 {
				return date.Of(2026, 6, n)
			}
			return date.Day{}
		}
		h := Hold{Kind: Kind(rapid.IntRange(0, int(Inspection)).Draw(t, "kind")), Asked: some("asked"), From: some("from"), Until: some("until"),
			Result: Result(rapid.IntRange(0, 2).Draw(t, "result")), On: some("on")}
		day := some("pour")
		line := Line(Check([]Hold{h}, day))
		valid := h.Kind == Locate || h.Kind == Permit
		if !valid && h.Result != Passed && line == "" || valid && !h.From.Known() && !h.Until.Known() && line == "" {
			t.Fatalf("%+v on %s is let go", h, day)
		}
		if later := h; valid && line != "" && h.Until.Known() {
			later.Until = h.Until.Plus(-1)
			if Line(Check([]Hold{later}, day)) == "" {
				t.Fatalf("%+v on %s: %s; a day less, nothing", h, day, line)
			}
		}
		if line != strings.TrimSpace(line) {
			t.Fatalf("%q", line)
		}
	})
}
