package pace

import "math"

const (
	// parts is in how many parts a round is told how late it is.
	parts = 12
	// certain is how many standard uncertainties a lateness must be from nothing to be one.
	certain = 4.5
	// Within is up to how many frames moves and rests may be apart from their plan's times and
	// still go by them: what a hand that has its cue does not feel, and less than a seam shows.
	Within = 0.3
	// Roughly is the same for edges of rests where frames that are alike tell the rest: rounds that
	// run like each other, ways back like ways there.
	Roughly = 0.6
	// Closely is up to how many frames parts of a way back may be apart to tell that, and all edges
	// of a round may run late one after the other: half of Within, as they are known to a twentieth
	// of a frame.
	Closely = 0.15
	// Certainly is by how much edges of rests must be apart for a take to be told not to go by its
	// plan's times: a gain that rises in a way that no wave follows has looked like a whole frame.
	Certainly = 1.25
)

// tellRounds finds how late each round after the first is, by which frames are alike.
func (l *laid) tellRounds(f film) (out []Round) {
	for r := 1; r < l.Rounds; r++ {
		out = append(out, l.tellRound(f, r))
	}
	return out
}

// series is what the frames of a round have to say, in order.
type series struct{ planned, late, weight, unlike []float64 }

// against0 compares a round with round 0.
func (l *laid) against0(f film, r int) (s series) {
	loop := float64(l.Loop) * (1 + l.slower)
	for k := max(0, int(math.Ceil(l.zero))); float64(k) < l.zero+loop && k < l.frames; k++ {
		m, ok := l.matched(f, k, float64(k)+float64(r)*loop)
		if !ok || !l.clear(m) {
			continue
		}
		s.planned = append(s.planned, l.planned(float64(k)))
		s.late, s.weight = append(s.late, m.late), append(s.weight, m.bend)
		s.unlike = append(s.unlike, m.unlike)
	}
	return s
}

func (s series) between(from, to float64) Number {
	var v, w []float64
	for i, x := range s.planned {
		if x >= from && x < to {
			v, w = append(v, s.late[i]), append(w, s.weight[i])
		}
	}
	n := mean(v, w)
	n.Sure = math.Hypot(n.Sure, matchDoubt)
	return n
}

func (l *laid) tellRound(f film, r int) Round {
	s, loop := l.against0(f, r), float64(l.Loop)
	out := Round{Index: r, Late: s.between(0, loop), From: -1}
	out.Ends = out.Late
	begun, before := -1.0, Number{0, math.Inf(1)}
	out.Most = before
	for p := range parts {
		from := float64(p) * loop / parts
		n := s.between(from, from+loop/parts)
		if !(n.Sure < mostDoubt) {
			continue
		}
		out.Ends = n
		if both := agreed(before, n); math.IsInf(out.Most.Sure, 1) || math.Abs(both.Value) >= math.Abs(out.Most.Value) {
			out.Most = both
		}
		before = n
		if late := math.Abs(n.Value) > max(Within/2, certain*n.Sure); !late {
			begun = -1
		} else if begun < 0 {
			begun = from
		}
	}
	if begun >= 0 {
		out.From = l.shown(begun + float64(r)*loop)
	}
	ms := 1000 / l.rate
	out.MS = Number{out.Late.Value * ms, out.Late.Sure * ms}
	out.Known = out.Late.Sure < mostDoubt && out.Most.Sure < mostDoubt
	out.Unlike = 1
	if len(s.unlike) > 0 && l.typical > 0 {
		noise := max(l.share[0], 0)
		out.Unlike = math.Sqrt(max(0, middle(s.unlike)-noise) / l.typical)
	}
	return out
}

// agreed is how late two parts are both: chance, or a hand in one of them, is not.
func agreed(a, b Number) Number {
	switch {
	case math.IsInf(a.Sure, 1):
		return a
	case a.Value*b.Value < 0:
		return Number{0, max(a.Sure, b.Sure)}
	case math.Abs(a.Value) < math.Abs(b.Value):
		return a
	}
	return b
}

// typically is the squared distance of two frames of the take that have nothing to do with each
// other, noise taken off: the middle of those a third of a round apart.
func (l *laid) typically(f film) float64 {
	var all []float64
	apart := max(1, int(l.Loop)/3)
	for k := max(0, int(l.zero)); k+apart < l.frames && float64(k) < l.shown(l.last); k++ {
		all = append(all, f.apart(k, k+apart))
	}
	return middle(all) - max(l.share[0], 0)
}
