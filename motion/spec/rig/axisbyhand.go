package rig

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// byHand understands an axis of a rig that is set and started by hand: where it goes, and
// what is known of how fast it may. Its motor is its own affair.
func (b axisBuilder) byHand(name string) Axis {
	strays(b.report, b.raw, b.path, b.controller, "kind", "travel", "home", "speed", "acceleration", "jerk",
		"backlash", "shake", "stops", "distances")
	a := Axis{Name: name}
	a.Kind = b.kind()
	b.travel(&a)
	b.home(&a)
	dims := b.dimensions(a.Kind)
	a.MaxSpeed = b.orNone(b.raw.Speed, "speed", dims[0])
	a.MaxAcc = b.orNone(b.raw.Acceleration, "acceleration", dims[1])
	if !b.raw.Jerk.Set {
		b.report.Default(b.path+"jerk", "no limit", "the rig states none")
	} else if a.MaxJerk = b.orNone(b.raw.Jerk, "jerk", dims[2]); math.IsInf(a.MaxJerk, 1) {
		a.MaxJerk = 0
	}
	b.backlash(&a)
	a.Shake = b.shake()
	a.Stops = b.offered(a, b.raw.Stops, "stops")
	a.Distances = b.offered(a, b.raw.Distances, "distances")
	return a
}

// orNone reads a limit, which is beyond all numbers where the word none is written.
func (b axisBuilder) orNone(t source.Text, key string, dim unit.Dimension) float64 {
	if t.Set && t.Text == none {
		return math.Inf(1)
	}
	return b.limit(t, key, dim)
}

// offered reads places or distances that its buttons offer, nil for any.
func (b axisBuilder) offered(a Axis, t source.Texts, key string) Offers {
	if !t.Set {
		b.report.Default(b.path+key, "any", "none are stated")
		return nil
	}
	r := offerReader{report: b.report, dims: []unit.Dimension{unit.Length}, least: exact.Int(-unit.MaxMagnitude)}
	if a.Kind == Rotary {
		r.dims = []unit.Dimension{unit.Angle}
	}
	out := r.read(t, b.path+key)
	for v := range out.All() {
		if key == "stops" && a.Min < a.Max && !a.Contains(v.Float()) {
			b.report.Add(t.Place(), b.path+key, unit.Format(v.Float(), r.dims[0]), "must be inside the travel", "")
			return nil
		}
	}
	return out
}
