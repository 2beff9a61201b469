package shot

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/fade"
	"seamrail/motion/scene"
)

// Dimming is a fade that a hand makes at a dimmer, or its end.
type Dimming struct {
	Lamp  string
	Words string    // "dial from 0 % to 85 % by frame 36, in 0.300 s", or "dial at 85 %"
	Lasts exact.Rat // real s of the fade; 0 of its end
	Jumps bool      // at the seam the dial would have to be elsewhere at once
}

// FadeCues are what hands do at dimmers over a loop, which may be another than the file
// states: one for each fade as it begins, and one as it is to be over. They come in each
// round.
func (s Shot) FadeCues(loop clock.Loop) []Cue {
	if s.Scene == nil {
		return nil
	}
	var out []Cue
	for i, l := range s.Scene.Lamps {
		if l.Hand == "" || l.Fade == nil {
			continue
		}
		c, err := l.Fade.Over(loop.Real())
		if err != nil { // which the picture says
			continue
		}
		path := fmt.Sprintf("scene.lamps[%d].", i+1)
		at := s.places[path+"by"]
		one := Cue{Hand: l.Hand, Beats: l.Beats, Beat: usualBeat, Leaves: Nothing, Line: at.Line, Column: at.Column, path: path}
		if one.Beats == 0 {
			one.Reaction = usualReaction
		}
		ways := c.Ways()
		for n, w := range ways {
			if len(out) >= maxCues {
				break
			}
			last, next := ways[(n+len(ways)-1)%len(ways)].From, ways[(n+1)%len(ways)].From
			if n == 0 {
				last -= loop.Real().Float()
			}
			if n == len(ways)-1 {
				next += loop.Real().Float()
			}
			begins, over := fadeCues(one, l, w, n, loop)
			out = append(out, begins.within(w.From-last))
			if rest := next - w.To; rest > settled { // else the next says it too
				out = append(out, over.within(min(w.Seconds(), rest)))
			}
		}
	}
	return out
}

// within is a cue with no more beats than fall into so many seconds before it.
func (c Cue) within(sec float64) Cue {
	c.Beats = min(c.Beats, max(0, int64(math.Ceil(sec/c.Beat.Float()-settled))-1))
	return c
}

// settled, in s and in beats, is what times of a track may be off by: they are floats.
const settled = 1e-6

// fadeCues are both cues of one fade, the n-th of its lamp.
func fadeCues(c Cue, l scene.Lamp, w fade.Way, n int, loop clock.Loop) (begins, over Cue) {
	begins, over = c, c
	way := "up"
	if w.Ends < w.Begins {
		way = "down"
	}
	dial := func(level float64) string { return fade.Percent(l.Curve.Dial(level)) }
	if n > 1 {
		way += fmt.Sprintf(" %d", n/2+1)
	}
	begins.Name, over.Name = l.Name+" "+way, l.Name+" is "+way
	begins.At, over.At = nanos(w.From), nanos(w.To)
	lasts := over.At.Sub(begins.At)
	begins.Busy = lasts
	begins.Dims = &Dimming{Lamp: l.Name, Lasts: lasts, Jumps: l.Fade.Jumps(), Words: fmt.Sprintf("dial from %s to %s by frame %s, in %s s",
		dial(w.Begins), dial(w.Ends), over.At.Mul(exact.Int(loop.Screen)).Quo(loop.Real()).Decimal(1), lasts.Decimal(3))}
	over.Dims = &Dimming{Lamp: l.Name, Words: "dial at " + dial(w.Ends)}
	over.Reaction = exact.Rat{} // it is only where the hand should be by now
	switch late := over.At.Sub(loop.Real()); {
	case late.Sign() > 0:
		over.At = late
	case late.Sign() == 0:
		over.At = loop.Real().Sub(nanos(1e-9)) // as the last frame ends, which is in the loop
	}
	return begins, over
}

// nanos is a time of a track as an exact number of nanoseconds.
func nanos(sec float64) exact.Rat { return exact.New(int64(math.Round(sec*1e9)), 1_000_000_000) }
