package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

func decode(t *testing.T, text string, over ...source.Override) shot.Shot {
	t.Helper()
	s, err := shot.Decode("lamp.toml", []byte(text), over)
	require.NoError(t, err)
	return s
}

// ways are those of a move there and back.
func ways(t *testing.T, m shot.AxisMove) move.Ways {
	t.Helper()
	s, ok := m.Does.(move.Shuttle)
	require.True(t, ok, m.Kind())
	return s.Going()
}

func TestDecode(t *testing.T) {
	s := decode(t, sound["everything"])
	assert.Equal(t, "Lantern", s.Title)
	assert.Equal(t, "lamp.toml", s.File)
	assert.Equal(t, "bench.toml", s.RigFile)
	assert.Nil(t, s.Rig)
	assert.Equal(t, "1/5", s.Clock.Retime.String())
	assert.EqualValues(t, 144, s.Loop.Screen)
	assert.Equal(t, "6/5", s.Loop.Real().String())
	assert.Equal(t, 5, s.Rounds)
	assert.EqualValues(t, 12, s.Handles)
	assert.EqualValues(t, 3600*24+12, s.Start)
	m, ok := s.Axis("rail")
	require.True(t, ok)
	assert.Equal(t, 8, m.Line)
	w := ways(t, m)
	assert.Equal(t, "40 mm", w.From.String())
	assert.Equal(t, "100 mm", w.To.String())
	assert.Equal(t, "seven-segment", w.Out.Name())
	assert.Equal(t, "trapezoidal", w.Back.Name())
	assert.Equal(t, 2, w.Cycles)
	assert.Equal(t, "2/5", w.OutShare.String())
	assert.Equal(t, "1/4", w.Phase.String())
	_, ok = s.Axis("boom")
	assert.False(t, ok)
}

// Twelve frames at 24 are half a second on screen, and a tenth of a second of
// a rig filmed at 120; a quarter of a second on screen is a twentieth.
func TestOnScreenTimeBecomesReal(t *testing.T) {
	m, _ := decode(t, sound["everything"]).Axis("rail")
	assert.Equal(t, "1/10", ways(t, m).DwellFar.String())
	assert.Equal(t, "1/20", ways(t, m).DwellNear.String())
	m, _ = decode(t, sound["keys"]).Axis("pan")
	k := m.Does.(move.Keys)
	require.Len(t, k.Keys, 2)
	assert.Equal(t, "1/20", k.Keys[0].Hold.String())
	assert.Equal(t, "3/5", k.Keys[1].At.String())
	assert.Equal(t, "10 deg/s", k.Keys[1].Speed.String()) // 2 deg/s on screen
	assert.Nil(t, k.Keys[0].Speed)
	assert.False(t, k.Monotone)
	m, _ = decode(t, strings.Replace(sound["keys"], `"smooth"`, `"monotone"`, 1)).Axis("pan")
	assert.True(t, m.Does.(move.Keys).Monotone)
}

func TestEveryDefaultIsTold(t *testing.T) {
	var got []string
	for _, d := range decode(t, base).Defaults {
		got = append(got, d.Key+" "+d.Value)
		assert.NotEmpty(t, d.Why, d.Key)
	}
	assert.Equal(t, []string{
		"clock.retime 1/5", "clock.rounding nearest",
		"take.rounds 3", "take.handles 0 frames", "take.drop-frame false", "take.timecode 00:00:00:00",
		"axis.rail.law 3-4-5", "axis.rail.back-law 3-4-5", "axis.rail.cycles 1",
		"axis.rail.out-share 1/2", "axis.rail.phase 0", "axis.rail.dwell-far 0 frames", "axis.rail.dwell-near 0 frames",
	}, got)
	assert.Empty(t, decode(t, sound["everything"]+"[axis.focus]\nmove = \"hold\"\nat = \"1 deg\"\n").Defaults[2:],
		"only retime and rounding are left out")
}

func TestInlineRig(t *testing.T) {
	s := decode(t, inlineRig)
	require.NotNil(t, s.Rig)
	assert.Equal(t, "Bench", s.Rig.Name)
	assert.Empty(t, s.RigFile)
	assert.Contains(t, s.Defaults, shot.Default{Key: "rig.axis.rail.letter", Value: "X", Why: "the first free letter of a linear axis"})
	assert.Contains(t, s.Defaults, shot.Default{Key: "axis.rail.move", Value: "hold", Why: "as its keys say"})
	other := decode(t, inlineRig, source.Override{Path: "rig.file", Text: "other.toml", Origin: "--rig"})
	assert.Equal(t, "other.toml", other.RigFile)
}

func TestAnInlineRigHasItsOwnFaults(t *testing.T) {
	_, err := shot.Decode("f", []byte(strings.Replace(inlineRig, `"400 mm/s"`, `"fast"`, 1)), nil)
	assert.ErrorContains(t, err, `f:9:9: axis rail: speed "fast" does not begin with a number`)
}

func TestOverrides(t *testing.T) {
	s := decode(t, base,
		source.Override{Path: "axis.rail.from", Text: "60 mm", Origin: "--from"},
		source.Override{Path: "clock.loop", Text: "3 s", Origin: "--loop"},
		source.Override{Path: "axis.table.turns", Text: "1/6", Origin: "--turns"})
	require.Len(t, s.Axes, 2)
	assert.Equal(t, "60 mm", ways(t, s.Axes[0]).From.String())
	assert.EqualValues(t, 72, s.Loop.Screen)
	assert.Equal(t, "table", s.Axes[1].Name)
	assert.Equal(t, "--turns", s.Axes[1].Origin)
	_, err := shot.Decode("f", []byte(base), []source.Override{{Path: "axis.rail.from", Text: "60", Origin: "--from"}})
	require.Error(t, err)
	assert.Equal(t, `--from: axis rail: from "60" needs a unit, such as "60 mm" or "60 deg"`, err.Error())
}

func TestAxesKeepTheOrderOfTheFile(t *testing.T) {
	s := decode(t, base+"[axis.zoom]\nat = \"1 mm\"\n[axis.arm]\nat = \"1 mm\"\n")
	assert.Equal(t, "rail", s.Axes[0].Name)
	assert.Equal(t, "zoom", s.Axes[1].Name)
	assert.Equal(t, "arm", s.Axes[2].Name)
}

func TestEveryMoveHasATrack(t *testing.T) {
	for name, file := range sound {
		s := decode(t, file)
		for _, m := range s.Axes {
			track, err := m.Track(s.Loop.Real())
			if aim, follows := m.Does.(move.Follower); follows {
				require.Error(t, err, "it has no track of its own")
				carriage, _ := s.Axis(aim.Carriage())
				followed, e := carriage.Track(s.Loop.Real())
				require.NoError(t, e, name)
				track, err = aim.Aimed(followed)
			}
			require.NoError(t, err, name)
			assert.True(t, track.Period().Equal(s.Loop.Real()), name)
		}
	}
	m, _ := decode(t, sound["turn"]).Axis("table")
	track, err := m.Track(decode(t, sound["turn"]).Loop.Real())
	require.NoError(t, err)
	assert.Equal(t, "-60", track.Advance().String())
	assert.Equal(t, 90., track.At(0).Pos)
	_, err = shot.AxisMove{}.Track(decode(t, base).Loop.Real())
	assert.Error(t, err)
}

func TestEveryLawCanBeNamed(t *testing.T) {
	for _, name := range law.Names() {
		m, _ := decode(t, base+"law = \""+name+"\"\n").Axis("rail")
		assert.Equal(t, name, ways(t, m).Out.Name())
		assert.Equal(t, name, ways(t, m).Back.Name())
	}
}

func TestOtherMoves(t *testing.T) {
	m, _ := decode(t, base).Axis("rail")
	l, err := law.Named("cycloidal")
	require.NoError(t, err)
	other := ways(t, m.WithLaw(l))
	assert.Equal(t, "cycloidal", other.Out.Name())
	assert.Equal(t, "cycloidal", other.Back.Name())
	assert.Equal(t, "3-4-5", m.Law().Name(), "the move itself stays as it was")
}

func TestCheckKind(t *testing.T) {
	for _, c := range []struct {
		name, axis string
		rotary     bool
		want       string
	}{
		{"there and back", "rail", false, ""},
		{"there and back", "rail", true, "from 40 mm must be an angle, as the axis is rotary; such as 90 deg"},
		{"turn", "table", true, ""},
		{"turn", "table", false, `move "turn" must be on a rotary axis, and this one is linear; there-and-back, keys or hold would do`},
		{"hold", "focus", false, "at 12 deg must be a length, as the axis is linear; such as 240 mm"},
		{"keys", "pan", true, ""},
		{"keys", "pan", false, "keys[1].pos 10 deg must be a length, as the axis is linear; such as 240 mm"},
	} {
		m, ok := decode(t, sound[c.name]).Axis(c.axis)
		require.True(t, ok)
		f := m.CheckKind(c.rotary)
		if c.want == "" {
			assert.Nil(t, f, c.name)
			continue
		}
		require.NotNil(t, f, c.name)
		assert.Equal(t, c.want, f.String())
	}
	m := shot.AxisMove{Does: move.Keys{Advance: decode(t, base).Loop.Real()}}
	assert.NotNil(t, m.CheckKind(false), "a rail cannot go round")
}
