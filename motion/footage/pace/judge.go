package pace

import (
	"fmt"
	"math"
	"strings"
)

const (
	// sureWithin is what an edge's uncertainty may be for its take to go by the plan's times.
	sureWithin = 0.15
	// sureRoughly is the same where frames that are alike second it.
	sureRoughly = 0.3
	// leastEdges is the share of the planned edges that must have been seen.
	leastEdges = 2.0 / 3
	// mostOddAll is the share of a take's frames that may change otherwise than expected.
	mostOddAll = 0.15
	// otherLaw is by how much another law must lower the criterion of Schwarz to be taken for it:
	// ten is called very strong (R. E. Kass and A. E. Raftery, Journal of the American Statistical
	// Association 90:773-795, 1995, DOI 10.1080/01621459.1995.10476572), of a model of which nothing
	// is in doubt. Gains are cut off somewhere, and cost twice that in the tests.
	otherLaw = 40.0
	// alikeRounds is by how much rounds may differ and be called alike, as a share.
	alikeRounds = 0.1
)

// late is how late a part of the take is, and where.
type late struct {
	Number
	frame float64
	what  string
}

// judge says what the take is.
func (l *laid) judge(r *Result) Verdict {
	v := Verdict{From: -1}
	all := lates(r.Edges)
	v.Apart = spread(all)
	v.Unproven = l.unproven(r)
	differs := l.differing(r, all, &v)
	unsure := l.unsure(r, all)
	if within, ok := l.straight(r); ok && len(unsure) > 0 && len(differs) == 0 {
		unsure, v.Apart = nil, max(v.Apart, within)
	}
	v.Why = append(differs, unsure...)
	switch {
	case !(r.Frame0.Sure < mostDoubt && r.Frame0.byRound(l.Loop)) && len(differs) > 0 || len(differs) == 0 && len(v.Why) > 0:
		v.Kind, v.Text = NotKnown, "NOT KNOWN: "+strings.Join(v.Why, "; ")
	case len(differs) > 0:
		v.Kind, v.Text = Differs, "this take does not go by the plan's times: "+strings.Join(differs, "; ")
	default:
		v.Kind, v.Proven = ByTimes, l.proven(r, v.Apart)
		v.Text = fmt.Sprintf("this take goes by the plan's times, within %.2f frames; not proven: %s", v.Apart, strings.Join(v.Unproven, "; ")) + r.Frame0.roundWords()
	}
	return v
}

// spread is by how many frames the latest is later than the earliest.
func spread(all []late) float64 {
	if len(all) == 0 {
		return 0
	}
	lo, hi := extremes(all)
	return hi.Value - lo.Value
}

func extremes(all []late) (lo, hi late) {
	lo, hi = all[0], all[0]
	for _, e := range all {
		if e.Value < lo.Value {
			lo = e
		}
		if e.Value > hi.Value {
			hi = e
		}
	}
	return lo, hi
}

// differing is what is known to differ.
func (l *laid) differing(r *Result, all []late, v *Verdict) (out []string) {
	if len(all) > 0 {
		lo, hi := extremes(all)
		if by := hi.Value - lo.Value; by > Certainly && by > certain*math.Hypot(lo.Sure, hi.Sure) {
			v.From = firstOff(all)
			out = append(out, fmt.Sprintf("%s at frame %.1f comes %.2f frames later, beside %s at frame %.1f, than planned", hi.what, hi.frame, by, lo.what, lo.frame))
		}
	}
	for _, n := range r.Rounds {
		if n.Known && math.Abs(n.Most.Value) > max(Within, certain*n.Most.Sure) {
			out = append(out, fmt.Sprintf("round %d is up to %s beside round 1, from frame %.0f on", n.Index+1, lateBy(n.Most.Value), max(n.From, 0)))
			if v.From < 0 || n.From >= 0 && n.From < v.From {
				v.From = n.From
			}
		}
		v.Apart = max(v.Apart, math.Abs(knownOr0(n)))
	}
	if b := r.Back; b.Known && b.Apart.Value > max(Within, certain*b.Apart.Sure) {
		out = append(out, fmt.Sprintf("ways back are not as the ways there: one part is %.2f frames later than another", b.Apart.Value))
	}
	return out
}

// lateBy puts a lateness into words.
func lateBy(frames float64) string {
	if frames < 0 {
		return fmt.Sprintf("%.2f frames early", -frames)
	}
	return fmt.Sprintf("%.2f frames late", frames)
}

func knownOr0(r Round) float64 {
	if !r.Known {
		return 0
	}
	return r.Most.Value
}

// best is the law that suits best.
func best(laws []Suited) (out Suited) {
	for i, w := range laws {
		if i == 0 || w.Lowers > out.Lowers {
			out = w
		}
	}
	return out
}

// unsure is what keeps the take from being known.
func (l *laid) unsure(r *Result, all []late) (out []string) {
	say := func(bad bool, format string, with ...any) {
		if bad {
			out = append(out, fmt.Sprintf(format, with...))
		}
	}
	say(!(r.Frame0.Sure < mostDoubt), "frame 0 is known to %.2g frames only; a rest before the take, filmed with it, would tell", r.Frame0.Sure)
	say(!r.Frame0.byRound(l.Loop), "frame 0 may be elsewhere as well: %s", places0(r.Frame0.Others))
	worst := 0.0
	for _, e := range all {
		worst = max(worst, e.Sure)
	}
	apart, sure := Within, sureWithin
	if l.seconded(r) {
		apart, sure = Roughly, sureRoughly
	}
	say(!l.enough(r), "%d of %d beginnings and ends of rests were seen well enough", len(all), len(r.Edges))
	say(worst > sure, "a rest's end is known to %.2g frames, and %g is needed", worst, sure)
	say(spread(all) > apart, "rests are %.2f frames apart from their plan, and %g would count as its times", spread(all), apart)
	w := best(r.Laws)
	say(w.Lowers > otherLaw, "another law than the planned one would suit better: %s", w.Law)
	say(r.Odd > mostOddAll, "%.0f %% of the frames change otherwise than the plan has it", 100*r.Odd)
	say(l.share[0] < 0 || !l.shows(), "what moves hardly changes the picture")
	return out
}

// seconded tells whether frames that are alike say the same as edges: all rounds like the first, or
// ways back like ways there.
func (l *laid) seconded(r *Result) bool {
	if r.Back.Known && r.Back.Apart.Value <= Closely && math.Abs(r.Rate.Value)*float64(l.Loop) <= Closely {
		return true // of a take that is slower all along ways back are still as ways there
	}
	for _, n := range r.Rounds {
		if !n.Known || math.Abs(n.Most.Value) > Within {
			return false
		}
	}
	return len(r.Rounds) > 0
}

// enough tells whether enough edges were seen: most of them, of two one after the other one, and
// the first and the last wherever they were filmed. What is late from the first move on would lay
// the plan where all but the first edge is right.
func (l *laid) enough(r *Result) bool {
	seen, filmed := 0, l.filmed(r.Edges)
	for i, e := range filmed {
		if outer := i == 0 || i == len(filmed)-1; outer && !e.Known {
			return false
		}
		if e.Known {
			seen++
		} else if i > 0 && !filmed[i-1].Known {
			return false
		}
	}
	return seen > 1 && float64(seen) >= leastEdges*float64(len(filmed))
}

// filmed are the edges that are in the recording; of those amid the plan, which others stand in for,
// so far from its ends that they could be seen.
func (l *laid) filmed(edges []Edge) (out []Edge) {
	for i, e := range edges {
		near := edgeReach / 2.0
		if i == 0 || i == len(edges)-1 {
			near = 0
		}
		if at := l.shown(e.Planned); e.Known || at >= near && at < float64(l.frames)-near {
			out = append(out, e)
		}
	}
	return out
}

// byRound tells whether all places at which frame 0 may be are whole rounds apart.
func (f Frame0) byRound(loop int64) bool {
	for _, o := range f.Others {
		if rounds := (o.Value - f.Value) / float64(loop); math.Abs(rounds-math.Round(rounds))*float64(loop) > 1 {
			return false
		}
	}
	return true
}

// roundWords say which rounds a recording may show that shows fewer than are planned.
func (f Frame0) roundWords() string {
	if len(f.Others) == 0 {
		return ""
	}
	return fmt.Sprintf("; which round it shows nobody can tell: frame 0 may be at frame %.1f, or %s", tenth(f.Value), places0(f.Others))
}

func places0(others []Number) string {
	var out []string
	for _, o := range others {
		out = append(out, fmt.Sprintf("frame %.1f", tenth(o.Value)))
	}
	return strings.Join(out, ", ")
}

// tenth is a number in tenths, and 0 never with a sign.
func tenth(x float64) float64 { return math.Round(10*x)/10 + 0 }

// leastShows is how many times the noise the middle change of what moves must be, squared.
const leastShows = 2

// shows tells whether what moves is seen to.
func (l *laid) shows() bool {
	var moving []float64
	for k := range l.y {
		if !l.rests(l.planned(float64(l.from[k])), l.planned(float64(l.to[k]))) {
			moving = append(moving, l.y[k])
		}
	}
	return middle(moving) > leastShows*max(l.share[0], l.quiet)
}

// proven is what was seen.
func (l *laid) proven(r *Result, apart float64) (out []string) {
	out = append(out, fmt.Sprintf("%d beginnings and ends of rests come when planned, within %.2f frames", len(lates(r.Edges)), max(spread(lates(r.Edges)), apart)))
	for _, n := range r.Rounds {
		if n.Known {
			out = append(out, fmt.Sprintf("round %d runs as round 1 does, within %.2f frames", n.Index+1, math.Abs(n.Most.Value)+2*n.Most.Sure))
		}
	}
	if r.Back.Known {
		out = append(out, fmt.Sprintf("ways back go as the ways there, within %.2f frames", r.Back.Apart.Value))
	}
	return out
}

// unproven is what a take like this cannot prove.
func (l *laid) unproven(r *Result) (out []string) {
	for _, a := range l.moving {
		out = append(out, "how far and which way "+a.name+" goes")
	}
	if w := best(r.Laws); w.Lowers >= -otherLaw && len(r.Laws) > 0 {
		out = append(out, fmt.Sprintf("by which law: %s would suit as well", w.Law))
	} else {
		out = append(out, "the law, but for how moves begin and end")
	}
	filmed := l.filmed(r.Edges)
	if n := len(r.Edges) - len(filmed); n > 0 {
		out = append(out, fmt.Sprintf("%d beginnings and ends of rests that were not filmed", n))
	}
	for _, e := range filmed {
		if !e.Known {
			out = append(out, fmt.Sprintf("when the rest at planned frame %.0f begins or ends", e.Planned))
		}
	}
	if len(l.moving) > 1 {
		out = append(out, "how the axes share in what moves at one time")
	}
	for _, n := range r.Rounds {
		if !n.Known {
			out = append(out, fmt.Sprintf("that round %d looks like round 1: its frames are not alike", n.Index+1))
		} else if n.Unlike > alikeRounds {
			out = append(out, fmt.Sprintf("that nothing was changed by round %d: it differs from round 1 by %.0f %%", n.Index+1, 100*n.Unlike))
		}
	}
	return out
}
