package gcode_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/gcode"
	"seamrail/export/header"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// singles is a shot that is taken frame by frame, by keys of its own.
func singles(t *testing.T, keys string, change func(*rig.Rig)) (*trajectory.Trajectory, *stepwise.Schedule) {
	t.Helper()
	r := sample.Bench(rig.PerMinute)
	r.Controller = rig.Buffered.Defaults()
	r.Controller.Feed = rig.PerMinute
	r.Axes[0].Settings.Acceleration, r.Axes[1].Settings.Acceleration = 3000, 720
	r.Outputs = []rig.Output{{Name: "release", On: "M8", Off: "M9", Serves: rig.ServesShutter, Unsure: 0.05, Pulse: 0.2}}
	if change != nil {
		change(&r)
	}
	s, err := shot.Decode("singles.toml", []byte(`
[clock]
playback = "24"
loop = "8 frames"
[frame-by-frame]
exposure = "0.52 s"
settle = "0.3 s"
card = "0.2 s"
`+keys+`
[rig]
file = "bench.toml"
[axis.rail]
from = "40 mm"
to = "48 mm"
[axis.table]
turns = "1/7"
law = "uniform"
`), nil)
	require.NoError(t, err)
	s, err = stepwise.Timed(s, r, func(shot.Shot, *plan.Plan) float64 { return 0 })
	require.NoError(t, err)
	p, err := plan.Build(s, r)
	require.NoError(t, err)
	return trajectory.New(p), stepwise.New(p, 0)
}

func single(t *testing.T, keys string, opt gcode.Options, change func(*rig.Rig)) (string, *stepwise.Schedule, rig.Rig) {
	t.Helper()
	tr, s := singles(t, keys, change)
	var b strings.Builder
	require.NoError(t, gcode.WriteByFrame(&b, tr, s, header.Of(tr.Plan(), verify.Check(tr)), opt))
	return b.String(), s, tr.Rig()
}

const wired = `output = "release"`

// A board of software runs the program: at every frame its release is pressed with each axis
// at its place and at rest, as far apart as planned, but for what its lines take.
func TestAProgramFrameByFrameOnARigOfSoftware(t *testing.T) {
	program, s, r := single(t, wired+"\nshutter = \"bulb\"", gcode.Options{NoStop: true, CountIn: 3}, nil)
	board := play(t, program, r)
	var on, off []float64
	for _, x := range board.Record().Switches() {
		if x.On {
			on = append(on, x.Seconds)
		} else {
			off = append(off, x.Seconds)
		}
	}
	require.Len(t, on, 8)
	require.Len(t, off, 8)
	for k := range on {
		for _, at := range []float64{on[k] - 0.25, on[k], off[k]} {
			got := board.Record().At(at)
			for i := range 2 {
				assert.InDelta(t, s.Place(i, int64(k)), got[i], 0.5/r.Axes[i].StepsPerUnit.Float(), "axis %d in frame %d", i, k)
			}
		}
		assert.InDelta(t, 0.55, off[k]-on[k], 0.01, "0.52 s, in whole grains of 50 ms")
		assert.InDelta(t, s.Frame(int64(k)).Opens.Float(), on[k]-on[0], 0.05+0.004*float64(k), "within a grain, whatever came before, and what lines take")
	}
	assert.InDelta(t, s.Place(0, 8), board.Record().At(board.Now().Seconds())[0], 1e-9, "and it goes on to the first frame")
}

// What waits for a hand stops, and what gives it time does not.
func TestProgramsForAHand(t *testing.T) {
	program, _, _ := single(t, `hand = "taken"`, gcode.Options{}, nil)
	assert.Equal(t, 9, strings.Count(program, "\nM0\n"))
	assert.NotContains(t, program, "M8")
	program, _, _ = single(t, `hand = "2 s"`, gcode.Options{}, nil)
	assert.Equal(t, 1, strings.Count(program, "\nM0\n"))
	assert.Equal(t, 8, strings.Count(program, "\nG4 P2.75\n"), "hand, exposure and card, in whole grains")
	assert.Contains(t, program, "\n(frame 7, round 1, at ")
}

// An output that no line switches is no use to a program, and lines keep to their length.
func TestProgramsThatCannotBe(t *testing.T) {
	tr, s := singles(t, wired, func(r *rig.Rig) { r.Outputs[0].On, r.Outputs[0].Off, r.Outputs[0].Number = "", "", 1 })
	var b strings.Builder
	assert.ErrorContains(t, gcode.WriteByFrame(&b, tr, s, header.Head{}, gcode.Options{}), "output release has no lines that switch it")
	assert.Empty(t, b.String())
	program, _, r := single(t, wired, gcode.Options{}, func(r *rig.Rig) { r.Controller.IdleDelay = 0.025 })
	assert.Contains(t, program, "its motors have no current")
	for line := range strings.Lines(program) {
		assert.LessOrEqual(t, len(line)-1, r.Controller.LineLength)
	}
}

// An independent reader finds every move of the program where the schedule has it.
func TestAReaderFollowsFrameByFrame(t *testing.T) {
	program, s, _ := single(t, wired, gcode.Options{}, nil)
	var want, got []canonical
	stands := canonical{x: s.Place(0, 0), a: s.Place(1, 0)}
	together := 0
	for n := range s.Frames() {
		for _, l := range s.Frame(n).Legs {
			for _, m := range l.Moves {
				*[]*float64{&stands.x, &stands.a}[m.Axis] = s.Unit(m.Axis, m.To)
			}
			together += len(l.Moves) / 2
			want = append(want, stands)
		}
	}
	assert.Positive(t, together)
	for k, m := range read(t, program) {
		if m.dwell == 0 && k >= 4 { // what goes to the first frame
			got = append(got, m)
		}
	}
	require.GreaterOrEqual(t, len(got), len(want))
	for k := range want {
		assert.InDelta(t, want[k].x, got[k].x, wordGrain, "leg %d", k)
		assert.InDelta(t, want[k].a, got[k].a, wordGrain, "leg %d", k)
	}
}

// A board of software that counts a degree as 5 mm turns no faster than gently for that, and
// one that is told times no faster either.
func TestFeedsFrameByFrame(t *testing.T) {
	for _, change := range []func(c *rig.Controller){
		func(c *rig.Controller) { c.DegreeAs = 5 },
		func(c *rig.Controller) { c.DegreeAs, c.Feed = 5, rig.InverseTime },
	} {
		program, _, r := single(t, wired, gcode.Options{NoStop: true}, func(r *rig.Rig) { change(&r.Controller) })
		v := stepwise.GentleSpeed(r.Axes[1])
		assert.InDelta(t, v, fastest(t, program, r, 1), 0.03*v)
		assert.Contains(t, program, fmt.Sprintf("\nG1 A51.4 F%.0f\n", v*5*60), "alone, back to the first frame")
	}
}

// fastest is the greatest speed of an axis by its steps in a twentieth of a second.
func fastest(t *testing.T, program string, r rig.Rig, axis int) (v float64) {
	board := play(t, program, r)
	const look = 0.05
	for sec := 0.0; sec < board.Now().Seconds(); sec += look {
		v = max(v, math.Abs(board.Record().At(sec + look)[axis]-board.Record().At(sec)[axis])/look)
	}
	return v
}

// A release is pressed as long as a finger does at least, and longer than the camera exposes
// where it has to be; that is in the time of a frame.
func TestAPressLongerThanTheExposure(t *testing.T) {
	for pulse, dwell := range map[float64]string{0: "0.05", 0.7: "0.7"} {
		program, s, r := single(t, wired, gcode.Options{NoStop: true}, func(r *rig.Rig) { r.Outputs[0].Pulse = pulse })
		assert.Equal(t, 8, strings.Count(program, "\nM8\nG4 P"+dwell+"\nM9\n"))
		var on []float64
		board := play(t, program, r)
		for _, x := range board.Record().Switches() {
			if x.On {
				on = append(on, x.Seconds)
			}
		}
		for k := range on {
			assert.InDelta(t, s.Frame(int64(k)).Opens.Float(), on[k]-on[0], 0.05+0.004*float64(k))
		}
	}
}
