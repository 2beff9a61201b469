package pace

import "math"

const (
	// sameState is how near the other axes must be for two instants to look the same, as a share
	// of what they go through in a round: less than a hundredth of a frame at ordinary speeds.
	sameState = 1e-4
	// mirrorTimes is how often frame 0 is bettered by mirror instants: once leaves what the first
	// place was off by squared.
	mirrorTimes = 3
	// matchDoubt is by how much of a frame a parabola may miss a match: the worst of the tests, of
	// clean frames.
	matchDoubt = 0.01
)

// mirrored are the planned frame at which all axes are where they are at another, on another leg,
// and by how much the first goes back when the second goes on.
type mirrored struct{ to, back float64 }

// mirror is the first instant within a round after a planned frame at which all axes are back where
// they were and go the other way.
func (t track) mirror(from float64) (mirrored, bool) {
	a := t.moving[t.leading()]
	was, speed := t.at(a, from), t.speed(a, from)
	if math.Abs(speed) < leastSpeed*a.round {
		return mirrored{}, false
	}
	gone := false
	for x := from + 1; x < min(from+float64(t.Loop), t.last); x += 0.5 {
		before, after := (t.at(a, x)-was)*speed, (t.at(a, x+0.5)-was)*speed
		gone = gone || before > 0
		if !gone || after > 0 {
			continue
		}
		to := x + 0.5*before/(before-after)
		to -= (t.at(a, to) - was) / t.speed(a, to) // one step of Newton's
		back := -speed / t.speed(a, to)
		return mirrored{to, back}, t.same(from, to) && back > 0.1 && back < 10
	}
	return mirrored{}, false
}

func (t track) speed(a axis, frame float64) float64 {
	return (t.at(a, frame+0.25) - t.at(a, frame-0.25)) * 2
}

func (t track) same(from, to float64) bool {
	for _, a := range t.moving {
		if math.Abs(t.at(a, from)-t.at(a, to)) > sameState*a.round {
			return false
		}
	}
	return true
}

// mirrors are what all frames say whose planned instant comes back: how much later frame 0 is than
// thought. If it is later by d, what frame k shows comes again by (1 + back) d later.
func (l *laid) mirrors(f film) (s series) {
	for k := range l.frames {
		pair, ok := l.mirror(l.planned(float64(k)))
		if !ok {
			continue
		}
		m, ok := l.matched(f, k, l.shown(pair.to))
		if !ok || !l.clear(m) {
			continue
		}
		times := 1 + pair.back
		s.planned = append(s.planned, pair.to)
		s.late, s.weight = append(s.late, m.late/times), append(s.weight, m.bend*times*times)
	}
	return s
}

// byMirror is frame 0 from instants at which all axes are back where they were and go the other
// way, and by how much ways back are later in one part than in another, twice what frame 0 is.
func (l *laid) byMirror(f film) (zero Number, back Back, ok bool) {
	at := l.copied()
	for range mirrorTimes {
		s := at.mirrors(f)
		n := mean(s.late, s.weight)
		if !(n.Sure < mostDoubt) {
			return n, back, false
		}
		zero = n
		at.zero += n.Value
	}
	back = at.mirrors(f).back(at.last)
	return Number{at.zero, math.Hypot(zero.Sure, matchDoubt)}, back, true
}

// back is by how much ways back are later in one part than in another. Each of the two is what two
// parts one after the other agree on: a hand in one of them is not it.
func (s series) back(last float64) (out Back) {
	var parts []Number
	for from := 0.0; from < last; from += backPart {
		if n := s.between(from, from+backPart); 2*n.Sure < mostDoubt {
			parts = append(parts, n)
		}
	}
	if out.Parts = len(parts); out.Parts < leastParts {
		return out
	}
	lo, hi, sure := math.Inf(1), math.Inf(-1), 0.0
	for i, b := range parts[1:] {
		a := parts[i]
		lo, hi = min(lo, max(a.Value, b.Value)), max(hi, min(a.Value, b.Value))
		sure = max(sure, a.Sure, b.Sure)
	}
	out.Apart = Number{2 * max(0, hi-lo), 2 * math.Sqrt2 * sure}
	out.Known = true
	return out
}

// leastParts is how many parts of ways back tell anything: two pairs.
const leastParts = 3

// backPart is the part of a way back that is told for itself, frames: its mean is a tenth as unsure
// as a frame's.
const backPart = 10.0

const (
	// clearly is by how many times the noise a match's distance must rise two frames beside.
	clearly = 0.25
	// mostNoise and mostUnlike are what may be left of a match: so many times the noise, and such a
	// share of what frames differ by that have nothing to do with each other. A hand leaves more.
	mostNoise, mostUnlike = 3.0, 0.05
)

// clear tells whether a match is one: beside it the picture differs by more than noise, and in it
// by little more.
func (l *laid) clear(m match) bool {
	noise := max(l.share[0], l.quiet)
	return m.bend*beside*beside > clearly*noise && m.unlike < mostNoise*noise+mostUnlike*l.typical
}
