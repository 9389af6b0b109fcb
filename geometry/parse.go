package geometry

import (
	"fmt"
	"math/big"
	"strings"
)

// ParseLength reads a length as people write it:
//
//	24'   24-6   24'6   24' 6 1/2"   3'-6 1/2"   7' 3/8   18"   1/2"   6.5"
//	11-1/4 in   24 ft 6 in   7.25m   1066.8mm
//
// with straight or typographic quotes, primes, vulgar fractions and stray
// spaces. A number without a unit counts in one: Foot, Inch or Millimeter; see
// Units.Foot and Units.Inch. A value that is no whole number of nanometers (1/3")
// is rounded to the nearest. The error says what was found and what would do.
//
// A hyphen between feet and inches only separates them. A sum is opened by "=":
//
//	=24' + 2' - 3 1/2"   =24'-6" + 2'
//
// There a minus has a space on both sides.
func ParseLength(s string, one Length) (Length, error) { return parse(s, one) }

// ParseWritten is ParseLength where nothing tells what a bare number means, as
// in a job file: every length but zero must carry its unit, and there are no sums.
func ParseWritten(s string) (Length, error) { return parse(s, 0) }

// Limits of what is read; no length that a person writes is near them.
const (
	maxText = 64  // of one length
	maxSum  = 256 // of a sum
)

func parse(s string, one Length) (Length, error) {
	nm, err := read(s, one)
	if err == nil && (nm.Cmp(maxRat) > 0 || nm.Cmp(minRat) < 0) {
		err = fmt.Errorf("beyond 10 km; write a shorter length")
	}
	if err != nil {
		if r := []rune(s); len(r) > maxText {
			s = string(r[:maxText]) + "…"
		}
		return 0, fmt.Errorf("found “%s”: %w", s, err)
	}
	return roundRat(nm), nil
}

// read gives the nanometers of a length or a sum, not rounded.
func read(s string, one Length) (*big.Rat, error) {
	if len(s) > maxSum {
		return nil, fmt.Errorf("too long to be a length; write one such as 24'-6\"")
	}
	// Twice, so that two curly single quotes end as one inch mark.
	t := strings.ToLower(strings.TrimSpace(plain.Replace(plain.Replace(s))))
	sum, ok := strings.CutPrefix(t, "=")
	if !ok || one == 0 {
		return term(t, one)
	}
	terms, err := split(sum)
	if err != nil {
		return nil, err
	}
	total := new(big.Rat)
	for _, t := range terms {
		v, err := term(t.text, one)
		if err != nil {
			return nil, err
		}
		if t.minus {
			v.Neg(v)
		}
		total.Add(total, v)
	}
	return total, nil
}

// summand is a length of a sum.
type summand struct {
	text  string
	minus bool
}

// split takes a sum apart. A minus between spaces subtracts; without them it is
// the hyphen in a length, and at the beginning of one its sign.
func split(s string) ([]summand, error) {
	terms := []summand{{}}
	for i := range len(s) {
		now := &terms[len(terms)-1]
		begun := strings.TrimSpace(now.text) != ""
		before, after := i > 0 && s[i-1] == ' ', i+1 < len(s) && s[i+1] == ' '
		switch {
		case s[i] == '+' && !begun && len(terms) > 1:
			return nil, fmt.Errorf("a length is missing before a +")
		case s[i] == '+':
			terms = append(terms, summand{})
		case s[i] == '-' && begun && before && after:
			terms = append(terms, summand{minus: true})
		case s[i] == '-' && begun && before != after:
			return nil, fmt.Errorf("a minus with a space on one side; put one on both to subtract, or none between feet and inches")
		default:
			now.text += s[i : i+1]
		}
	}
	if strings.TrimSpace(terms[0].text) == "" && len(terms) > 1 { // "=+2'"
		terms = terms[1:]
	}
	return terms, nil
}

// term gives the nanometers of one length, not rounded.
func term(t string, one Length) (*big.Rat, error) {
	toks, err := scan(t)
	if err != nil {
		return nil, err
	}
	return evaluate(toks, one)
}

var (
	maxRat = new(big.Rat).SetInt64(int64(MaxLength))
	minRat = new(big.Rat).SetInt64(-int64(MaxLength))
)

// roundRat rounds to the nearest whole number, halves away from zero.
func roundRat(r *big.Rat) Length {
	num := new(big.Int).Lsh(new(big.Int).Abs(r.Num()), 1)
	num.Add(num, r.Denom())
	num.Quo(num, new(big.Int).Lsh(r.Denom(), 1))
	if r.Sign() < 0 {
		num.Neg(num)
	}
	return Length(num.Int64())
}

type tokenKind uint8

const (
	number   tokenKind = iota // 24, 6.5
	fraction                  // 1/2
	unit                      // ' " mm
	dash
)

type token struct {
	kind  tokenKind
	value *big.Rat // number and fraction; for unit, its size in nanometers
	whole bool     // number without a decimal point
	name  string
}

var unitWords = map[string]Length{
	"'": Foot, "ft": Foot, "foot": Foot, "feet": Foot,
	`"`: Inch, "in": Inch, "inch": Inch, "inches": Inch,
	"yd": Yard, "yard": Yard, "yards": Yard,
	"mm": Millimeter, "cm": Centimeter, "m": Meter,
}

// plain maps typographic signs to the plain ones that scan knows.
var plain = strings.NewReplacer(
	"’", "'", "‘", "'", "′", "'", "`", "'", "´", "'",
	"”", `"`, "“", `"`, "″", `"`, "''", `"`,
	"–", "-", "—", "-", "−", "-", "‐", "-", "‑", "-",
	"⁄", "/", "∕", "/",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ",
)

func scan(t string) ([]token, error) {
	if len(t) > maxText {
		return nil, fmt.Errorf("too long to be a length; write one such as 24'-6\"")
	}
	if strings.TrimSpace(t) == "" {
		return nil, fmt.Errorf("nothing there; write a length such as 24'-6\"")
	}
	var toks []token
	for i := 0; i < len(t); {
		c := t[i]
		switch {
		case c == ' ':
			i++
		case c == '-':
			toks = append(toks, token{kind: dash, name: "-"})
			i++
		case c == '\'' || c == '"':
			toks = append(toks, unitToken(t[i:i+1]))
			i++
		case isDigit(c) || c == '.':
			j := i
			for j < len(t) && (isDigit(t[j]) || t[j] == '.') {
				j++
			}
			k := skipSpaces(t, j)
			if k < len(t) && t[k] == '/' {
				d := skipSpaces(t, k+1)
				e := d
				for e < len(t) && isDigit(t[e]) {
					e++
				}
				r, ok := ratio(t[i:j], t[d:e])
				if !ok {
					return nil, fmt.Errorf("“%s” is no fraction; write one such as 1/2", t[i:e])
				}
				toks = append(toks, token{kind: fraction, value: r, name: t[i:e]})
				i = e
				continue
			}
			r, ok := new(big.Rat).SetString(t[i:j])
			if !ok {
				return nil, fmt.Errorf("“%s” is no number", t[i:j])
			}
			toks = append(toks, token{kind: number, value: r, whole: !strings.Contains(t[i:j], "."), name: t[i:j]})
			i = j
		case c >= 'a' && c <= 'z':
			j := i
			for j < len(t) && t[j] >= 'a' && t[j] <= 'z' {
				j++
			}
			if _, ok := unitWords[t[i:j]]; !ok {
				return nil, fmt.Errorf("“%s” is no unit; use ', \", ft, in, yd, mm, cm or m", t[i:j])
			}
			toks = append(toks, unitToken(t[i:j]))
			i = j
			if i < len(t) && t[i] == '.' { // "6 in."
				i++
			}
		case c == '+':
			return nil, fmt.Errorf("a + outside of a sum; begin with = to add, as =24' + 2'")
		default:
			return nil, fmt.Errorf("“%c” does not belong in a length", []rune(t[i:])[0])
		}
	}
	return toks, nil
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func skipSpaces(s string, i int) int {
	for i < len(s) && s[i] == ' ' {
		i++
	}
	return i
}

func unitToken(name string) token {
	return token{kind: unit, value: new(big.Rat).SetInt64(int64(unitWords[name])), name: name}
}

func ratio(num, den string) (*big.Rat, bool) {
	n, ok1 := new(big.Int).SetString(num, 10)
	d, ok2 := new(big.Int).SetString(den, 10)
	if !ok1 || !ok2 || d.Sign() == 0 {
		return nil, false
	}
	return new(big.Rat).SetFrac(n, d), true
}

// evaluate reads [-] value [unit] [[-] value [unit]], where a value is a number,
// a fraction, or both. The second value is inches after feet.
func evaluate(toks []token, one Length) (*big.Rat, error) {
	negative := toks[0].kind == dash
	if negative {
		toks = toks[1:]
	}
	first, rest, err := takeValue(toks)
	if err != nil {
		return nil, err
	}
	total := first.nanometers()
	switch {
	case len(rest) > 0:
		if total, err = feetThenInches(first, rest, one); err != nil {
			return nil, err
		}
	case first.unit == nil && first.value.Sign() == 0:
		// Zero is zero in any unit.
	case first.unit == nil:
		if total, err = first.bare(one); err != nil {
			return nil, err
		}
	}
	if negative {
		total.Neg(total)
	}
	return total, nil
}

// value is one number of a length with its unit, nil where none was written.
type value struct {
	value *big.Rat
	unit  *token
	plain bool // a whole number: neither decimal nor fraction
	mixed bool // has a fraction
}

func (v value) nanometers() *big.Rat {
	if v.unit == nil {
		return new(big.Rat)
	}
	return new(big.Rat).Mul(v.value, v.unit.value)
}

// bare reads a value without a unit: so many ones.
func (v value) bare(one Length) (*big.Rat, error) {
	switch {
	case one == 0:
		return nil, fmt.Errorf("no unit; add one of ', \", mm, m")
	case v.mixed && one != Inch:
		return nil, fmt.Errorf("a fraction of what? add ' or \"")
	}
	return new(big.Rat).Mul(v.value, new(big.Rat).SetInt64(int64(one))), nil
}

// takeValue reads number, fraction, or number [-] fraction, then a unit if one
// follows. A dash between a number and a fraction joins them only where a unit
// follows ("11-1/4 in") or inches are counted; "24-1/2" could be either where feet
// are, and is refused later.
func takeValue(toks []token) (value, []token, error) {
	if len(toks) == 0 {
		return value{}, nil, fmt.Errorf("a number is missing")
	}
	var v value
	switch t := toks[0]; t.kind {
	case fraction:
		v, toks = value{value: t.value, mixed: true}, toks[1:]
	case number:
		v, toks = value{value: t.value, plain: t.whole}, toks[1:]
		f := toks
		if len(f) > 1 && f[0].kind == dash && f[1].kind == fraction {
			f = f[1:]
		}
		if len(f) > 0 && f[0].kind == fraction {
			if !t.whole {
				return value{}, nil, fmt.Errorf("%s %s mixes a decimal with a fraction", t.name, f[0].name)
			}
			v.value = new(big.Rat).Add(v.value, f[0].value)
			v.plain, v.mixed = false, true
			toks = f[1:]
		}
	default:
		return value{}, nil, fmt.Errorf("a number must come before %s", t.name)
	}
	if len(toks) > 0 && toks[0].kind == unit {
		v.unit, toks = &toks[0], toks[1:]
	}
	return v, toks, nil
}

// feetThenInches reads what follows a first value that must be whole feet.
func feetThenInches(first value, rest []token, one Length) (*big.Rat, error) {
	dashed := rest[0].kind == dash
	if dashed {
		rest = rest[1:]
	}
	second, rest, err := takeValue(rest)
	if err != nil {
		return nil, err
	}
	foot, inch := unitToken("'"), unitToken(`"`)
	switch {
	case len(rest) > 0:
		return nil, fmt.Errorf("more than feet and inches; nothing may follow the inches")
	case first.unit == nil && (!dashed || one != Foot):
		return nil, fmt.Errorf("two numbers without a unit; write feet as 24'")
	case first.unit != nil && first.unit.value.Cmp(foot.value) != 0:
		return nil, fmt.Errorf("only feet may be followed by a second number")
	case !first.plain:
		return nil, fmt.Errorf("feet before inches must be a whole number")
	case second.unit != nil && second.unit.value.Cmp(inch.value) != 0:
		return nil, fmt.Errorf("after feet come inches, not %s", second.unit.name)
	}
	feet := new(big.Rat).Mul(first.value, foot.value)
	return feet.Add(feet, new(big.Rat).Mul(second.value, inch.value)), nil
}
