package verify

import (
	"context"
	"math"
	"testing"

	"seamrail/motion/verify/trace"

	"github.com/stretchr/testify/assert"
)

// TestEdgeOfEachLimit: a peak as great as its limit passes, and one that is greater by
// some millionths does not. Falsely green would be a peak that is narrower than the
// time between two looks, a sixteenth of a frame; falsely red one that rounding makes.
func TestEdgeOfEachLimit(t *testing.T) {
	p := measure(context.Background(), sound(), 0)
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
			for _, f := range checkLimits(c, 0, measure(context.Background(), c, 0)) {
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
	for _, f := range checkLimits(c, 0, measure(context.Background(), c, 0)) {
		assert.NotEqual(t, "jerk", f.Check)
		assert.True(t, f.OK, f.Text)
	}
}

// TestRoundingOfEachPeak: what rounding adds to speed is let pass in speed alone, and so
// on: a tenth less passes, a tenth more does not, and what the next may add is no excuse.
func TestRoundingOfEachPeak(t *testing.T) {
	noise := [4]float64{1, 10, 100, 1000}
	for d, check := range []string{"", "speed", "acceleration", "jerk"} {
		if d == 0 {
			continue
		}
		for _, share := range []float64{-0.1, 0.9, 1.1, 2, 20} {
			c := sound()
			p := peaks{noise: noise}
			*[4]*float64{nil, &p.speed, &p.acc, &p.jerk}[d] = []float64{0, 100, 300, 1000}[d] + share*noise[d]
			for _, f := range checkLimits(c, 0, p) {
				assert.Equal(t, f.Check != check || share < 1, f.OK, "%s, %g of what is rounded: %s %s", check, share, f.Check, f.Text)
			}
		}
	}
}

// TestWhatATurnGainsIsRoundedToo: from 20 to 80 degrees, and 60 more beyond the seam, is
// a number of 140 that each place is rounded at, either way round.
func TestWhatATurnGainsIsRoundedToo(t *testing.T) {
	for _, w := range []winding{turned(20, 60), turned(-20, -60)} {
		assert.InEpsilon(t, 4*2.3e-16*140, measure(context.Background(), w, 0).noise[0], 1e-9)
	}
}

// TestUnitsOfEachLimit: those of a rail in mm, those of a table in degrees.
func TestUnitsOfEachLimit(t *testing.T) {
	p := peaks{lo: 1, hi: 2, speed: 3, acc: 4, jerk: 5}
	for rotary, want := range map[bool][]string{
		false: {"from 1 mm to 2 mm within 0 mm to 400 mm", "3 mm/s within 100 mm/s", "4 mm/s2 within 300 mm/s2", "5 mm/s3 within 1000 mm/s3"},
		true:  {"from 1 deg to 2 deg within 0 deg to 400 deg", "3 deg/s within 100 deg/s", "4 deg/s2 within 300 deg/s2", "5 deg/s3 within 1000 deg/s3"},
	} {
		c := sound()
		c.axis.Rotary = rotary
		var says []string
		for _, f := range checkLimits(c, 0, p) {
			assert.Equal(t, "rail", f.Axis)
			says = append(says, f.Text)
		}
		assert.Equal(t, want, says)
	}
}

// bump stands still but for one of the looks at it, where it is so far off.
type bump struct {
	cosine
	look int
	off  float64
}

func (b bump) Position(_ int, sec float64) float64 {
	if math.Abs(sec-float64(b.look)*2/minSamples) < 1e-9 {
		return 40 + b.off
	}
	return 40
}

// TestOnePlaceBesideTheOthers of 1 mm is the first, second and third difference 1, 2 and
// 3, whichever look finds it, the first and the last as well, and either way.
func TestOnePlaceBesideTheOthers(t *testing.T) {
	h := 2.0 / minSamples
	for _, look := range []int{0, 1, 2, 1000, minSamples - 2, minSamples - 1} {
		for _, off := range []float64{1, -1} {
			p := measure(context.Background(), bump{sound(), look, off}, 0)
			assert.InEpsilon(t, 1, p.speed*h, 1e-9, "look %d by %g", look, off)
			assert.InEpsilon(t, 2, p.acc*h*h, 1e-9, "look %d by %g", look, off)
			assert.InEpsilon(t, 3, p.jerk*h*h*h, 1e-9, "look %d by %g", look, off)
			assert.Equal(t, [2]float64{40 + math.Min(off, 0), 40 + math.Max(off, 0)}, [2]float64{p.lo, p.hi})
		}
	}
	// The end is looked at for travel alone: beyond it the next round begins.
	p := measure(context.Background(), bump{sound(), minSamples, 1}, 0)
	assert.Equal(t, peaks{lo: 40, hi: 41, noise: p.noise}, p)
	p = measure(context.Background(), bump{sound(), minSamples, -1}, 0)
	assert.Equal(t, peaks{lo: 39, hi: 40, noise: p.noise}, p)
}

// TestTheLeastLimits: half a mm/s3 is a limit and so is half a step a second; what has no
// room and no speed may stand where it is.
func TestTheLeastLimits(t *testing.T) {
	c := sound()
	c.axis.MaxJerk, c.rate = 0.5, 0.5
	for _, check := range []string{"jerk", "step rate"} {
		assert.False(t, findingOf(t, c, check).OK, check)
	}
	a := trace.Axis{Min: 40, Max: 40}
	assert.True(t, checkTravel(a, peaks{lo: 40, hi: 40}, 0).OK)
	assert.False(t, checkTravel(a, peaks{lo: 40, hi: 40.001}, 0).OK)
	assert.False(t, checkTravel(a, peaks{lo: 39.999, hi: 40}, 0).OK)
	assert.True(t, checkPeak(a, "speed", 0, 0, 0, dims(a)[1]).OK)
	assert.False(t, checkPeak(a, "speed", 1e-12, 0, 0, dims(a)[1]).OK)
}
