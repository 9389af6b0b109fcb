package office

import "regexp"

// figureless is what digits in a note may be without being a sum of money: a day, a mark, a
// length, or a number of something. "in" is no unit here: "900 in all".
var figureless = regexp.MustCompile(`(?i)\d{4}-\d{2}-\d{2}|\b\d{1,2}:\d{2}\b` +
	`|\b(?:no\.?|revision|rev\.?|slab|bay|pour|door|edge|mark|sheet)\s*#?\d+\b|#\d+\b|\b[a-z]{1,2}-?\d+\b` +
	`|\b\d+(?:[/.]\d+)?\s*[x×]\s*\d+(?:[/.]\d+)?\b` +
	`|\b\d+(?:[ /.-]\d+)*\s*(?:'|"|′|″|°|%|(?:ft|feet|foot|inch|inches|mm|cm|psi|mpa|kpa|days?|hours?|bars?|bolts?|doors?|loads?|trucks?)\b)`)

var digit = regexp.MustCompile(`[\d$€£¥]`)

// figured tells whether a note may have a sum of money in it. What is in doubt may.
func figured(note string) bool { return digit.MatchString(figureless.ReplaceAllString(note, "")) }

// withheld is what a note says to who may see no money.
const withheld = "a note with figures"
