package against

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
)

const (
	// plainer is by how many times less a reading must leave over for a take not to be called another
	// by the other reading.
	plainer = 4.0
	// mostHeld is how often a timeline may show a captured frame.
	mostHeld = 64
)

// byTimeline lays a recording that is no take as captured as one that was delivered: every so manieth
// frame, or each several times. It is false where that is no better.
func byTimeline(c footage.Course, p Plan, captured Result, lay func(footage.Course, track) Result) (r Result, ok bool) {
	one := exact.Int(1)
	switch n := p.PerScreen; {
	case n.Sign() <= 0 || n.Equal(one):
		return r, false
	case one.Less(n):
		q, whole := p.OnTimeline()
		if !whole {
			return r, false
		}
		r = lay(c, newTrack(q))
	case n.Inv().IsInt() && n.Inv().Float() <= mostHeld:
		r = held(c, newTrack(p), int(n.Inv().Whole()))
	default:
		return r, false
	}
	r.Timeline = true
	switch {
	case r.Verdict.Kind == IsPlan:
		what, others, several := strings.Cut(r.Verdict.Text, "; its frame 0")
		what += ": these are the timeline's frames, not the captured ones"
		if several {
			r.Verdict.Text = what + "; its frame 0" + others
		} else {
			r.Verdict.Text = fmt.Sprintf("%s, and frame 0 is frame %.1f of them", what, tenth(r.Frame0.Value))
		}
	case r.Verdict.Mended, r.Verdict.Kind == NotKnown && captured.Verdict.Kind == Differs && plainer*r.Plain.RMS < captured.Plain.RMS:
		r.Verdict.Text += "; these seem to be the timeline's frames, not the captured ones"
	default:
		return r, false
	}
	return r, true
}

// OnTimeline is a plan in frames of the timeline; false where nobody knows it, or no round is as many
// whole frames of it.
func (p Plan) OnTimeline() (Plan, bool) {
	n := p.PerScreen
	if n.Sign() <= 0 {
		return p, false
	}
	loop := exact.Int(p.Loop).Quo(n)
	if !loop.IsInt() {
		return p, false
	}
	p.CaptureRate, p.Loop = p.CaptureRate.Quo(n), loop.Whole()
	p.RunUp = int64(math.Ceil(float64(p.RunUp) / n.Float()))
	p.RunOut = int64(math.Ceil(float64(p.RunOut) / n.Float()))
	return p, p.Check() == nil
}

// held lays a recording that shows each captured frame so many times: one of each is laid.
func held(c footage.Course, t track, times int) Result {
	first := firstHeld(c.Frames, times)
	once := footage.Course{About: c.About}
	for i := first; i < len(c.Frames); i += times {
		once.Frames = append(once.Frames, c.Frames[i])
	}
	if len(once.Frames) == 0 {
		return Result{Verdict: verdictOf("it is too short")}
	}
	s := newSeries(once)
	for i := range c.Frames {
		s.places = append(s.places, float64(i-first)/float64(times))
	}
	if why := s.silent(t); why != nil {
		return Result{Verdict: why.verdict(t, s)}
	}
	l, others := placed(t, s)
	if l == nil {
		return Result{Verdict: verdictOf("no place was found at which the plan touches the recording")}
	}
	return witnessed(l, others)
}

// firstHeld is the first frame with which another captured one begins: of all, those go on least from
// one to the next that do not begin one.
func firstHeld(frames []footage.Frame, times int) (first int) {
	least := math.Inf(1)
	for k := range times {
		sum := 0.0
		for i := 1; i < len(frames); i++ {
			a, b := frames[i-1].FromFirst, frames[i].FromFirst
			if (i-k)%times != 0 && a.Known && b.Known {
				sum += math.Hypot(b.X-a.X, b.Y-a.Y) + math.Abs(b.Turn-a.Turn) + math.Abs(math.Log(b.Scale/a.Scale))
			}
		}
		if sum < least {
			first, least = k, sum
		}
	}
	return first
}
