package shot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/spec/shot"
)

// pulled is a shot whose focus a hand pulls.
const pulled = `shot = "Pulled"
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[rig]
file = "bench.toml"
[axis.rail]
from = "40 mm"
to = "100 mm"
[camera]
focal-length = "100 mm"
ring-around = "220 mm"
scale = [
  { marked = "1 m", at = "0 deg" },
  { marked = "500 mm", at = "60 deg" },
  { marked = "400 mm", at = "180 deg" },
]
[camera.pull]
hand = "right"
keys = [
  { at = "0 frames", focus = "409 mm" },
  { at = "66 frames", focus = "349 mm", hold = "12 frames" },
]
`

func TestAPull(t *testing.T) {
	l := decode(t, pulled).Scene.Lens
	require.NotNil(t, l.Pull)
	assert.Equal(t, "right", l.Pull.Hand)
	assert.EqualValues(t, 3, l.Pull.Beats)
	assert.Equal(t, "6/5", l.Pull.Loop.String())
	assert.Equal(t, []float64{409, 349}, []float64{l.Pull.Marks[0].Pos, l.Pull.Marks[1].Pos})
	assert.Equal(t, "11/20", l.Pull.Marks[1].Time.String(), "66 frames of 24ths, five times as fast")
	assert.Equal(t, "1/10", l.Pull.Marks[1].Hold.String())
	assert.Nil(t, l.Pull.Between)
	// Four focal lengths from the sensor is life size, of which the plane is two away.
	assert.InDelta(t, 200, l.Ring.Ticks[2].Focus, 1e-9)
	assert.True(t, l.Ring.Degrees)
	assert.InDelta(t, 220, l.Ring.Around, 0)
	follows := strings.NewReplacer("keys = [\n  { at = \"0 frames\", focus = \"409 mm\" },\n  { at = \"66 frames\", focus = \"349 mm\", hold = \"12 frames\" },\n]", `follow = "product"`).Replace(pulled)
	assert.True(t, decode(t, follows).Scene.Lens.Pull.Product)
	lawful := strings.Replace(pulled, `hand = "right"`, "hand = \"right\"\nbetween = \"harmonic\"\nbeats = 0", 1)
	l = decode(t, lawful).Scene.Lens
	assert.Equal(t, "harmonic", l.Pull.Between.Name())
	assert.Zero(t, l.Pull.Beats)
}

func TestPullsThatAreWrong(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`focus = "349 mm"`, `focus = "349 deg"`, `23:31: camera.pull.keys[2].focus "349 deg" is an angle; it must be a length`},
		{`focus = "349 mm"`, `focus = "-3 mm"`, `23:31: camera.pull.keys[2].focus "-3 mm" must be above 0`},
		{`focus = "349 mm"`, `pos = "349 mm"`, `23:23: camera.pull.keys[2].pos is not a key that means anything here`},
		{`at = "66 frames"`, `at = "0 frames"`, `23:10: camera.pull.keys[2].at "0 frames" must come after the key before it and its hold`},
		{`at = "66 frames"`, `at = "144 frames"`, `23:10: camera.pull.keys[2].at "144 frames" must be over, its hold too, before the loop comes round`},
		{`focus = "349 mm"`, `focus = "90 mm"`, `23:31: camera.pull.keys[2].focus 90 mm must be beyond the focal length, 100 mm; no picture forms nearer`},
		{`focus = "349 mm"`, `focus = "409 mm"`, `23:31: camera.pull.keys[2].focus "409 mm" is where every key is, and the hand has nothing to do; to stay there, say focus = "409 mm" in place of the pull`},
		{`at = "0 frames"`, `at = "70 frames"`, `23:10: camera.pull.keys[2].at "66 frames" must come after the key before it`},
		{`hold = "12 frames"`, `hold = "78 frames"`, `23:10: camera.pull.keys[2].at "66 frames" must be over, its hold too`},
		{`hand = "right"`, `follow = "product"`, `22:3: camera.pull.keys say what is in focus, and so does follow`},
		{`hand = "right"`, `follow = "lantern"`, `camera.pull.keys say what is in focus, and so does follow`},
		{`hand = "right"`, `between = "elastic"`, `20:11: camera.pull.between`},
		{`hand = "right"`, `beats = 17`, `20:9: camera.pull.beats "17" must be from 0 to 16`},
		{`focal-length = "100 mm"`, "focal-length = \"100 mm\"\nfocus = \"400 mm\"", `13:9: camera.focus "400 mm" says where the lens is focused, and so does its pull`},
		{`focal-length = "100 mm"`, "focal-length = \"100 mm\"\nmagnification = \"1:3\"", `camera.magnification "1:3" says where the lens is focused`},
		{`focal-length = "100 mm"`, "focal-length = \"100 mm\"\nnearest-focus = \"360 mm\"", `camera.pull.keys[2].focus 349 mm must be 360 mm or more, the nearest focus of the lens`},
		{`marked = "400 mm"`, `marked = "399 mm"`, `17:14: camera.scale[3].marked "399 mm" must be beyond four focal lengths, 400 mm`},
		{`marked = "400 mm"`, `marked = "500 mm"`, `17:14: camera.scale[3].marked "500 mm" must go on the way of those before it`},
		{`marked = "400 mm"`, `marked = "600 mm"`, `17:14: camera.scale[3].marked "600 mm" must go on the way of those before it`},
		{`at = "180 deg"`, `at = "60 deg"`, `17:29: camera.scale[3].at "60 deg" must come after the mark before it`},
		{`at = "180 deg"`, `at = "60 mm"`, `17:29: camera.scale[3].at "60 mm" must be of the kind of those before it`},
		{`ring-around = "220 mm"`, `ring-around = "0 mm"`, `camera.ring-around "0 mm" must be above 0`},
		{`focal-length = "100 mm"`, `pixels-wide = 4000`, `camera.scale takes the focal length of the lens`},
	} {
		_, err := shot.Decode("f", []byte(strings.Replace(pulled, c.old, c.new, 1)), nil)
		require.Error(t, err, c.new)
		assert.Contains(t, err.Error(), c.want, c.new)
		assert.LessOrEqual(t, strings.Count(err.Error(), "\n"), 1, err.Error())
	}
	_, err := shot.Decode("f", []byte(pulled[:strings.Index(pulled, "keys = [\n  { at = \"0")]), nil)
	assert.ErrorContains(t, err, "camera.pull.keys is missing")
}

// A count is never longer than since the turn before, and a hand that goes on at once is
// not told that it has arrived.
func TestCuesOfAPull(t *testing.T) {
	s := decode(t, pulled)
	sec := func(n int64) exact.Rat { return exact.New(n, 100) }
	round := exact.Int(6)
	turns := []shot.Turn{{sec(0), sec(55), 349}, {sec(110), sec(170), 409}}
	var told []string
	for _, c := range s.WithTurns(turns, round).Cues {
		told = append(told, strings.Join([]string{c.Name, c.At.String(), exact.Int(c.Beats).String(), c.Hand}, " "))
		assert.Nil(t, c.Rounds)
		assert.Equal(t, shot.Nothing, c.Leaves)
	}
	assert.Equal(t, []string{"focus to 349 mm 0 3 right", "focus at 349 mm 11/20 0 right", "focus to 409 mm 11/10 2 right", "focus at 409 mm 17/10 0 right"}, told)
	turns[1].Sets = sec(79)
	assert.Len(t, s.WithTurns(turns, round).Cues, 3, "0.24 s after it arrived")
	turns[1].Sets = sec(80)
	assert.Len(t, s.WithTurns(turns, round).Cues, 4)
	assert.Empty(t, s.Cues, "the shot itself is as it was")
	turns[0].Sets = sec(50)
	hurried := s.WithTurns(turns, round).Cues[2]
	assert.Equal(t, "focus to 409 mm", hurried.Name)
	assert.Zero(t, hurried.Beats, "0.3 s after the turn before")
	assert.Equal(t, "1/5", hurried.Reaction.String(), "what is not counted to has to be reacted to")
	turns = []shot.Turn{{sec(590), sec(620), 349}}
	late := s.WithTurns(turns, round).Cues
	assert.Equal(t, "1/5", late[1].At.String(), "it arrives in the next round")
}
