package track

import "seamrail/motion/base/exact"

// knot is an end of a stretch of a keyed curve.
type knot struct {
	time   exact.Rat // s
	pos    float64   // units, gains included
	vel    float64   // units/s
	acc    float64   // units/s2
	fixVel bool      // vel is stated, not sought
	fixAcc bool
	key    int     // 1-based
	within float64 // units that pos may be off
	off    float64 // units that pos is off, within that
	tight  float64 // share of vel and acc that is taken off
}

// gap is the way from one knot to the next; the last leads to the first
// of the next round.
type gap struct {
	seconds exact.Rat
	length  float64 // seconds
	rise    float64 // units
	goal    float64 // units, where it ends
	rest    bool    // a hold
}

// keySpline is a closed row of knots with the gaps after them.
type keySpline struct {
	knots []knot
	gaps  []gap
}

// newKeySpline makes a knot of each key, and two of each hold.
func newKeySpline(period exact.Rat, s KeysSpec) *keySpline {
	r := &keySpline{}
	for i, k := range s.Keys {
		n := knot{time: k.Time, pos: k.Pos, key: i + 1, within: k.Within, tight: k.Tension}
		if k.eased() {
			n.fixVel, n.fixAcc = true, true
		}
		if k.Speed != nil {
			n.vel, n.fixVel = *k.Speed, true
		}
		if k.Hold.Sign() > 0 {
			n.fixVel, n.fixAcc = true, true
			r.knots = append(r.knots, n)
			r.gaps = append(r.gaps, gap{rest: true})
			n.time = k.Time.Add(k.Hold)
		}
		r.knots = append(r.knots, n)
		r.gaps = append(r.gaps, gap{})
		r.ease(period, s, i)
	}
	r.measure(period, s.Advance)
	return r
}

func (r *keySpline) measure(period, advance exact.Rat) {
	for i := range r.gaps {
		a, b := r.knots[i], r.knots[r.next(i)]
		if r.next(i) == 0 {
			b.time, b.pos = b.time.Add(period), exact.FromFloat(b.pos).Add(advance).Float()
		}
		g := &r.gaps[i]
		g.seconds = b.time.Sub(a.time)
		g.length = g.seconds.Float()
		g.goal = b.pos
		if g.rest {
			g.goal = a.pos
		}
		g.rise = g.goal - a.pos
	}
}

func (r *keySpline) next(i int) int { return (i + 1) % len(r.knots) }

func (r *keySpline) previous(i int) int { return (i + len(r.knots) - 1) % len(r.knots) }

// legs turns each gap into a quintic that meets the knots' velocities and
// accelerations, or into rest.
func (r *keySpline) legs() []leg {
	out := make([]leg, len(r.gaps))
	for i, g := range r.gaps {
		a, b := r.knots[i], r.knots[r.next(i)]
		out[i] = leg{lasts: g.seconds, base: a.pos, goal: g.goal}
		h := g.length
		c := newQuintic(
			end{0, a.vel * h, a.acc * h * h},
			end{g.rise, b.vel * h, b.acc * h * h})
		if !c.still() {
			out[i].curve = c
		}
	}
	return out
}
