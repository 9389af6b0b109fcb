package job

import "fmt"

// Bounds of a job file, far beyond what a job needs: a file from elsewhere is told
// what is wrong with it before it takes the memory and the time of a hundred jobs.
const (
	maxFile    = 16 << 20
	maxNesting = 32
	maxFields  = 256     // of one object
	maxList    = 100_000 // entries of one list
	maxValues  = 500_000 // of all kinds
	maxLength  = 200     // letters of a length
	maxShown   = 80      // letters of what was found, in a fault
)

// counted gives a fault if there are too many values, or entries in one of them.
func counted(all int, n node) error {
	switch {
	case all > maxValues:
		return fault{theFile, fmt.Sprintf("more than %d values", maxValues), "a job has far fewer"}
	case n.kind == '{' && len(n.keys) > maxFields:
		return fault{"", fmt.Sprintf("more than %d fields", maxFields), "no part of a job has so many"}
	case len(n.values) > maxList:
		return fault{"", fmt.Sprintf("more than %d entries", maxList), "a job has far fewer"}
	}
	return nil
}

// short gives the start of a long text.
func short(s string) string {
	if r := []rune(s); len(r) > maxShown {
		return string(r[:maxShown]) + "…"
	}
	return s
}
