package verify

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/exact"
)

// TestWhatASeamIsTold: of 60 mm in 2 s a jump of a ten-millionth of a mm, of a thousandth
// of a mm/s, of a mm/s2 and of a hundredth of the jerk, 10 mm/s3, is told from none; all
// far below a step of 1/80 mm and what an eye sees. A ten-thousandth of that is not.
func TestWhatASeamIsTold(t *testing.T) {
	most := [4]float64{1e-7, 1e-3, 1, 10}
	for order, told := range soundPromise() {
		assert.LessOrEqual(t, told, most[order], "derivative %d", order)
		for _, x := range []struct {
			size float64
			ok   bool
		}{{2 * most[order], false}, {-2 * most[order], false}, {1e-4 * most[order], true}, {-1e-4 * most[order], true}} {
			p := planted{cosine: sound(), order: order, size: x.size, at: 2, beside: 1, seam: true}
			s := measureSeam(p, 0, measure(p, 0))
			assert.Equal(t, x.ok, s.Highest == 3, "derivative %d by %g: %+v", order, x.size, s)
			if !x.ok {
				// From the end to the beginning it jumps back by that.
				got := [4]float64{s.Position, s.Velocity, s.Acceleration, s.Jerk}[order]
				assert.InDelta(t, -x.size, got, 0.5*most[order], "derivative %d", order)
			}
		}
	}
}

// TestASeamFarFromNothing: a table that counts from a million degrees away has no more of
// a seam than at home, and nor has one that is bent.
func TestASeamFarFromNothing(t *testing.T) {
	for _, far := range []float64{0, 1e6, -1e6, 1e9} {
		for _, gain := range []float64{180, -33.3, 7.3} {
			r := rough{turned(0, gain), far}
			s := measureSeam(r, 0, measure(r, 0))
			assert.Equal(t, 3, s.Highest, "from %g deg, %g a round: %+v", far, gain, s)
		}
	}
}

// TestWhatIsSaidOfAStand: which of all that may be is so.
func TestWhatIsSaidOfAStand(t *testing.T) {
	for _, x := range []struct {
		set  func(*turning)
		ok   bool
		says string
	}{
		{func(*turning) {}, true, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 1 deg"},
		{func(m *turning) { m.stand.Off = exact.Int(1) }, false, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 1 deg; the plan says 1 deg"},
		{func(m *turning) { m.stand.Hard = false }, true, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 1 deg, which the shot does not state"},
		{func(m *turning) { m.stand.Bound = exact.New(1, 2) }, false, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 0.5 deg, as the shot states it"},
		{func(m *turning) { m.stand.Known = false }, false, "turns 59 deg, -1 deg from face 1, known to 0 deg without its drift, which nothing is known of; the bound is 1 deg, as the shot states it, and is not known to be kept"},
		{func(m *turning) { m.stand.Doubt, m.stand.Bound = exact.New(1, 59), exact.New(19, 10) }, false, "known to 1 deg; the bound is 1.9 deg, as the shot states it, and is not known to be kept"},
		{func(m *turning) { m.stand.Doubt, m.stand.Bound = exact.New(1, 59), exact.Int(2) }, true, "known to 1 deg; the bound is 2 deg"},
		{func(m *turning) { m.stand.Doubt, m.stand.Bound = exact.New(1, 59), exact.Int(30) }, true, "known to 1 deg; the bound is 30 deg"},
		{func(m *turning) { m.stand.Known, m.stand.Bound = false, exact.Int(30) }, true, "the bound is 30 deg"}, // further off is the next face
		{func(m *turning) { m.stand.Known, m.stand.Bound = false, exact.New(299, 10) }, false, "and is not known to be kept"},
	} {
		m := closing()
		x.set(&m)
		f := checkFace(m, m, 0)
		assert.Equal(t, x.ok, f.OK, f.Text)
		assert.Contains(t, f.Text, x.says)
	}
	m := closing()
	assert.Equal(t, "-29.5 deg/s at every frame", checkEven(m, m, 0).Text)
	m.slip = 20
	assert.Equal(t, "frame 20 finds it 1 deg from where its speed puts it", checkEven(m, m, 0).Text)
	for frames, says := range map[int64]string{20_000: "at every frame", 20_001: "at one frame in 2", 40_000: "at one frame in 2", 40_001: "at one frame in 3"} {
		m := closing()
		m.frames = frames
		require.Contains(t, checkEven(m, m, 0).Text, says, fmt.Sprint(frames))
	}
}
