package shot_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// onTheBeat is a shot whose times are named by a song of 100 beats a minute: at 24 frames
// a second a beat is 14.4 frames.
const onTheBeat = `shot = "On the beat"
[clock]
capture = "120"
playback = "24"
loop = "10 beats"
[music]
tempo = 100
markers = "song.csv"
[rig]
file = "bench.toml"
[axis.rail]
keys = [
  { at = "beat 1", pos = "40 mm" },
  { at = "beat 5", pos = "90 mm" },
  { at = "marker splash", pos = "60 mm" },
]
[[cue]]
name = "pebble"
at = "beat 2"
`

func song(name string) ([]byte, error) {
	if name != "song.csv" {
		return nil, errors.New("there is no file " + name)
	}
	return []byte("splash,100 frames\n"), nil
}

func TestTimesByTheMusic(t *testing.T) {
	s, err := shot.Decode("lamp.toml", []byte(onTheBeat), nil, song)
	require.NoError(t, err)
	assert.EqualValues(t, 144, s.Loop.Screen)
	assert.False(t, s.Loop.Rounded)
	assert.Equal(t, "10 beats, 6 s", s.Loop.Asked)
	m, _ := s.Axis("rail")
	keys := m.Does.(move.Keys).Keys
	// Beat 5 is at 2.4 s, frame 57.6: frame 58 of 120ths of a second.
	assert.Equal(t, []string{"0", "29/60", "5/6"}, []string{keys[0].At.String(), keys[1].At.String(), keys[2].At.String()})
	assert.Equal(t, "7/60", s.Cues[0].At.String(), "beat 2 is in frame 14.4")
	var told []string
	for _, x := range s.Music.Spots {
		told = append(told, x.Path+" "+x.Frames().String())
	}
	assert.Equal(t, []string{"axis.rail.keys[1].at 0", "axis.rail.keys[2].at 2/5", "axis.rail.keys[3].at 0", "cue[1].at -2/5"}, told)

	// Asked again with another loop, it still knows its list.
	longer, err := s.Changed(source.Override{Path: "clock.loop", Text: "12 beats", Origin: "--loop"})
	require.NoError(t, err)
	assert.EqualValues(t, 173, longer.Loop.Screen)
	assert.True(t, longer.Loop.Rounded)
}

func TestTimesByTheMusicThatCannotBe(t *testing.T) {
	for _, c := range []struct{ old, new, says string }{
		{`at = "beat 5"`, `at = "beat 11"`, `lamp.toml:14:10: axis rail: keys[2].at "beat 11" is at 6 s, frame 144, and the loop has 144 frames`},
		{`at = "beat 2"`, `at = "beat 10.97"`, `cue[1].at "beat 10.97" is at 5.982 s, frame 144`},
		{`at = "beat 5"`, `at = "marker spash"`, `keys[2].at "marker spash" is not in song.csv; did you mean "marker splash"?`},
		{`song.csv`, `none.csv`, `music.markers "none.csv" cannot be read; there is no file none.csv`},
		{`tempo = 100`, `tempo = 0`, `music.tempo "0" must be from 1 to 1000 beats a minute`},
		{`loop = "10 beats"`, `loop = "3 bars"`, `clock.loop "3 bars" takes the beats of a bar`},
		{`loop = "10 beats"`, `loop = "11 beats"` + "\n" + `rounding = "forbid"`, `rounding is forbidden`},
		{`loop = "10 beats"`, `loop = "10 beats"` + "\n" + `pace = "quickest"`, `clock.pace "quickest" does not keep to times, and some are named by the music`},
		{`at = "beat 2"`, `at = "turn 2"`, `cue[1].at "turn 2" does not begin with a number`},
	} {
		_, err := shot.Decode("lamp.toml", []byte(strings.Replace(onTheBeat, c.old, c.new, 1)), nil, song)
		require.Error(t, err, c.new)
		assert.Contains(t, err.Error(), c.says)
		assert.Equal(t, 0, strings.Count(err.Error(), "\n"), "one fault, and nothing that comes of it: %s", err)
	}
	_, err := shot.Decode("lamp.toml", []byte(onTheBeat), nil)
	assert.ErrorContains(t, err, "no file can be named from here")
	// The last frame is in the loop, the one after it is not.
	_, err = shot.Decode("lamp.toml", []byte(strings.Replace(onTheBeat, `at = "beat 2"`, `at = "beat 10.96"`, 1)), nil, song)
	assert.NoError(t, err)
	// With a clock that is none, the music is not blamed.
	_, err = shot.Decode("lamp.toml", []byte(strings.Replace(onTheBeat, `playback = "24"`, `playback = "none"`, 1)), nil, song)
	assert.Equal(t, 0, strings.Count(err.Error(), "\n"), err.Error())
}
