package style

import (
	"math"
	"strconv"
	"strings"
)

// decimal steps read off a ruler; sexagesimal steps read off a circle.
var (
	decimal = []float64{1, 2, 5}
	circles = []float64{1, 2, 5, 10, 15, 30, 45, 60, 90, 180, 360}
)

// Step returns the smallest round step that cuts span into at most n parts.
// Degrees are cut into parts of a circle where that is possible.
func Step(span float64, n int, degrees bool) float64 {
	if !(span > 0) || math.IsInf(span, 0) {
		return 1
	}
	rough := span / float64(n)
	if degrees && rough > 1 && rough <= 360 {
		for _, s := range circles {
			if s >= rough {
				return s
			}
		}
	}
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range decimal {
		if m*power >= rough*(1-1e-9) { // 1e-9: a step equal to rough may miss it by rounding
			return m * power
		}
	}
	return 10 * power
}

// Tick is a place on an axis and what is written at it.
type Tick struct {
	Value float64
	Label string
}

// Ticks chooses at most n+1 labelled ticks within [lo, hi].
func Ticks(lo, hi float64, n int, degrees bool) []Tick {
	step := Step(hi-lo, n, degrees)
	slack := step * 1e-6 // far below what can be seen, far above rounding
	var out []Tick
	for k := math.Ceil((lo - slack) / step); k*step <= hi+slack && len(out) <= 2*n+2; k++ {
		out = append(out, Tick{Value: k * step, Label: tickLabel(k*step, step)})
	}
	return out
}

func tickLabel(v, step float64) string {
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	if math.Abs(v) < step/2 {
		return "0"
	}
	if decimals > 6 {
		return Number(v)
	}
	return group(unsigned0(strconv.FormatFloat(v, 'f', decimals, 64)))
}

// What is less than nothing, in mm, degrees, px or of a share, is a trace of floats
// that cancel: of a length, a thousandth of a nanometre. What is less than finest has
// no digit among maxDecimals.
const (
	nothing     = 1e-9
	finest      = 1e-6
	maxDecimals = 6
)

// Number prints v with four significant digits, thousands set apart.
func Number(v float64) string {
	switch {
	case math.IsInf(v, 0):
		return "unbounded"
	case math.IsNaN(v):
		return "unknown"
	case math.Abs(v) < nothing:
		return "0"
	case math.Abs(v) < finest || math.Abs(v) >= 1e9:
		return strconv.FormatFloat(v, 'g', 3, 64)
	}
	decimals := 0
	if a := math.Abs(v); a > 0 {
		decimals = min(maxDecimals, max(0, 3-int(math.Floor(math.Log10(a)))))
	}
	t := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(t, ".") {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	return group(unsigned0(t))
}

// unsigned0 turns "-0" and "-0.00" into "0" and "0.00".
func unsigned0(t string) string {
	if strings.HasPrefix(t, "-") && strings.Trim(t, "-0.") == "" {
		return t[1:]
	}
	return t
}

// group sets thousands apart with a thin-enough space: 16 500, but 1440.
func group(t string) string {
	whole, rest, _ := strings.Cut(t, ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	if len(whole) > 4 {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + " " + whole[i:]
		}
	}
	if rest != "" {
		rest = "." + rest
	}
	return sign + whole + rest
}
