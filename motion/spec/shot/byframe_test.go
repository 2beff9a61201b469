package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/spec/shot"
)

// stills is a shot taken frame by frame.
const stills = `
[clock]
playback = "24"
loop = "144 frames"
[frame-by-frame]
exposure = "2 s"
output = "release"
every = "10 s"
[rig]
file = "bench.toml"
[axis.rail]
from = "40 mm"
to = "100 mm"
`

func init() { sound["frame by frame"] = stills }

func TestFrameByFrame(t *testing.T) {
	s, err := shot.Decode("f", []byte(stills), nil)
	require.NoError(t, err)
	assert.Equal(t, &shot.ByFrame{
		Exposure: exact.Int(2), Output: "release", Foretold: true, Card: exact.New(1, 2), Every: exact.Int(10), Asked: true, Line: 5,
	}, s.ByFrame)
	assert.Equal(t, "1/10", s.Clock.Capture.String(), "a captured frame every 10 s")
	assert.Equal(t, 1, s.Rounds)
	assert.Nil(t, s.Scene)

	// The shutter of the camera is the exposure, and the other way round.
	camera, err := shot.Decode("f", []byte(strings.Replace(stills, "exposure = \"2 s\"\n", "", 1)+"[camera]\nshutter = \"1/2 s\"\n"), nil)
	require.NoError(t, err)
	assert.Equal(t, "1/2", camera.ByFrame.Exposure.String())
	camera, err = shot.Decode("f", []byte(stills+"[camera]\niso = 100\n"), nil)
	require.NoError(t, err)
	assert.InDelta(t, 2, camera.Scene.Camera.Shutter.Value, 0)

	// A hand is waited for, or has its time.
	hand, err := shot.Decode("f", []byte(strings.Replace(stills, "output = \"release\"\nevery = \"10 s\"\n", "", 1)), nil)
	require.NoError(t, err)
	assert.True(t, hand.ByFrame.Waits)
	assert.False(t, hand.ByFrame.Asked)
	hand, err = shot.Decode("f", []byte(strings.Replace(stills, `output = "release"`, `hand = "3 s"`, 1)), nil)
	require.NoError(t, err)
	assert.False(t, hand.ByFrame.Waits)
	assert.Equal(t, "11/2", hand.ByFrame.Least().String())
}

func TestFrameByFrameFaults(t *testing.T) {
	const alone = "goes by a camera that runs, and this one is exposed frame by frame"
	for _, c := range []struct{ old, new, want string }{
		{`"2 s"`, `"0 s"`, `6:12: frame-by-frame.exposure "0 s" must be above 0 and at most a day`},
		{`"2 s"`, `"2 mm"`, `6:12: frame-by-frame.exposure "2 mm" is a length`},
		{`exposure = "2 s"`, ``, `5:2: frame-by-frame.exposure is missing`},
		{`every = "10 s"`, `every = "2.4 s"`, `8:9: frame-by-frame.every "2.4 s" must be at least 2.5 s, without any move`},
		{`every = "10 s"`, `every = "2 days"`, `8:9: frame-by-frame.every "2 days" has an unknown unit`},
		{`every = "10 s"`, `settle = "soon"`, `8:10: frame-by-frame.settle "soon" does not begin with a number`},
		{`every = "10 s"`, `shutter = "blub"`, `8:11: frame-by-frame.shutter "blub" must be one of camera, bulb; did you mean "bulb"?`},
		{`every = "10 s"`, `approach = "left"`, `8:12: frame-by-frame.approach "left" must be one of as-it-comes, one-side`},
		{`every = "10 s"`, `hand = "taken"`, `8:8: frame-by-frame.hand "taken" is given, and so is an output that takes the frames`},
		{`output = "release"`, `hand = "taken"`, `8:9: frame-by-frame.every "10 s" cannot be kept while each frame waits`},
		{`every = "10 s"`, "settle = \"1 s\"\nstill = \"0.1 mm\"", `9:9: frame-by-frame.still "0.1 mm" bounds what is foretold, and settle is stated`},
		{`every = "10 s"`, `still = "0 mm"`, `8:9: frame-by-frame.still "0 mm" must be above 0 mm`},
		{`playback =`, "capture = \"24\"\nplayback =", `3:11: clock.capture "24" ` + alone},
		{`playback =`, "retime = \"1/2\"\nplayback =", `3:10: clock.retime "1/2" ` + alone},
		{`playback =`, "pace = \"quickest\"\nplayback =", `3:8: clock.pace "quickest" ` + alone},
		{`[rig]`, "[[cue]]\nname = \"bead\"\nat = \"turnaround\"\n[rig]", `9:3: cue[1] ` + alone},
		{`[rig]`, "[sync-mark]\nwith = \"click\"\n[rig]", `9:2: sync-mark ` + alone},
		{`[rig]`, "[spin.display]\n[rig]", `9:7: spin.display turns by itself and waits for no frame`},
		{`[rig]`, "[camera]\nshutter = \"1 s\"\n[rig]", `6:12: frame-by-frame.exposure "2 s" is given, and so is camera.shutter`},
		{`[rig]`, "[camera.pull]\n[rig]", `9:9: camera.pull ` + alone},
	} {
		_, err := shot.Decode("f", []byte(strings.Replace(stills, c.old, c.new, 1)), nil)
		require.Error(t, err, c.want)
		assert.Contains(t, err.Error(), "f:"+c.want)
	}
}
