package source

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// Quantity reads t as one of the wanted dimensions. It reports and returns
// false if it is none of them.
func (r *Report) Quantity(t Text, path string, want ...unit.Dimension) (unit.Quantity, bool) {
	q, err := unit.ParseAs(t.Text, want...)
	if err != nil {
		r.Fail(t, path, err)
		return unit.Quantity{}, false
	}
	return q, true
}

// Number reads t as an exact number without a unit, within low and high.
func (r *Report) Number(t Text, path string, low, high exact.Rat) (exact.Rat, bool) {
	n, err := exact.Parse(t.Text)
	if err != nil {
		r.Fail(t, path, fmt.Errorf("%w; it must be from %s to %s", err, low, high))
		return exact.Rat{}, false
	}
	if n.Less(low) || high.Less(n) {
		r.Wrong(t, path, fmt.Sprintf("must be from %s to %s", low, high), "")
		return exact.Rat{}, false
	}
	return n, true
}

// Whole reads t as a whole number within low and high.
func (r *Report) Whole(t Text, path string, low, high int64) (int64, bool) {
	n, ok := r.Number(t, path, exact.Int(low), exact.Int(high))
	if !ok {
		return 0, false
	}
	if !n.IsInt() {
		r.Wrong(t, path, "must be a whole number", fmt.Sprintf("%s or %s would do", n.Floor(), n.Ceil()))
		return 0, false
	}
	return n.Whole(), true
}

// Choice reads t as one of the words.
func (r *Report) Choice(t Text, path string, words ...string) (string, bool) {
	for _, w := range words {
		if t.Text == w {
			return w, true
		}
	}
	fit := ""
	if near := Nearest(t.Text, words); near != "" {
		fit = fmt.Sprintf("did you mean %q?", near)
	}
	r.Wrong(t, path, "must be one of "+strings.Join(words, ", "), fit)
	return "", false
}
