package against

import (
	"errors"
	"math"

	"seamrail/motion/footage"
)

// leastKnown is how many frames must be known for anything to be laid over them.
const leastKnown = 12

// Lay lays a take over its plan. It fails if the plan is none, or the take has no frames; what a
// take does not tell is no failure, and its verdict says so.
func Lay(c footage.Course, p Plan) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	if len(c.Frames) == 0 {
		return Result{}, errors.New("the take has no frames")
	}
	t, s := newTrack(p), newSeries(c)
	res := Result{Frame0: Frame0{Number: unknown()}, Rate: unknown(), Compared: Compared{Unknown: s.n - s.count()}}
	if why := s.silent(t); why != nil {
		res.Verdict = why.verdict(t, s)
		return res, nil
	}
	l, others := placed(t, s)
	if l == nil {
		res.Verdict = verdictOf("no place was found at which the plan touches the recording")
		return res, nil
	}
	w := witness{plain: l, others: others}
	w.look()
	w.tell(&res)
	return res, nil
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
	var best *laid
	for _, l := range all {
		if best == nil || l.cost(least) < best.cost(least) {
			best = l
		}
	}
	if best == nil {
		return nil, nil
	}
	if len(best.warps) > 1 {
		even := newLaid(t, s, place{frame: best.warps[0].late})
		even.robust()
		if even.cost(least) <= best.cost(least)+worthRate {
			best = even
		}
	}
	return best, rivals(all, best, least)
}

// rivals are places that would do as well as the best one.
func rivals(all []*laid, best *laid, scales [ways]float64) (out []Number) {
	bound := best.cost(scales)*(1+asGoodShare) + asGood
	for _, l := range all {
		apart := math.Abs(l.warps[0].late - best.warps[0].late)
		if l != best && apart > 1 && l.cost(scales) <= bound {
			l.doubts()
			out = append(out, Number{l.warps[0].late, l.warps[0].sure * l.scales()[0]})
		}
	}
	return out
}
