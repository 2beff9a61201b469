package law

// Profile is a rest-to-rest move of up to seven segments: acceleration rises
// for Tj, holds, and falls for Tj, which together take Ta; speed holds for Tv;
// then the ramp in reverse. Fastest makes one.
type Profile struct {
	Distance float64 // signed, in any unit of length or angle
	T        float64 // s, the whole move: 2 Ta + Tv
	Tj       float64 // s, each change of acceleration; 0 where jerk has no limit
	Ta       float64 // s, each ramp, Tj at both its ends included
	Tv       float64 // s at the greatest speed
	V        float64 // greatest speed reached, units/s
	A        float64 // greatest acceleration reached, units/s^2
	J        float64 // jerk where acceleration changes, units/s^3
}

// At returns position from the start, velocity, acceleration and jerk at t
// seconds, in the units of Distance. Before the move and after it, it is at
// rest.
func (p Profile) At(t float64) (pos, vel, acc, jerk float64) {
	switch {
	case t < 0:
		return 0, 0, 0, 0
	case t >= p.T:
		return p.Distance, 0, 0, 0
	}
	back := t >= p.T/2
	if back {
		t = p.T - t
	}
	pos, vel, acc, jerk = p.half(t, back)
	if p.Distance < 0 {
		pos, vel, acc, jerk = -pos, 0-vel, 0-acc, 0-jerk
	}
	if back {
		pos, acc = p.Distance-pos, 0-acc
	}
	return pos, vel, acc, jerk
}

// half is At up to the middle, for a move forward. back says that time runs
// backwards, which decides on which side of a break t is.
func (p Profile) half(t float64, back bool) (pos, vel, acc, jerk float64) {
	switch {
	case before(t, p.Tj, back):
		return p.J / 6 * t * t * t, p.J / 2 * t * t, p.J * t, p.J
	case before(t, p.Ta-p.Tj, back):
		x := t - p.Tj/2 // speed is that of an even ramp begun Tj/2 later
		return p.A * (x*x/2 + p.Tj*p.Tj/24), p.A * x, p.A, 0
	case before(t, p.Ta, back):
		x := p.Ta - t // back from the top of the ramp
		return p.V*(t-p.Ta/2) + p.J/6*x*x*x, p.V - p.J/2*x*x, p.J * x, -p.J
	}
	return p.V * (t - p.Ta/2), p.V, 0, 0
}
