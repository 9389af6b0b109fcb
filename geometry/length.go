package geometry

import (
	"errors"
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// Length is a signed distance in whole nanometres. Every 1/64 in and every
// micrometre is a whole number of them, so that neither unit system rounds.
//
// The inch is 25.4 mm exactly: international yard and pound agreement of 1959,
// restated in NIST Special Publication 811, appendix B.
type Length int64

// The lengths that people write, in nanometres.
const (
	Nanometre   Length = 1
	Micrometre         = 1000 * Nanometre
	Millimetre         = 1000 * Micrometre
	Centimetre         = 10 * Millimetre
	Metre              = 1000 * Millimetre
	Inch               = 25_400 * Micrometre
	Foot               = 12 * Inch
	Yard               = 3 * Foot
	Sixteenth          = Inch / 16
	SixtyFourth        = Inch / 64
)

// MaxLength bounds what ParseLength accepts and what a plan may hold: 10 km,
// far beyond any slab and far below overflow.
const MaxLength = 10_000 * Metre

// Units says how lengths are printed and what a number without a unit means.
type Units uint8

const (
	// FeetInches prints feet, inches and sixteenths; a bare number is feet.
	FeetInches Units = iota
	// Millimetres prints whole millimetres; a bare number is millimetres.
	Millimetres
)

// String gives the name that job files use: "ft-in" or "mm".
func (u Units) String() string {
	if u == Millimetres {
		return "mm"
	}
	return "ft-in"
}

// MarshalText gives the name that String gives.
func (u Units) MarshalText() ([]byte, error) { return []byte(u.String()), nil }

// UnmarshalText reads the name that String gives.
func (u *Units) UnmarshalText(text []byte) error {
	switch string(text) {
	case "ft-in":
		*u = FeetInches
	case "mm":
		*u = Millimetres
	default:
		return errors.New(`write "ft-in" or "mm"`)
	}
	return nil
}

// Metres gives l in metres, correctly rounded.
func (l Length) Metres() float64 { return float64(l) / 1e9 }

// Feet gives l in feet, correctly rounded.
func (l Length) Feet() float64 { return float64(l) / float64(Foot) }

// Inches gives l in inches, correctly rounded.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Abs gives the magnitude of l.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// Round gives the multiple of step nearest to l, halves away from zero.
func (l Length) Round(step Length) Length {
	if step <= 1 {
		return l
	}
	half := step / 2
	if l < 0 {
		return -((-l + half) / step * step)
	}
	return (l + half) / step * step
}

// Text prints l for people: feet, inches and sixteenths such as 24'-6 1/2", or
// whole millimetres such as 7468 mm. It rounds what it prints and nothing else.
func (l Length) Text(u Units) string {
	if u == Millimetres {
		return strconv.FormatInt(int64(l.Round(Millimetre)/Millimetre), 10) + " mm"
	}
	return feetInches(l.Round(Sixteenth), Sixteenth, 16)
}

// Exact prints l without rounding, so that ParseLength gives l back: in feet and
// inches where l is a whole number of 64ths and u is FeetInches, otherwise in
// decimal millimetres.
func (l Length) Exact(u Units) string {
	if u == FeetInches && l%SixtyFourth == 0 {
		return feetInches(l, SixtyFourth, 64)
	}
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	s := fmt.Sprintf("%s%d.%06d", sign, l/Millimetre, l%Millimetre)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " mm"
}

// feetInches prints l, a multiple of step = 1/den inch.
func feetInches(l, step Length, den int64) string {
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	feet, inches := l/Foot, l%Foot/Inch
	num := int64(l % Inch / step)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	var b strings.Builder
	b.WriteString(sign)
	if feet > 0 {
		fmt.Fprintf(&b, "%d'-", feet)
	}
	switch {
	case num == 0:
		fmt.Fprintf(&b, `%d"`, inches)
	case inches == 0 && feet == 0:
		fmt.Fprintf(&b, `%d/%d"`, num, den)
	default:
		fmt.Fprintf(&b, `%d %d/%d"`, inches, num, den)
	}
	return b.String()
}

// ParseLength reads a length as people write it:
//
//	24'   24-6   24'6   24' 6 1/2"   3'-6 1/2"   7' 3/8   18"   1/2"   6.5"
//	11-1/4 in   24 ft 6 in   7.25m   1066.8mm
//
// with straight or typographic quotes, primes, vulgar fractions and stray
// spaces. A number without a unit is read in u. A value that is no whole number
// of nanometres (1/3") is rounded to the nearest. The error says what was found
// and what would do.
func ParseLength(s string, u Units) (Length, error) { return parse(s, &u) }

// ParseWritten is ParseLength where nothing tells what a bare number means, as
// in a job file: every length but zero must carry its unit.
func ParseWritten(s string) (Length, error) { return parse(s, nil) }

func parse(s string, bare *Units) (Length, error) {
	toks, err := scan(s)
	if err != nil {
		return 0, fmt.Errorf("found %q: %w", s, err)
	}
	nm, err := evaluate(toks, bare)
	if err != nil {
		return 0, fmt.Errorf("found %q: %w", s, err)
	}
	if nm.Cmp(maxRat) > 0 || nm.Cmp(minRat) < 0 {
		return 0, fmt.Errorf("found %q: beyond 10 km; write a shorter length", s)
	}
	return roundRat(nm), nil
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
	value *big.Rat // number and fraction; for unit, its size in nanometres
	whole bool     // number without a decimal point
	name  string
}

var unitWords = map[string]Length{
	"'": Foot, "ft": Foot, "foot": Foot, "feet": Foot,
	`"`: Inch, "in": Inch, "inch": Inch, "inches": Inch,
	"yd": Yard, "yard": Yard, "yards": Yard,
	"mm": Millimetre, "cm": Centimetre, "m": Metre,
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

// maxText bounds the input; no length that a person writes is near it.
const maxText = 64

func scan(s string) ([]token, error) {
	if len(s) > maxText {
		return nil, fmt.Errorf("too long to be a length; write one such as 24'-6\"")
	}
	// Twice, so that two curly single quotes end as one inch mark.
	t := strings.ToLower(strings.TrimSpace(plain.Replace(plain.Replace(s))))
	if t == "" {
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
					return nil, fmt.Errorf("%q is no fraction; write one such as 1/2", t[i:e])
				}
				toks = append(toks, token{kind: fraction, value: r, name: t[i:e]})
				i = e
				continue
			}
			r, ok := new(big.Rat).SetString(t[i:j])
			if !ok {
				return nil, fmt.Errorf("%q is no number", t[i:j])
			}
			toks = append(toks, token{kind: number, value: r, whole: !strings.Contains(t[i:j], "."), name: t[i:j]})
			i = j
		case c >= 'a' && c <= 'z':
			j := i
			for j < len(t) && t[j] >= 'a' && t[j] <= 'z' {
				j++
			}
			if _, ok := unitWords[t[i:j]]; !ok {
				return nil, fmt.Errorf("%q is no unit; use ', \", ft, in, yd, mm, cm or m", t[i:j])
			}
			toks = append(toks, unitToken(t[i:j]))
			i = j
			if i < len(t) && t[i] == '.' { // "6 in."
				i++
			}
		default:
			return nil, fmt.Errorf("%q does not belong in a length", []rune(t[i:])[0])
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
func evaluate(toks []token, bare *Units) (*big.Rat, error) {
	negative := toks[0].kind == dash
	if negative {
		toks = toks[1:]
	}
	first, rest, err := takeValue(toks)
	if err != nil {
		return nil, err
	}
	total := first.nanometres()
	switch {
	case len(rest) > 0:
		if total, err = feetThenInches(first, rest, bare); err != nil {
			return nil, err
		}
	case first.unit == nil && first.value.Sign() == 0:
		// Zero is zero in any unit.
	case first.unit == nil:
		if total, err = first.bare(bare); err != nil {
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

func (v value) nanometres() *big.Rat {
	if v.unit == nil {
		return new(big.Rat)
	}
	return new(big.Rat).Mul(v.value, v.unit.value)
}

// bare reads a value without a unit in the job's units.
func (v value) bare(u *Units) (*big.Rat, error) {
	switch {
	case u == nil:
		return nil, fmt.Errorf("no unit; add one of ', \", mm, m")
	case v.mixed:
		return nil, fmt.Errorf("a fraction of what? add ' or \"")
	case *u == Millimetres:
		return new(big.Rat).Mul(v.value, unitToken("mm").value), nil
	}
	return new(big.Rat).Mul(v.value, unitToken("'").value), nil
}

// takeValue reads number, fraction, or number [-] fraction, then a unit if one
// follows. A dash between a number and a fraction joins them only where a unit
// follows ("11-1/4 in"); "24-1/2" could be either and is refused later.
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
func feetThenInches(first value, rest []token, bare *Units) (*big.Rat, error) {
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
	case first.unit == nil && (!dashed || bare == nil || *bare != FeetInches):
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
