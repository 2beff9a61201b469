package mintime

import "math"

// directSlack is the share of D* by which a distance may fall short of it and
// still be covered directly, where less would need a detour or, with one end at
// rest, would take longer by the root of what is missing. It is 64 roundings:
// more than it takes to compute D* from round numbers, and nothing a motor could
// show. The move then ends at the distance asked for.
const directSlack = 64 * 0x1p-52

// Fastest returns the move of least time. At D* exactly, or no distance between
// equal speeds, that is the direct change of speed, of 0 s in the second case.
//
// The move is integrated anew before it is returned: it ends within endSlack of
// where it should and keeps all limits within limitSlack.
func (l Leg) Fastest() (m Move, err error) {
	if err = l.check(); err != nil {
		return m, err
	}
	half, covered := l.direct()
	want, sign := l.beyond(half, covered)
	err = m.hop(&l, want, sign)
	return m, err
}

// hop makes m the move with its peak above both ends, or below for a sign below
// 0, that covers want more than the direct change in that direction.
func (m *Move) hop(l *Leg, want, sign float64) error {
	up := l
	if sign < 0 {
		mirrored := l.mirrored()
		up = &mirrored
	}
	var h hop
	h.set(up)
	var p plan
	h.plan(&p, up, h.solve(want*h.per/h.time))
	return m.make(l, &p, sign)
}

// make lays out a plan made for the leg, or for its mirror image where sign is
// below 0.
func (m *Move) make(l *Leg, p *plan, sign float64) error {
	p.sign = sign
	p.peak *= sign
	if !m.lay(l, p) {
		*m = Move{}
		return ErrRange
	}
	return nil
}

// beyond returns how far the distance is from D*, and on which side: 1 for a
// hop upwards. At D* it is the side on which durations do not jump.
func (l *Leg) beyond(half, covered twofold) (want, sign float64) {
	want, sign = covered.from(l.Distance), 1
	if want < 0 {
		want, sign = -want, -1
	}
	against := sign*l.Start <= 0 && sign*l.End <= 0
	if against && want <= directSlack*math.Abs(covered.head) {
		return 0, -sign
	}
	return want, sign
}

// plan makes p the hop that takes e longer than the direct change.
func (h *hop) plan(p *plan, l *Leg, e float64) {
	p.jerk, p.peak = l.Jerk, l.Speed
	if e > h.ev {
		p.hold = (e - h.ev) * h.time
	}
	k := h.peak(min(e, h.ev))
	if e < h.ev {
		p.peak = max(l.Start, l.End) + k.x*h.speed
	}
	near, far := &p.first, &p.last
	if l.Start < l.End {
		near, far = far, near
	}
	h.change(near, l, k.near, k.x)
	h.change(far, l, k.far, k.x+h.gap)
}

// change makes c the quickest change of speed by x, whose acceleration takes
// rise to come and to go.
func (h *hop) change(c *change, l *Leg, rise, x float64) {
	c.rise, c.acc = rise*h.time, l.Acc
	if rise == h.soft {
		c.hold = max(0, x-h.soft) * h.time
	}
	if h.soft > 0 {
		c.acc = c.rise * l.Jerk
	}
}
