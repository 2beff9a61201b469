package shot_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/spec/shot"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
)

func railOf(t *testing.T, text string) (shot.Shot, shot.AxisMove) {
	t.Helper()
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	m, ok := s.Axis("rail")
	require.True(t, ok)
	return s, m
}

// The base shot moves for 0.6 s each way: 144 captured frames at 120 a second.
const way = 0.6 // s

func TestSoftest(t *testing.T) {
	_, m := railOf(t, base+`law = "softest"`)
	assert.Equal(t, "softest", m.Law().Name())
	assert.InDelta(t, 32, m.Law().Peaks().J, 1e-9)
	_, m = railOf(t, base+"law = \"softest\"\nleast = \"acceleration\"")
	assert.InDelta(t, 4, m.Law().Peaks().A, 1e-12)
	_, m = railOf(t, base+"law = \"3-4-5\"\nback-law = \"softest\"\nleast = \"snap\"")
	assert.Equal(t, "3-4-5", m.Law().Name())
	assert.Equal(t, "softest", ways(t, m).Back.Name())
}

// A spring of the stated swings is left at rest by the way out, and by the way
// back, which takes half as long again and so has half as many swings more.
func TestQuietWays(t *testing.T) {
	for _, law := range []string{
		"law = \"quiet\"\nswings = 3\n", "law = \"quiet-wide\"\nswings = 3\n", "law = \"quiet\"\nswings = 3\nswing-damping = \"2 %\"\n",
		"back-law = \"quiet\"\nswings = 3\n",
	} {
		_, m := railOf(t, base+law+"out-share = \"2/5\"\n")
		spring := spring.Spring{Frequency: 3 / (0.8 * way)}
		if law[len(law)-6:] == "\"2 %\"\n" {
			spring.Damping = 0.02
		}
		if m.Law().Name() != "3-4-5" {
			assert.Less(t, vibration.Residual(spring, m.Law(), 0.8*way), 1e-9, law)
		}
		assert.Less(t, vibration.Residual(spring, ways(t, m).Back, 1.2*way), 1e-9, law)
	}
}

func TestSoftestFaults(t *testing.T) {
	for _, c := range []struct{ keys, want string }{
		{`law = "quiet"`, `8:7: axis rail: swings is missing`},
		{"law = \"quiet\"\nswings = \"0.1\"", `12:7: axis rail: law cannot be: 0.1 swings in the time of a move must be from 0.5 to 50`},
		{"law = \"quiet\"\nswings = \"0.6\"", `12:7: axis rail: law cannot be: so few swings fit into the move`},
		{"law = \"quiet\"\nswings = \"3 Hz\"", `13:10: axis rail: swings "3 Hz" is a frequency`},
		{"law = \"quiet\"\nswings = 3\nswing-damping = 0.5", `12:7: axis rail: law cannot be: damping 0.5 must be 0, or from 0.001 to 0.3`},
		{"law = \"quiet-wide\"\nswings = 3\nswing-damping = 0.1", `14:17: axis rail: swing-damping "0.1" has no meaning for this law; it is for law = "quiet"`},
		{"law = \"softest\"\nswings = 3", `13:10: axis rail: swings "3" has no meaning for this law`},
		{"law = \"3-4-5\"\nleast = \"snap\"", `13:9: axis rail: least "snap" has no meaning for this law`},
		{"law = \"softest\"\nleast = \"jolt\"", `13:9: axis rail: least "jolt" must be one of acceleration, jerk, snap`},
		{"law = \"3-4-5\"\nback-law = \"quiet\"", `8:7: axis rail: swings is missing`},
		{"law = \"quiet\"\nswings = 1.1\nout-share = \"0.7\"", `12:7: axis rail: back-law cannot be: 0.4714 swings`},
		{`law = "softer"`, `12:7: axis rail: law "softer" must be one of`},
	} {
		t.Run(c.keys, func(t *testing.T) { oneFault(t, base+c.keys+"\n", c.want) })
	}
}
