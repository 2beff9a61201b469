package unit

import (
	"fmt"
	"slices"
	"strings"
)

// ParseAs reads s as Parse does and requires one of the wanted dimensions.
// Where an angle is wanted and turns are not, turns are converted, 360 degrees
// each, and the other way round. The error names the units that would do.
// It panics if nothing is wanted.
func ParseAs(s string, want ...Dimension) (Quantity, error) {
	if len(want) == 0 {
		panic("unit: ParseAs wants no dimension")
	}
	q, err := Parse(s)
	if err != nil {
		return Quantity{}, err
	}
	q = turned(q, want)
	switch {
	case slices.Contains(want, q.Dim):
		return q, nil
	case q.Dim == Number:
		return Quantity{}, fmt.Errorf("%s needs a unit, such as %s", quote(s), examples(s, want))
	}
	return Quantity{}, fmt.Errorf("%s is %s; it must be %s", quote(s), q.Dim, wanted(want))
}

// turned converts between turns and degrees when only the other is wanted.
func turned(q Quantity, want []Dimension) Quantity {
	switch {
	case slices.Contains(want, q.Dim):
	case q.Dim == Turns && slices.Contains(want, Angle):
		return Quantity{q.Value.Mul(perTurn), Angle}
	case q.Dim == Angle && slices.Contains(want, Turns):
		return Quantity{q.Value.Quo(perTurn), Turns}
	}
	return q
}

// examples writes the number that was given with each unit that would do.
func examples(s string, want []Dimension) string {
	number, _ := split(strings.TrimSpace(s))
	var out []string
	for _, d := range want {
		if d != Number {
			out = append(out, fmt.Sprintf("%q", number+" "+d.Unit()))
		}
	}
	return either(out)
}

func wanted(want []Dimension) string {
	out := make([]string, len(want))
	for i, d := range want {
		out[i] = fmt.Sprintf("%s (%s), such as %q", d, d.facts().accepted, d.Example())
	}
	return either(out)
}

// either joins "a", "b", "c" as "a, b or c".
func either(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " or " + list[last]
}
