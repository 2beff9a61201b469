package track_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
)

func TestKeysPassTheirKeys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr, spec := keyed(t, rapid.Bool().Draw(t, "monotone"))
		e := tr.Extremes()
		reach := math.Abs(e.Min.Value) + math.Abs(e.Max.Value) + math.Abs(spec.Advance.Float())
		for _, k := range spec.Keys {
			sec := k.Time.Float()
			for _, s := range []track.State{tr.At(sec), tr.At(k.Time.Add(k.Hold).Float())} {
				within(t, k.Pos, s.Pos, rounding*reach, "position")
				if k.Speed != nil {
					within(t, *k.Speed, s.Vel, rounding*math.Abs(e.Speed.Value), "stated speed")
				}
				if k.Hold.Sign() > 0 {
					assert.Zero(t, s.Vel)
					assert.Zero(t, s.Acc)
				}
			}
			if k.Hold.Sign() > 0 {
				assert.Equal(t, track.State{Pos: k.Pos}, tr.At(k.Time.Add(k.Hold.Quo(exact.Int(2))).Float()), "inside the hold")
			}
		}
	})
}

// Position, velocity and acceleration do not jump anywhere, seam included.
func TestKeysAreSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr, _ := keyed(t, rapid.Bool().Draw(t, "monotone"))
		e := tr.Extremes()
		gain := tr.Advance().Float()
		reach := math.Abs(e.Min.Value) + math.Abs(e.Max.Value) + math.Abs(gain)
		require.False(t, math.IsInf(e.Acc.Value, 0))
		require.False(t, math.IsInf(e.Jerk.Value, 0))
		for i, sec := range tr.Breaks() {
			a, b := tr.Before(sec), tr.At(sec)
			if i == 0 {
				a = tr.Before(tr.Period().Float())
				a.Pos -= gain
			}
			within(t, a.Pos, b.Pos, joint*reach, "position at %v s", sec)
			within(t, a.Vel, b.Vel, joint*math.Abs(e.Speed.Value), "velocity at %v s", sec)
			within(t, a.Acc, b.Acc, joint*(math.Abs(e.Acc.Value)+math.Abs(e.Speed.Value)/tr.Period().Float()), "acceleration at %v s", sec)
		}
	})
}

// Between two neighbouring keys a monotone curve stays between their positions
// and never turns.
func TestMonotoneNeverPassesItsKeys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr, spec := keyed(t, true)
		if rapid.Bool().Draw(t, "staircase") {
			tr, spec = staircase(t)
		}
		top := math.Abs(tr.Extremes().Speed.Value)
		for i, k := range spec.Keys {
			end, goal := spec.Keys[0].Time.Add(tr.Period()), spec.Keys[0].Pos+spec.Advance.Float()
			if i+1 < len(spec.Keys) {
				end, goal = spec.Keys[i+1].Time, spec.Keys[i+1].Pos
			}
			from, to := k.Time.Float(), end.Float()
			lo, hi := math.Min(k.Pos, goal), math.Max(k.Pos, goal)
			slack := rounding * (math.Abs(lo) + math.Abs(hi) + math.Abs(spec.Advance.Float()))
			for j := 1; j < samples/4; j++ {
				s := tr.At(from + (to-from)*4*float64(j)/samples)
				if s.Pos < lo-slack || s.Pos > hi+slack {
					require.Failf(t, "passes its keys", "%v is outside %v to %v", s.Pos, lo, hi)
				}
				if s.Vel*(goal-k.Pos) < 0 && math.Abs(s.Vel) > rounding*top {
					require.Failf(t, "turns between keys", "%v units/s from %v to %v", s.Vel, k.Pos, goal)
				}
			}
		}
	})
}

// Rounding where a keyed curve comes to rest is not taken for a reversal.
func TestNoSpanIsRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr, _ := keyed(t, rapid.Bool().Draw(t, "monotone"))
		spans := tr.Spans()
		e := tr.Extremes()
		for _, s := range spans {
			moved := math.Abs(tr.Before(s.To).Pos - tr.At(s.From).Pos)
			if s.Dir != 0 && len(spans) > 1 {
				require.Greater(t, moved, rounding*(math.Abs(e.Min.Value)+math.Abs(e.Max.Value)), "from %v s to %v s", s.From, s.To)
			}
		}
	})
}

// Keys that lie together, one of them passed at speed: the curve swings far
// beyond them, and what rounding leaves of it is no span either.
func TestNoSpanIsRoundingFarFromTheKeys(t *testing.T) {
	speed, third := 1.75, exact.New(1001, 360000)
	tr := must(t)(track.Keys(exact.New(1001, 120000), track.KeysSpec{Keys: []track.Key{
		{Pos: 7.1e-15, Hold: third.Quo(exact.Int(8))},
		{Time: third, Pos: 0.00012, Speed: &speed},
		{Time: third.Mul(exact.Int(2)), Pos: 5.3e-15, Hold: third.Quo(exact.Int(8))},
	}}))
	var dirs []int
	for _, s := range tr.Spans() {
		dirs = append(dirs, s.Dir)
	}
	assert.Equal(t, []int{0, -1, 1, -1, 0}, dirs)
}

// A staircase climbs in one span, with rests where it holds.
func TestStaircaseNeverTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr, _ := staircase(t)
		for _, s := range tr.Spans() {
			require.GreaterOrEqual(t, s.Dir, 0, "from %v s to %v s", s.From, s.To)
		}
	})
}

// The smooth curve has less squared jerk than any other that keeps the same
// keys: adding any closed disturbance that is zero at the keys makes it worse.
// The disturbance here is another smooth curve through keys at zero with other
// stated speeds.
func TestSmoothHasTheLeastJerk(t *testing.T) {
	half := exact.New(1, 2)
	at := func(n int64) exact.Rat { return half.Mul(exact.Int(n)) }
	keys := []track.Key{
		{Time: at(0), Pos: 10, Hold: exact.New(1, 4)}, {Time: at(2), Pos: 80}, {Time: at(5), Pos: -20}, {Time: at(7), Pos: 15},
	}
	best := must(t)(track.Keys(exact.Int(5), track.KeysSpec{Keys: keys}))
	least := squaredJerk(best)
	for _, nudge := range []float64{-1, -0.01, 0.01, 1} {
		for i := 1; i < len(keys); i++ {
			worse := append([]track.Key(nil), keys...)
			v := best.At(keys[i].Time.Float()).Vel + nudge
			worse[i].Speed = &v
			tr := must(t)(track.Keys(exact.Int(5), track.KeysSpec{Keys: worse}))
			assert.Greater(t, squaredJerk(tr), least, "key %d, %g faster", i+1, nudge)
		}
	}
}

// squaredJerk integrates by Gauss's rule of three points, exact for the fourth
// degree of a squared quadratic (Abramowitz and Stegun, table 25.4).
func squaredJerk(tr *track.Track) float64 {
	sum, b := 0.0, tr.Breaks()
	for i := 1; i < len(b); i++ {
		mid, half := (b[i]+b[i-1])/2, (b[i]-b[i-1])/2
		for _, g := range [][2]float64{{-math.Sqrt(0.6), 5. / 9}, {0, 8. / 9}, {math.Sqrt(0.6), 5. / 9}} {
			j := tr.At(mid + half*g[0]).Jerk
			sum += g[1] * half * j * j
		}
	}
	return sum
}

func TestOneKey(t *testing.T) {
	one := []track.Key{{Time: exact.New(1, 2), Pos: 30}}
	for _, monotone := range []bool{false, true} {
		tr := must(t)(track.Keys(exact.Int(2), track.KeysSpec{Keys: one, Monotone: monotone}))
		assert.Equal(t, track.State{Pos: 30}, tr.At(1.5), "one key is a hold")
		assert.Equal(t, []track.Span{{From: 0, To: 2}}, tr.Spans())
		tr = must(t)(track.Keys(exact.Int(2), track.KeysSpec{Keys: one, Monotone: monotone, Advance: exact.Int(-360)}))
		within(t, 30-180*0.75, tr.At(1.25).Pos, rounding*360, "one key and a turn is a steady turn")
		within(t, -180, tr.Extremes().Speed.Value, rounding*180, "steady speed")
	}
}

func TestSmoothMayOvershootWhereMonotoneDoesNot(t *testing.T) {
	keys := []track.Key{{Pos: 0}, {Time: exact.Int(1), Pos: 1}, {Time: exact.Int(2), Pos: 100}, {Time: exact.Int(3), Pos: 100}}
	smooth := must(t)(track.Keys(exact.Int(6), track.KeysSpec{Keys: keys}))
	assert.Greater(t, smooth.Extremes().Max.Value, 101.0)
	monotone := must(t)(track.Keys(exact.Int(6), track.KeysSpec{Keys: keys, Monotone: true}))
	e := monotone.Extremes()
	assert.Equal(t, track.Peak{Value: 100, Time: 2}, e.Max)
	assert.Equal(t, track.Peak{}, e.Min)
	assert.Equal(t, []track.Span{{From: 0, To: 2, Dir: 1}, {From: 2, To: 3}, {From: 3, To: 6, Dir: -1}}, monotone.Spans())
}

func TestHoldThroughTheSeam(t *testing.T) {
	keys := []track.Key{{Time: exact.Int(1), Pos: 0}, {Time: exact.Int(5), Pos: 40, Hold: exact.New(3, 2)}}
	tr := must(t)(track.Keys(exact.Int(6), track.KeysSpec{Keys: keys}))
	assert.Equal(t, track.State{Pos: 40}, tr.At(0.25))
	assert.Equal(t, []track.Interval{{From: 0, To: 0.5}, {From: 5, To: 6}}, tr.Dwells())
}

// Keys a millisecond apart in a minute's loop, and keys of every spacing in
// between, are solved as well as even ones.
func TestKeysOfVeryDifferentSpacing(t *testing.T) {
	keys := []track.Key{
		{Pos: 0}, {Time: exact.New(1, 1000), Pos: 0.001}, {Time: exact.New(1, 100), Pos: 0.02},
		{Time: exact.New(1, 10), Pos: 0.1}, {Time: exact.Int(1), Pos: 3}, {Time: exact.Int(10), Pos: 50},
	}
	tr := must(t)(track.Keys(exact.Int(60), track.KeysSpec{Keys: keys}))
	e := tr.Extremes()
	for _, k := range keys {
		sec := k.Time.Float()
		within(t, k.Pos, tr.At(sec).Pos, rounding*50, "position at %v s", sec)
		a, b := tr.Before(sec), tr.At(sec)
		// Where nothing is stated, the jerk does not jump either.
		within(t, a.Jerk, b.Jerk, 1e-6*math.Abs(e.Jerk.Value), "jerk at %v s", sec)
	}
}

// A curve that moves by less than rounding is at rest.
func TestMovementLostInRoundingIsRest(t *testing.T) {
	keys := []track.Key{{Pos: 100}, {Time: exact.Int(1), Pos: 100 + 1e-11}}
	tr := must(t)(track.Keys(exact.Int(2), track.KeysSpec{Keys: keys}))
	assert.Equal(t, []track.Span{{From: 0, To: 2}}, tr.Spans())
}
