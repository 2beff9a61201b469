package move

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/track"
)

// KeysKeys are the keys of a move along keys.
type KeysKeys struct {
	Curve   source.Text `toml:"curve" jsonschema:"enum=smooth,enum=monotone" jsonschema_description:"keys: smooth has the least jerk, monotone never passes a key."`
	Advance source.Text `toml:"advance" jsonschema:"example=0 turn" jsonschema_description:"keys: what a rotary axis gains in a loop."`
	Keys    []RawKey    `toml:"keys" jsonschema:"minItems=1" jsonschema_description:"keys: where to be, and when."`
}

// RawKey is one key of a keys list.
type RawKey struct {
	Place source.Place `toml:"-"`
	At    source.Text  `toml:"at" jsonschema:"required,example=0 frames,example=1.5 s,example=beat 9,example=marker splash" jsonschema_description:"When, on screen, from the first frame, or by the music."`
	Pos   source.Text  `toml:"pos" jsonschema:"required,example=10 deg" jsonschema_description:"Where."`
	Speed source.Text  `toml:"speed" jsonschema:"example=4 deg/s" jsonschema_description:"Speed through the key, over on-screen seconds; left out, whatever is smoothest."`
	Hold  source.Text  `toml:"hold" jsonschema:"example=6 frames" jsonschema_description:"How long to stay there."`

	Tension source.Text `toml:"tension" jsonschema:"example=1/2" jsonschema_description:"Share of the speed through the key that is taken off: at 1 it stops there."`
	EaseIn  source.Text `toml:"ease-in" jsonschema:"example=1/3" jsonschema_description:"Share of the time since the key before in which it slows down to rest at this one."`
	EaseOut source.Text `toml:"ease-out" jsonschema:"example=1/3" jsonschema_description:"Share of the time to the next key in which it picks up speed from rest at this one."`
	Within  source.Text `toml:"within" jsonschema:"example=2 mm" jsonschema_description:"How far from pos it may pass, where that is smoother."`
}

// maxKeys bounds the work of a spline; nobody sets so many by hand.
const maxKeys = 256

// Name is the name of the move.
func (KeysKeys) Name() string { return "keys" }

// Told tells it from its keys.
func (k KeysKeys) Told() bool { return k.Keys != nil }

// Read reads the curve and its keys.
func (k KeysKeys) Read(reader *Reader) Move {
	r := keyReader{reader, k}
	var m Keys
	if !k.Curve.Set {
		r.Default(r.Path+"curve", "smooth", "the least jerk")
	} else if w, ok := r.Choice(k.Curve, r.Path+"curve", "smooth", "monotone"); ok {
		m.Monotone = w == "monotone"
	}
	if !k.Advance.Set {
		r.Default(r.Path+"advance", "0 turn", "it comes back to where it was")
	} else if q, ok := r.Quantity(k.Advance, r.Path+"advance", unit.Angle); ok {
		m.Advance = q.Value
	}
	m.Keys = k.List(reader)
	return m
}

// List reads the keys alone.
func (k KeysKeys) List(reader *Reader) []Key {
	r := keyReader{reader, k}
	if n := len(k.Keys); n == 0 || n > maxKeys {
		_, place := r.places("10 deg")
		r.Add(r.At, r.Path+"keys", fmt.Sprintf("(%d of them)", n), fmt.Sprintf("must be 1 to %d", maxKeys),
			fmt.Sprintf(`such as keys = [{ at = "0 frames", %[1]s = %[2]q }, { at = "72 frames", %[1]s = %[3]q }]`, r.placeKey(), place, r.further()))
		return nil
	}
	var keys []Key
	before := r.Wrongs()
	for i := range k.Keys {
		keys = append(keys, r.key(i))
	}
	if r.Wrongs() == before {
		r.order(keys)
		r.felt(keys)
	}
	return keys
}

// Example is a move along two keys.
func (KeysKeys) Example() string {
	return "keys = [{ at = \"0 frames\", pos = \"40 mm\" }, { at = \"72 frames\", pos = \"90 mm\" }]\n"
}

// Keys goes through places at times, along a curve.
type Keys struct {
	Keys     []Key
	Monotone bool      // never past a key, rather than smoothest
	Advance  exact.Rat // units gained each loop: degrees, 0 on a linear axis
}

// Key is a position at a time.
type Key struct {
	At    exact.Rat      // real s from frame 0, in [0, loop)
	Pos   unit.Quantity  // mm or degrees
	Speed *unit.Quantity // units a real second through the key; nil = free
	Hold  exact.Rat      // real s to stay there
	Feel
}

// What it can do.
var (
	_ Shapeable = Keys{}
	_ Shifter   = Keys{}
	_ Timed     = Keys{}
	_ Scheduled = Keys{}
	_ Keyed     = Keys{}
)

// Kind is the name of the move.
func (Keys) Kind() string { return KeysKeys{}.Name() }

// Track is the curve.
func (m Keys) Track(period exact.Rat) (*track.Track, error) {
	spec := track.KeysSpec{Advance: m.Advance, Monotone: m.Monotone}
	for _, k := range m.Keys {
		key := track.Key{Time: k.At, Pos: k.Pos.Float(), Hold: k.Hold}
		if k.Speed != nil {
			v := k.Speed.Float()
			key.Speed = &v
		}
		key.Feel = track.Feel{Tension: k.Tension.Float(), EaseIn: k.EaseIn, EaseOut: k.EaseOut, Within: k.Within.Float()}
		spec.Keys = append(spec.Keys, key)
	}
	return track.Keys(period, spec)
}

// Words tells the curve and how its keys feel.
func (m Keys) Words(clock.Clock) string {
	curve := "along the smoothest curve"
	if m.Monotone {
		curve = "along a curve that never passes a key"
	}
	words := fmt.Sprintf("through %s %s", plain.Count(int64(len(m.Keys)), "key"), curve)
	words += m.feelWords()
	if m.Advance.Sign() != 0 {
		words += ", " + unit.Format(m.Advance.Float(), unit.Angle) + " further each loop"
	}
	return words
}

// Suits wants places that the axis has, and no gain on a linear one.
func (m Keys) Suits(rotary bool) *fault.Fault {
	var at []position
	for i, k := range m.Keys {
		at = append(at, position{fmt.Sprintf("keys[%d].pos", i+1), k.Pos})
	}
	if problem := suit(rotary, at...); problem != nil {
		return problem
	}
	if !rotary && m.Advance.Sign() != 0 {
		return &fault.Fault{Quantity: "advance", Value: unit.Format(m.Advance.Float(), unit.Angle),
			Bound: "must be 0 on a linear axis", Fit: "only a rotary axis can go round and be back"}
	}
	return nil
}

// Spots are the keys; their times stay.
func (m Keys) Spots() []Spot {
	out := make([]Spot, len(m.Keys))
	for i, k := range m.Keys {
		out[i] = numbered("key", i+1, "pos", "it is there "+seconds(k.At)+" into the loop", k.Pos)
		out[i].Begins, out[i].Ends = i == 0, i > 0 && i == len(m.Keys)-1
	}
	return out
}

// Grips are the keys.
func (m Keys) Grips(s Stage) []Grip {
	var out []Grip
	for i, k := range m.Keys {
		key := fmt.Sprintf("keys[%d]", i+1)
		out = append(out, Grip{key, KeyGrip, VaryBoth, fmt.Sprintf("key %d", i+1), k.At.Float() * s.rate(), k.Pos.Float(), func(p Pull) []Edit {
			edits := []Edit{{key + ".pos", Place(p.Pos, DragGrain, k.Pos.Dim)}}
			if p.Frame != nil {
				edits = append(edits, Edit{key + ".at", FramesText(m.frameOf(s, i, *p.Frame))})
			}
			return edits
		}})
	}
	return out
}

// frameOf is the timeline frame of key i, kept between its neighbours.
func (m Keys) frameOf(s Stage, i int, frame float64) int64 {
	c, keys := s.Loop.Clock, m.Keys
	low, high := int64(0), s.Loop.Screen-1
	if i > 0 {
		low = Timeline(c, keys[i-1].At.Add(keys[i-1].Hold).Float()*s.rate()) + 1
	}
	if i+1 < len(keys) {
		high = Timeline(c, keys[i+1].At.Sub(keys[i].Hold).Float()*s.rate()) - 1
	}
	return max(min(Timeline(c, frame), high), low)
}

// Shakeless is never: a curve may stop and go.
func (Keys) Shakeless() (why, fit string) { return "", "" }

// Quickened is not quickened: each key is passed at its time to within what the
// spring could have followed, and reached in its hold if that lasts as long.
func (m Keys) Quickened(period, lasts exact.Rat) (t *track.Track, centred bool, err error) {
	if !lasts.Less(period) {
		return nil, false, fmt.Errorf("a loop of %s s is shorter than the swing", period.Decimal(3))
	}
	t, err = m.Track(period)
	return t, true, err
}

// each is the move with every key changed.
func (m Keys) each(change func(i int, k *Key)) Keys {
	keys := make([]Key, len(m.Keys))
	for i, k := range m.Keys {
		change(i, &k)
		keys[i] = k
	}
	m.Keys = keys
	return m
}

// Shifted has every key elsewhere.
func (m Keys) Shifted(by float64) Change {
	var edits []Edit
	moved := m.each(func(i int, k *Key) {
		text := Place(k.Pos.Float()+by, placeGrain, k.Pos.Dim)
		edits = append(edits, Edit{fmt.Sprintf("keys[%d].pos", i+1), text})
		k.Pos = asWritten(text, k.Pos.Dim)
	})
	sign := "more"
	if by < 0 {
		sign = "less"
	}
	return Change{moved, edits, fmt.Sprintf("every pos of its keys %s %s", unit.Format(math.Abs(by), m.Keys[0].Pos.Dim), sign)}
}

// closer are how much nearer to their middle keys are tried: how far a curve goes beyond them
// is not known here. The first leaves what rounding adds to a speed.
var closer = []float64{0.999, 0.95, 0.8, 0.5, 0.25, 0.1}

// nearest is the least share of their way that keys are left: below it is another shot.
const nearest = 0.1

// Shrunk has every key nearer to the middle of them, or to that of the travel where they have
// theirs outside. One that gains in a round is as far as it is.
func (m Keys) Shrunk(share, low, high float64, c clock.Clock) []Change {
	first, last := math.Inf(1), math.Inf(-1)
	for _, k := range m.Keys {
		first, last = math.Min(first, k.Pos.Float()), math.Max(last, k.Pos.Float())
	}
	if m.Advance.Sign() != 0 || last-first < DragGrain {
		return nil
	}
	middle := (first + last) / 2
	about := middle
	if about <= low || about >= high {
		about = (low + high) / 2
	}
	var out []Change
	for _, times := range closer {
		if times *= share; times >= nearest {
			out = append(out, m.nearer(times, middle, about, c))
		}
	}
	return out
}

// nearer has every key so many times as far from a place as it was from another.
func (m Keys) nearer(times, middle, about float64, c clock.Clock) Change {
	var edits []Edit
	near := m.each(func(i int, k *Key) {
		path := fmt.Sprintf("keys[%d].", i+1)
		text := Place(about+(k.Pos.Float()-middle)*times, placeGrain, k.Pos.Dim)
		edits = append(edits, Edit{path + "pos", text})
		k.Pos = asWritten(text, k.Pos.Dim)
		if v := k.Speed; v != nil && v.Value.Sign() != 0 {
			text := unit.Format(v.Value.Mul(c.Retime).Float()*times, v.Dim)
			less := asWritten(text, v.Dim)
			less.Value = less.Value.Quo(c.Retime)
			edits, k.Speed = append(edits, Edit{path + "speed", text}), &less
		}
	})
	dim := m.Keys[0].Pos.Dim
	return Change{near, edits, fmt.Sprintf("every pos of its keys %.3g times as far from %s, in this loop", times, unit.Format(about, dim))}
}

// Retimed has keys so many times as late.
func (m Keys) Retimed(times exact.Rat) Move {
	return m.each(func(_ int, k *Key) {
		k.At, k.Hold = k.At.Mul(times), k.Hold.Mul(times)
		if k.Speed != nil {
			speed := *k.Speed
			speed.Value = speed.Value.Quo(times)
			k.Speed = &speed
		}
	})
}

// keyDecimals is how many decimals of a frame the time of a key is written to.
const keyDecimals = 4

// Slowed has keys so many times as late, and their speeds as much less.
func (m Keys) Slowed(times exact.Rat, c clock.Clock) Change {
	frame := c.Retime.Quo(c.Playback) // real s
	var edits []Edit
	slow := m.each(func(i int, k *Key) {
		path := fmt.Sprintf("keys[%d].", i+1)
		later := func(key string, real exact.Rat) exact.Rat {
			if real.Sign() == 0 {
				return real
			}
			text := real.Mul(times).Quo(frame).Decimal(keyDecimals) + " frames"
			edits = append(edits, Edit{path + key, text})
			return asWritten(text, unit.Frames).Value.Mul(frame)
		}
		k.At, k.Hold = later("at", k.At), later("hold", k.Hold)
		if v := k.Speed; v != nil && v.Value.Sign() != 0 {
			less := *v
			less.Value = v.Value.Quo(times)
			edits = append(edits, Edit{path + "speed", unit.Format(less.Value.Mul(c.Retime).Float(), v.Dim)})
			k.Speed = &less
		}
	})
	return Change{Move: slow, Edits: edits}
}

// Plain says what it does.
func (KeysKeys) Plain() string { return "Through places at times" }

// Suited wants a rig that is driven.
func (KeysKeys) Suited(p Past) bool { return p.Driven }

// Apart is none.
func (KeysKeys) Apart() []string { return nil }

// Listed are the keys.
func (m Keys) Listed() []Key { return m.Keys }

// alongCurve is how many keys stand for a curve of which nobody knows the ends.
const alongCurve = 8

// Becomes goes through the ends at their times, or along the curve.
func (KeysKeys) Becomes(p Past) []source.Row {
	loop, gain := p.Loop.Screen, p.Track.Advance()
	type at struct {
		Rest
		pos float64
	}
	var all []at
	for _, r := range p.Rests(true) {
		all = append(all, at{r, p.From})
	}
	for _, r := range p.Rests(false) {
		all = append(all, at{r, p.To})
	}
	instant := func(frame int64, pos float64) at { return at{Rest{frame, frame}, pos} }
	_, passes := p.Does.(Passer)
	switch {
	case p.Still:
		all = []at{instant(0, p.Start), instant(loop/2, p.Start)}
	case passes:
		all = []at{instant(0, p.From), instant(loop/2, p.To)}
	case gain.Sign() != 0:
		all = []at{instant(0, p.Start)}
	case len(all) == 0:
		for i := range int64(alongCurve) {
			f := i * loop / alongCurve
			all = append(all, instant(f, p.Track.At(exact.Int(f).Quo(p.Loop.Clock.Playback).Mul(p.Loop.Clock.Retime).Float()).Pos))
		}
	}
	slices.SortFunc(all, func(a, b at) int { return cmp.Compare(a.From, b.From) })
	rows := func(holds bool) source.Row {
		var out []source.Row
		free := int64(0)
		for _, k := range all {
			if k.From < free || k.From >= loop {
				continue
			}
			row := source.Row{{Key: "at", Value: FramesText(k.From)}, {Key: "pos", Value: p.place(k.pos)}}
			free = k.From + 1
			if holds && k.To > k.From && k.To < loop {
				row = append(row, source.Pair{Key: "hold", Value: FramesText(k.To - k.From)})
				free = k.To + 1
			}
			out = append(out, row)
		}
		r := source.Row{{Key: "keys", Value: out}}
		if gain.Sign() != 0 {
			r = append(r, source.Pair{Key: "advance", Value: gain.Decimal(6) + " deg"})
		}
		return r
	}
	return []source.Row{rows(true), rows(false)}
}
