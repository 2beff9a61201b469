package reshape

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/track"
)

// stay is where a list of keys is already taken: timeline frames, both ends included.
type stay struct{ from, to int64 }

// free is the frame to add a key at: the one that is asked for or the nearest to it that
// no key has, and else the middle of the widest gap; and behind how many keys it comes.
// It is false where every frame is taken.
func free(taken []stay, loop int64, asked *int64) (frame int64, behind int, ok bool) {
	if len(taken) == 0 {
		return 0, 0, true
	}
	fits := func(f int64) (int, bool) {
		n := 0
		for _, s := range taken {
			if s.from <= f && f <= s.to {
				return 0, false
			}
			if s.to < f {
				n++
			}
		}
		return n, f >= 0 && f < loop
	}
	want := widest(taken, loop)
	if asked != nil {
		want = *asked
	}
	for away := range loop {
		for _, f := range []int64{want + away, want - away} {
			if n, ok := fits(f); ok {
				return f, n, true
			}
		}
	}
	return 0, 0, false
}

// widest is the middle of the widest gap between keys, the loop's end being one.
func widest(taken []stay, loop int64) int64 {
	best, at := int64(-1), int64(0)
	for i, s := range taken {
		next := loop
		if i+1 < len(taken) {
			next = taken[i+1].from
		}
		if gap := next - s.to; gap > best {
			best, at = gap, s.to+gap/2
		}
	}
	if gap := taken[0].from; gap > best {
		at = gap / 2
	}
	return at
}

// staysOf are the frames that keys take.
func (b Bench) staysOf(keys []track.Key) []stay {
	per := b.Shot.Clock.Playback.Quo(b.Shot.Clock.Retime)
	out := make([]stay, len(keys))
	for i, k := range keys {
		out[i] = stay{k.Time.Mul(per).Floor().Whole(), k.Time.Add(k.Hold).Mul(per).Ceil().Whole()}
	}
	return out
}

// real is the real time of a timeline frame.
func (b Bench) real(frame int64) exact.Rat {
	return exact.Int(frame).Quo(b.Shot.Clock.Playback).Mul(b.Shot.Clock.Retime)
}

// asked is the timeline frame of a captured one.
func (b Bench) asked(frame *float64) *int64 {
	if frame == nil || math.IsNaN(*frame) || math.Abs(*frame) > 1e9 {
		return nil
	}
	n := move.Timeline(b.Shot.Clock, *frame)
	return &n
}

// addKey adds a key to a move along keys: where it is asked for, or on the curve.
func (b Bench) addKey(name string, at Spot) (Done, error) {
	path := source.Join("axis", name) + ".keys"
	m, _ := b.Shot.Axis(name)
	keyed, ok := m.Does.(move.Keyed)
	if !ok || b.Plan == nil || m.Faulty {
		return Done{}, b.wrong(path, "belong to a move along keys", "choose that move first")
	}
	var taken []track.Key
	for _, k := range keyed.Listed() {
		taken = append(taken, track.Key{Time: k.At, Hold: k.Hold})
	}
	frame, behind, ok := free(b.staysOf(taken), b.Shot.Loop.Screen, b.asked(at.Frame))
	if !ok {
		return Done{}, b.wrong(path, "are on every frame of the loop", "make the loop longer, or a hold shorter")
	}
	dim := keyed.Listed()[0].Pos.Dim
	pos := b.placeOn(name, b.real(frame).Float())
	if at.Pos != nil && !math.IsNaN(*at.Pos) {
		pos = *at.Pos
	}
	if a, on := b.Rig.Axis(name); on && !a.Endless {
		pos = math.Min(math.Max(pos, a.Min), a.Max)
	}
	item := fmt.Sprintf("%s[%d]", path, behind+1)
	row := source.Row{{Key: "at", Value: move.FramesText(frame)}, {Key: "pos", Value: move.Place(pos, move.DragGrain, dim)}}
	return b.first(func() (Done, error) { return b.writer().add(item, row, after(path)...).done(item) })
}

// placeOn is where an axis is at a real time of the loop.
func (b Bench) placeOn(name string, sec float64) float64 {
	for _, a := range b.Plan.Axes {
		if a.Move.Name == name {
			return a.Track.At(sec).Pos
		}
	}
	return 0
}

// addMark adds a key to the keys of a lamp or of a pull: it is there as bright, or as
// near, as the key before it.
func (b Bench) addMark(path, key string, marks []markKey, at Spot) (Done, error) {
	var taken []track.Key
	for _, m := range marks {
		t, ok := b.time(m.at, m.hold)
		if !ok {
			return Done{}, b.wrong(path, "has a key of which nobody knows when it is", "")
		}
		taken = append(taken, t)
	}
	frame, behind, ok := free(b.staysOf(taken), b.Shot.Loop.Screen, b.asked(at.Frame))
	if !ok {
		return Done{}, b.wrong(path, "has a key on every frame of the loop", "")
	}
	own, there := b.own(path)
	if !there {
		return Done{}, b.inSetUp(path)
	}
	item := fmt.Sprintf("[%d]", behind+1)
	row := source.Row{{Key: "at", Value: move.FramesText(frame)}, {Key: key, Value: marks[max(0, behind-1)].value}}
	return b.first(func() (Done, error) { return b.writer().add(own+item, row, after(own)...).done(path + item) })
}

// markKey is a key of a list that is no axis's, as it is written.
type markKey struct{ at, hold, value string }

// time reads when a key is, in real seconds.
func (b Bench) time(at, hold string) (track.Key, bool) {
	r := &source.Report{}
	t := move.Timing{Clock: b.Shot.Clock, Loop: b.Shot.Loop, Known: true, Music: &b.Shot.Music}
	out := track.Key{}
	var ok bool
	if out.Time, ok = t.At(r, source.Text{Text: at, Set: true}, "at"); !ok {
		return out, false
	}
	if hold != "" {
		out.Hold, ok = t.Real(r, source.Text{Text: hold, Set: true}, "hold")
	}
	return out, ok
}

// percent is a level as it is written.
func percent(share float64) string { return unit.Format(math.Round(share*100), unit.Number) + " %" }
