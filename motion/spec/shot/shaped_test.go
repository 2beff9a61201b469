package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
)

const shapedShot = `[clock]
capture = "120"
playback = "24"
loop = "6 s"
[rig]
file = "bench.toml"
[axis.rail]
from = "40 mm"
to = "100 mm"
dwell-far = "12 frames"
shaped = "zv"
[axis.table]
turns = "1/6"
law = "3-4-5"
shaped = "zvd"
[axis.pan]
keys = [{ at = "0 frames", pos = "0 deg", hold = "24 frames" }, { at = "72 frames", pos = "30 deg" }]
shaped = "zv"
`

func shapedMoves(t *testing.T) (shot.Shot, map[string]shot.AxisMove) {
	t.Helper()
	s, err := shot.Decode("s", []byte(shapedShot), nil)
	require.NoError(t, err)
	out := map[string]shot.AxisMove{}
	for _, m := range s.Axes {
		out[m.Name] = m
	}
	return s, out
}

// A shaped move takes as long, rests as long, reaches the same ends.
func TestShapedMovesKeepTheirTimesAndEnds(t *testing.T) {
	s, moves := shapedMoves(t)
	load := spring.Spring{Frequency: 12, Damping: 0.03}
	assert.Equal(t, vibration.ZV, moves["rail"].Shaped)
	period := s.Loop.Real() // 1.2 s

	rail, err := moves["rail"].ShapedTrack(period, load)
	require.NoError(t, err)
	assert.True(t, rail.Period().Equal(period))
	e := rail.Extremes()
	assert.InDelta(t, 40, e.Min.Value, 1e-9)
	assert.InDelta(t, 100, e.Max.Value, 1e-9)
	dwells := rail.Dwells()
	require.Len(t, dwells, 1)
	assert.InDelta(t, 0.1, dwells[0].To-dwells[0].From, 1e-9, "twelve frames are a tenth of a real second")
	plain, err := func() (any, error) {
		m := moves["rail"]
		m.Shaped = 0
		return m.ShapedTrack(period, spring.Spring{})
	}()
	require.NoError(t, err, "what is not shaped needs no spring")
	require.NotNil(t, plain)

	table, err := moves["table"].ShapedTrack(period, load)
	require.NoError(t, err)
	assert.True(t, table.Advance().Equal(exact.Int(60)))
	assert.InDelta(t, 0, table.At(0).Pos, 1e-12)
	assert.InDelta(t, 60, table.Before(1.2).Pos, 1e-9)
	assert.Empty(t, table.Dwells(), "it turns for the whole loop")
	r, err := vibration.Of(table, load)
	require.NoError(t, err)
	assert.Less(t, load.Swing(r.At(0)), 60*1e-7)

	pan, err := moves["pan"].ShapedTrack(period, load)
	require.NoError(t, err)
	assert.InDelta(t, 0, pan.At(0.1).Pos, 1e-9, "the middle of its hold, which is longer than the swing")
	assert.InDelta(t, 30, pan.At(0.6).Pos, 1)
}

func TestShapedFaults(t *testing.T) {
	_, moves := shapedMoves(t)
	_, err := moves["rail"].ShapedTrack(exact.New(6, 5), spring.Spring{})
	assert.ErrorIs(t, err, shot.ErrNoSpring)
	for name, want := range map[string]string{
		"rail":  "leave no time to move",
		"table": "leave time to turn",
		"pan":   "shorter than the swing",
	} {
		_, err := moves[name].ShapedTrack(exact.New(6, 5), spring.Spring{Frequency: 0.3, Damping: 0.02})
		require.ErrorContains(t, err, want, name)
	}
	odd := moves["rail"]
	odd.Does = move.Hold{}
	_, err = odd.ShapedTrack(exact.Int(1), spring.Spring{Frequency: 5})
	assert.ErrorContains(t, err, "cannot be shaped")

	for _, c := range []struct{ old, new, want string }{
		{`loop = "6 s"`, "loop = \"6 s\"\npace = \"quickest\"", `shaped "zv" cannot go with pace = "quickest"`},
		{`shaped = "zvd"`, `shaped = "zvx"`, `shaped "zvx" must be`},
		{`law = "3-4-5"`, `law = "uniform"`, `shaped "zvd" has nothing to cancel`},
		{`from = "40 mm"
to = "100 mm"
dwell-far = "12 frames"
`, "at = \"3 mm\"\n", `shaped does not belong to the move "hold"`},
	} {
		require.Contains(t, shapedShot, c.old)
		_, err := shot.Decode("s", []byte(strings.Replace(shapedShot, c.old, c.new, 1)), nil)
		assert.ErrorContains(t, err, c.want)
	}
}
