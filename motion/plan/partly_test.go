package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/plan"
	"seamrail/motion/spec/shot"
)

func decoded(t *testing.T, text string) shot.Shot {
	s, err := shot.Decode("test.toml", []byte(text), nil)
	require.NoError(t, err)
	return s
}

func names(p *plan.Plan) []string {
	var out []string
	for _, a := range p.Axes {
		out = append(out, a.Rig.Name)
	}
	for _, s := range p.Stands {
		out = append(out, s.Rig.Name)
	}
	return out
}

// TestWhatIsNotUnderstoodIsNotBlamed: an axis of the shot or of the rig that is not sound
// is left out of the plan, with whatever follows it, and the rest is planned. Where the
// loop is not known nothing has a track.
func TestWhatIsNotUnderstoodIsNotBlamed(t *testing.T) {
	for _, x := range []struct {
		name string
		set  func(*shot.Shot)
		want []string
	}{
		{"all", func(*shot.Shot) {}, []string{"rail", "table", "pan"}},
		{"the table", func(s *shot.Shot) { s.Axes[1].Faulty = true }, []string{"rail", "pan"}},
		{"the rail, which the pan follows", func(s *shot.Shot) { s.Axes[0].Faulty = true }, []string{"table"}},
		{"the rig's rail", func(s *shot.Shot) { s.Rig.Axes[0].Faulty = true }, []string{"table"}},
		{"the pan", func(s *shot.Shot) { s.Axes[2].Faulty = true }, []string{"rail", "table"}},
		{"the loop", func(s *shot.Shot) { s.Loop = clock.Loop{Clock: s.Loop.Clock} }, nil},
	} {
		s := decoded(t, across)
		s.Axes, s.Rig.Axes = slices.Clone(s.Axes), slices.Clone(s.Rig.Axes)
		x.set(&s)
		p, faults := plan.Partly(s, *s.Rig)
		assert.Empty(t, faults, x.name)
		assert.Equal(t, x.want, names(p), x.name)
		for _, a := range p.Axes {
			assert.NotNil(t, a.Track, x.name)
			assert.Nil(t, a.RunUp, "nothing has a run-up yet")
		}
		assert.Zero(t, p.Back)
	}
	// What is wrong with one of two is said, though the other is not understood.
	s := decoded(t, strings.Replace(across, "[axis.table]\nmove", "[axis.tabel]\nmove", 1))
	s.Axes = slices.Clone(s.Axes)
	s.Axes[2].Faulty = true
	p, faults := plan.Partly(s, *s.Rig)
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0].String(), "axis tabel: is not on the rig")
	assert.Equal(t, []string{"rail"}, names(p))
	s.Axes[1].Origin = "--axis"
	_, faults = plan.Partly(s, *s.Rig)
	require.Len(t, faults, 1)
	assert.Equal(t, "--axis", faults[0].File, "and where it was said")
	assert.Zero(t, faults[0].Line)
}

// TestAStandThatIsNotUnderstood is left out too; but a speed that it does not have is one
// all the same.
func TestAStandThatIsNotUnderstood(t *testing.T) {
	for _, x := range []struct {
		name  string
		set   func(*shot.Shot)
		stand bool
		fault string
	}{
		{"sound", func(*shot.Shot) {}, true, ""},
		{"its spin", func(s *shot.Shot) { s.Spins[0].Faulty = true }, false, ""},
		{"the rig's stand", func(s *shot.Shot) { s.Rig.Stands[0].Faulty = true }, false, ""},
		{"and a speed that it has", func(s *shot.Shot) { s.Spins[0].Faulty, s.Spins[0].Speed = true, "slow" }, false, ""},
		{"and one that it has not", func(s *shot.Shot) { s.Spins[0].Faulty, s.Spins[0].Speed = true, "fast" }, false, `spin.display.speed "fast" is not a speed of the stand; it has slow`},
		{"and none of whose is known", func(s *shot.Shot) {
			s.Spins[0].Faulty, s.Spins[0].Speed, s.Rig.Stands[0].Speeds = true, "fast", nil
		}, false, ""},
		{"the loop", func(s *shot.Shot) { s.Loop = clock.Loop{Clock: s.Loop.Clock} }, false, ""},
	} {
		s := decoded(t, display)
		s.Spins, s.Rig.Stands = slices.Clone(s.Spins), slices.Clone(s.Rig.Stands)
		x.set(&s)
		p, faults := plan.Partly(s, *s.Rig)
		assert.Equal(t, x.stand, len(p.Stands) == 1, x.name)
		if x.fault == "" {
			assert.Empty(t, faults, x.name)
		} else if assert.Len(t, faults, 1, x.name) {
			assert.Contains(t, faults[0].String(), x.fault)
			assert.Positive(t, faults[0].Line)
		}
	}
	p, err := planned(t, display)
	require.NoError(t, err)
	require.Len(t, p.Defaults[len(p.Defaults)-1:], 1)
	assert.Equal(t, shot.Default{Key: "spin.display.speed", Value: "slow", Why: "the only one the stand has"}, p.Defaults[len(p.Defaults)-1])
	still, err := planned(t, strings.Replace(display, "from = \"40 mm\"\nto = \"100 mm\"\ncycles = 2", "move = \"hold\"\nat = \"40 mm\"", 1))
	require.NoError(t, err)
	assert.EqualValues(t, 1, still.SpinQuery().Cycles, "where nothing goes there and back")
}

// TestAFollowerIsGivenTime: a pan that aims from the rail turns as the rail comes back, and
// may be too slow for the quickest way; then all take longer.
func TestAFollowerIsGivenTime(t *testing.T) {
	quick := must(t, across)
	slow := must(t, strings.Replace(across, `speed = "90 deg/s"`, `speed = "56 deg/s"`, 1)) // in the loop it turns at 28.6
	require.Empty(t, slow.Breaches())
	assert.Greater(t, slow.Back, quick.Back)
	assert.Less(t, slow.Back, 4*quick.Back)
	s := look(slow.Loop.Real().Float(), slow.Period(), nil, slow.Axes[2].Track.At)
	assert.LessOrEqual(t, s.speed, 56.0)
	wild := look(quick.Loop.Real().Float(), quick.Period(), nil, quick.Axes[2].Track.At)
	assert.Greater(t, wild.speed, 56.0, "or it would not be needed")
}
