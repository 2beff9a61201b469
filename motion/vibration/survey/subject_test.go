package survey_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/spring"
	"seamrail/motion/vibration/survey"
)

const bench = `rig = "Bench"
[controller]
kind = "buffered"
[axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "800 mm/s"
acceleration = "20000 mm/s2"
steps = "80 per mm"
shake = { frequency = "6 Hz", damping = "3 %" }
[axis.table]
letter = "A"
travel = "endless"
speed = "900 deg/s"
acceleration = "9000 deg/s2"
steps = "3200 per turn"
shake = { frequency = "9 Hz", damping = "4 %" }
`

const lantern = `shot = "Fernhollow lantern"
[clock]
capture = "120"
playback = "24"
loop = "60 frames"
[rig]
file = "bench.toml"
`

// planned plans the axes on the bench: sixty timeline frames are half a real
// second.
func planned(t testing.TB, axes string) *plan.Plan {
	t.Helper()
	s, err := shot.Decode("s", []byte(lantern+axes), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode("r", []byte(bench))
	require.NoError(t, err)
	p, err := plan.Build(s, r)
	require.NoError(t, err)
	return p
}

const short = "[axis.rail]\nfrom = \"40 mm\"\nto = \"70 mm\"\nlaw = \"3-4-5\"\ndwell-far = \"20 frames\"\n"

func subject(t testing.TB, axes string) survey.Subject {
	p := planned(t, axes)
	return survey.Of(p, &p.Axes[0])
}

// Each way lasts a sixth of a second: one swing. By the closed forms at r = 1
// 3-4-5 leaves .462 of the travel undamped, the harmonic law a third.
func TestOnShortMovesTheSmootherLawShakesMore(t *testing.T) {
	s := subject(t, short)
	leg, ok := s.Leg()
	require.True(t, ok)
	assert.InDelta(t, 1, leg.Swings, 1e-12)
	assert.InDelta(t, 30, leg.Travel, 1e-12)
	laws := s.Laws()
	alone := map[string]float64{}
	for _, l := range laws {
		alone[l.Law.Name()] = l.Alone
	}
	assert.InDelta(t, .4620*30, alone["3-4-5"], 0.08*30, "damping takes a little of it")
	assert.InDelta(t, 10, alone["harmonic"], 0.08*30)
	assert.Greater(t, alone["3-4-5"], 1.3*alone["harmonic"])
	assert.Contains(t, s.Surprise(laws), "On so short a move a smoother law shakes more: each way lasts 1 times a swing")

	s.Spring.Frequency = 25 // more than four swings
	assert.Empty(t, s.Surprise(s.Laws()))
}

// What is cleaner is so by the full loop, and of whole frames.
func TestOffersAreCleanerAndOfWholeFrames(t *testing.T) {
	s := subject(t, short)
	own, _, err := s.Own()
	require.NoError(t, err)
	loops := s.Loops(5)
	require.NotEmpty(t, loops)
	for i, o := range loops {
		assert.Less(t, o.Left, own.Left)
		assert.True(t, o.Loop.Real().Mul(s.Loop.Clock.Capture).IsInt())
		if i > 0 {
			assert.GreaterOrEqual(t, o.Left, loops[i-1].Left)
		}
		other := s
		other.Loop = o.Loop
		again, _, err := other.Own()
		require.NoError(t, err)
		assert.Equal(t, again.Left, o.Left)
		assert.True(t, again.Within)
	}
	assert.Less(t, loops[0].Left, own.Left/10)
	s.Spring.Frequency = 14
	own, _, err = s.Own()
	require.NoError(t, err)
	dwells := s.Dwells(5)
	require.NotEmpty(t, dwells)
	for _, o := range dwells {
		assert.Less(t, o.Left, own.Left)
		assert.True(t, o.Loop.Real().Equal(s.Loop.Real()))
		assert.GreaterOrEqual(t, o.Dwell, int64(0))
	}
	for _, c := range s.Clean(3) {
		assert.Less(t, vibration.Residual(s.Spring, s.Move.Law(), c.Seconds.Float()), 0.12)
	}
	assert.Empty(t, subject(t, "[axis.table]\nturns = \"1/6\"\n").Dwells(3))
}

// Shaping leaves nothing where the frequency is right; where it is five
// hundredths off, zvd leaves much less than zv.
func TestShapers(t *testing.T) {
	s := subject(t, short)
	own, _, err := s.Own()
	require.NoError(t, err)
	shaped := s.Shapers()
	require.Len(t, shaped, 2)
	zv, zvd := shaped[0], shaped[1]
	require.Empty(t, zv.Why)
	assert.Less(t, zv.Left, own.Left*1e-5)
	assert.Greater(t, zv.Off, 100*zv.Left)
	assert.Less(t, zv.Off, own.Left)
	assert.Contains(t, zvd.Why, "leave no time to move", "a whole swing each way is all there is")

	s.Spring.Frequency = 18
	shaped = s.Shapers()
	require.Empty(t, shaped[1].Why)
	assert.Less(t, shaped[1].Off, 0.3*shaped[0].Off)
	assert.Empty(t, subject(t, "[axis.table]\nturns = \"1/6\"\n").Shapers(), "a constant rate shakes nothing")
	assert.Empty(t, subject(t, "[axis.rail]\nat = \"30 mm\"\nmove = \"hold\"\n").Shapers())
}

// A shaped plan closes: whole frames, steps that sum to nothing or to the turn,
// within limits, by the verifier's own reckoning.
func TestShapedPlansPassTheVerifier(t *testing.T) {
	for _, axes := range []string{
		short + "shaped = \"zv\"\n",
		"[axis.rail]\nfrom = \"40 mm\"\nto = \"60 mm\"\nlaw = \"harmonic\"\nphase = \"1/4\"\nshaped = \"zv\"\n",
		"[axis.table]\nturns = \"1/6\"\nlaw = \"3-4-5\"\nshaped = \"zvd\"\n",
		"[axis.rail]\nkeys = [{ at = \"0 frames\", pos = \"10 mm\" }, { at = \"20 frames\", pos = \"30 mm\" }]\nshaped = \"zvd\"\n",
	} {
		p := planned(t, axes)
		assert.Empty(t, p.Breaches(), axes)
		tr := trajectory.New(p)
		v := verify.Check(tr)
		assert.True(t, v.OK, "%s: %v", axes, v.Failed())
		assert.Equal(t, int64(60), p.Loop.Captured)
		found := survey.OfPlan(p, 12)
		require.Len(t, found, 1)
		assert.Empty(t, found[0].Why)
		if _, goes := p.Axes[0].Move.Does.(move.Shuttle); goes && len(found[0].Rests) > 0 {
			assert.Less(t, found[0].Left, 1e-5, axes)
		}
	}
}

func TestOfPlan(t *testing.T) {
	p := planned(t, short+"[axis.table]\nturns = \"1/6\"\n")
	found := survey.OfPlan(p, 12)
	require.Len(t, found, 1, "a table that turns at a constant rate shakes nothing")
	a := found[0]
	assert.Equal(t, "rail", a.Name)
	assert.InDelta(t, math.Abs(a.Worst.Value)*12, a.Pixels(a.Worst.Value), 1e-12)
	require.Len(t, a.Rests, 1)
	assert.Equal(t, a.Rests[0].Swing, a.Left)
	assert.Greater(t, math.Abs(a.Ring.Value), 0.0)

	p = planned(t, "[axis.table]\nturns = \"1/6\"\nlaw = \"3-4-5\"\n")
	assert.Zero(t, survey.OfPlan(p, 12)[0].PixelsPerUnit, "degrees are no millimetres")
	p.Axes[0].Rig.Shake.Spring = spring.Spring{Frequency: 8}
	assert.Contains(t, survey.OfPlan(p, 0)[0].Why, "nothing damps it")
}

func BenchmarkLoops(b *testing.B) {
	s := subject(b, short)
	for b.Loop() {
		s.Loops(5)
	}
}

func BenchmarkOfPlan(b *testing.B) {
	p := planned(b, short)
	for b.Loop() {
		survey.OfPlan(p, 12)
	}
}

// A pan that aims, and a rail that hurries, go as they were planned: what they
// shake is told, and no law of their own is tried.
func TestMovesWhoseTimesAreNotTheirOwn(t *testing.T) {
	p := planned(t, short+"[axis.table]\nmove = \"aim\"\nfollow = \"rail\"\nas = \"pan\"\npoint = [\"55 mm\", \"300 mm\"]\n")
	s := survey.Of(p, &p.Axes[1])
	require.NotNil(t, s.Fixed)
	own, _, err := s.Own()
	require.NoError(t, err)
	assert.Positive(t, math.Abs(own.Worst.Value))
	assert.Empty(t, s.Laws())
	assert.Empty(t, s.Shapers())
	assert.Empty(t, s.Loops(3))
	assert.Empty(t, s.Dwells(3))
	assert.Empty(t, s.Clean(3))
	assert.Nil(t, survey.Of(p, &p.Axes[0]).Fixed)

	hurried, err := shot.Decode("s", []byte(strings.Replace(lantern, "loop =", "pace = \"quickest\"\nloop =", 1)+short), nil)
	require.NoError(t, err)
	r, _, err := rig.Decode("r", []byte(strings.Replace(bench, "steps = \"80", "jerk = \"60000 mm/s3\"\nsteps = \"80", 1)))
	require.NoError(t, err)
	p, err = plan.Build(hurried, r)
	require.NoError(t, err)
	s = survey.Of(p, &p.Axes[0])
	require.NotNil(t, s.Fixed)
	own, _, err = s.Own()
	require.NoError(t, err)
	assert.InDelta(t, math.Abs(p.Axes[0].Extremes.Acc.Value), own.Acc, 1e-9)

	p = planned(t, "[axis.rail]\nmove = \"through\"\nfrom = \"40 mm\"\nto = \"90 mm\"\n")
	assert.Contains(t, survey.Look(survey.Of(p, &p.Axes[0]), p.Axes[0].Rig.Shake).Why, "off camera")
}

// What a take leaves of its run-up in a later round, against the equation of motion in
// small steps (Runge and Kutta's) from rest before the run-up on.
func TestUnlikeAgainstTheEquationOfMotion(t *testing.T) {
	p := planned(t, "[axis.rail]\nfrom = \"40 mm\"\nto = \"60 mm\"\nlaw = \"harmonic\"\nphase = \"1/4\"\n")
	a := p.Axes[0]
	require.NotNil(t, a.RunUp, "it moves through the seam")
	load := a.Rig.Shake.Spring
	w := 2 * math.Pi * load.Frequency
	var x spring.State
	walk := func(from, to float64, acc func(float64) float64) {
		const n = 20_000
		h := (to - from) / n
		slope := func(t float64, s spring.State) spring.State {
			return spring.State{Pos: s.Vel, Vel: -acc(t) - 2*load.Damping*w*s.Vel - w*w*s.Pos}
		}
		add := func(s, d spring.State, by float64) spring.State {
			return spring.State{Pos: s.Pos + by*d.Pos, Vel: s.Vel + by*d.Vel}
		}
		for i := range n {
			at := from + h*float64(i)
			k1 := slope(at, x)
			k2 := slope(at+h/2, add(x, k1, h/2))
			k3 := slope(at+h/2, add(x, k2, h/2))
			k4 := slope(at+h, add(x, k3, h))
			x = add(add(add(add(x, k1, h/6), k2, h/3), k3, h/3), k4, h/6)
		}
	}
	up := a.RunUp.Breaks()
	for i := 0; i+1 < len(up); i++ {
		walk(up[i], up[i+1], func(sec float64) float64 { return a.RunUp.At(sec).Acc })
	}
	var begins []spring.State
	breaks := a.Track.Breaks()
	for range 3 {
		begins = append(begins, x)
		for i := 0; i+1 < len(breaks); i++ {
			walk(breaks[i], breaks[i+1], func(sec float64) float64 { return a.Track.At(sec).Acc })
		}
	}
	found := survey.OfPlan(p, 12)[0]
	for n := range 2 {
		want := load.Swing(spring.State{Pos: begins[n+1].Pos - begins[n].Pos, Vel: begins[n+1].Vel - begins[n].Vel})
		require.Greater(t, want, 1e-3)
		assert.InEpsilon(t, want, found.Unlike(int64(n)), 1e-3, "round %d", n)
	}
}
