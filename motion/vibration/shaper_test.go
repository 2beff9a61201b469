package vibration

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/track"
	"seamrail/motion/vibration/spring"
)

// Values of Singer and Seering's formulas, computed apart from this program.
func TestShaperValues(t *testing.T) {
	for _, c := range []struct {
		s                     spring.Spring
		k, first, last, delay float64
	}{
		{spring.Spring{Frequency: 5, Damping: 0.05}, .854468, .539238, .460762, .100125},
		{spring.Spring{Frequency: 10, Damping: 0.1}, .729248, .578286, .421714, .050252},
	} {
		zv := Impulses(c.s, ZV)
		require.Len(t, zv, 2)
		assert.InDelta(t, c.first, zv[0].Share, 0.5e-6)
		assert.InDelta(t, c.last, zv[1].Share, 0.5e-6)
		assert.InDelta(t, c.k, zv[1].Share/zv[0].Share, 0.5e-6)
		assert.InDelta(t, c.delay, zv[1].Delay.Float(), 0.6e-6)
		zvd := Impulses(c.s, ZVD)
		require.Len(t, zvd, 3)
		assert.InDelta(t, c.first*c.first, zvd[0].Share, 1e-6, "zvd is zv twice")
		assert.InDelta(t, 2*c.first*c.last, zvd[1].Share, 1e-6)
		assert.InDelta(t, 2*c.delay, Lasts(c.s, ZVD).Float(), 1.2e-6)
	}
}

// What a row of impulses leaves of a spring (Singer and Seering, equation of
// the residual amplitude): sums of A exp(D w t) cos and sin, at the last.
func left(s spring.Spring, row []track.Impulse) float64 {
	var c, d float64
	last := row[len(row)-1].Delay.Float()
	for _, p := range row {
		t := p.Delay.Float()
		e := p.Share * math.Exp(-s.Damping*s.Omega()*(last-t))
		c += e * math.Cos(s.Damped()*t)
		d += e * math.Sin(s.Damped()*t)
	}
	return math.Hypot(c, d)
}

func TestShapersLeaveNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := spring.Spring{Frequency: rapid.Float64Range(0.2, 100).Draw(t, "f"), Damping: rapid.Float64Range(0, 0.6).Draw(t, "damping")}
		for _, k := range Shapers() {
			// Half a grain of the delay is this much of a swing.
			grain := s.Damped() / delayGrain
			assert.LessOrEqual(t, left(s, Impulses(s, k)), 2*grain+1e-14, k)
		}
		off := spring.Spring{Frequency: s.Frequency * 1.05, Damping: s.Damping}
		assert.Less(t, left(off, Impulses(s, ZVD)), 0.3*left(off, Impulses(s, ZV)), "zvd forgives a frequency that is 5 %% off")
	})
}

// A shaped move rests when it rests, whatever the law.
func TestAShapedMoveIsStillInItsDwells(t *testing.T) {
	for _, name := range []string{"uniform", "harmonic", "3-4-5", "trapezoidal", "modified-sine"} {
		for _, k := range Shapers() {
			s := spring.Spring{Frequency: 6, Damping: 0.04}
			dwell := exact.New(1, 4).Add(Lasts(s, k))
			tr := thereAndBack(t, exact.Int(2), track.ThereAndBackSpec{
				From: 10, To: 70, Out: named(t, name), DwellFar: dwell, DwellNear: dwell,
			})
			shaped, err := track.Shaped(tr, Impulses(s, k))
			require.NoError(t, err)
			plain, err := Of(tr, s)
			require.NoError(t, err)
			r, err := Of(shaped, s)
			require.NoError(t, err)
			rests := r.Rests()
			require.Len(t, rests, 2, name)
			for i, rest := range rests {
				assert.InDelta(t, 0.25, rest.To-rest.From, 1e-9)
				assert.Less(t, rest.Swing, 60*2e-8, "%s %s", name, k)
				assert.Greater(t, plain.Rests()[i].Swing, 1e4*rest.Swing, "%s: unshaped it rings", name)
			}
		}
	}
}

func TestShaperNames(t *testing.T) {
	for _, k := range Shapers() {
		got, ok := ShaperNamed(k.String())
		assert.True(t, ok)
		assert.Equal(t, k, got)
	}
	_, ok := ShaperNamed("zvdd")
	assert.False(t, ok)
	assert.Equal(t, "shaper 0", Shaper(0).String())
}
