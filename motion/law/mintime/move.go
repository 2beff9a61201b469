package mintime

// Move is a verified move along a leg. The zero Move takes no time.
type Move struct {
	leg     Leg
	seconds float64
	parts   [7]part
}

// part is a stretch of constant jerk. The first four count from their own
// start, the last three from their own end, so that both ends of the move are
// exact.
type part struct {
	until  float64 // s, its end
	origin float64 // s, where the rest is from
	pos    float64
	vel    float64
	half   float64 // half the acceleration
	sixth  float64 // a sixth of the jerk
}

// Duration returns the time the move takes, in seconds.
func (m *Move) Duration() float64 { return m.seconds }

// Leg returns what the move was made for. That of a stretched move has the
// lowest limit in it.
func (m *Move) Leg() Leg { return m.leg }

// At returns position from the start, velocity, acceleration and jerk at sec
// seconds, in the leg's units. Up to 0 that is the start of the move, from its
// duration on its end, both without acceleration and jerk.
func (m *Move) At(sec float64) (pos, vel, acc, jerk float64) {
	switch {
	case !(sec > 0):
		return 0, m.leg.Start, 0, 0
	case sec >= m.seconds:
		return m.leg.Distance, m.leg.End, 0, 0
	}
	i := 0
	if sec >= m.parts[3].until {
		i = 4
	}
	for i < len(m.parts)-1 && sec >= m.parts[i].until {
		i++
	}
	p := &m.parts[i]
	t := sec - p.origin
	return p.pos + t*(p.vel+t*(p.half+t*p.sixth)), p.vel + t*(2*p.half+3*t*p.sixth), 2*p.half + 6*t*p.sixth, 6 * p.sixth
}
