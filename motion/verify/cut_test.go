package verify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// passing shows 48 frames in 2 s, across at 30 mm/s and cut back by 60 mm, and
// comes back unseen in 2 s more; and places to break it. The way back is the
// quintic from 130 to 70 mm that leaves and arrives at that speed.
type passing struct {
	cosine
	cut  trace.Cut
	kick float64 // mm/s2 it speeds up by just before the cut
	late float64 // mm the way back falls short
}

func (p passing) Period() exact.Rat          { return exact.Int(4) }
func (p passing) Shown() exact.Rat           { return exact.Int(2) }
func (p passing) Cut(int) trace.Cut          { return p.cut }
func (p passing) StepIndex(int, int64) int64 { return 70 * 80 }
func (p passing) StepsAlong(int64) func() (trace.Step, bool) {
	return func() (trace.Step, bool) { return trace.Step{}, false }
}

func (p passing) Position(_ int, sec float64) float64 {
	if sec <= 2 {
		x := 70 + 30*sec
		if sec > 1.9 {
			x += p.kick * (sec - 1.9) * (sec - 1.9) / 2
		}
		return x
	}
	u := (sec - 2) / 2
	d, v := -60-p.late, 60.0 // over u: 2 s at 30 mm/s
	return 130 + v*u + (10*d-10*v)*math.Pow(u, 3) + (-15*d+15*v)*math.Pow(u, 4) + (6*d-6*v)*math.Pow(u, 5)
}

func pass() passing {
	p := passing{cosine: sound(), cut: trace.Cut{Jump: 60}}
	p.axis.MaxSpeed, p.axis.MaxAcc, p.axis.MaxJerk = 300, 600, 3000
	return p
}

func verdictOf(p passing) (cut, seam Finding) {
	for _, f := range Check(p).Findings {
		switch f.Check {
		case "cut":
			cut = f
		case "seam":
			seam = f
		}
	}
	return cut, seam
}

func TestACutIsAJumpByDesign(t *testing.T) {
	v := Check(pass())
	cut, seam := verdictOf(pass())
	assert.True(t, cut.OK, cut.Text)
	assert.True(t, seam.OK, seam.Text)
	require.Len(t, v.Seam, 1)
	assert.Equal(t, 60.0, v.Seam[0].Cut)
	assert.Zero(t, v.Seam[0].Position)
	assert.Equal(t, "cut back by 60 mm, by design: the picture is elsewhere, and goes on at its speed and with the push behind it", v.Seam[0].Words)
}

func TestFlawsOfACutAreFound(t *testing.T) {
	wrong := pass()
	wrong.cut.Jump = 59
	cut, _ := verdictOf(wrong)
	assert.False(t, cut.OK, "it is not where the cut would have it")

	kicked := pass()
	kicked.kick = 20
	cut, _ = verdictOf(kicked)
	assert.False(t, cut.OK, "it comes into the cut faster than it goes out")
	kicked.cut.Jump = 60.1 // where the kick takes it
	cut, _ = verdictOf(kicked)
	assert.False(t, cut.OK)
	kicked.cut.Follows = true
	cut, _ = verdictOf(kicked)
	assert.True(t, cut.OK, "an aim has another speed elsewhere")

	short := pass()
	short.late = 1
	_, seam := verdictOf(short)
	assert.False(t, seam.OK, "the way back does not come back")

	closing := pass()
	closing.cut = trace.Cut{Gain: exact.Int(60)}
	cut, _ = verdictOf(closing)
	assert.True(t, cut.OK, "a gain that the loop means is no cut at all")
	assert.NotContains(t, cut.Text, "cut back")
}

// TestACutOfATable is told in degrees, and is the way that it is cut back.
func TestACutOfATable(t *testing.T) {
	p := pass()
	p.axis.Rotary = true
	cut, _ := verdictOf(p)
	assert.True(t, cut.OK, cut.Text)
	assert.Contains(t, cut.Text, "cut back by 60 deg, by design")
	assert.Contains(t, cut.Text, "jumps of 0 deg, 0 deg/s, 0 deg/s2, 0 deg/s3")
}

// TestWhatACutMisses is told with its sign: 61 mm taken back of 60 land 1 mm short, and a
// kick of 20 mm/s2 for a tenth of a second comes in 2 mm/s faster than it goes out.
func TestWhatACutMisses(t *testing.T) {
	p := pass()
	p.cut.Jump = 61
	cut, _ := verdictOf(p)
	assert.Contains(t, cut.Text, "not even where the cut would have it; jumps of 1 mm, 0 mm/s, 0 mm/s2, 0 mm/s3")
	p = pass()
	p.kick, p.cut.Jump = 20, 60.1
	s := Check(p).Seam[0]
	assert.Equal(t, 0, s.Highest)
	assert.Zero(t, s.Position)
	assert.InDelta(t, -2, s.Velocity, 1e-3)
}
