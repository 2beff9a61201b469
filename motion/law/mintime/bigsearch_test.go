package mintime

import (
	"math"
	"math/big"
)

// The search here knows nothing of hops, of D* or of convexity. It tries every
// peak speed from one limit to the other: change to it, hold it if it is a
// limit, change to the end speed. Every move on which jerk, acceleration or
// speed is always at its limit, with acceleration nothing where the two changes
// meet, is among them; the least time of those that cover the distance is the
// answer.

// bits of the search: 60 digits, so that a peak far below a rounding from an
// end speed still tells.
const bits = 200

func num(f float64) *big.Float         { return new(big.Float).SetPrec(bits).SetFloat64(f) }
func plus(a, b *big.Float) *big.Float  { return num(0).Add(a, b) }
func minus(a, b *big.Float) *big.Float { return num(0).Sub(a, b) }
func times(a, b *big.Float) *big.Float { return num(0).Mul(a, b) }
func over(a, b *big.Float) *big.Float  { return num(0).Quo(a, b) }

// exactRamp is the least time for a change of speed: a triangle or a trapezoid
// of acceleration of the right area.
func exactRamp(dv *big.Float, l Leg) *big.Float {
	dv = num(0).Abs(dv)
	if math.IsInf(l.Jerk, 1) {
		return over(dv, num(l.Acc))
	}
	acc, jerk := num(l.Acc), num(l.Jerk)
	if times(dv, jerk).Cmp(times(acc, acc)) <= 0 {
		return times(num(2), num(0).Sqrt(over(dv, jerk)))
	}
	return plus(over(dv, acc), over(acc, jerk))
}

// exactThrough returns the distance and the time of the move with that peak.
func (l Leg) exactThrough(peak *big.Float) (distance, seconds *big.Float) {
	v0, v1 := num(l.Start), num(l.End)
	a, b := exactRamp(minus(peak, v0), l), exactRamp(minus(peak, v1), l)
	d := plus(times(plus(v0, peak), a), times(plus(v1, peak), b))
	return times(d, num(0.5)), plus(a, b)
}

// found is a move of the search: its duration, its peak, and how long that is
// held.
type found struct{ sec, peak, hold *big.Float }

func (f *found) better(sec, peak, hold *big.Float) {
	if f.sec == nil || sec.Cmp(f.sec) < 0 {
		*f = found{sec, peak, hold}
	}
}

// quickestExactly returns the quickest move found.
func (l Leg) quickestExactly() found {
	var best found
	for _, limit := range []float64{l.Speed, -l.Speed} {
		d, t := l.exactThrough(num(limit))
		if hold := over(minus(num(l.Distance), d), num(limit)); hold.Sign() >= 0 {
			best.better(plus(t, hold), num(limit), hold)
		}
	}
	peaks := l.peaks()
	before := l.sideOf(peaks[0])
	for i := 1; i < len(peaks); i++ {
		side := l.sideOf(peaks[i])
		if side != before || side == 0 {
			sec, peak := l.bisectExactly(peaks[i-1], peaks[i], before)
			best.better(sec, peak, num(0))
		}
		before = side
	}
	return best
}

// peaks returns speeds in order, far more closely spaced near the end speeds
// and limits, where the distance changes as the root of the peak.
func (l Leg) peaks() []*big.Float {
	stops := []float64{-l.Speed, min(l.Start, l.End), max(l.Start, l.End), l.Speed}
	var out []*big.Float
	for i := 1; i < len(stops); i++ {
		a, b := num(stops[i-1]), num(stops[i])
		span := minus(b, a)
		out = append(out, a)
		for k := -60; k <= 60; k++ {
			if share := num(math.Pow(10, -math.Abs(float64(k))/3)); k < 0 {
				out = append(out, plus(a, times(span, times(share, num(0.5)))))
			} else {
				out = append(out, minus(b, times(span, times(share, num(0.5)))))
			}
		}
		out = append(out, b)
	}
	return out
}

// sideOf tells whether the move with that peak goes too far.
func (l Leg) sideOf(peak *big.Float) int {
	d, _ := l.exactThrough(peak)
	return d.Cmp(num(l.Distance))
}

func (l Leg) bisectExactly(a, b *big.Float, sideA int) (sec, peak *big.Float) {
	for range bits {
		mid := times(plus(a, b), num(0.5))
		if l.sideOf(mid) == sideA {
			a = mid
		} else {
			b = mid
		}
	}
	_, t := l.exactThrough(b)
	return t, b
}

// at returns the position at a share of the duration, summing the seven parts up
// to there.
func (f found) at(l Leg, share float64) float64 {
	left := times(f.sec, num(share))
	x, v, a := num(0), num(l.Start), num(0)
	step := func(jerk, t *big.Float) {
		if t.Cmp(left) > 0 {
			t = left
		}
		left = minus(left, t)
		third, half := over(t, num(3)), over(t, num(2))
		x = plus(x, times(t, plus(v, times(half, plus(a, times(third, jerk))))))
		v = plus(v, times(t, plus(a, times(half, jerk))))
		a = plus(a, times(t, jerk))
	}
	change := func(to *big.Float) {
		dv := minus(to, v)
		jerk := num(math.Copysign(l.Jerk, rounded(dv)))
		rise, hold := num(0).Sqrt(over(num(0).Abs(dv), num(l.Jerk))), num(0)
		if most := over(num(l.Acc), num(l.Jerk)); rise.Cmp(most) > 0 {
			rise = most
			hold = minus(over(num(0).Abs(dv), num(l.Acc)), most)
		}
		step(jerk, rise)
		step(num(0), hold)
		step(num(0).Neg(jerk), rise)
	}
	change(f.peak)
	a = num(0)
	step(num(0), f.hold)
	change(num(l.End))
	return rounded(x)
}

func rounded(a *big.Float) float64 {
	f, _ := a.Float64()
	return f
}
