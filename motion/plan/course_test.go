package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

const stages = `
shot = "stages"
[clock]
capture = "120"
playback = "24"
retime = "1/5"
loop = "6 s"

[take]
rounds = 3
[rig]
rig = "bench"
[rig.controller]
kind = "step-player"
[rig.axis.rail]
kind = "linear"
belt = { pitch = "2 mm", teeth = 20 }
motor-steps = 200
microsteps = 16
speed = "400 mm/s"
acceleration = "3000 mm/s2"
jerk = "100000 mm/s3"
travel = ["0 mm", "400 mm"]
[rig.axis.table]
kind = "rotary"
travel = "endless"
gear = "72:1"
motor-steps = 200
microsteps = 16
speed = "180 deg/s"
acceleration = "720 deg/s2"
[rig.axis.pan]
kind = "rotary"
travel = ["-60 deg", "60 deg"]
speed = "90 deg/s"
acceleration = "400 deg/s2"
gear = "36:1"
motor-steps = 200
microsteps = 8
[axis.rail]
`

const carried = `
[axis.table]
move = "turn"
turns = "1/6"
[axis.pan]
move = "aim"
follow = "rail"
as = "pan"
point = ["200 mm", "400 mm"]
`

// TestAStageChangesNothingItIsGiven: a stage that wrote into the course before it
// would have the limits of a way back that was tried and given up held against the one
// that is taken.
func TestAStageChangesNothingItIsGiven(t *testing.T) {
	through := "move = \"through\"\nfrom = \"80 mm\"\nto = \"320 mm\"\n"
	keyed := "move = \"keys\"\nkeys = [{ at = \"0 s\", pos = \"60 mm\" }, { at = \"3 s\", pos = \"300 mm\" }]\n"
	for name, c := range map[string]struct {
		rail  string
		stage func(course) course
	}{
		"the way back": {through, func(c course) course {
			out, faults := c.closed()
			require.Empty(t, faults)
			require.Positive(t, out.back)
			return out
		}},
		"ramps": {through, func(c course) course {
			out := c.ramped()
			require.NotNil(t, out.axes[0].RunUp)
			return out
		}},
		"what follows": {through, func(c course) course {
			out, faults := c.followed()
			require.Empty(t, faults)
			require.NotSame(t, c.axes[2].Track, out.axes[2].Track)
			return out
		}},
		"the time scale": {keyed, func(c course) course {
			out, bound, faults := c.quickest(false)
			require.Empty(t, faults)
			require.Positive(t, bound)
			require.NotEqual(t, c.loop.Captured, out.loop.Captured)
			return out
		}},
	} {
		t.Run(name, func(t *testing.T) {
			s, err := shot.Decode("stages.toml", []byte(stages+c.rail+carried), nil)
			require.NoError(t, err)
			j, faults := join(s, *s.Rig)
			require.Empty(t, faults)
			before := j.course
			before.axes = slices.Clone(before.axes)
			c.stage(j.course)
			assert.Equal(t, before, j.course)
			for i := range before.axes {
				assert.Same(t, before.axes[i].Track, j.course.axes[i].Track, "the very track that it was given")
			}
		})
	}
}

// TestAPaceThatCannotBeFollowedIsAnError: an axis that has no track at the schedule's pace
// is not driven along the one before it, nor along none. A loop of no frames has none.
func TestAPaceThatCannotBeFollowedIsAnError(t *testing.T) {
	keyed := "move = \"keys\"\nkeys = [{ at = \"0 s\", pos = \"60 mm\" }, { at = \"3 s\", pos = \"300 mm\" }]\n"
	s, err := shot.Decode("stages.toml", []byte(stages+keyed+carried), nil)
	require.NoError(t, err)
	j, faults := join(s, *s.Rig)
	require.Empty(t, faults)
	pace, err := j.course.schedule()
	require.NoError(t, err)
	none := j.course.loop
	none.Captured = 0
	_, err = j.course.paced(pace, none)
	require.ErrorContains(t, err, "a loop of 0 s must be longer than 0 s")
}

// TestTheFirstCarriageCounts: loops are looked for by how often the first that goes there
// and back does, once as well, whatever others do; once where none does.
func TestTheFirstCarriageCounts(t *testing.T) {
	going := func(cycles int) Axis {
		return Axis{Move: shot.AxisMove{Does: move.ThereAndBack{Ways: move.Ways{Cycles: cycles}}}}
	}
	assert.Equal(t, int64(1), (&Plan{Axes: []Axis{going(1), going(3)}}).cycles())
	assert.Equal(t, int64(3), (&Plan{Axes: []Axis{going(3), going(1)}}).cycles())
	turning := Axis{Move: shot.AxisMove{Does: move.Turn{}}}
	assert.Equal(t, int64(2), (&Plan{Axes: []Axis{turning, going(2)}}).cycles())
	assert.Equal(t, int64(1), (&Plan{Axes: []Axis{turning}}).cycles())
}
