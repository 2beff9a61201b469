package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify"
)

// A plan that is slowed is at the same places, each so many times as late, in the loop,
// on its way back and on its ramps; the verifier, which knows no plan, has nothing
// against it, and speeds are less by as much.
func TestSlowedGoesTheSameWay(t *testing.T) {
	for _, times := range []exact.Rat{exact.Int(10), exact.New(7, 3), exact.Int(2)} {
		p := must(t, across)
		slow := p.Slowed(times)
		require.Empty(t, slow.Breaches())
		require.Equal(t, 1, slow.Rounds)
		require.True(t, slow.Round().Equal(p.Round().Mul(times)))
		fast, late, k := trajectory.New(p), trajectory.New(slow), times.Float()
		up, out := fast.RampTimes()
		from, to := -up.Float(), fast.Period().Float()+out.Float()
		for i := range fast.AxisCount() {
			for n := range 2001 {
				sec := from + (to-from)*float64(n)/2000
				a, b := fast.TakeState(i, 1, sec), late.TakeState(i, 1, sec*k)
				require.InDelta(t, a.Pos, b.Pos, 1e-9, "axis %d at %g s", i, sec)
				if math.Abs(sec) > 1e-6 && math.Abs(sec-fast.Period().Float()) > 1e-6 { // where the ramps meet the loop the last digit decides
					require.InDelta(t, a.Vel/k, b.Vel, 1e-6, "axis %d at %g s", i, sec)
				}
			}
			assert.InDelta(t, p.Axes[i].Extremes.Speed.Value/k, slow.Axes[i].Extremes.Speed.Value, 1e-9)
			assert.InDelta(t, p.Axes[i].Extremes.Acc.Value/(k*k), slow.Axes[i].Extremes.Acc.Value, 1e-9)
			assert.InDelta(t, p.Axes[i].Extremes.Max.Value, slow.Axes[i].Extremes.Max.Value, 1e-9)
			if r := p.Axes[i].RunUp; r != nil {
				assert.InDelta(t, r.Peak()/(k*k), slow.Axes[i].RunUp.Peak(), 1e-9)
			}
		}
		v := verify.Check(late)
		assert.True(t, v.OK, "%v", v.Failed())
		assert.True(t, p.Round().Equal(must(t, across).Round()), "the plan itself is as it was")
	}
}
