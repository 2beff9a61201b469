package pace

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/law"
)

const (
	// leastTold is how many times the noise of a step what is planned must move the picture, root mean
	// square, for steps to tell anything.
	leastTold = 2.0
	// mostMoves is how many moves are told one by one.
	mostMoves = mostEdges
	// leastMove is the share of a move that must have been recorded for it to be told.
	leastMove = 0.6
	// mostOddMove is the share of a move's steps that may be otherwise than expected: what stops in the
	// middle of a move is late for half of it, and lies where the other half is right.
	mostOddMove = 0.3
)

// bySteps is what the steps of the picture tell; false where they tell nothing, as where a product turns
// faster and slower: how much of that shows in a step depends on which of its faces is seen.
func bySteps(t track, s steps) (r Result, ok bool) {
	for _, a := range t.moving {
		for _, p := range a.pieces() {
			if a.turning && !t.even(a, t.first+float64(p.from)/fine, t.first+float64(p.to)/fine) {
				return r, false
			}
		}
	}
	l, others := laidSteps(t, s)
	if l == nil || l.told() < leastTold {
		return r, false
	}
	r.Frame0.Rests = "how the picture goes on from frame to frame"
	one := *l
	moves := l.recorded(l.stretches())
	if len(moves) == 0 {
		return r, false
	}
	if v := one.refined(moves[:1]); v != nil {
		one.zero += one.late.late[0]
		r.Frame0.Number = Number{one.zero, math.Sqrt(one.kin() * v[0])}
	} else {
		return r, false
	}
	l.zero = one.zero
	variance := l.refined(moves)
	if variance == nil {
		return r, false
	}
	kin := l.kin()
	for i, m := range moves {
		e := Edge{Planned: m.from, Sets: true, Late: Number{l.late.late[i], math.Sqrt(kin * variance[i])}}
		e.Frame = l.zero + m.from + e.Late.Value
		e.Known = e.Late.Sure < mostDoubt
		r.Edges = append(r.Edges, e)
	}
	for _, o := range others {
		r.Frame0.Others = append(r.Frame0.Others, Number{o.zero, r.Frame0.Sure})
	}
	r.Frame0.Known = r.Frame0.Sure < mostDoubt && len(others) == 0
	r.Rate = rateOf(r.Edges)
	r.Odd = l.odd(0, float64(l.n))
	oddest := 0.0
	for _, m := range moves {
		oddest = max(oddest, l.odd(m.from+l.zero, m.to+l.zero))
	}
	r.Laws = l.laws()
	r.Verdict = l.judge(&r, oddest)
	return r, true
}

// recorded are moves of which most was recorded.
func (l *stepped) recorded(moves []piece2) (out []piece2) {
	for _, m := range moves {
		from, to := max(m.from+l.zero, 0), min(m.to+l.zero, float64(l.n))
		if to-from >= leastMove*(m.to-m.from) && len(out) < mostMoves {
			out = append(out, m)
		}
	}
	return out
}

// odd is the share of steps between two frames that are otherwise than all others say.
func (l *stepped) odd(from, to float64) float64 {
	out, all := 0.0, 0.0
	for k := max(0, int(math.Ceil(from))); k < l.n && float64(k) <= to; k++ {
		if !l.known[k] {
			continue
		}
		all++
		for w := range ways {
			if weigh(l.r[w][k]/l.own[w]) == 0 {
				out++
				break
			}
		}
	}
	return out / max(1, all)
}

// scatter is what is left over, as the likelihood of it has it.
func (l *stepped) scatters() (sum float64) {
	for w := range ways {
		n := 0.0
		for k := range l.n {
			if l.known[k] {
				n++
				sum += 2 * rho(l.r[w][k]/l.own[w])
			}
		}
		sum += 2 * n * math.Log(l.own[w])
	}
	return sum
}

// laws compares the planned motion with all named laws, each where and with what gains it does best.
func (l *stepped) laws() (out []Suited) {
	own := l.at0(l.zero, 1, reweighs)
	kin := own.kin()
	for _, w := range law.All() {
		other := l.under(w)
		if l.differs(other) < sameLaw {
			continue
		}
		c := &stepped{track: other, steps: l.steps, zero: l.zero}
		c.fit(1, reweighs)
		for _, by := range []float64{0.5, 0.125} {
			c = c.settled(by)
		}
		out = append(out, Suited{w.Name(), (own.scatters() - c.scatters()) / kin})
	}
	return out
}

// lawBetter is by how much another law must lower the criterion: very strong evidence (as otherLaw,
// but nothing of a gain is cut off here).
const lawBetter = 10.0

// slowRate is the frames a second up to which so many frames are asked for. Filmed faster, it is as long
// a time: nobody sees it, nor has a hand felt it, for being cut finer.
const slowRate = 24.0

// judge says what the take is by its steps.
func (l *stepped) judge(r *Result, oddest float64) Verdict {
	v := Verdict{From: -1}
	all := lates(r.Edges)
	v.Apart = spread(all)
	worst := 0.0 // of what is not known too: what is late there is not seen
	for _, e := range r.Edges {
		worst = max(worst, e.Late.Sure)
	}
	for _, a := range l.moving {
		v.Unproven = append(v.Unproven, "how far and which way "+a.name+" goes")
	}
	v.Unproven = append(v.Unproven, "that no step of a motor was lost")
	say := func(bad bool, format string, with ...any) {
		if bad {
			v.Why = append(v.Why, fmt.Sprintf(format, with...))
		}
	}
	if len(all) > 1 {
		lo, hi := extremes(all)
		if by := hi.Value - lo.Value; by > Certainly && by > certain*math.Hypot(lo.Sure, hi.Sure) {
			v.From = firstOff(all)
			say(true, "the move from frame %.1f on comes %.2f frames later, beside that from frame %.1f on, than planned", hi.frame, by, lo.frame)
		}
	}
	differs := len(v.Why) > 0
	round := r.Frame0.byRound(l.Loop)
	say(!(r.Frame0.Sure < mostDoubt), "frame 0 is known to %.2g frames only; a rest before the take, filmed with it, would tell", r.Frame0.Sure)
	say(!round, "frame 0 may be elsewhere as well: %s", places0(r.Frame0.Others))
	say(len(all) < 2, "%d of %d moves were seen well enough", len(all), len(r.Edges))
	slack := max(1, l.rate/slowRate)
	say(worst > sureRoughly*slack, "when a move comes is known to %.2g frames, and %.2g is needed", worst, sureRoughly*slack)
	say(v.Apart > Roughly*slack && !differs, "moves are %.2f frames apart from their plan, and %.2g would count as its times", v.Apart, Roughly*slack)
	w := best(r.Laws)
	say(w.Lowers > lawBetter, "another law than the planned one would suit better: %s", w.Law)
	say(oddest > mostOddMove && r.Odd <= mostOddAll, "%.0f %% of a move go on otherwise than the plan has it", 100*oddest)
	say(r.Odd > mostOddAll, "%.0f %% of the frames go on otherwise than the plan has it", 100*r.Odd)
	switch {
	case differs && r.Frame0.Sure < mostDoubt && round:
		v.Kind, v.Text = Differs, "this take does not go by the plan's times: "+v.Why[0]
	case len(v.Why) > 0:
		v.Kind, v.Text = NotKnown, "NOT KNOWN: "+strings.Join(v.Why, "; ")
	default:
		v.Kind = ByTimes
		v.Proven = []string{fmt.Sprintf("%d moves come when planned, within %.2f frames, by how the picture goes on from frame to frame", len(all), v.Apart+2*worst)}
		v.Text = fmt.Sprintf("this take goes by the plan's times, within %.2f frames, %.0f ms; not proven: %s", v.Apart+2*worst, 1000*(v.Apart+2*worst)/l.rate, strings.Join(v.Unproven, "; "))
		v.Text += r.Frame0.roundWords()
	}
	return v
}

// firstOff is the first part that is off beside the one before.
func firstOff(all []late) float64 {
	for i, e := range all[1:] {
		if math.Abs(e.Value-all[i].Value) > max(Within/2, certain*math.Hypot(e.Sure, all[i].Sure)) {
			return e.frame
		}
	}
	return all[0].frame
}

// lates are all edges that are known.
func lates(edges []Edge) (out []late) {
	for _, e := range edges {
		if e.Known {
			what := "coming to rest"
			if e.Sets {
				what = "setting out"
			}
			out = append(out, late{e.Late, e.Frame, what})
		}
	}
	return out
}
