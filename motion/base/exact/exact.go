// Package exact holds rational numbers that are copied like integers and never
// rounded: frame rates, steps a turn, shares of a loop.
package exact

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"strings"
)

// maxDigits bounds what Parse reads, so that a hostile file cannot ask for a
// number that takes seconds to multiply. Eighteen digits hold any rate or
// ratio a rig has, with room.
const maxDigits = 18

// Rat is an immutable rational number. The zero value is 0. Numbers that are equal are so
// by reflect.DeepEqual too.
type Rat struct {
	n, d int64    // n/(d+1) in lowest terms, where r is nil; n is not math.MinInt64
	r    *big.Rat // what does not fit there
}

// New returns n/d. It panics if d is 0: that is a caller's mistake.
func New(n, d int64) Rat {
	if d > 0 && n != math.MinInt64 {
		common := gcd(n, d)
		return Rat{n: n / common, d: d/common - 1}
	}
	return of(big.NewRat(n, d))
}

// Int returns n.
func Int(n int64) Rat { return New(n, 1) }

// FromFloat returns the exact value of f, which is a dyadic rational.
// It panics if f is not finite.
func FromFloat(f float64) Rat {
	r := new(big.Rat).SetFloat64(f)
	if r == nil {
		panic(fmt.Sprintf("exact: %v is not a finite number", f))
	}
	return of(r)
}

// Parse reads "3", "-1/6", "0.25" or "1001/24000". Exponents, signs inside a
// fraction and more than 18 digits a part are refused.
func Parse(s string) (Rat, error) {
	t := strings.TrimSpace(s)
	num, den, fraction := strings.Cut(t, "/")
	n, err := decimal(strings.TrimSpace(num), true)
	if err != nil {
		return Rat{}, err
	}
	if !fraction {
		return n, nil
	}
	d, err := decimal(strings.TrimSpace(den), false)
	if err != nil {
		return Rat{}, err
	}
	if d.Sign() == 0 {
		return Rat{}, fmt.Errorf("%q divides by zero", s)
	}
	return n.Quo(d), nil
}

func decimal(s string, signed bool) (Rat, error) {
	body := s
	if signed {
		body = strings.TrimPrefix(strings.TrimPrefix(body, "+"), "-")
		if len(s)-len(body) > 1 {
			return Rat{}, fmt.Errorf("%q is not a number", s)
		}
	}
	digits, dots := 0, 0
	for _, c := range body {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == '.':
			dots++
		default:
			return Rat{}, fmt.Errorf("%q is not a number", s)
		}
	}
	if digits == 0 || dots > 1 {
		return Rat{}, fmt.Errorf("%q is not a number", s)
	}
	if digits > maxDigits {
		return Rat{}, fmt.Errorf("%q has more than %d digits", s, maxDigits)
	}
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		return Rat{}, fmt.Errorf("%q is not a number", s)
	}
	return of(r), nil
}

func (a Rat) big() *big.Rat {
	if a.r == nil {
		return big.NewRat(a.n, a.den())
	}
	return a.r
}

// Add returns a + b.
func (a Rat) Add(b Rat) Rat {
	if short(a, b) {
		if c, ok := a.plus(b); ok {
			return c
		}
	}
	return of(new(big.Rat).Add(a.big(), b.big()))
}

// Sub returns a - b.
func (a Rat) Sub(b Rat) Rat { return a.Add(b.Neg()) }

// Mul returns a * b.
func (a Rat) Mul(b Rat) Rat {
	if short(a, b) {
		if c, ok := a.by(b); ok {
			return c
		}
	}
	return of(new(big.Rat).Mul(a.big(), b.big()))
}

// Quo returns a / b. It panics if b is 0.
func (a Rat) Quo(b Rat) Rat { return a.Mul(b.Inv()) }

// Neg returns -a.
func (a Rat) Neg() Rat {
	if a.r == nil {
		return Rat{n: -a.n, d: a.d}
	}
	return of(new(big.Rat).Neg(a.r))
}

// Abs returns |a|.
func (a Rat) Abs() Rat {
	if a.Sign() < 0 {
		return a.Neg()
	}
	return a
}

// Inv returns 1/a. It panics if a is 0.
func (a Rat) Inv() Rat {
	switch {
	case a.r != nil || a.n == 0:
		return of(new(big.Rat).Inv(a.big()))
	case a.n < 0:
		return Rat{n: -a.den(), d: -a.n - 1}
	}
	return Rat{n: a.den(), d: a.n - 1}
}

// Cmp returns -1, 0 or +1 as a is less than, equal to or greater than b.
func (a Rat) Cmp(b Rat) int {
	if short(a, b) {
		return a.against(b)
	}
	return a.big().Cmp(b.big())
}

// Equal tells whether a and b are the same number.
func (a Rat) Equal(b Rat) bool { return a.Cmp(b) == 0 }

// Less tells whether a < b.
func (a Rat) Less(b Rat) bool { return a.Cmp(b) < 0 }

// Sign returns -1, 0 or +1.
func (a Rat) Sign() int {
	if a.r == nil {
		return cmp.Compare(a.n, 0)
	}
	return a.r.Sign()
}

// IsInt tells whether a is whole.
func (a Rat) IsInt() bool {
	if a.r == nil {
		return a.d == 0
	}
	return a.r.IsInt()
}

// Num returns the numerator of a in lowest terms.
func (a Rat) Num() *big.Int { return new(big.Int).Set(a.big().Num()) }

// Den returns the denominator of a in lowest terms; it is at least 1.
func (a Rat) Den() *big.Int { return new(big.Int).Set(a.big().Denom()) }

// Floor returns the greatest whole number not above a.
func (a Rat) Floor() Rat {
	if a.r == nil {
		q := a.n / a.den()
		if a.n < 0 && q*a.den() != a.n {
			q--
		}
		return Int(q)
	}
	q := new(big.Int)
	q.DivMod(a.r.Num(), a.r.Denom(), new(big.Int))
	return of(new(big.Rat).SetInt(q))
}

// Ceil returns the least whole number not below a.
func (a Rat) Ceil() Rat { return a.Neg().Floor().Neg() }

// Round returns the nearest whole number; halves go up.
func (a Rat) Round() Rat { return a.Add(New(1, 2)).Floor() }

// Frac returns a - Floor(a), in [0, 1).
func (a Rat) Frac() Rat { return a.Sub(a.Floor()) }

// Int64 returns a and true if a is whole and fits in an int64.
func (a Rat) Int64() (int64, bool) {
	if a.r == nil {
		return a.n, a.d == 0
	}
	if !a.r.IsInt() || !a.r.Num().IsInt64() {
		return 0, false
	}
	return a.r.Num().Int64(), true
}

// Whole returns a as an int64. It panics if a is not whole or does not fit:
// use it on the result of Floor, Ceil or Round of a bounded number.
func (a Rat) Whole() int64 {
	n, ok := a.Int64()
	if !ok {
		panic("exact: " + a.String() + " is not a whole number of 64 bits")
	}
	return n
}

// exactly is up to where a float64 holds every whole number.
const exactly = 1 << 53

// Float returns the float64 nearest to a.
func (a Rat) Float() float64 {
	// The quotient of two exact numbers is rounded once (IEEE 754-2019, section 5.4.1,
	// DOI 10.1109/IEEESTD.2019.8766229).
	if a.r == nil && -exactly <= a.n && a.n <= exactly && a.d < exactly {
		return float64(a.n) / float64(a.den())
	}
	f, _ := a.big().Float64()
	return f
}

// String prints "3" or "1001/24000".
func (a Rat) String() string { return a.big().RatString() }

// Decimal prints a with at most n decimals, trailing zeros dropped.
func (a Rat) Decimal(n int) string {
	s := a.big().FloatString(n)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// MarshalText writes a as String does.
func (a Rat) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText reads what Parse reads.
func (a *Rat) UnmarshalText(text []byte) error {
	r, err := Parse(string(text))
	if err == nil {
		*a = r
	}
	return err
}

// Approx returns the fraction with a denominator of at most maxDen that is
// nearest to f (continued fractions with the last semiconvergent; Hardy and
// Wright, An Introduction to the Theory of Numbers, chapter X). It panics if f
// is not finite or maxDen is below 1.
func Approx(f float64, maxDen int64) Rat {
	if math.IsNaN(f) || math.IsInf(f, 0) || maxDen < 1 {
		panic(fmt.Sprintf("exact: no approximation of %v below %d", f, maxDen))
	}
	target := FromFloat(f)
	rest := target
	p0, q0, p1, q1 := Int(0), Int(1), Int(1), Int(0)
	limit := Int(maxDen)
	for {
		a := rest.Floor()
		p2, q2 := a.Mul(p1).Add(p0), a.Mul(q1).Add(q0)
		if limit.Less(q2) {
			return nearest(target, p0, q0, p1, q1, limit)
		}
		p0, q0, p1, q1 = p1, q1, p2, q2
		rest = rest.Sub(a)
		if rest.Sign() == 0 {
			return p1.Quo(q1)
		}
		rest = rest.Inv()
	}
}

func nearest(target, p0, q0, p1, q1, limit Rat) Rat {
	k := limit.Sub(q0).Quo(q1).Floor()
	semi := p0.Add(k.Mul(p1)).Quo(q0.Add(k.Mul(q1)))
	last := p1.Quo(q1)
	if target.Sub(semi).Abs().Less(target.Sub(last).Abs()) {
		return semi
	}
	return last
}
