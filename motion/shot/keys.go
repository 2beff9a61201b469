package shot

import (
	"fmt"

	"seamrail/motion/unit"
)

// maxKeys bounds the work of a spline; nobody sets so many by hand.
const maxKeys = 256

func (r mover) keys(m *AxisMove) {
	if !r.raw.Curve.Set {
		r.Default(r.path+"curve", "smooth", "the least jerk")
	} else if w, ok := r.Choice(r.raw.Curve, r.path+"curve", "smooth", "monotone"); ok {
		m.Monotone = w == "monotone"
	}
	if !r.raw.Advance.Set {
		r.Default(r.path+"advance", "0 turn", "it comes back to where it was")
	} else if q, ok := r.Quantity(r.raw.Advance, r.path+"advance", unit.Angle); ok {
		m.Advance = q.Value
	}
	if n := len(r.raw.Keys); n == 0 || n > maxKeys {
		r.Add(r.raw.Place, r.path+"keys", fmt.Sprintf("(%d of them)", n), fmt.Sprintf("must be 1 to %d", maxKeys),
			`such as keys = [{ at = "0 frames", pos = "10 deg" }, { at = "72 frames", pos = "25 deg" }]`)
		return
	}
	before := len(r.Faults)
	for i := range r.raw.Keys {
		m.Keys = append(m.Keys, r.key(i))
	}
	if len(r.Faults) == before {
		r.order(m.Keys)
		r.felt(m.Keys)
	}
}

func (r mover) key(i int) Key {
	raw, path := r.raw.Keys[i], r.keyPath(i)
	var k Key
	if raw.At.Set {
		k.At, _ = r.time.real(r.Report, raw.At, path+"at")
	} else {
		r.Missing(raw.Place, path+"at", `"0 frames"`)
	}
	if raw.Pos.Set {
		k.Pos, _ = r.Quantity(raw.Pos, path+"pos", unit.Length, unit.Angle)
	} else {
		r.Missing(raw.Place, path+"pos", `"10 deg"`)
	}
	if raw.Hold.Set {
		k.Hold, _ = r.time.real(r.Report, raw.Hold, path+"hold")
	}
	if raw.Speed.Set {
		k.Speed = r.speed(i, k.Pos.Dim)
	}
	k.Feel = r.feel(i, k)
	return k
}

func (r mover) keyPath(i int) string { return fmt.Sprintf("%skeys[%d].", r.path, i+1) }

// speed reads a speed over on-screen seconds as one over real seconds.
func (r mover) speed(i int, pos unit.Dimension) *unit.Quantity {
	want := unit.Speed
	if pos == unit.Angle {
		want = unit.AngularSpeed
	}
	raw, path := r.raw.Keys[i], r.keyPath(i)+"speed"
	q, ok := r.Quantity(raw.Speed, path, want)
	if !ok {
		return nil
	}
	if raw.Hold.Set && q.Value.Sign() != 0 {
		r.Wrong(raw.Speed, path, "must be 0 where the key holds", "leave one of the two out")
	}
	q.Value = q.Value.Quo(r.time.clock.Retime)
	return &q
}

// order checks that keys follow one another inside the loop, holds included.
func (r mover) order(keys []Key) {
	for i, k := range keys {
		if k.Pos.Dim != keys[0].Pos.Dim {
			r.Wrong(r.raw.Keys[i].Pos, r.keyPath(i)+"pos", "must be "+keys[0].Pos.Dim.String()+", as the first key is", "")
		}
		if i > 0 {
			r.follows(i, keys[i-1], k)
		}
	}
	last := len(keys) - 1
	end := keys[last].At.Add(keys[last].Hold)
	if loop := r.time.loop.Real(); r.time.known && !end.Less(loop.Add(keys[0].At)) || r.time.known && !keys[last].At.Less(loop) {
		r.Wrong(r.raw.Keys[last].At, r.keyPath(last)+"at", "must be over, its hold too, before the loop comes round",
			fmt.Sprintf("the loop has %d frames", r.time.loop.Screen))
	}
}

func (r mover) follows(i int, before, k Key) {
	free := before.At.Add(before.Hold)
	if free.Less(k.At) {
		return
	}
	r.Wrong(r.raw.Keys[i].At, r.keyPath(i)+"at", "must come after the key before it and its hold",
		fmt.Sprintf("later than frame %s", r.time.frames(free).Decimal(2)))
}
