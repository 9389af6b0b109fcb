package sheet

import "strings"

// plainText writes a text in the file's code page: on one line, with its signs
// outside Latin-1 spelt out, and none of the form's own control codes.
func plainText(s string) string {
	s = strings.NewReplacer("→", "->", "≤", "<=", "≥", ">=", "–", "-", "—", "-", "…", "...", "•", "*", "⌀", "dia. ", "%%", "%").Replace(s)
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < 0x20 || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x80:
			b.WriteByte(byte(r))
		case r >= 0xa0 && r <= 0xff:
			b.WriteByte(byte(r))
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

// longestLine is how many characters a line of the file may have: release 12's limit.
const longestLine = 255

// inLines cuts a text of the file's code page into parts that a line may have, as long as
// each other: one for what people write.
func inLines(s string) []string {
	n := (len(s) + longestLine - 1) / longestLine
	if n < 2 {
		return []string{s}
	}
	out := make([]string, n)
	for i := range out {
		out[i] = s[len(s)*i/n : len(s)*(i+1)/n]
	}
	return out
}
