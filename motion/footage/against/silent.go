package against

import (
	"fmt"
	"math"
)

const (
	// seenMove is how many times the noise a picture must move, root mean square, to be seen to,
	// and leastMove the least of it in px.
	seenMove  = 3.0
	leastMove = 0.3
)

// silence is why a take tells nothing of its motion.
type silence struct {
	few   bool    // frames that are known
	moved float64 // px, root mean square
	noise float64 // px
}

// silent tells why a take says nothing of its plan; nil where it does.
func (s series) silent(t track) *silence {
	if s.count() < leastKnown {
		return &silence{few: true}
	}
	out := &silence{}
	for k := range ways {
		counts := append([]bool(nil), s.known...)
		for i, alone := range lone(s.y[k], s.known) {
			counts[i] = counts[i] && !alone
		}
		n := noise(s.y[k], counts)
		weights := make([]float64, s.n)
		for i, c := range counts {
			weights[i] = step(c)
		}
		m := momentOf(s.y[k], weights)
		moved := math.Sqrt(m.squares / max(1, m.weight))
		if moved > max(seenMove*n, leastMove) {
			return nil
		}
		out.moved, out.noise = max(out.moved, moved), math.Hypot(out.noise, n)
	}
	return out
}

// verdict is that of a take that says nothing.
func (q *silence) verdict(t track, s series) Verdict {
	if q.few {
		return verdictOf(fmt.Sprintf("of %d frames only %d tell how the picture lies, and it takes %d; a turning product seen from above has nothing that stays: film a mark beside it, or look for its turn by how alike frames are", s.n, s.count(), leastKnown))
	}
	long := 0.0
	for _, rests := range t.allRests() {
		for _, r := range rests {
			long = max(long, min(r.to, t.last)-r.from)
		}
	}
	stands := fmt.Sprintf("nothing moves in the picture beyond %.2g px", max(q.moved, q.noise))
	if float64(s.n) <= long {
		return verdictOf(fmt.Sprintf("%s; the plan has a rest of %.0f frames, in which all %d may lie", stands, long, s.n))
	}
	v := verdictOf(stands)
	for a, axis := range t.Axes {
		px := axis.expected(s.arm).size() * t.travel[a]
		if axis.Across && axis.Gain == nil {
			px = t.PxPerMM * t.travel[a]
		}
		if px*(1-seenMove*axis.share(t.Plan)) > max(seenMove*q.noise, 1) && float64(s.n) > float64(t.Loop) {
			v.Kind, v.From = Differs, 0
			v.Text = fmt.Sprintf("%s, and %s should have moved it by %.0f px", stands, axis.Name, px)
			v.Why, v.Causes = nil, []Reason{{Cause: NothingMoves, Text: v.Text}}
		}
	}
	return v
}

// effect is what a unit of an axis does in each way, px.
type effect [ways]float64

func (e effect) size() float64 { return math.Sqrt(e.dot(e)) }

func (e effect) dot(f effect) (sum float64) {
	for k := range e {
		sum += e[k] * f[k]
	}
	return sum
}

func (e effect) less(f effect) effect {
	for k := range e {
		e[k] -= f[k]
	}
	return e
}

// expected is what is known of an axis; nothing where nobody knows.
func (a Axis) expected(arm float64) effect {
	if a.Gain == nil {
		return effect{}
	}
	return effect{a.Gain.X, a.Gain.Y, a.Gain.Turn * math.Pi / 180 * arm, a.Gain.Scale * arm}
}

// share is by what share that may be out.
func (a Axis) share(p Plan) float64 {
	if a.Gain != nil {
		return a.Gain.Share
	}
	return p.PxShare
}
