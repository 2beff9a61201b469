package verify

import (
	"testing"

	"seamrail/motion/trace"

	"github.com/stretchr/testify/assert"
)

// TestEdgeOfEachLimit: a peak as great as its limit passes, and one that is greater by
// some millionths does not. Falsely green would be a peak that is narrower than the
// time between two looks, a sixteenth of a frame; falsely red one that rounding makes.
func TestEdgeOfEachLimit(t *testing.T) {
	p := measure(sound(), 0)
	for _, x := range []struct {
		check string
		peak  float64
		noise float64
		bound func(a *trace.Axis) *float64
	}{
		{"speed", p.speed, p.noise[1], func(a *trace.Axis) *float64 { return &a.MaxSpeed }},
		{"acceleration", p.acc, p.noise[2], func(a *trace.Axis) *float64 { return &a.MaxAcc }},
		{"jerk", p.jerk, p.noise[3], func(a *trace.Axis) *float64 { return &a.MaxJerk }},
		{"travel", p.hi, 0, func(a *trace.Axis) *float64 { return &a.Max }},
	} {
		for _, edge := range []struct {
			bound float64
			ok    bool
		}{{x.peak, true}, {x.peak * (1 - limitTolerance/2), true}, {x.peak*(1-3*limitTolerance) - 2*x.noise, false}} {
			c := sound()
			*x.bound(&c.axis) = edge.bound
			for _, f := range checkLimits(c, 0, measure(c, 0)) {
				if f.Check == x.check {
					assert.Equal(t, edge.ok, f.OK, "%s of %.9g against %.9g: %s", x.check, x.peak, edge.bound, f.Text)
				}
			}
		}
	}
}

// TestALimitThatIsNotStated: no jerk is checked where the rig has no limit of it, and an
// endless axis goes as far as it likes.
func TestALimitThatIsNotStated(t *testing.T) {
	c := sound()
	c.axis.MaxJerk, c.axis.Endless, c.axis.Max, c.rate = 0, true, 0, 0
	for _, f := range Check(c).Findings {
		assert.NotEqual(t, "step rate", f.Check)
	}
	for _, f := range checkLimits(c, 0, measure(c, 0)) {
		assert.NotEqual(t, "jerk", f.Check)
		assert.True(t, f.OK, f.Text)
	}
}
