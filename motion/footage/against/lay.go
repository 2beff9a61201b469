package against

import (
	"errors"
	"math"

	"seamrail/motion/footage"
)

// leastKnown is how many frames must be known for anything to be laid over them.
const leastKnown = 12

// Lay lays a take over its plan. Frames that are missing or there twice are told by gaps; they are put in
// their place where the motion goes so. It fails if the plan is none, or the take has no frames; what a
// take does not tell is no failure, and its verdict says so.
func Lay(c footage.Course, p Plan, gaps ...Gap) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	if len(c.Frames) == 0 {
		return Result{}, errors.New("the take has no frames")
	}
	t := newTrack(p)
	gaps = inOrder(gaps, c)
	res := asRecorded
	if len(gaps) > 0 {
		res = func(c footage.Course, t track) Result { return whole(c, t, gaps) }
	}
	captured := res(c, t)
	if captured.Verdict.Kind != IsPlan {
		if r, ok := byTimeline(c, p, captured, res); ok {
			return r, nil
		}
	}
	return captured, nil
}

// asRecorded lays a take frame by frame.
func asRecorded(c footage.Course, t track) Result {
	s := newSeries(c)
	res := Result{Frame0: Frame0{Number: unknown()}, Rate: unknown(), Compared: Compared{Unknown: s.n - s.count()}}
	if why := s.silent(t); why != nil {
		res.Verdict = why.verdict(t, s)
		return res
	}
	l, others := placed(t, s)
	if l == nil {
		res.Verdict = verdictOf("no place was found at which the plan touches the recording")
		return res
	}
	return witnessed(l, others)
}

// witnessed is all that a take tells at a place.
func witnessed(l *laid, others []Number) (r Result) {
	w := witness{plain: l.nearer(), others: others}
	for k := range w.others {
		w.others[k].Value = l.recorded(w.others[k].Value)
	}
	r.Compared.Unknown = l.n - l.count() - l.absent
	w.look()
	w.tell(&r)
	return r
}

func unknown() Number { return Number{0, math.Inf(1)} }

func verdictOf(why string) Verdict {
	return Verdict{Kind: NotKnown, Text: "NOT KNOWN WELL ENOUGH: " + why, Why: []string{why}, From: -1}
}

const (
	// asGood is by how much more a place may cost than the best one and do as well: of the
	// biweight's sum, in which a frame that is far off costs 1.
	asGood = 1.5
	// asGoodShare is the same as a share of what the best one costs, which chance makes.
	asGoodShare = 0.02
	// worthRate is by how much a rate must lower the cost to be taken up at once.
	worthRate = 5.0
)

// placed lays the plan where it fits best, and tells where else it would.
func placed(t track, s series) (*laid, []Number) {
	var all []*laid
	least := [ways]float64{}
	for k := range least {
		least[k] = math.Inf(1)
	}
	for _, p := range places(t, s, s.raw()) {
		l := newLaid(t, s, p)
		l.robust()
		for k, v := range l.scales() {
			least[k] = min(least[k], v)
		}
		all = append(all, l)
	}
	if len(all) == 0 {
		return nil, nil
	}
	best := choose(all, least)
	others := rivals(all, best, least)
	if len(best.warps) > 1 {
		even := newLaid(t, s, place{frame: best.warps[0].late})
		even.robust()
		if even.cost(least) <= best.cost(least)+worthRate {
			best = even
		}
	}
	return best, others
}

// bound is what a place may cost and do as well as the best.
func bound(all []*laid, scales [ways]float64) float64 {
	least := math.Inf(1)
	for _, l := range all {
		least = min(least, l.cost(scales))
	}
	return least*(1+asGoodShare) + asGood
}

// choose is the best place; of those that do as well, the one at which axes show most nearly as is
// known of them.
func choose(all []*laid, scales [ways]float64) (best *laid) {
	most := bound(all, scales)
	for _, l := range all {
		if l.cost(scales) > most {
			continue
		}
		if best == nil || l.astray() < best.astray()-Floor || math.Abs(l.astray()-best.astray()) <= Floor && l.cost(scales) < best.cost(scales) {
			best = l
		}
	}
	for _, l := range all {
		rounds := (l.warps[0].late - best.warps[0].late) / float64(l.Loop)
		whole := math.Abs(rounds-math.Round(rounds))*float64(l.Loop) < 1
		if whole && l.cost(scales) <= most && math.Abs(l.astray()-best.astray()) <= Floor && l.sooner(best) {
			best = l
		}
	}
	return best
}

// sooner tells whether frame 0 is rather looked for here than there, where rounds are alike: in the
// recording, and early in it.
func (l *laid) sooner(o *laid) bool {
	const recorded = -0.5 // of frame 0 half was
	a, b := l.warps[0].late, o.warps[0].late
	if in := a >= recorded; in != (b >= recorded) {
		return in
	}
	return math.Abs(a) < math.Abs(b)
}

// astray is by how many px over its travel an axis shows otherwise than is known of it, at the
// most.
func (l *laid) astray() (most float64) {
	for a, axis := range l.Axes {
		e, _ := l.effect(a)
		if axis.Gain != nil {
			most = max(most, e.less(axis.expected(l.arm)).size()*l.travel[a])
		}
	}
	return most
}

// contrary is by how much more than the best place another may be astray, as a share: twice as
// far is the other way.
const contrary = 0.5

// rivals are places that would do as well as the best one.
func rivals(all []*laid, best *laid, scales [ways]float64) (out []Number) {
	most := bound(all, scales)
	for _, l := range all {
		apart := math.Abs(l.warps[0].late - best.warps[0].late)
		if l == best || apart <= 1 || l.cost(scales) > most {
			continue
		}
		if l.astray() <= best.astray()+contrary*l.shows() {
			l.doubts()
			out = append(out, Number{l.warps[0].late, l.warps[0].sure * l.scales()[0]})
		}
	}
	return out
}

// shows is by how many px the axis of which most is known moves the picture.
func (l *laid) shows() (most float64) {
	for a, axis := range l.Axes {
		most = max(most, axis.expected(l.arm).size()*l.travel[a])
	}
	return max(most, 1)
}
