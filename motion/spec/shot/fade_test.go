package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/fault"
	"seamrail/motion/fade"
	"seamrail/motion/spec/shot"
)

const lamp = base + "[[scene.lamps]]\nname = \"key\"\n"

// Times of a fade are on screen, as all times of a shot: a frame at 24 shown of 120 is a
// 120th of a second.
func TestFadesAreRead(t *testing.T) {
	s, err := shot.Decode("f", []byte(lamp+`fade = { from = "0 %", to = "85 %", law = "cycloidal", dwell-far = "12 frames", cycles = 2 }
curve = "square"
source = "filament"
by = "hand"
hand = "left"
beats = 2
`), nil)
	require.NoError(t, err)
	l := s.Scene.Lamps[0]
	assert.Equal(t, fade.Square, l.Curve)
	assert.True(t, l.Filament)
	assert.Equal(t, "left", l.Hand)
	assert.EqualValues(t, 2, l.Beats)
	assert.Equal(t, "1/10", l.Fade.There.Going().DwellFar.String())
	assert.Equal(t, "from 0 % to 85 % and back 2 times, by the cycloidal law", l.Fade.Words())
	c, err := l.Fade.Over(s.Loop.Real())
	require.NoError(t, err)
	assert.InDelta(t, 0.85, c.Most(), 1e-12)

	s, err = shot.Decode("f", []byte(lamp+"keys = [{ at = \"0 frames\", level = \"0 %\" }, { at = \"1.5 s\", level = 0.85, hold = \"6 frames\" }]\nby = \"hand\"\n"), nil)
	require.NoError(t, err)
	l = s.Scene.Lamps[0]
	assert.Equal(t, []string{"0", "3/10"}, []string{l.Fade.Keys[0].Time.String(), l.Fade.Keys[1].Time.String()})
	assert.Equal(t, "1/20", l.Fade.Keys[1].Hold.String())
	assert.Nil(t, l.Fade.Between)
	assert.Equal(t, "hand", l.Hand)
	assert.EqualValues(t, 3, l.Beats)
	said := map[string]string{}
	for _, d := range s.Defaults {
		said[d.Key] = d.Value
	}
	assert.Equal(t, "linear", said["scene.lamps[1].curve"])
	assert.Equal(t, "smooth", said["scene.lamps[1].between"])
}

// A lamp that stays as it is has nothing filled in that it had not before.
func TestALampThatStaysFillsNothingIn(t *testing.T) {
	s, err := shot.Decode("f", []byte(lamp+"level = \"85 %\"\n"), nil)
	require.NoError(t, err)
	for _, d := range s.Defaults {
		assert.NotContains(t, d.Key, "lamps")
	}
	assert.Nil(t, s.Scene.Lamps[0].Fade)
}

func TestWrongFades(t *testing.T) {
	for lines, want := range map[string]string{
		`fade = { from = "0 %" }`:                                       `f:14:8: scene.lamps[1].fade.to is missing; give it, such as to = "85 %"`,
		`fade = { from = "0 %", to = "-5 %" }`:                          `f:14:29: scene.lamps[1].fade.to "-5 %" must be from 0 % to 100 %`,
		`fade = { from = "5 %", to = "0.05" }`:                          `f:14:29: scene.lamps[1].fade.to "0.05" must be somewhere else than from; to stay there, say level = "0.05" in place of the fade`,
		`fade = { from = "0 %", to = "85 mm" }`:                         `f:14:29: scene.lamps[1].fade.to "85 mm" is a length`,
		`fade = { from = "0 %", to = "9 %", law = "quiet" }`:            `f:14:42: scene.lamps[1].fade.law "quiet" is for what swings, and a lamp does not; "3-4-5" would do`,
		`fade = { from = "0 %", to = "9 %", dwell-far = "144 frames" }`: `f:14:48: scene.lamps[1].fade.dwell-far "144 frames" leaves no time to move`,
		`keys = []`: `f:12:9: scene.lamps[1].keys (0 of them) must be 1 to 256; such as keys = [{ at = "0 frames", level = "85 %" }, { at = "72 frames", level = "10 %" }]`,
		`keys = [{ at = "9 frames", level = "5 %" }]`:                                     `f:14:36: scene.lamps[1].keys[1].level "5 %" is where every key is, and the light does not change; to stay there, say level = "5 %" in place of the keys`,
		`keys = [{ at = "0 frames", level = "101 %" }]`:                                   `f:14:36: scene.lamps[1].keys[1].level "101 %" must be from 0 % to 100 %`,
		`keys = [{ at = "0 frames" }]`:                                                    `f:14:9: scene.lamps[1].keys[1].level is missing; give it, such as level = "85 %"`,
		`keys = [{ at = "-1 frames", level = "1 %" }]`:                                    `f:14:16: scene.lamps[1].keys[1].at "-1 frames" must be 0 or more`,
		`keys = [{ at = "144 frames", level = "1 %" }]`:                                   `f:14:16: scene.lamps[1].keys[1].at "144 frames" must be over, its hold too, before the loop comes round; the loop has 144 frames`,
		`keys = [{ at = "9 frames", level = "1 %" }, { at = "9 frames", level = "2 %" }]`: `f:14:52: scene.lamps[1].keys[2].at "9 frames" must come after the key before it and its hold; later than frame 9`,
		`keys = [{ at = "9 frames", level = "1 %" }, { at = "8 frames", level = "2 %" }]`: `f:14:52: scene.lamps[1].keys[2].at "8 frames" must come after the key before it and its hold`,
		"level = \"5 %\"\nfade = { from = \"0 %\", to = \"9 %\" }":                        `f:15:8: scene.lamps[1].fade says how bright the lamp is, and so does its level; keep one of the two`,
		"keys = [{ at = \"0 frames\", level = \"9 %\" }]\nbetween = \"cycloid\"":          `f:15:11: scene.lamps[1].between "cycloid" must be one of`,
		`between = "cycloidal"`:                                                           `f:14:11: scene.lamps[1].between "cycloidal" goes from key to key, and the lamp has none; a fade has a law`,
		`seam = "cut"`:                                                                    `f:14:8: scene.lamps[1].seam "cut" is of keys, and the lamp has none; a fade comes back by itself`,
		`by = "hand"`:                                                                     `f:14:6: scene.lamps[1].by "hand" has a hand dim what stays as it is`,
		`hand = "left"`:                                                                   `f:14:8: scene.lamps[1].hand "left" does nothing here; by = "hand" would have it dim the lamp`,
		`curve = "log"`:                                                                   `f:14:9: scene.lamps[1].curve "log" must be one of linear, square`,
		`source = "led"`:                                                                  `f:14:10: scene.lamps[1].source "led" must be one of steady, filament`,
	} {
		t.Run(lines, func(t *testing.T) {
			_, err := shot.Decode("f", []byte(lamp+lines+"\n"), nil)
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			assert.Contains(t, err.Error(), want)
		})
	}
}

// Where the rig sets the pace fades go with the loop, and so do their cues.
func TestFadeCuesOfAnotherLoop(t *testing.T) {
	paced := strings.Replace(lamp, "[clock]\n", "[clock]\npace = \"quickest\"\n", 1)
	s, err := shot.Decode("f", []byte(paced+"fade = { from = \"0 %\", to = \"85 %\", dwell-far = \"24 frames\" }\nby = \"hand\"\n"), nil)
	require.NoError(t, err)
	half, err := s.Clock.LoopFrames(72)
	require.NoError(t, err)
	for i, loop := range []clock.Loop{s.Loop, half} {
		cues := s.FadeCues(loop)
		require.Len(t, cues, 3)
		assert.Equal(t, []string{"1/2", "1/4"}[i], cues[1].At.String(), "60 of 144 frames at 120 a second, and half of it")
		assert.Contains(t, cues[0].Dims.Words, []string{"by frame 60, in 0.5 s", "by frame 30, in 0.25 s"}[i])
	}
}
