// Package fault says what is wrong with a file or a plan, where, and what
// would fit instead.
package fault

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/plain"
)

// Fault is one thing that is wrong. Only Quantity is always set; the rest is
// empty or zero where it does not apply.
type Fault struct {
	File     string // file name, or the flag or key that gave the value
	Line     int    // 1-based, 0 when there is no line
	Column   int    // 1-based, 0 when there is no column
	Axis     string // "rail"
	Quantity string // "speed", "clock.loop", "key \"capure\""
	Value    string // "312 mm/s"
	Bound    string // what it must obey: "at most 200 mm/s"
	Where    string // "at 1.42 s on screen, frame 34"
	Fit      string // what would fit: "a loop of 7.2 s"
	Edits    []Edit // that make the fit, where it is a value of the shot's file
}

// String prints the fault as one line:
// file:line:column: axis rail: speed 312 mm/s must be at most 200 mm/s at ...; fits: ...
func (f Fault) String() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File)
		if f.Line > 0 {
			fmt.Fprintf(&b, ":%d", f.Line)
			if f.Column > 0 {
				fmt.Fprintf(&b, ":%d", f.Column)
			}
		}
		b.WriteString(": ")
	}
	if f.Axis != "" {
		fmt.Fprintf(&b, "axis %s: ", f.Axis)
	}
	b.WriteString(f.Quantity)
	for _, part := range []string{f.Value, f.Bound, f.Where} {
		if part != "" {
			b.WriteString(" " + part)
		}
	}
	if f.Fit != "" {
		b.WriteString("; " + f.Fit)
	}
	return plain.Text(b.String())
}

// List is every fault found, and an error when it is not empty.
type List []Fault

// Error prints one fault a line, sorted.
func (l List) Error() string {
	lines := make([]string, len(l))
	for i, f := range l.Sorted() {
		lines[i] = f.String()
	}
	return strings.Join(lines, "\n")
}

// Sorted returns the faults by file, line, column, axis and quantity.
func (l List) Sorted() List {
	out := slices.Clone(l)
	slices.SortStableFunc(out, func(a, b Fault) int {
		return cmp.Or(
			cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line),
			cmp.Compare(a.Column, b.Column), cmp.Compare(a.Axis, b.Axis),
			cmp.Compare(a.Quantity, b.Quantity), cmp.Compare(a.Value, b.Value))
	})
	return out
}

// Err returns the list as an error, or nil when it is empty.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	return l.Sorted()
}
