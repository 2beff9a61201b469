package move

import (
	"fmt"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Reader understands the table of one axis.
type Reader struct {
	*source.Report
	At   source.Place // of the table
	Path string       // of it, such as "axis.rail."
	Axis string
	Time Timing
	// Level says that its places are levels of a lamp: shares, not lengths or angles.
	Level bool
	// Focus says that they are distances to the plane in focus.
	Focus bool
}

// places are the dimensions of its places, and an example of one.
func (r *Reader) places(example string) ([]unit.Dimension, string) {
	if r.Level {
		return []unit.Dimension{unit.Number}, "85 %"
	}
	if r.Focus {
		return []unit.Dimension{unit.Length}, "400 mm"
	}
	return []unit.Dimension{unit.Length, unit.Angle}, example
}

// position reads a length or an angle that has to be there.
func (r *Reader) position(t source.Text, key, example string) (unit.Quantity, bool) {
	want, example := r.places(example)
	if !t.Set {
		r.Missing(r.At, r.Path+key, fmt.Sprintf("%q", example))
		return unit.Quantity{}, false
	}
	return r.Quantity(t, r.Path+key, want...)
}

// share reads a share that fits, or returns the fallback; bound says in words
// what fits.
func (r *Reader) share(t source.Text, key string, fallback exact.Rat, why string, fits func(exact.Rat) bool, bound string) exact.Rat {
	if !t.Set {
		r.Default(r.Path+key, fallback.String(), why)
		return fallback
	}
	q, ok := r.Quantity(t, r.Path+key, unit.Number)
	if !ok {
		return fallback
	}
	if !fits(q.Value) {
		r.Wrong(t, r.Path+key, "must be "+bound, fmt.Sprintf("%s would do", fallback))
		return fallback
	}
	return q.Value
}

var half = exact.New(1, 2)

func inside(s exact.Rat) bool { return s.Sign() > 0 && s.Less(exact.Int(1)) }

func wrapped(s exact.Rat) bool { return s.Sign() >= 0 && s.Less(exact.Int(1)) }

// ends checks that two places are of one kind and apart.
func (r *Reader) ends(from, to unit.Quantity, at source.Text) {
	switch {
	case from.Dim != to.Dim:
		r.Wrong(at, r.Path+"to", "must be "+from.Dim.String()+", as from is", "")
	case from.Value.Equal(to.Value):
		fit := `to stay put, use move = "hold"`
		if r.Level {
			fit = fmt.Sprintf("to stay there, say level = %s in place of the fade", at.Quoted())
		}
		r.Wrong(at, r.Path+"to", "must be somewhere else than from", fit)
	}
}

// MaxCycles is more often than anyone wants to see it in a loop.
const MaxCycles = 1000

// cycles reads how often in a loop, once where it does not say.
func (r *Reader) cycles(t source.Text, once string) int {
	if !t.Set {
		r.Default(r.Path+"cycles", "1", once)
		return 1
	}
	n, ok := r.Whole(t, r.Path+"cycles", 1, MaxCycles)
	if !ok {
		return 1
	}
	return int(n)
}

// position is a quantity that has to suit the axis, and the key it is under.
type position struct {
	key   string
	value unit.Quantity
}

// suit returns which of the positions does not suit an axis that is rotary or linear,
// or nil.
func suit(rotary bool, positions ...position) *fault.Fault {
	want, kind := unit.Length, "linear"
	if rotary {
		want, kind = unit.Angle, "rotary"
	}
	for _, p := range positions {
		if p.value.Dim != want {
			return &fault.Fault{Quantity: p.key, Value: p.value.String(),
				Bound: "must be " + want.String() + ", as the axis is " + kind, Fit: "such as " + want.Example()}
		}
	}
	return nil
}
