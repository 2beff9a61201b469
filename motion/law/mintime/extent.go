package mintime

import "math"

// Extent returns the least and the greatest position along the move, counted
// from its start. A short run-up backs up first, so its ends do not tell how
// much room it needs.
func (m *Move) Extent() (lo, hi float64) {
	lo, hi = min(0, m.leg.Distance), max(0, m.leg.Distance)
	for i := range m.parts {
		from, to := m.begins(i), m.ends(i)
		turns := m.parts[i].turns()
		for _, t := range [3]float64{from, turns[0] + m.parts[i].origin, turns[1] + m.parts[i].origin} {
			if t >= from && t <= to {
				pos, _, _, _ := m.At(t)
				lo, hi = min(lo, pos), max(hi, pos)
			}
		}
	}
	return lo, hi
}

// begins and ends are the times between which a part applies.
func (m *Move) begins(i int) float64 {
	if i == 0 {
		return 0
	}
	return m.parts[i-1].until
}

func (m *Move) ends(i int) float64 { return min(m.parts[i].until, m.seconds) }

// turns returns the times from the part's origin at which its speed is 0: the
// roots of 3 sixth t^2 + 2 half t + vel, in the form in which nothing cancels.
func (p *part) turns() [2]float64 {
	a, b, c := 3*p.sixth, p.half, p.vel
	q := -(b + math.Copysign(math.Sqrt(b*b-a*c), b))
	return [2]float64{q / a, c / q}
}

// Peaks returns the greatest sizes of speed, acceleration and jerk. Jerk is
// +Inf where acceleration jumps.
func (m *Move) Peaks() (speed, acc, jerk float64) {
	speed = max(math.Abs(m.leg.Start), math.Abs(m.leg.End), math.Abs(m.parts[3].vel))
	for _, i := range [2]int{1, 5} {
		acc = max(acc, 2*math.Abs(m.parts[i].half))
	}
	if acc > 0 {
		jerk = m.leg.Jerk
	}
	return speed, acc, jerk
}
