package report

import (
	"io"
	"math"
	"strconv"

	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/plan/judge"
)

// JSON writes the facts of a report as one indented document and a newline. The
// error is the writer's.
func JSON(w io.Writer, facts any) error {
	e := plain.Encoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(facts)
}

// Default is a value that was filled in, in a document.
type Default struct {
	Key   string `json:"key"`
	Value string `json:"value"`
	Why   string `json:"why"`
}

// DefaultOf returns what JSON holds of one.
func DefaultOf(d source.Default) Default { return Default(d) }

// Verdict is the headline of a plan, in a document.
type Verdict struct {
	Ready   bool     `json:"ready"` // nothing keeps the rig from being driven
	Stamp   string   `json:"stamp"` // "READY", "READY, BUT" or "NOT READY"
	Words   string   `json:"words"`
	Fails   []string `json:"fails"`   // checks that fail, the picture's too
	Unknown []string `json:"unknown"` // checks that could not be made
}

// VerdictOf returns what JSON holds of one.
func VerdictOf(h judge.Headline) Verdict {
	return Verdict{h.Ready(), h.Stamp, h.Words, List(h.Fails), List(h.Unknown)}
}

// Rounding is what the numbers of a document keep. The rest is rounding in the
// arithmetic, which differs between processors.
type Rounding struct {
	Digits int     // significant ones
	Grain  float64 // all below it is 0
}

// Of returns a number as a document keeps it, and never the negative zero.
func (r Rounding) Of(v float64) float64 {
	if math.Abs(v) < r.Grain {
		return 0
	}
	return Rounded(v, r.Digits)
}

// OrNull is Of, or nil where JSON has no number for v.
func (r Rounding) OrNull(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	v = r.Of(v)
	return &v
}

// Rounded returns v with so many significant digits.
func Rounded(v float64, digits int) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil || out == 0 {
		return 0
	}
	return out
}

// Millionth returns v to a millionth of its unit, for shares and the like.
func Millionth(v float64) float64 {
	const grain = 1e6
	return math.Round(v*grain)/grain + 0 // no -0
}

// Digits prints a number with so many significant digits and no exponent.
func Digits(v float64, digits int) string {
	return strconv.FormatFloat(Rounded(v, digits), 'f', -1, 64)
}

// Each returns what f makes of each of a list; never nil, which JSON would call null.
func Each[T, U any](list []T, f func(T) U) []U {
	out := make([]U, len(list))
	for i, x := range list {
		out[i] = f(x)
	}
	return out
}

// List returns a list that is never nil.
func List[T any](list []T) []T { return append([]T{}, list...) }
