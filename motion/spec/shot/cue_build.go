package shot

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
)

const (
	// maxCues is more than hands can do in a loop.
	maxCues = 64
	// maxBeats is a count that nobody loses the place in.
	maxBeats = 16
	// maxWhich is as often as an axis goes there and back.
	maxWhich = move.MaxCycles
	// defaultBeats counts "three, two, one".
	defaultBeats = 3
)

var (
	// maxHeight, mm, is a high studio: over ten metres it is no tabletop, and
	// air slows the fall.
	maxHeight = exact.Int(10_000)
	// maxFlow, mm/s, is a garden hose.
	maxFlow = exact.Int(20_000)
	// maxLead, s, is honey; more than a minute is a slip of the hand.
	maxLead = exact.Int(60)
	// maxReaction, s, is far beyond anyone who listens.
	maxReaction = exact.Int(5)
	// minBeat and maxBeat, s, bound what people keep time with; beats nearer
	// than a tenth of a second run into each other.
	minBeat, maxBeat = exact.New(1, 10), exact.Int(5)
	// usualBeat, s, is 120 a minute, which is easy to join in with.
	usualBeat = exact.New(1, 2)
	// usualReaction, s, is what is commonly allowed for a hand that hears a sound
	// it has not been counted to; simple reaction to sound is 0.14 to 0.16 s
	// (R. S. Woodworth and H. Schlosberg, Experimental Psychology, rev. ed., Holt
	// 1954, as reviews of reaction time quote it).
	usualReaction = exact.New(1, 5)
)

// cues reads every [[cue]].
func (raw Raw) cues(report *source.Report, t timing, s Shot, left *leaving) []Cue {
	if n := len(raw.Cue); n > maxCues {
		report.Add(raw.Cue[0].Place, "cue", fmt.Sprintf("(%d of them)", n), fmt.Sprintf("must be at most %d", maxCues), "")
		return nil
	}
	var out []Cue
	for i, c := range raw.Cue {
		if left.cue(i, c, s.Axes) {
			continue
		}
		r := cueReader{Report: report, raw: c, path: fmt.Sprintf("cue[%d].", i+1), time: t, keep: KeptRound(int64(s.Rounds)) + 1}
		before := report.Wrongs()
		one := r.build()
		one.Faulty = report.Wrongs() > before
		out = append(out, one)
	}
	return out
}

// cueReader understands one cue.
type cueReader struct {
	*source.Report
	raw  RawCue
	path string
	time timing
	keep int64 // the round to keep, from 1
}

func (r cueReader) build() Cue {
	at := r.raw.Place
	c := Cue{Name: r.raw.Name.Text, Line: at.Line, Column: at.Column, path: r.path, said: r.raw.pairs()}
	if c.Name == "" {
		r.Missing(at, r.path+"name", `"pebble"`)
	}
	if c.Hand = r.raw.Hand.Text; c.Hand == "" {
		c.Hand = "hand"
		r.Default(r.path+"hand", c.Hand, "one hand does it all")
	}
	r.event(&c)
	r.way(&c)
	r.count(&c)
	c.Rounds = r.rounds()
	if c.Leaves = r.raw.Leaves.Text; c.Leaves == "" {
		r.Default(r.path+"leaves", "not known", `say "nothing", or what of it is still in the picture as the loop ends`)
	}
	return c
}

// event reads when it is to be seen.
func (r cueReader) event(c *Cue) {
	switch r.raw.At.Text {
	case "":
		r.Missing(r.raw.Place, r.path+"at", `"72 frames" or at = "turnaround"`)
	case Turnaround, FarEnd, NearEnd:
		r.atAxis(c)
	default:
		var ok bool
		if c.At, ok = r.time.At(r.Report, r.raw.At, r.path+"at"); !ok {
			return // it may have been meant to be no time
		}
		r.axisOnly(r.raw.Axis, "axis")
		r.axisOnly(r.raw.Which, "which")
	}
	if r.raw.After.Set {
		c.After = r.after()
	}
}

func (r cueReader) atAxis(c *Cue) {
	c.Event, c.Axis, c.Which = r.raw.At.Text, r.raw.Axis.Text, 1
	if r.raw.Which.Set {
		c.Which, _ = r.Whole(r.raw.Which, r.path+"which", 1, maxWhich)
	}
}

// axisOnly reports a key that means nothing beside a time.
func (r cueReader) axisOnly(t source.Text, key string) {
	if t.Set {
		r.Wrong(t, r.path+key, "does not go with a time", fmt.Sprintf("it belongs to at = %q, %q or %q", Turnaround, FarEnd, NearEnd))
	}
}

// after reads a time on screen of either sign, as real seconds.
func (r cueReader) after() exact.Rat {
	q, ok := r.Quantity(r.raw.After, r.path+"after", unit.Time, unit.Frames)
	switch {
	case !ok:
		return exact.Rat{}
	case q.Dim == unit.Frames:
		q.Value = q.Value.Quo(r.time.Clock.Playback)
	}
	return q.Value.Mul(r.time.Clock.Retime)
}

// way reads how it gets from the hand to where it is seen.
func (r cueReader) way(c *Cue) {
	c.Fall = r.amount(r.raw.Fall, "fall", exact.Rat{}, maxHeight, unit.Length)
	c.Flow = r.amount(r.raw.Flow, "flow", exact.Rat{}, maxFlow, unit.Speed)
	c.Lead = r.amount(r.raw.Lead, "lead", exact.Rat{}, maxLead, unit.Time)
	c.Measured = r.amount(r.raw.Measured, "measured", exact.Rat{}, maxLead, unit.Time)
	if r.raw.Measured.Set {
		for _, k := range []string{"fall", "flow", "lead"} {
			if t := c.said[k]; t.Set {
				r.Wrong(t, r.path+k, "is part of what is measured", "keep one of the two")
			}
		}
		return
	}
	if r.raw.Flow.Set && !r.raw.Fall.Set {
		r.Wrong(r.raw.Flow, r.path+"flow", "takes the height it falls from", `add it, such as fall = "300 mm"`)
	}
}

// count reads how the hand is told.
func (r cueReader) count(c *Cue) {
	c.Beats = defaultBeats
	if r.raw.Beats.Set {
		c.Beats, _ = r.Whole(r.raw.Beats, r.path+"beats", 0, maxBeats)
	} else {
		r.Default(r.path+"beats", "3", "counted: three, two, one, now")
	}
	c.Beat = usualBeat
	if r.raw.Beat.Set {
		c.Beat = r.amount(r.raw.Beat, "beat", minBeat, maxBeat, unit.Time)
	} else if c.Beats > 0 {
		r.Default(r.path+"beat", "1/2 s", "120 a minute")
	}
	switch {
	case r.raw.Reaction.Set:
		c.Reaction = r.amount(r.raw.Reaction, "reaction", exact.Rat{}, maxReaction, unit.Time)
	case c.Beats == 0:
		c.Reaction = usualReaction
		r.Default(r.path+"reaction", "1/5 s", "a hand that is not counted to moves after it hears")
	default:
		r.Default(r.path+"reaction", "0 s", "a hand that is counted to moves with the beat")
	}
}

// amount reads a quantity of a dimension within bounds, 0 where it is left out.
func (r cueReader) amount(t source.Text, key string, low, high exact.Rat, dim unit.Dimension) exact.Rat {
	if !t.Set {
		return exact.Rat{}
	}
	q, ok := r.Quantity(t, r.path+key, dim)
	if !ok {
		return exact.Rat{}
	}
	if q.Value.Less(low) || high.Less(q.Value) {
		r.Wrong(t, r.path+key, fmt.Sprintf("must be from %s to %s", unit.Format(low.Float(), dim), unit.Format(high.Float(), dim)), "")
		return exact.Rat{}
	}
	return q.Value
}

// rounds reads in which rounds it happens. What a hand does is not undone for the
// next round: it happens once unless the shot says otherwise.
func (r cueReader) rounds() []int64 {
	if !r.raw.Rounds.Set {
		r.Default(r.path+"rounds", fmt.Sprint(r.keep), `once, in the round to keep; "each" would be in every one`)
		return []int64{r.keep}
	}
	if items := r.raw.Rounds.Items; len(items) == 1 && items[0].Text == eachRound {
		return nil
	}
	var out []int64
	for i, t := range r.raw.Rounds.Items {
		path := r.path + "rounds"
		if !r.raw.Rounds.Single {
			path = fmt.Sprintf("%s[%d]", path, i+1)
		}
		_, err := exact.Parse(t.Text)
		switch {
		case t.Text == eachRound:
			r.Wrong(t, path, "stands for all rounds, and others are named beside it", "keep one of the two")
		case err != nil:
			r.Wrong(t, path, `must be a round, from 1, or "each"`, "left out, it happens once, in the round to keep")
		default:
			if n, ok := r.Whole(t, path, 1, maxRounds); ok {
				out = append(out, n)
			}
		}
	}
	if r.raw.Rounds.Set && len(r.raw.Rounds.Items) == 0 {
		r.Add(r.raw.Rounds.Place(), r.path+"rounds", "", "must name a round", "left out, it happens once")
	}
	slices.Sort(out)
	return slices.Compact(out)
}
