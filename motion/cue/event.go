package cue

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
	"seamrail/motion/track"
)

// atAxis finds when an axis does what the cue waits for.
func (b *builder) atAxis() (exact.Rat, bool) {
	a, ok := b.axis()
	if !ok {
		return exact.Rat{}, false
	}
	c := &b.cue
	c.What = words[c.Event] + " of " + a.Rig.Name
	if c.Event != shot.Turnaround && !hasEnds(a) {
		b.fault("at", fmt.Sprintf("waits for an end of %s, which does not go there and back between two", a.Rig.Name),
			fmt.Sprintf("at = %q, or a time", shot.Turnaround))
		return exact.Rat{}, false
	}
	times := b.times(a)
	switch n := int64(len(times)); {
	case n == 0:
		b.fault("axis", "does not turn round in the loop", `say when, such as at = "72 frames"`)
		return exact.Rat{}, false
	case c.Which > n:
		b.fault("which", fmt.Sprintf("asks for number %d, and the loop has %d", c.Which, n), "")
		return exact.Rat{}, false
	}
	return times[c.Which-1], true
}

var words = map[string]string{shot.Turnaround: "turnaround", shot.FarEnd: "far end", shot.NearEnd: "near end"}

// can tells whether an axis does what the cue waits for.
func (b *builder) can(a *plan.Axis) bool {
	return (b.cue.Event == shot.Turnaround || hasEnds(a)) && len(b.times(a)) > 0
}

// seamSlack, in s, is how far from the seam an event counts as on it: the
// times of a track are floats, and a nanosecond covers what they lose.
var seamSlack = exact.New(1, nano)

// times lists when the event happens in the loop, ascending: at an end when the
// axis arrives, at a turnaround in the middle of its rest there. A turnaround of
// an axis that goes between two ends is that at the far one.
func (b *builder) times(a *plan.Axis) []exact.Rat {
	loop := b.plan.Loop.Real()
	var stays []move.Stay
	m, ends := a.Move.Does.(move.Ended)
	known := false
	if ends && !b.shot.Quickest && a.Move.Shaped == 0 {
		stays, known = m.Stays(loop, b.cue.Event == shot.NearEnd)
	}
	if !known {
		dir := 0
		if ends {
			near, far := m.Ends()
			dir = far.Value.Cmp(near.Value)
		}
		if b.cue.Event == shot.NearEnd {
			dir = -dir
		}
		stays = turns(a.Track, dir)
	}
	var out []exact.Rat
	for _, s := range stays {
		t := s.From
		if b.cue.Event == shot.Turnaround {
			t = s.From.Add(s.To).Quo(exact.Int(2))
		}
		if t = wrapped(t.Add(seamSlack), b.plan.Round()).Sub(seamSlack); t.Less(seamSlack) {
			t = exact.Rat{}
		}
		if t.Less(loop) {
			out = append(out, t)
		}
	}
	slices.SortFunc(out, exact.Rat.Cmp)
	return out
}

// wrapped brings a time into the round.
func wrapped(t, round exact.Rat) exact.Rat { return t.Quo(round).Frac().Mul(round) }

// turns are the stays of a track at which it turns round, after going dir, or
// either way if dir is 0. They come from the track's own floats, good to a
// billionth of a second or so.
func turns(t *track.Track, dir int) []move.Stay {
	spans := moving(t.Spans())
	period := t.Period()
	var out []move.Stay
	for i, s := range spans {
		next := spans[(i+1)%len(spans)]
		if s.Dir == next.Dir || dir != 0 && s.Dir != dir {
			continue
		}
		from, to := exact.FromFloat(s.To), exact.FromFloat(next.From)
		if i == len(spans)-1 {
			to = to.Add(period)
		}
		out = append(out, move.Stay{From: from, To: to})
	}
	return out
}

// moving leaves the rests out.
func moving(spans []track.Span) []track.Span {
	return slices.DeleteFunc(spans, func(s track.Span) bool { return s.Dir == 0 })
}
