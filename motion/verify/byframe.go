package verify

import (
	"fmt"
	"math"

	"seamrail/motion/verify/trace"
)

// hopSlack is by how much, as a share, a hop may be quicker than its limits let it be, and
// restSlack, in s, by how much it may reach into an exposure: rounding.
const (
	hopSlack  = 1e-9
	restSlack = 1e-9
)

// ByFrame checks a take frame by frame from its finished schedule: frames of it, in order,
// the first of the next round among them where a round is whole. Where the motion has each
// axis at a captured frame is held against where it stands then; no hop is quicker than the
// limits let one be that begins and ends at rest, or leaves the travel; and nothing moves
// while a frame is exposed.
func ByFrame(m Motion, frames []trace.Exposed) []Finding {
	r := rested{m: m, stands: append([]int64{}, frames[0].Steps...), free: make([]float64, len(frames[0].Steps)), done: math.Inf(-1)}
	for k, f := range frames {
		r.frame(k, f)
	}
	out := []Finding{
		r.rest.finding("frames rest", fmt.Sprintf("nothing moves in any of %d exposures", len(frames))),
		r.place.finding("frames in place", "every frame is exposed within half a step of where the loop has it"),
		r.limit.finding("moves between frames", "every one keeps within speed and acceleration"),
	}
	way := r.travel.finding("travel between frames", "every one stays within the travel")
	way.Axis = r.left
	out = append(out, way)
	if c := m.Captured(); int64(len(frames)) > c {
		out = append(out, r.closes(frames[0], frames[c]))
	}
	return out
}

// wrong is the first thing that is found wrong of a kind, "" for nothing.
type wrong string

func (w *wrong) note(format string, args ...any) {
	if *w == "" {
		*w = wrong(fmt.Sprintf(format, args...))
	}
}

func (w wrong) finding(check, good string) Finding {
	if w != "" {
		return Finding{Check: check, Text: string(w)}
	}
	return Finding{Check: check, OK: true, Text: good}
}

// rested walks through a take frame by frame.
type rested struct {
	m                  Motion
	stands             []int64   // steps of each axis now
	free               []float64 // s, when the hop of each before ends
	done               float64   // s, when the exposure before was over
	rest, place, limit wrong
	travel             wrong
	left               string // the axis that leaves its travel first
}

func (r *rested) frame(k int, f trace.Exposed) {
	for _, h := range f.Hops {
		r.hop(k, f, h)
	}
	if f.Closes <= f.Opens || f.Opens < r.done {
		r.rest.note("frame %d is exposed from %.3f to %.3f s, and the one before until %.3f s", k, f.Opens, f.Closes, r.done)
	}
	r.done = f.Closes
	for i, at := range r.stands {
		if f.Steps[i] != at {
			r.place.note("axis %s is said to be at step %d in frame %d, and its moves leave it at %d", r.m.Limits(i).Name, f.Steps[i], k, at)
		}
		r.stands[i] = f.Steps[i]
		if off := float64(at) - r.wanted(i, k); math.Abs(off) > indexTolerance {
			r.place.note("axis %s is %.2f steps from where the loop has it in frame %d", r.m.Limits(i).Name, off, k)
		}
	}
}

// wanted is where the motion has an axis at frame k of the take, in steps.
func (r *rested) wanted(i, k int) float64 {
	c := r.m.Captured()
	gained := r.m.Advance(i).Float() * float64(int64(k)/c)
	at := r.m.FrameSeconds(int64(k) % c).Float()
	return (r.m.Position(i, at) + gained) * r.m.Limits(i).StepsPerUnit.Float()
}

func (r *rested) hop(k int, f trace.Exposed, h trace.Hop) {
	a := r.m.Limits(h.Axis)
	if h.From != r.stands[h.Axis] {
		r.place.note("axis %s is to set out from step %d for frame %d, and stands at %d", a.Name, h.From, k, r.stands[h.Axis])
	}
	if h.Begins < r.done-restSlack || h.Ends > f.Opens+restSlack {
		r.rest.note("axis %s moves from %.3f to %.3f s, and frame %d is exposed from %.3f s, the one before until %.3f s", a.Name, h.Begins, h.Ends, k, f.Opens, r.done)
	}
	if h.Begins < r.free[h.Axis]-restSlack {
		r.rest.note("axis %s sets out at %.3f s on its way to frame %d, and moves until %.3f s", a.Name, h.Begins, k, r.free[h.Axis])
	}
	r.free[h.Axis] = h.Ends
	scale := a.StepsPerUnit.Float()
	if least := soonest(math.Abs(float64(h.To-h.From))/scale, a); h.Ends-h.Begins < least*(1-hopSlack) {
		r.limit.note("axis %s takes %.3f s to frame %d, and its limits want %.3f", a.Name, h.Ends-h.Begins, k, least)
	}
	if to := float64(h.To) / scale; !a.Endless && (to < a.Min-0.5/scale || to > a.Max+0.5/scale) {
		if r.left == "" {
			r.left = a.Name
		}
		r.travel.note("axis %s goes to %.3f on its way to frame %d, beyond its travel of %.3f to %.3f", a.Name, to, k, a.Min, a.Max)
	}
	r.stands[h.Axis] = h.To
}

// soonest is the least time from rest to rest over a distance with a bounded speed and
// acceleration: as fast up as down, with or without a stretch at full speed.
func soonest(distance float64, a trace.Axis) float64 {
	if ramp := a.MaxSpeed * a.MaxSpeed / a.MaxAcc; distance > ramp {
		return distance/a.MaxSpeed + a.MaxSpeed/a.MaxAcc
	}
	return 2 * math.Sqrt(distance/a.MaxAcc)
}

// closes tells whether the first frame of a round finds every axis as the first of the
// round before did, but for whole turns.
func (r *rested) closes(first, next trace.Exposed) Finding {
	var w wrong
	for i := range first.Steps {
		gain := r.m.Advance(i).Mul(r.m.Limits(i).StepsPerUnit).Float()
		if off := float64(next.Steps[i]-first.Steps[i]) - gain; math.Abs(off) >= 1 {
			w.note("axis %s is %.2f steps from where a round should leave it", r.m.Limits(i).Name, off)
		}
	}
	return w.finding("frames close", "the steps of a round sum to nothing, or to its turns")
}
