package move

import (
	"fmt"

	"seamrail/motion/base/unit"
)

// keyReader reads the keys of a move along them.
type keyReader struct {
	*Reader
	keys KeysKeys
}

func (r keyReader) key(i int) Key {
	raw, path := r.keys.Keys[i], r.keyPath(i)
	var k Key
	if raw.At.Set {
		k.At, _ = r.Time.At(r.Report, raw.At, path+"at")
	} else {
		r.Missing(raw.Place, path+"at", `"0 frames"`)
	}
	want, example := r.places("10 deg")
	if raw.Pos.Set {
		k.Pos, _ = r.Quantity(raw.Pos, path+r.placeKey(), want...)
	} else {
		r.Missing(raw.Place, path+r.placeKey(), fmt.Sprintf("%q", example))
	}
	if raw.Hold.Set {
		k.Hold, _ = r.Time.Real(r.Report, raw.Hold, path+"hold")
	}
	if raw.Speed.Set {
		k.Speed = r.speed(i, k.Pos.Dim)
	}
	k.Feel = r.feel(i, k)
	return k
}

// placeKey is what a key calls its place.
func (r keyReader) placeKey() string {
	if r.Level {
		return "level"
	}
	if r.Focus {
		return "focus"
	}
	return "pos"
}

// further is another place than that of an example.
func (r keyReader) further() string {
	if r.Level {
		return "10 %"
	}
	if r.Focus {
		return "350 mm"
	}
	return "25 deg"
}

func (r keyReader) keyPath(i int) string { return fmt.Sprintf("%skeys[%d].", r.Path, i+1) }

// speed reads a speed over on-screen seconds as one over real seconds.
func (r keyReader) speed(i int, pos unit.Dimension) *unit.Quantity {
	want := unit.Speed
	if pos == unit.Angle {
		want = unit.AngularSpeed
	}
	raw, path := r.keys.Keys[i], r.keyPath(i)+"speed"
	q, ok := r.Quantity(raw.Speed, path, want)
	if !ok {
		return nil
	}
	if raw.Hold.Set && q.Value.Sign() != 0 {
		r.Wrong(raw.Speed, path, "must be 0 where the key holds", "leave one of the two out")
	}
	q.Value = q.Value.Quo(r.Time.Clock.Retime)
	return &q
}

// order checks that keys follow one another inside the loop, holds included.
func (r keyReader) order(keys []Key) {
	for i, k := range keys {
		if k.Pos.Dim != keys[0].Pos.Dim {
			r.Wrong(r.keys.Keys[i].Pos, r.keyPath(i)+"pos", "must be "+keys[0].Pos.Dim.String()+", as the first key is", "")
		}
		if i > 0 {
			r.follows(i, keys[i-1], k)
		}
	}
	last := len(keys) - 1
	end := keys[last].At.Add(keys[last].Hold)
	if loop := r.Time.Loop.Real(); r.Time.Known && !end.Less(loop.Add(keys[0].At)) || r.Time.Known && !keys[last].At.Less(loop) {
		r.Wrong(r.keys.Keys[last].At, r.keyPath(last)+"at", "must be over, its hold too, before the loop comes round",
			fmt.Sprintf("the loop has %d frames", r.Time.Loop.Screen))
	}
}

func (r keyReader) follows(i int, before, k Key) {
	free := before.At.Add(before.Hold)
	if free.Less(k.At) {
		return
	}
	r.Wrong(r.keys.Keys[i].At, r.keyPath(i)+"at", "must come after the key before it and its hold",
		fmt.Sprintf("later than frame %s", r.Time.Frames(free).Decimal(2)))
}
