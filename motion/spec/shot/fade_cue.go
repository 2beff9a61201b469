package shot

import (
	"fmt"
	"math"

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

// FadeCues are what hands do at dimmers in a loop of so many real seconds: one for each
// fade as it begins, and one as it is to be over. They come in each round.
func (s Shot) FadeCues(loop exact.Rat) []Cue {
	if s.Scene == nil {
		return nil
	}
	var out []Cue
	for i, l := range s.Scene.Lamps {
		if l.Hand == "" || l.Fade == nil {
			continue
		}
		c, err := l.Fade.Over(loop)
		if err != nil { // which the picture says
			continue
		}
		path := fmt.Sprintf("scene.lamps[%d].", i+1)
		at := s.places[path+"by"]
		one := Cue{Hand: l.Hand, Beats: l.Beats, Beat: usualBeat, Leaves: Nothing, Line: at.Line, Column: at.Column, path: path}
		if one.Beats == 0 {
			one.Reaction = usualReaction
		}
		for n, w := range c.Ways() {
			if len(out) >= maxCues {
				break
			}
			out = append(out, s.fadeCues(one, l, w, n, loop)...)
		}
	}
	return out
}

// fadeCues are both cues of one fade, the n-th of its lamp.
func (s Shot) fadeCues(c Cue, l scene.Lamp, w fade.Way, n int, loop exact.Rat) []Cue {
	begins, over := c, c
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
	begins.Dims = &Dimming{Lamp: l.Name, Lasts: lasts, Jumps: l.Fade.Jumps(), Words: fmt.Sprintf("dial from %s to %s by frame %s, in %s s",
		dial(w.Begins), dial(w.Ends), timeline(s, over.At, loop).Decimal(1), lasts.Decimal(3))}
	over.Dims = &Dimming{Lamp: l.Name, Words: "dial at " + dial(w.Ends)}
	// It is counted within the fade, so that no beat of it falls before the fade begins.
	over.Beats = min(c.Beats, max(0, int64(math.Ceil(w.Seconds()/c.Beat.Float()))-1))
	over.Reaction = exact.Rat{}
	switch late := over.At.Sub(loop); {
	case late.Sign() > 0:
		over.At = late
	case late.Sign() == 0:
		over.At = loop.Sub(nanos(1e-9)) // as the last frame ends, which is in the loop
	}
	return []Cue{begins, over}
}

// timeline is a real time of a loop as a timeline frame.
func timeline(s Shot, at, loop exact.Rat) exact.Rat {
	return at.Mul(exact.Int(s.Loop.Screen)).Quo(loop)
}

// nanos is a time of a track as an exact number of nanoseconds.
func nanos(sec float64) exact.Rat { return exact.New(int64(math.Round(sec*1e9)), 1_000_000_000) }
