package track

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

// swung is the closed form and its first three derivatives, by Euler's formula of the
// three sines that it is the sum of.
func swung(s SwingSpec, period, sec float64) State {
	omega := 2 * math.Pi / period
	tau := sec + s.Phase.Float()*period
	var out State
	for _, p := range []struct{ n, share float64 }{
		{float64(s.Cycles), 1 - s.Decay.Float()/2}, {float64(s.Cycles + 1), s.Decay.Float() / 4}, {float64(s.Cycles - 1), s.Decay.Float() / 4},
	} {
		w, a := p.n*omega, s.Amplitude*p.share
		sin, cos := math.Sincos(w * tau)
		out.Pos += a * sin
		out.Vel += a * w * cos
		out.Acc -= a * w * w * sin
		out.Jerk -= a * w * w * w * cos
	}
	out.Pos += s.About
	return out
}

func TestASwingIsASinusoid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "cycles")
		s := SwingSpec{
			About: rapid.Float64Range(-200, 200).Draw(t, "about"), Amplitude: rapid.Float64Range(0.1, 100).Draw(t, "amplitude"), Cycles: n,
			Decay: MostDecay(n).Mul(exact.New(rapid.Int64Range(0, 99).Draw(t, "decay, %"), 100)),
			Phase: exact.New(rapid.Int64Range(0, 11).Draw(t, "phase, twelfths"), 12),
		}
		period := exact.New(rapid.Int64Range(1, 40).Draw(t, "eighths of a second"), 8)
		track, err := Swing(period, s)
		require.NoError(t, err)
		sec := period.Float()
		w := 2 * math.Pi * float64(n+1) / sec
		look := func(at float64) {
			want := swung(s, sec, at)
			for _, got := range []State{track.At(at), track.Before(at)} {
				assert.InDelta(t, want.Pos, got.Pos, 1e-9*(math.Abs(s.About)+s.Amplitude))
				assert.InDelta(t, want.Vel, got.Vel, 1e-9*s.Amplitude*w)
				assert.InDelta(t, want.Acc, got.Acc, 1e-8*s.Amplitude*w*w)
				assert.InDelta(t, want.Jerk, got.Jerk, 1e-7*s.Amplitude*w*w*w)
			}
		}
		look(0)
		look(sec)
		most := swung(s, sec, 0)
		const looked = 4000
		for i := range looked {
			at := sec * float64(i) / looked
			if i%40 == 0 {
				look(at)
			}
			q := swung(s, sec, at)
			most.Vel, most.Acc = math.Max(math.Abs(most.Vel), math.Abs(q.Vel)), math.Max(math.Abs(most.Acc), math.Abs(q.Acc))
			most.Jerk = math.Max(math.Abs(most.Jerk), math.Abs(q.Jerk))
		}
		e := track.Extremes()
		assert.InEpsilon(t, math.Abs(most.Vel), math.Abs(e.Speed.Value), 1e-4)
		assert.InEpsilon(t, math.Abs(most.Acc), math.Abs(e.Acc.Value), 1e-4)
		assert.InEpsilon(t, math.Abs(most.Jerk), math.Abs(e.Jerk.Value), 1e-4, "no jump of acceleration anywhere")
		assert.LessOrEqual(t, e.Max.Value, s.About+s.Amplitude+1e-9)
		assert.GreaterOrEqual(t, e.Min.Value, s.About-s.Amplitude-1e-9)
		turns := 0
		spans := track.Spans()
		for i, one := range spans {
			require.NotZero(t, one.Dir)
			if one.Dir != spans[(i+1)%len(spans)].Dir {
				turns++
			}
		}
		assert.Equal(t, 2*n, turns, "it turns round twice a cycle")
	})
}

// Without a decay its peaks are those of a sinusoid, A w, A w^2 and A w^3, exactly.
func TestPeaksOfAPlainSwing(t *testing.T) {
	track, err := Swing(exact.Int(2), SwingSpec{About: 70, Amplitude: 20, Cycles: 3})
	require.NoError(t, err)
	w, e := 3*math.Pi, track.Extremes()
	assert.InEpsilon(t, 20*w, math.Abs(e.Speed.Value), 1e-12)
	assert.InEpsilon(t, 20*w*w, math.Abs(e.Acc.Value), 1e-12)
	assert.InEpsilon(t, 20*w*w*w, math.Abs(e.Jerk.Value), 1e-12)
	assert.InDelta(t, 90, e.Max.Value, 1e-12)
	assert.InDelta(t, 50, e.Min.Value, 1e-12)
}

func TestSwingsThatCannotBe(t *testing.T) {
	ok := SwingSpec{About: 1, Amplitude: 1, Cycles: 1}
	for want, change := range map[string]func(*SwingSpec){
		"finite":                        func(s *SwingSpec) { s.About = math.NaN() },
		"above 0":                       func(s *SwingSpec) { s.Amplitude = 0 },
		"0 cycles a loop":               func(s *SwingSpec) { s.Cycles = 0 },
		"a decay of 2/3 must be from 0": func(s *SwingSpec) { s.Decay = exact.New(2, 3) },
	} {
		s := ok
		change(&s)
		_, err := Swing(exact.Int(1), s)
		assert.ErrorContains(t, err, want)
	}
	_, err := Swing(exact.Int(0), ok)
	assert.Error(t, err)
}
