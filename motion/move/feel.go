package move

import (
	"fmt"

	"seamrail/motion/exact"
	"seamrail/motion/plain"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// Feel is how a key is come to and left. The zero Feel leaves it to the curve.
type Feel struct {
	Tension exact.Rat     // share of the speed through it that is taken off, in [0, 1]
	EaseIn  exact.Rat     // share of the way in that slows down to rest, in [0, 1]
	EaseOut exact.Rat     // share of the way out that picks up from rest, in [0, 1]
	Within  unit.Quantity // how far off it may be passed, in mm or degrees
}

// feel reads how the curve comes to a key and leaves it.
func (r keyReader) feel(i int, k Key) Feel {
	raw, path := r.keys.Keys[i], r.keyPath(i)
	var f Feel
	for _, s := range []struct {
		key  string
		text source.Text
		to   *exact.Rat
	}{{"tension", raw.Tension, &f.Tension}, {"ease-in", raw.EaseIn, &f.EaseIn}, {"ease-out", raw.EaseOut, &f.EaseOut}} {
		if s.text.Set {
			*s.to, _ = r.Number(s.text, path+s.key, exact.Int(0), exact.Int(1))
		}
	}
	if raw.Within.Set {
		f.Within = r.within(i, k.Pos.Dim)
	}
	return f
}

func (r keyReader) within(i int, pos unit.Dimension) unit.Quantity {
	raw, path := r.keys.Keys[i], r.keyPath(i)+"within"
	q, ok := r.Quantity(raw.Within, path, pos)
	if ok && q.Value.Sign() < 0 {
		r.Wrong(raw.Within, path, "must be 0 or more", "how far off either side may be")
	}
	return q
}

// felt checks that what keys feel like goes together.
func (r keyReader) felt(keys []Key) {
	for i, k := range keys {
		raw, path := r.keys.Keys[i], r.keyPath(i)
		eased := k.EaseIn.Sign() > 0 || k.EaseOut.Sign() > 0
		rests := raw.Hold.Set && k.Hold.Sign() > 0 || eased
		switch {
		case k.Tension.Sign() > 0 && (rests || raw.Speed.Set):
			r.Wrong(raw.Tension, path+"tension", "has nothing to take off where the speed is stated", "leave out the tension, or the speed, hold or ease")
		case eased && k.Speed != nil && k.Speed.Value.Sign() != 0:
			r.Wrong(raw.Speed, path+"speed", "must be 0 where the key is eased", "leave one of the two out")
		case k.Within.Value.Sign() > 0 && rests:
			r.Wrong(raw.Within, path+"within", "has no meaning where the axis comes to rest", "leave it out, or the hold or the ease")
		case k.Within.Value.Sign() > 0 && r.keys.Curve.Text == "monotone":
			r.Wrong(raw.Within, path+"within", "has no meaning for a monotone curve, which turns at its keys", `curve = "smooth" would do`)
		}
		r.feltNext(i, k, (i+1)%len(keys), keys[(i+1)%len(keys)])
	}
}

// feltNext checks a key against the next.
func (r keyReader) feltNext(i int, k Key, j int, next Key) {
	sum := k.EaseOut.Add(next.EaseIn)
	switch {
	case exact.Int(1).Less(sum):
		r.Wrong(r.keys.Keys[i].EaseOut, r.keyPath(i)+"ease-out", fmt.Sprintf("and the ease-in of key %d take more than all of the time between the two", j+1),
			"together at most 1")
	case k.EaseOut.Sign() > 0 && next.Within.Value.Sign() > 0:
		r.Wrong(r.keys.Keys[j].Within, r.keyPath(j)+"within", fmt.Sprintf("does not go with the ease-out of key %d towards it", i+1), "leave one of the two out")
	case next.EaseIn.Sign() > 0 && k.Within.Value.Sign() > 0:
		r.Wrong(r.keys.Keys[i].Within, r.keyPath(i)+"within", fmt.Sprintf("does not go with the ease-in of key %d after it", j+1), "leave one of the two out")
	}
}

// feelWords tells how keys are come to and left.
func (m Keys) feelWords() string {
	var eased, tight, near int64
	for _, k := range m.Keys {
		if k.EaseIn.Sign() > 0 || k.EaseOut.Sign() > 0 {
			eased++
		}
		if k.Tension.Sign() > 0 {
			tight++
		}
		if k.Within.Value.Sign() > 0 {
			near++
		}
	}
	words := ""
	for _, f := range []struct {
		n    int64
		what string
	}{{eased, "eased to rest"}, {tight, "held back by tension"}, {near, "passed near rather than through"}} {
		if f.n > 0 {
			words += fmt.Sprintf(", %s %s", plain.Counted(f.n, "key"), f.what)
		}
	}
	return words
}
