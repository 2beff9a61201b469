package unit

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
)

// MaxMagnitude is the greatest |value| that Parse takes, in the dimension's own
// unit. A thousand kilometres of rail, or thirty years, is a slip of the hand,
// and every value below it keeps a nanometre in a float64.
const MaxMagnitude = 1_000_000_000

// maxQuote is how much of a wrong text an error repeats, in bytes: a line.
const maxQuote = 60

// Quantity is an exact value in the unit of its dimension (mm, degrees, s, ...).
// The zero value is the plain number 0.
type Quantity struct {
	Value exact.Rat
	Dim   Dimension
}

// Float returns the value as the nearest float64, in the dimension's unit.
func (q Quantity) Float() float64 { return q.Value.Float() }

// String prints the quantity as Format does.
func (q Quantity) String() string { return Format(q.Float(), q.Dim) }

// Parse reads a number and a unit, such as "240 mm", "9.5 in", "1/6 turn",
// "1/250 s", "144 frames" or "800 mm/s2"; without a unit the dimension is
// Number. The number is a decimal or a fraction, exact, of at most 18 digits a
// part; exponents, NaN and infinities are refused, and so is anything beyond
// MaxMagnitude.
func Parse(s string) (Quantity, error) {
	number, symbol := split(strings.TrimSpace(s))
	if number == "" {
		return Quantity{}, fmt.Errorf("%s does not begin with a number; write it like \"240 mm\"", quote(s))
	}
	if len(number) > maxQuote {
		return Quantity{}, fmt.Errorf("%s is too long for a number; it must have at most 18 digits", quote(s))
	}
	value, err := exact.Parse(number)
	if err != nil {
		return Quantity{}, err
	}
	u, err := lookUp(symbol)
	if err != nil {
		return Quantity{}, fmt.Errorf("%s %w", quote(s), err)
	}
	value = value.Mul(u.factor)
	if exact.Int(MaxMagnitude).Less(value.Abs()) {
		return Quantity{}, fmt.Errorf("%s is out of range; it must be within %d %s",
			quote(s), MaxMagnitude, u.dim.Unit())
	}
	return Quantity{Value: value, Dim: u.dim}, nil
}

// split parts a text after its number. A slash belongs to the number only when
// a digit or a point follows it, so that "40000 /s" has the unit "/s".
func split(s string) (number, symbol string) {
	end := decimalEnd(s, strings.IndexAny(s, "+-") == 0)
	if end == 0 {
		return "", s
	}
	rest := strings.TrimLeft(s[end:], " ")
	if den, ok := strings.CutPrefix(rest, "/"); ok {
		den = strings.TrimLeft(den, " ")
		if n := decimalEnd(den, false); n > 0 {
			return s[:len(s)-len(den)+n], den[n:]
		}
	}
	return s[:end], rest
}

// decimalEnd returns the length of the digits and points that s begins with,
// after one sign where signed; 0 if there are none.
func decimalEnd(s string, signed bool) int {
	start := 0
	if signed {
		start = 1
	}
	end := start
	for end < len(s) && (s[end] == '.' || s[end] >= '0' && s[end] <= '9') {
		end++
	}
	if end == start {
		return 0
	}
	return end
}

func quote(s string) string {
	if len(s) > maxQuote {
		s = strings.ToValidUTF8(s[:maxQuote], "") + "..."
	}
	return fmt.Sprintf("%q", s)
}
