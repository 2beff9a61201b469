package virtual_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// tick is how far a move's duration may be from the closed form, in s: each of
// its slices is rounded to a picosecond a pulse.
const tick = 1e-7

// onTheDot returns the bench board with an exact timer.
func onTheDot() virtual.Options {
	o := bench()
	o.Timer = virtual.Timer{}
	return o
}

// lasts returns how long the motion of some lines lasted.
func lasts(t *testing.T, o virtual.Options, lines ...string) (seconds float64, end []float64) {
	h := newHost(t, o)
	require.Empty(t, h.stream(lines...))
	h.finish()
	d := h.rig.Record()
	require.NotZero(t, d.Len())
	return d.Span(d.Len()-1).End - d.Span(0).Start, d.Span(d.Len() - 1).To
}

// A single block is a trapezoid, d/v + v/a, or a triangle, 2 sqrt(d/a), where
// it is too short to reach its speed (kinematics of constant acceleration).
func TestSingleBlocks(t *testing.T) {
	for _, c := range []struct{ way, speed, accel, want float64 }{
		{100, 100, 1000, 1.1},
		{100, 50, 500, 2.1},
		{100, 200, 1000, 0.7},
		{200, 20, 2000, 10.01},
		{10, 200, 1000, 0.2},   // triangle: peak 100 mm/s
		{40, 200, 1000, 0.4},   // just reaches 200
		{2.5, 100, 4000, 0.05}, // triangle: peak 100, just reached
	} {
		o := onTheDot()
		o.Axes[0].Acceleration = c.accel
		for _, line := range []string{
			fmt.Sprintf("G94 G1 X%v F%v", c.way, c.speed*60),
			fmt.Sprintf("G93 G1 X%v F%.9f", c.way, c.speed/c.way*60),
		} {
			got, end := lasts(t, o, line)
			assert.InDelta(t, c.want, got, tick, line)
			assert.Equal(t, []float64{c.way}, end)
		}
	}
}

func TestSingleBlockProperty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		steps := rapid.Int64Range(50, 20000).Draw(rt, "steps")
		speed := rapid.Float64Range(5, 200).Draw(rt, "speed")
		// From 1.25 steps in the first 10 ms on, no ramp ends in a second slice
		// time, which boards stretch: 1.25/80 = a (0.01)²/2.
		accel := rapid.Float64Range(320, 5000).Draw(rt, "acceleration")
		way := float64(steps) / 80
		want := way/speed + speed/accel
		if way < speed*speed/accel {
			want = 2 * math.Sqrt(way/accel)
		}
		o := onTheDot()
		o.Axes[0].Acceleration, o.Axes[0].Max = accel, 1000
		got, _ := lasts(t, o, fmt.Sprintf("G94 G1 X%v F%.9f", way, speed*60))
		if math.Abs(got-want) > tick {
			rt.Fatalf("%v s, want %v", got, want)
		}
	})
}

// Two blocks in line are one trapezoid; at a corner of a right angle the speed
// is that of the circle that misses the corner by the deviation d and touches
// both sides: r = d sin 45/(1 - sin 45), v² = a r, a that of the diagonal.
func TestCorner(t *testing.T) {
	o := onTheDot()
	o.Axes[0].Acceleration = 1000
	o.Axes = append(o.Axes, o.Axes[0])
	o.Axes[1].Letter = 'Y'
	straight, _ := lasts(t, o, "G94", "G1 X50 F6000", "X100")
	assert.InDelta(t, 1.1, straight, tick)

	sin := math.Sqrt2 / 2
	v := math.Sqrt(1000 * math.Sqrt2 * o.JunctionDeviation * sin / (1 - sin))
	// Each side: up to 100 mm/s, on, and down to v.
	side := 100.0/1000 + (100-v)/1000
	side += (50 - 100*100/2000. - (100*100-v*v)/2000) / 100
	corner, end := lasts(t, o, "G94", "G1 X50 F6000", "Y50")
	assert.InDelta(t, 2*side, corner, tick)
	assert.Equal(t, []float64{50, 50}, end)

	back, _ := lasts(t, o, "G94", "G1 X50 F6000", "X0")
	assert.InDelta(t, 2*0.6, back, tick, "it stops where it turns back")
}

// A per-minute feed of a mixed move: along the linear axis, or along all, a
// degree counting as a millimetre. G93 is the same duration on both.
func TestMixedFeed(t *testing.T) {
	o := onTheDot()
	o.Axes[0].Acceleration = 1e5
	o.Axes = append(o.Axes, virtual.Axis{Letter: 'A', Rotary: true, StepsPerUnit: 80, Acceleration: 1e5, Speed: 1000, Endless: true})
	for _, c := range []struct {
		all  bool
		line string
		want float64
	}{
		{false, "G94 G1 X30 A40 F1800", 1},        // 30 mm at 30 mm/s
		{true, "G94 G1 X30 A40 F1800", 50.0 / 30}, // a vector of 50 at 30
		{false, "G94 G1 A40 F1200", 2},            // degrees alone
		{true, "G94 G1 A40 F1200", 2},
		{false, "G93 G1 X30 A40 F60", 1},
		{true, "G93 G1 X30 A40 F60", 1},
	} {
		o.AlongAll = c.all
		got, _ := lasts(t, o, c.line)
		assert.InDelta(t, c.want, got, 1e-3, "%v %s: less than 1e-3 s of ramps at 1e5 mm/s2", c.all, c.line)
	}
}

// An axis that is too slow or too weak for its share of a move holds all back.
func TestTheAxisThatBinds(t *testing.T) {
	o := onTheDot()
	o.Axes[0].Acceleration = 1000
	o.Axes = append(o.Axes, virtual.Axis{Letter: 'A', Rotary: true, StepsPerUnit: 80, Acceleration: 100, Speed: 10, Endless: true})
	got, _ := lasts(t, o, "G0 X30 A40")
	assert.InDelta(t, 40.0/10+10.0/100, got, tick)
}

// No step comes later than the slowest step rate has it, so slow moves end
// early: 1600 steps at 30.5 a second for 60 s, and a clock error stretches all.
func TestSlowestRateAndClockError(t *testing.T) {
	o := bench()
	o.Axes[0].Acceleration = 1e4
	slow, _ := lasts(t, o, "G94 G1 X20 F20")
	assert.InDelta(t, 1600*(65536*8/16e6), slow, 0.05)
	o.ClockError = 0.005
	late, _ := lasts(t, o, "G94 G1 X20 F20")
	assert.InDelta(t, slow*1.005, late, 1e-6)

	o = onTheDot()
	o.Axes[0].Acceleration = 1e4
	o.Timer.Slowest = 1 / 30.5
	got, _ := lasts(t, o, "G94 G1 X20 F20")
	assert.InDelta(t, 1600/30.5, got, 0.05)
}

// The board's own timer is from 230 to 1230 ppm slow, by step rate: measured,
// see testdata/reference/README.md. One rate alone may be off by two ticks of
// the 1274 that 12560 steps/s leave, and not by less than nothing.
func TestTimerRounding(t *testing.T) {
	sum, n := 0.0, 0.0
	for rate := 200.0; rate <= 12560; rate *= 1.05 {
		o := bench()
		o.Axes[0].Acceleration, o.Axes[0].Max = 1e6, 1e6
		way := math.Round(rate * 4)
		told := way/rate + rate/80/1e6
		got, _ := lasts(t, o, fmt.Sprintf("G94 G1 X%v F%.6f", way/80, rate/80*60))
		ppm := (got/told - 1) * 1e6
		assert.Greater(t, ppm, 0.0, "%v steps/s", rate)
		assert.Less(t, ppm, 2e6/1274, "%v steps/s", rate)
		sum, n = sum+ppm, n+1
	}
	assert.Greater(t, sum/n, 230.0)
	assert.Less(t, sum/n, 1230.0)
}

// A description in a rig file becomes a board that keeps to it.
func TestOfARig(t *testing.T) {
	r := rig.Rig{Axes: []rig.Axis{{Name: "rail", Letter: "X", Min: 0, Max: 300, MaxSpeed: 300, MaxAcc: 600,
		StepsPerUnit: eighty, Settings: rig.AxisSettings{Acceleration: 1000, Speed: 200, StepsName: "$100"}}},
		Controller: rig.Controller{Kind: rig.Lockstep, LineLength: 80, ReceiveBuffer: 64, Blocks: 16, Baud: 9600,
			JunctionDeviation: 0.01, RateError: 0.002, SlowestStepRate: 30.5, SegmentRate: 100, StepRate: 8000}}
	o := virtual.Of(r)
	o.Baud = 0
	got, _ := lasts(t, o, "G94 G1 X100 F60000")
	assert.InDelta(t, 1.1*1.002, got, 1e-6, "8000 steps/s are 100 mm/s")
	assert.Equal(t, 0.01, o.LineSeconds)
	assert.False(t, o.StartsLocked)
	assert.Equal(t, "$100", o.Axes[0].StepsName)
}
