package law

import (
	"fmt"
	"strings"
)

// Shares of the named trapezoidal and seven-segment laws: thirds, the usual
// choice, and thirds again within a ramp, which keeps the peak acceleration
// within a fifth of that of 3-4-5 and the jerk at its level.
const (
	defaultRamp      = 1. / 3
	defaultJerkShare = 1. / 3
)

// all is every law with a name, plainest first.
var all = []Law{
	uniform{},
	harmonic{},
	cycloidal{},
	modifiedTrapezoid{},
	modifiedSine{},
	minimumJerk{},
	poly4567{},
	newTrapezoidal(defaultRamp),
	newSevenSegment(defaultRamp, defaultJerkShare),
}

// All returns every named law, plainest first. The caller may keep and change
// the slice.
func All() []Law { return append([]Law(nil), all...) }

// Names returns the name of every law, in the order of All.
func Names() []string {
	names := make([]string, len(all))
	for i, l := range all {
		names[i] = l.Name()
	}
	return names
}

// Named returns the law of that name. Trapezoidal and seven-segment come with
// ramps of a third. The error lists every name, and the nearest first where
// one is near.
func Named(name string) (Law, error) {
	for _, l := range all {
		if l.Name() == name {
			return l, nil
		}
	}
	hint := ""
	if near := nearest(name); near != "" {
		hint = fmt.Sprintf("; did you mean %q?", near)
	}
	return nil, fmt.Errorf("law %q must be one of %s%s", name, strings.Join(Names(), ", "), hint)
}

// maxEdits is how many slips of a letter still suggest a name.
const maxEdits = 4

// nearest returns the name the fewest edits away, or "" where none is near.
func nearest(name string) string {
	name = strings.ToLower(strings.TrimSpace(name))
	if len(name) > 40 { // no slip of the finger, and edits costs its square
		return ""
	}
	best, least := "", maxEdits+1
	for _, n := range Names() {
		d := edits(name, n)
		if d < least && d < len(n)-1 {
			best, least = n, d
		}
	}
	return best
}

// edits counts the letters to insert, delete or replace to turn a into b
// (V. I. Levenshtein, Soviet Physics Doklady 10(8):707-710, 1966), one row of
// the table at a time.
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			diagonal, row[j+1] = row[j+1], min(row[j]+1, row[j+1]+1, diagonal+cost)
		}
	}
	return row[len(b)]
}
