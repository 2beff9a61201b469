package motionplot

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/motion/verify"
)

// display is 6 s of a stand under four faces, with the period given in
// hundredths of a second.
func display(t *testing.T, hundredths int64) Data {
	t.Helper()
	tr := sample.Display(t, 144, exact.New(hundredths, 100), 4)
	return FromPlan(tr.Plan(), verify.Check(tr))
}

// By hand: at 25 s a turn it makes 86.4 degrees in 6 s, 3.6 short of a face.
func TestAStandHasItsOwnPanel(t *testing.T) {
	d := display(t, 2500)
	require.Len(t, d.Stands, 1)
	assert.InDelta(t, 86.4, d.Stands[0].Turned, 1e-12)
	assert.InDelta(t, 90, d.Stands[0].Match, 1e-12)
	svg := string(drawn(t, "svg", d, Options{}))
	for _, text := range []string{"face to face, deg", "by itself; 3.6 deg short", "match", "jumps at every repeat: 3.6 deg short, beyond 0.03 deg"} {
		assert.Contains(t, svg, ">"+text+"<")
	}
}

func TestAStandOnItsMatchSaysSo(t *testing.T) {
	d := display(t, 2400)
	svg := string(drawn(t, "svg", d, Options{}))
	assert.Contains(t, svg, ">by itself; exact<")
	assert.NotContains(t, svg, "jumps at every repeat")
}

// By hand, with faces of 90 degrees: 86.4 degrees are 3.6 short of the next, 93.6 are
// 3.6 past the one before, and what comes out even ends on the next. The mark stands at
// the end of the panel that the last tooth comes to, and nothing else is drawn on its
// axis of degrees.
func TestTheMatchStandsWhereTheLastToothEnds(t *testing.T) {
	for _, c := range []struct{ hundredths, rest, match float64 }{
		{2500, 86.4, 90}, {2400, 90, 90}, {600 * 360 / 93.6, 3.6, 0}, {1200, 90, 90}, {400, 90, 90},
	} {
		s := Stand{Turned: 216000 / c.hundredths, Face: 90}
		s.Match = math.Round(s.Turned/90) * 90
		rest, match := s.comesRound()
		assert.InDelta(t, c.rest, rest, 1e-9)
		assert.InDelta(t, c.match, match, 0)
	}
	for _, hundredths := range []int64{2500, 2400, 800} {
		d := display(t, hundredths)
		rest, _ := d.Stands[0].comesRound()
		end := d.Stands[0].Turned
		for end > 90 {
			end -= 90
		}
		assert.InDelta(t, end, rest, 1e-9)
	}
	d := display(t, 2500)
	with := strings.Count(string(drawn(t, "svg", d, Options{})), ">rail<")
	d.Stands = nil
	assert.Equal(t, strings.Count(string(drawn(t, "svg", d, Options{})), ">rail<"), with, "the rail is not drawn on the stand's axis")
}

func TestTooManyFacesAreToldNotDrawn(t *testing.T) {
	svg := string(drawn(t, "svg", display(t, 25), Options{}))
	assert.Contains(t, svg, ">96 faces a loop, too close to draw<")
}

// At the seam the curve before it ends where the stand came to, and the curve
// after it begins at the match: the jump between is the closing error.
func TestTheSeamOfAStandShowsItsError(t *testing.T) {
	d := display(t, 2500)
	p := page{d: d}
	a := d.subject(1)
	step := d.Period / float64(d.Captured)
	_, before := p.before(a, 3, step, position)
	_, after := p.after(a, 3, step, a.Gain, position)
	assert.InDelta(t, 3.6, after[0]-before[len(before)-1], 1e-9)
}
