package shot

import (
	"fmt"

	"seamrail/motion/exact"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// feel reads how the curve comes to a key and leaves it.
func (r mover) feel(i int, k Key) Feel {
	raw, path := r.raw.Keys[i], r.keyPath(i)
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

func (r mover) within(i int, pos unit.Dimension) unit.Quantity {
	raw, path := r.raw.Keys[i], r.keyPath(i)+"within"
	q, ok := r.Quantity(raw.Within, path, pos)
	if ok && q.Value.Sign() < 0 {
		r.Wrong(raw.Within, path, "must be 0 or more", "how far off either side may be")
	}
	return q
}

// felt checks that what keys feel like goes together.
func (r mover) felt(keys []Key) {
	for i, k := range keys {
		raw, path := r.raw.Keys[i], r.keyPath(i)
		eased := k.EaseIn.Sign() > 0 || k.EaseOut.Sign() > 0
		rests := raw.Hold.Set && k.Hold.Sign() > 0 || eased
		switch {
		case k.Tension.Sign() > 0 && (rests || raw.Speed.Set):
			r.Wrong(raw.Tension, path+"tension", "has nothing to take off where the speed is stated", "leave out the tension, or the speed, hold or ease")
		case eased && k.Speed != nil && k.Speed.Value.Sign() != 0:
			r.Wrong(raw.Speed, path+"speed", "must be 0 where the key is eased", "leave one of the two out")
		case k.Within.Value.Sign() > 0 && rests:
			r.Wrong(raw.Within, path+"within", "has no meaning where the axis comes to rest", "leave it out, or the hold or the ease")
		case k.Within.Value.Sign() > 0 && r.raw.Curve.Text == "monotone":
			r.Wrong(raw.Within, path+"within", "has no meaning for a monotone curve, which turns at its keys", `curve = "smooth" would do`)
		}
		r.feltNext(i, k, (i+1)%len(keys), keys[(i+1)%len(keys)])
	}
}

// feltNext checks a key against the next.
func (r mover) feltNext(i int, k Key, j int, next Key) {
	sum := k.EaseOut.Add(next.EaseIn)
	switch {
	case exact.Int(1).Less(sum):
		r.Wrong(r.raw.Keys[i].EaseOut, r.keyPath(i)+"ease-out", fmt.Sprintf("and the ease-in of key %d take more than all of the time between the two", j+1),
			"together at most 1")
	case k.EaseOut.Sign() > 0 && next.Within.Value.Sign() > 0:
		r.Wrong(r.raw.Keys[j].Within, r.keyPath(j)+"within", fmt.Sprintf("does not go with the ease-out of key %d towards it", i+1), "leave one of the two out")
	case next.EaseIn.Sign() > 0 && k.Within.Value.Sign() > 0:
		r.Wrong(r.raw.Keys[i].Within, r.keyPath(i)+"within", fmt.Sprintf("does not go with the ease-in of key %d after it", j+1), "leave one of the two out")
	}
}

// Felt counts the keys that are eased, held back by tension, or may be passed
// near.
func (m AxisMove) Felt() (eased, tight, near int64) {
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
	return eased, tight, near
}
