package starter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

func TestThePairIsSound(t *testing.T) {
	s, err := shot.Decode(starter.ShotName, starter.Shot(), nil)
	require.NoError(t, err)
	r, defaults, err := rig.Decode(starter.RigName, starter.Rig())
	require.NoError(t, err)
	assert.Empty(t, defaults, "a rig to learn from says everything")
	assert.Equal(t, starter.RigName, s.RigFile)
	require.Len(t, s.Axes, 2)
	for _, m := range s.Axes {
		axis, ok := r.Axis(m.Name)
		require.True(t, ok, m.Name)
		assert.Nil(t, m.CheckKind(axis.Kind == rig.Rotary))
	}
}

// The numbers that the notes in the files promise.
func TestTheNotesAreTrue(t *testing.T) {
	s, err := shot.Decode(starter.ShotName, starter.Shot(), nil)
	require.NoError(t, err)
	assert.Equal(t, "1/5", s.Clock.Retime.String())
	assert.EqualValues(t, 144, s.Loop.Screen)
	r, _, err := rig.Decode(starter.RigName, starter.Rig())
	require.NoError(t, err)
	rail, _ := r.Axis("rail")
	table, _ := r.Axis("table")
	assert.True(t, rail.StepsPerUnit.Equal(exact.Int(80)), rail.StepsPerUnit)
	assert.True(t, table.StepsPerUnit.Equal(exact.Int(160)), table.StepsPerUnit)
}

// Every limit holds, by the tracks alone.
func TestThePairIsWithinItsLimits(t *testing.T) {
	s, err := shot.Decode(starter.ShotName, starter.Shot(), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode(starter.RigName, starter.Rig())
	require.NoError(t, err)
	for _, m := range s.Axes {
		axis, _ := r.Axis(m.Name)
		track, err := m.Track(s.Loop.Real())
		require.NoError(t, err)
		x := track.Extremes()
		assert.Less(t, x.Speed.Value, axis.SpeedCap(r.Controller.StepRate), m.Name)
		assert.Greater(t, x.Speed.Value, -axis.SpeedCap(r.Controller.StepRate), m.Name)
		assert.Less(t, max(x.Acc.Value, -x.Acc.Value), axis.MaxAcc, m.Name)
		assert.Less(t, max(x.Jerk.Value, -x.Jerk.Value), axis.MaxJerk, m.Name)
	}
}

// Each ready controller is what its kind fills in, and says all of it.
func TestReadyControllers(t *testing.T) {
	for _, kind := range rig.Kinds() {
		t.Run(kind.String(), func(t *testing.T) {
			r, defaults, err := rig.Decode(starter.RigName, starter.RigWith(kind))
			require.NoError(t, err)
			assert.NoError(t, check(t, compile(t, rig.Schema()), starter.RigWith(kind)))
			if !kind.Driven() {
				assert.Len(t, defaults, 2, "its clock is not measured, and no jerk is stated")
				assert.NotEmpty(t, r.Controller.Buttons.Times)
				return
			}
			assert.Empty(t, defaults)
			want := kind.Defaults()
			want.StepRate, want.IdleStated = 40000, true
			assert.Equal(t, want, r.Controller)
			require.Len(t, r.Axes, 2)
			for _, a := range r.Axes {
				assert.GreaterOrEqual(t, a.Settings.Acceleration, a.MaxAcc)
				assert.Equal(t, kind == rig.Buffered, a.Settings.StepsName != "")
			}
		})
	}
}
