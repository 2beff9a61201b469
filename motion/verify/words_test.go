package verify

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// findingOf is the finding of a check, which there has to be.
func findingOf(t *testing.T, m Motion, check string) Finding {
	t.Helper()
	for _, f := range Check(m).Findings {
		if f.Check == check {
			return f
		}
	}
	require.Fail(t, "nothing was said of "+check)
	return Finding{}
}

// TestWhatIsSaidOfASoundMotion: the cosine's own numbers. 60 mm in 2 s have a speed of
// 30 pi mm/s, which a difference comes a ten-thousandth near, an acceleration of 30 pi² and a jerk of 30 pi³.
func TestWhatIsSaidOfASoundMotion(t *testing.T) {
	v := Check(sound())
	assert.Equal(t, "verified", v.String())
	assert.Empty(t, v.Failed())
	for _, x := range []struct{ check, says string }{
		{"frames", "48 whole frames, time strictly increasing, frame 48 falls exactly on the seam"},
		{"travel", "from 40 mm to 100 mm within 0 mm to 400 mm"},
		{"speed", "94.2477 mm/s within 100 mm/s"},
		{"acceleration", "296.088 mm/s2 within 300 mm/s2"},
		{"jerk", "930.188 mm/s3 within 1000 mm/s3"},
		{"seam", "flows without a trace: place, speed, push and even its change carry through; jumps of 0 mm, 0 mm/s, 0 mm/s2, 0 mm/s3"},
		{"steps close", "4800 forward, 4800 back, net 0 of exactly 0"},
		{"steps hold", "after 10000 rounds 0 steps off"},
		{"step rate", "7540 steps/s of 40000"},
	} {
		f := findingOf(t, sound(), x.check)
		assert.True(t, f.OK)
		assert.Equal(t, x.says, f.Text, x.check)
	}
	assert.Regexp(t, `^9600 steps in time order, each within [0-9]e-0[5-9] step of its crossing$`, findingOf(t, sound(), "step times").Text)
}

// TestWhatIsSaidOfAFlaw names it with its number, and the motion is rejected.
func TestWhatIsSaidOfAFlaw(t *testing.T) {
	for _, x := range []struct {
		check, says string
		flaw        func(*cosine)
	}{
		{"frames", "48 frames begin inside the loop, frame 47 would begin -1/24 s after the seam", func(c *cosine) { c.frames = 47 }},
		{"frames", "48 frames begin inside the loop, frame 49 would begin 1/24 s after the seam", func(c *cosine) { c.frames = 49 }},
		{"travel", "from 40 mm to 100 mm leaves the travel 0 mm to 99 mm", func(c *cosine) { c.axis.Max = 99 }},
		{"travel", "from 40 mm to 100 mm leaves the travel 41 mm to 400 mm", func(c *cosine) { c.axis.Min = 41 }},
		{"speed", "94.2477 mm/s exceeds 90 mm/s", func(c *cosine) { c.axis.MaxSpeed = 90 }},
		{"seam", "jumps: the picture cuts to another place at every repeat; jumps of -0.25 mm, 0 mm/s, 0 mm/s2, 0 mm/s3", func(c *cosine) { c.kick = 0.5 }},
		{"steps close", "4800 forward, 4799 back, net 1 of exactly 0", func(c *cosine) { c.lose = 9600 }},
		{"steps hold", "after 10000 rounds 100000 steps off", func(c *cosine) { c.advance = exact.New(1, 8) }},
	} {
		c := sound()
		x.flaw(&c)
		f := findingOf(t, c, x.check)
		assert.False(t, f.OK, x.says)
		assert.Equal(t, x.says, f.Text)
		assert.Equal(t, "rejected", Check(c).String())
	}
}

// TestWhatASeamLooksLike: each derivative that carries through less is another word,
// and speed has to.
func TestWhatASeamLooksLike(t *testing.T) {
	for _, x := range []struct {
		highest  int
		ok       bool
		seam     string
		cut      string
		cutOK    bool // of one that goes on by itself
		followOK bool // of an aim, which has another speed there by geometry
	}{
		{-1, false, "jumps", "not even where the cut would have it", false, false},
		{0, false, "kicks", "changes speed at once", false, true},
		{1, true, "nudges", "goes on at its speed, though not with the push behind it", false, true},
		{2, true, "flows: ", "goes on at its speed and with the push behind it", true, true},
		{3, true, "flows without a trace", "goes on at its speed and with the push behind it", true, true},
	} {
		s := AxisSeam{Highest: x.highest, Words: words(x.highest)}
		assert.Equal(t, x.ok, s.finding().OK, "%d", x.highest)
		assert.Contains(t, s.finding().Text, x.seam)
		assert.Equal(t, x.ok, s.cutFinding(false).OK, "a cut that takes nothing back is a seam: %d", x.highest)
		assert.Equal(t, x.ok, s.cutFinding(true).OK, "%d", x.highest)
		s.Cut = -60
		s.Words = cutWords(s)
		assert.Equal(t, "cut back by 60 mm, by design: the picture is elsewhere, and "+x.cut, s.Words)
		assert.Equal(t, x.cutOK, s.cutFinding(false).OK, "%d", x.highest)
		assert.Equal(t, x.followOK, s.cutFinding(true).OK, "%d", x.highest)
		assert.Equal(t, "cut", s.cutFinding(true).Check)
	}
}

// TestACutTakesBackWhatTheLoopDoesNotGain: of the 60 mm that the pass is further on, a
// loop that gains 25 takes 35 back.
func TestACutTakesBackWhatTheLoopDoesNotGain(t *testing.T) {
	p := pass()
	p.cut = trace.Cut{Jump: 35, Gain: exact.Int(25)}
	cut, _ := verdictOf(p)
	assert.True(t, cut.OK, cut.Text)
	assert.Contains(t, cut.Text, "cut back by 35 mm")
	p.cut.Gain = exact.Int(-25)
	cut, _ = verdictOf(p)
	assert.False(t, cut.OK, "10 mm are not 60")
}
