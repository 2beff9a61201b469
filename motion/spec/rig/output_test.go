package rig_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/rig"
)

// withOutputs is a rig of a kind with tables of outputs.
func withOutputs(kind, outputs string) []byte {
	return []byte("[controller]\nkind = \"" + kind + "\"\n[axis.rail]\ntravel = [\"0 mm\", \"10 mm\"]\nspeed = \"5 mm/s\"\nacceleration = \"5 mm/s2\"\nsteps = \"80 per mm\"\n" + outputs)
}

func TestOutputs(t *testing.T) {
	r, defaults, err := rig.Decode("b", withOutputs("buffered", `
[output.lamp]
on = "m08"
[output.release]
on = "M3S1000"
serves = "shutter"
late = "60 ms"
late-uncertainty = "8 ms"
shortest-pulse = "0.3 s"
[output.sound]
on = "M42 P13 S255"
off = "M42 P13 S0"
serves = "recorder"
`))
	require.NoError(t, err)
	require.Equal(t, []rig.Output{
		{Name: "lamp", On: "M8", Off: "M9", Serves: rig.ServesLamp, Unsure: 0.01, Pulse: 0.05},
		{Name: "release", On: "M3 S1000", Off: "M5", Serves: rig.ServesShutter, Late: 0.06, Unsure: 0.008, Pulse: 0.3},
		{Name: "sound", On: "M42 P13 S255", Off: "M42 P13 S0", Serves: rig.ServesRecorder, Unsure: 0.05, Pulse: 0.2},
	}, r.Outputs)
	assert.Equal(t, []string{"lamp", "release", "sound"}, r.OutputNames())
	_, ok := r.Output("lamp")
	assert.True(t, ok)
	_, ok = r.Output("bell")
	assert.False(t, ok)
	assert.False(t, r.Controller.DoubtfulOutput(r.Outputs[0]))
	assert.False(t, r.Controller.DoubtfulOutput(r.Outputs[1]))
	assert.True(t, r.Controller.DoubtfulOutput(r.Outputs[2]), "M42 is of other boards")
	assert.Contains(t, defaults, rig.Default{Key: "output.lamp.off", Value: "M9", Why: "what ends M8 in RS-274/NGC"})

	r, _, err = rig.Decode("b", withOutputs("step-player", "[output.lamp]\nnumber = 8\n"))
	require.NoError(t, err)
	assert.Equal(t, 8, r.Outputs[0].Number)
	assert.False(t, r.Controller.DoubtfulOutput(r.Outputs[0]))
	for _, k := range rig.DrivenKinds() {
		assert.NotEmpty(t, k.SwitchesHow(), k)
	}
}

func TestFaultsOfOutputs(t *testing.T) {
	for _, c := range []struct{ kind, text, want string }{
		{"buffered", `[output.lamp]`, `output.lamp.on is missing; give it, such as on = "M8"`},
		{"buffered", "[output.lamp]\non = \"G1 X10\"", `output.lamp.on "G1 X10" must be an M word with no other words beside it than P, Q and S`},
		{"buffered", "[output.lamp]\non = \"M8 X10\"", "must be an M word with no other words beside it"},
		{"buffered", "[output.lamp]\non = \"M8\\nG1 X10\"", "must be an M word with no other words beside it"},
		{"buffered", "[output.lamp]\non = \"M30\"\noff = \"M9\"", "must not be a word that stops, ends or lets go of the motors"},
		{"buffered", "[output.lamp]\non = \"M018\"\noff = \"M9\"", "must not be a word that stops"},
		{"buffered", "[output.lamp]\non = \"M62 P0\"", `output.lamp.off is missing; give it, such as off = "M63 P0"`},
		{"lockstep", "[output.lamp]\non = \"M42 P13 S255\"", `output.lamp.off is missing; give it, such as off = "M42 P13 S0"`},
		{"buffered", "[output.lamp]\non = \"M8\"\noff = \"M8\"", `output.lamp.off "M8" must not be what switches it on`},
		{"buffered", "[output.lamp]\non = \"M8\"\nnumber = 1", `output.lamp.number "1" is of use to a step player alone`},
		{"buffered", "[output.lamp]\non = \"M8\"\nserves = \"lampp\"", `must be one of lamp, shutter, recorder; did you mean "lamp"?`},
		{"buffered", "[output.lamp]\non = \"M8\"\nlate = \"-1 ms\"", `output.lamp.late "-1 ms" must be from 0 s to 2 s`},
		{"buffered", "[output.lamp]\non = \"M8\"\nlate = \"2.001 s\"", `must be from 0 s to 2 s`},
		{"buffered", "[output.lamp]\non = \"M8\"\nshortest-pulse = \"10.1 s\"", `must be from 0 s to 10 s`},
		{"buffered", "[output.twitch]\non = \"M8\"", `output.twitch must not be the word for a mark without an output`},
		{"buffered", "[output.lamp]\non = \"M3\"\n[output.bell]\non = \"M4\"", `output.bell.on "M4" switches output lamp on already, with M3`},
		{"buffered", "[output.lamp]\non = \"M8\"\n[output.bell]\non = \"M7\"", `output.bell.on "M7" ends by M9, which ends output lamp (M8) as well`},
		{"buffered", "[output.lamp]\non = \"M62 P0\"\noff = \"M63\"\n[output.bell]\non = \"M62 P1\"\noff = \"M63\"", `output.bell.on "M62 P1" ends by M63, which ends output lamp (M62 P0) as well`},
		{"buffered", "[output.lamp]\non = \"M8\"\n[output.bell]\non = \"M08\"", "switches output lamp on already"},
		{"buffered", "[output.\"my lamp\"]\non = \"M8\"", "must be a letter and then at most 31"},
		{"lockstep", "[output.lamp]\nonn = \"M8\"", `onn is not a key that means anything here; did you mean "on"?`},
		{"step-player", "[output.lamp]\non = \"M8\"\nnumber = 1", `output.lamp.on "M8" is of no use to a controller that reads no lines`},
		{"two-ends", "[output.lamp]\non = \"M8\"", `output.lamp is of no use: a two-ends rig is set and started by hand; leave it out`},
		{"step-player", "[output.lamp]", `output.lamp.number is missing`},
		{"step-player", "[output.lamp]\nnumber = 9", `output.lamp.number "9" must be from 1 to 8`},
		{"step-player", "[output.lamp]\nnumber = 2\n[output.bell]\nnumber = 2", `output.bell.number "2" is that of output lamp already; free: 1, 3, 4, 5, 6, 7, 8`},
	} {
		_, _, err := rig.Decode("b", withOutputs(c.kind, c.text))
		require.Error(t, err, c.text)
		assert.Contains(t, err.Error(), c.want)
	}
	many := ""
	for i := range 9 {
		many += "[output." + string(rune('a'+i)) + "]\non = \"M62 P" + string(rune('0'+i)) + "\"\noff = \"M63 P" + string(rune('0'+i)) + "\"\n"
	}
	_, _, err := rig.Decode("b", withOutputs("buffered", many))
	assert.ErrorContains(t, err, "output (9 of them) must be at most 8")
	_, _, err = rig.Decode("b", withOutputs("buffered", strings.Replace(many, "[output.i]\non = \"M62 P8\"\noff = \"M63 P8\"\n", "", 1)))
	assert.NoError(t, err)
	_, _, err = rig.Decode("b", withOutputs("buffered", "[output.lamp]\non = \"M8\"\n[output.bell]\non = \"M7\"\noff = \"M107\"\n[output.sound]\non = \"M3\"\n"))
	assert.NoError(t, err, "each ends by a word of its own")
}

// TestABoardEndsAnExposure where its dwells are as long, but for what nobody sees.
func TestABoardEndsAnExposure(t *testing.T) {
	c := rig.Buffered.Defaults()
	for sec, want := range map[float64]float64{0.5: 0.5, 0.049: 0.05, 0.33: 0, 0.34: 0.35, 30.02: 30, 1.0 / 60: 0} {
		assert.InDelta(t, want, c.ExposureDwell(sec), 1e-9, "%g s", sec)
	}
	c.DwellGrain = 0
	assert.Equal(t, 0.33, c.ExposureDwell(0.33))
	assert.Equal(t, 0.33, rig.StepPlayer.Defaults().ExposureDwell(0.33))
}
