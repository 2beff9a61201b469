package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// TestEdgeOfEachBreach: a peak that is as great as its limit, or by less than a
// billionth greater, breaks nothing; one by two billionths does. Peaks are closed forms,
// so that none is missed between looks; falsely green would be a derivative that jumps
// and is taken for its value beside the jump: it counts as beyond all bounds.
func TestEdgeOfEachBreach(t *testing.T) {
	s, err := shot.Decode("test.toml", []byte(lantern), nil)
	require.NoError(t, err)
	base, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	e := base.Axes[0].Extremes
	steps := base.Axes[0].Rig.StepsPerUnit.Float()
	for _, x := range []struct {
		quantity string
		peak     float64
		set      func(r *rig.Rig, bound float64)
	}{
		{plan.Speed, e.Speed.Value, func(r *rig.Rig, b float64) { r.Axes[0].MaxSpeed = b }},
		{plan.Acceleration, e.Acc.Value, func(r *rig.Rig, b float64) { r.Axes[0].MaxAcc = b }},
		{plan.Jerk, e.Jerk.Value, func(r *rig.Rig, b float64) { r.Axes[0].MaxJerk = b }},
		{plan.StepRate, e.Speed.Value * steps, func(r *rig.Rig, b float64) { r.Controller.StepRate = b }},
		{plan.Position, e.Max.Value, func(r *rig.Rig, b float64) { r.Axes[0].Max = b }},
	} {
		if x.peak < 0 {
			x.peak = -x.peak
		}
		for _, edge := range []struct {
			bound float64
			ok    bool
		}{{x.peak, true}, {x.peak * (1 - 0.5e-9), true}, {x.peak * (1 - 2e-9), false}} {
			r := *s.Rig
			r.Axes = append([]rig.Axis(nil), r.Axes...)
			x.set(&r, edge.bound)
			p, err := plan.Build(s, r)
			require.NoError(t, err)
			broken := p.Breaches()
			assert.Equal(t, edge.ok, len(broken) == 0, "%s %.12g against %.12g: %+v", x.quantity, x.peak, edge.bound, broken)
			if !edge.ok && len(broken) > 0 {
				assert.Equal(t, x.quantity, broken[0].Quantity)
			}
		}
	}
}
