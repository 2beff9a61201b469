package pace

import (
	"errors"
	"fmt"
	"math"

	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
)

const (
	// leastFrames is how many frames must be there for anything to be laid over them.
	leastFrames = 24
	// mostPlanned bounds what is kept of a plan: four times what a recording may have.
	mostPlanned = 4 * alike.MaxFrames
	// mostDoubt is the uncertainty, in frames, beyond which nothing is known: two are a frame.
	mostDoubt = 0.5
)

// Lay lays a take over the times of its plan: by how the picture goes on from frame to frame where frames
// tell it, which may be nil, and by how much it changes. It fails if the plan is none, there are too few sketches, or frames and sketches
// are not as many; what a take does not tell is no failure, and its verdict says so.
func Lay(s *alike.Sketches, frames []footage.Frame, p against.Plan) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	switch {
	case s == nil || s.Len() < leastFrames:
		return Result{}, fmt.Errorf("a take of fewer than %d frames; what is laid over a plan has at least a second of it", leastFrames)
	case frames != nil && len(frames) != s.Len():
		return Result{}, fmt.Errorf("%d frames were measured and %d sketched; each must be both", len(frames), s.Len())
	}
	if n := p.Loop*int64(p.Rounds) + p.RunUp + p.RunOut; n > mostPlanned {
		return Result{}, fmt.Errorf("a plan of %d frames; up to %d can be laid, take fewer rounds of it", n, mostPlanned)
	}
	t := newTrack(p)
	if len(t.moving) == 0 {
		return Result{}, errors.New("no axis of the plan moves; there is nothing to lay a take over")
	}
	if steps, known := newSteps(frames); known {
		bySteps, ok := bySteps(t, steps)
		if ok && bySteps.Verdict.Kind != NotKnown {
			return bySteps, nil
		}
		if r := byChanges(s, t); r.Verdict.Kind != NotKnown || !ok {
			return r, nil
		}
		return bySteps, nil
	}
	return byChanges(s, t), nil
}

// byChanges is what is told by how much the picture changes, and by which frames are alike.
func byChanges(s *alike.Sketches, t track) Result {
	res := Result{Frame0: Frame0{Number: Number{Sure: math.Inf(1)}}, Rate: Number{Sure: math.Inf(1)}}
	f := newFilm(s)
	l, others := found(t, newChange(f))
	if l == nil {
		res.Verdict = Verdict{Kind: NotKnown, Text: "NOT KNOWN: the recording is shorter than half of what moves in the plan", From: -1}
		return res
	}
	l.tell(f, others, &res)
	res.Verdict = l.judge(&res)
	return res
}

// tell writes what was found.
func (l *laid) tell(f film, others []*laid, r *Result) {
	r.Frame0.Number = Number{l.zero, l.sure()}
	r.Frame0.Rests = "how much the picture changes from frame to frame"
	r.Noise, r.Spins = math.Sqrt(max(0, l.share[0])), l.model.spins
	for _, o := range others {
		r.Frame0.Others = append(r.Frame0.Others, Number{o.zero, o.sure()})
	}
	l.typical = l.typically(f)
	r.Edges = l.tellEdges()
	doubt := l.doubt(r.Edges)
	r.Rate = rateOf(r.Edges)
	for _, also := range []float64{doubt, scatterOf(r.Edges), matchDoubt} {
		r.Frame0.Sure = math.Hypot(r.Frame0.Sure, also)
	}
	if zero, back, ok := l.byMirror(f); ok {
		r.Frame0.with(zero)
		r.Back = back
	}
	r.Rounds = l.tellRounds(f)
	r.Laws = l.tellLaws()
	odd := 0.0
	for k := range l.y {
		if weigh(l.off(k)/l.scatter(k)) == 0 {
			odd++
		}
	}
	r.Odd = odd / float64(len(l.y))
	r.Frame0.Known = r.Frame0.Sure < mostDoubt && len(others) == 0
}

// scatterOf is what edges that differ by more than each is in doubt leave in doubt of where all of
// them are. A gain that is not followed far enough shows in it, and in no residual.
func scatterOf(edges []Edge) float64 {
	var sum, squares, own, n float64
	for _, e := range edges {
		if e.Known {
			sum, squares, n = sum+e.Late.Value, squares+e.Late.Value*e.Late.Value, n+1
			own += e.Late.Sure * e.Late.Sure
		}
	}
	if n < 2 {
		return 0
	}
	return math.Sqrt(max(0, (squares-sum*sum/n)/(n-1)-own/n) / n)
}

// with takes mirror instants into account: the mean of both, by how sure each is.
func (f *Frame0) with(m Number) {
	a, b := 1/(f.Sure*f.Sure), 1/(m.Sure*m.Sure)
	f.Number = Number{(a*f.Value + b*m.Value) / (a + b), 1 / math.Sqrt(a+b)}
	f.Rests += ", and frames that show the same on the way there and on the way back"
}

// rateOf is how much later edges are the later they are planned, by weighted least squares.
func rateOf(edges []Edge) Number {
	var w, x, y, xx, xy float64
	n := 0
	for _, e := range edges {
		if e.Known {
			v := 1 / (e.Late.Sure * e.Late.Sure)
			w, x, y = w+v, x+v*e.Planned, y+v*e.Late.Value
			xx, xy = xx+v*e.Planned*e.Planned, xy+v*e.Planned*e.Late.Value
			n++
		}
	}
	bottom := xx - x*x/w
	if n < 2 || !(bottom > 0) {
		return Number{0, math.Inf(1)}
	}
	return Number{(xy - x*y/w) / bottom, 1 / math.Sqrt(bottom)}
}
