package office

import "testing"

// What may be a sum of money is withheld from who may see none; lengths, days and marks
// are not. In doubt it may be one.
func TestFigured(t *testing.T) {
	for note, want := range map[string]bool{
		"":                                  false,
		"printed":                           false,
		"before moving the door":            false,
		"door D1 moved 3' 6\" to the right": false,
		"door moved 6 inches, slab 2 4\" thicker": false,
		"24 x 30 instead of 24x20":                false,
		"as of 2026-11-29 14:05":                  false,
		"12 loads instead of 10 loads":            false,
		"4000 psi, mark B2, No. 4, revision 7":    false,
		"mesh 150 mm, 10 1/2\" deep":              false,
		"900 in all":                              true,
		"as sent, $12,275.68":                     true,
		"as sent, 12275":                          true,
		"12,275.68 with the drain":                true,
		"margin 15":                               true,
		"they pay 9 a foot":                       true,
		"€":                                       true,
		"the door is 9' wide and costs 800":       true,
		"wage 31.50, door 3'":                     true,
		"as of 2026-11-29: 12000":                 true,
		"2 doors more for 900 more than before":   true,
	} {
		if got := figured(note); got != want {
			t.Errorf("%q: %v", note, got)
		}
	}
}
