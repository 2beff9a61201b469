package ontime

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// evenly is a table that turns at so many degrees a second, with 10 steps a degree,
// filmed at a rate.
func evenly(t *testing.T, speed float64, capture string) *trajectory.Trajectory {
	text := fmt.Sprintf("shot = \"s\"\n[clock]\ncapture = %q\nplayback = \"24\"\nretime = \"24\"\nloop = \"%.0f frames\"\n[rig]\nfile = \"b.toml\"\n[axis.table]\nmove = \"turn\"\nturns = \"1\"\n", capture, 360/speed)
	s, err := shot.Decode("s.toml", []byte(text), nil)
	require.NoError(t, err)
	p, err := plan.Build(s, sample.Bench(rig.InverseTime))
	require.NoError(t, err)
	return trajectory.New(p)
}

// TestWhatLateIsHeldTo: a millisecond, or what moves nothing as far as shows: half a
// step at any rate, and in a time-lapse a twentieth of a degree or a tenth of a frame.
func TestWhatLateIsHeldTo(t *testing.T) {
	for _, x := range []struct {
		speed   float64
		capture string
		want    float64
	}{
		{90, "24", PromisedLate},
		{60, "24", PromisedLate}, // half a step is 0.8 ms
		{40, "24", 0.05 / 40},    // and 1.25
		{6, "24", 0.05 / 6},
		{6, "10", 0.05 / 6}, // a tenth of a frame is 10 ms
		{1, "12", 0.05},     // no time-lapse: half a step
		{1, "10", 0.05},
		{1, "1/2", 0.05},
		{0.1, "1/2", 0.5}, // half a step, which is more than a tenth of a frame
	} {
		assert.InEpsilon(t, x.want, within(evenly(t, x.speed, x.capture)), 1e-6, "%+v", x)
	}
	fine := evenly(t, 0.1, "1/2")
	fine.Plan().Axes[0].Rig.StepsPerUnit = fine.Plan().Axes[0].Rig.StepsPerUnit.Mul(fine.Plan().Axes[0].Rig.StepsPerUnit)
	assert.InEpsilon(t, 0.2, within(fine), 1e-6, "a tenth of a frame of 2 s")
	film := evenly(t, 0.1, "12")
	film.Plan().Axes[0].Rig.StepsPerUnit = fine.Plan().Axes[0].Rig.StepsPerUnit
	assert.InEpsilon(t, 0.05, within(film), 1e-6, "half a step alone, in what is seen to move")
}

// TestATimeLapseIsHeldToWhatShows: at a hundred steps a degree and 2 deg/s, half a step is
// 2.5 ms. Frames a tenth of a second apart or more, a tenth of one more hurts nobody, nor
// does a twentieth of a degree, whichever is less.
func TestATimeLapseIsHeldToWhatShows(t *testing.T) {
	for capture, want := range map[string]float64{"12": 0.0025, "10": 0.01, "5": 0.02, "1/2": 0.025} {
		tr := evenly(t, 2, capture)
		tr.Plan().Axes[0].Rig.StepsPerUnit = exact.Int(100)
		assert.InEpsilon(t, want, within(tr), 1e-6, capture)
	}
}

// TestTheQuickestIsWhatShows: the greatest speed of the harmonic law by its formula, pi/2
// times its mean; of two axes the quicker one, by its steps; where nothing moves, a
// millisecond.
func TestTheQuickestIsWhatShows(t *testing.T) {
	assert.InEpsilon(t, 50*2*math.Pi/4, shownSpeed(swinging(t, 96, nil), 0), 1e-5)
	slow := sample.Make(t, 24*600, sample.Bench(rig.InverseTime), sample.Rail(t, "harmonic", 1), sample.Turning(sample.Table(t), exact.New(1, 36)))
	rail, table := 0.5/80/shownSpeed(slow, 0), 0.5/10/(10.0/600)
	require.Greater(t, rail, PromisedLate)
	require.Less(t, rail, table)
	assert.InEpsilon(t, rail, within(slow), 1e-9)
	slow.Plan().Axes[1].Rig.StepsPerUnit = exact.Int(8000)
	assert.InEpsilon(t, 0.5/8000/(10.0/600), within(slow), 1e-6)
	still := sample.Make(t, 24, sample.Bench(rig.InverseTime), shot.AxisMove{Name: "table", Does: move.Hold{At: unit.Quantity{Dim: unit.Angle}}})
	assert.Equal(t, 0.001, within(still))
}

// TestEdgeOfFollowing: what is late, unsure or off by just less than it may be
// follows, and by just more does not.
func TestEdgeOfFollowing(t *testing.T) {
	good := Prediction{Rounds: 2, Within: 0.01, Axes: []Deviation{{Worst: 0.01, Wanted: 0.05}}}
	for _, x := range []struct {
		name string
		set  func(p *Prediction, share float64)
	}{
		{"late", func(p *Prediction, share float64) { p.Late = share * p.Within }},
		{"early", func(p *Prediction, share float64) { p.Late = -share * p.Within }},
		{"unsure", func(p *Prediction, share float64) { p.Unsure = share * p.Within / 2 }},
		{"off", func(p *Prediction, share float64) { p.Axes = []Deviation{{Worst: -share * 0.05, Wanted: 0.05}} }},
	} {
		p := good
		x.set(&p, 0.999)
		assert.True(t, p.Follows(), x.name)
		x.set(&p, 1.001)
		assert.False(t, p.Follows(), x.name)
	}
	good.Countable = 2
	assert.True(t, good.Follows())
	good.Countable = 1
	assert.False(t, good.Follows(), "more rounds than can be counted")
}

// TestTreadsOnBothSides: a table that is slower than the board goes in treads, and one
// that is not does not; nor does one on a board that answers each line, or has no
// slowest rate.
func TestTreadsOnBothSides(t *testing.T) {
	for _, x := range []struct {
		rate    float64 // steps/s
		kind    rig.ControllerKind
		trodden bool
	}{{30, rig.Buffered, true}, {31, rig.Buffered, false}, {90, rig.Buffered, false}, {30, rig.Lockstep, false}} {
		tr := evenly(t, x.rate/10, "24")
		tr.Plan().Rig.Controller = x.kind.Defaults()
		assert.Equal(t, x.trodden, newMachine(tr).crawls() > crawling, "%+v", x)
	}
}
