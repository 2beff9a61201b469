package verify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// cosine is a motion written down in the test itself: 60 mm there and back in
// 2 s, 48 frames, with places to break it.
type cosine struct {
	axis    trace.Axis
	rate    float64 // steps/s
	frames  int64
	jump    float64 // mm added at the very end
	kick    float64 // mm/s added at the end
	lose    int     // this step is not given, counted from 1
	late    int     // this step is given a millisecond late
	period  exact.Rat
	advance exact.Rat
}

func sound() cosine {
	return cosine{frames: 48, period: exact.Int(2), rate: 40_000,
		axis: trace.Axis{Name: "rail", Min: 0, Max: 400, MaxSpeed: 100, MaxAcc: 300, MaxJerk: 1000,
			StepsPerUnit: exact.Int(80)}}
}

func (c cosine) StepRate() float64              { return c.rate }
func (c cosine) Rounds() int64                  { return 3 }
func (c cosine) AxisCount() int                 { return 1 }
func (c cosine) Limits(int) trace.Axis          { return c.axis }
func (c cosine) Captured() int64                { return c.frames }
func (c cosine) Period() exact.Rat              { return c.period }
func (c cosine) Advance(int) exact.Rat          { return c.advance }
func (c cosine) Shown() exact.Rat               { return c.Period() }
func (c cosine) Cut(int) trace.Cut              { return trace.Cut{} }
func (c cosine) FrameSeconds(k int64) exact.Rat { return exact.New(k, 24) }
func (c cosine) StepIndex(_ int, _ int64) int64 { return 3200 }

func (c cosine) Position(_ int, sec float64) float64 {
	x := 40 + 30*(1-math.Cos(math.Pi*sec))
	if sec > 1 {
		x += c.kick * (sec - 1) * (sec - 1) / 2
	}
	if sec > 1.9 {
		x += c.jump
	}
	return x
}

func (c cosine) StepsAlong(int64) func() (trace.Step, bool) {
	n := 0
	return func() (trace.Step, bool) {
		n++
		if n == c.lose {
			n++
		}
		if n > 9600 {
			return trace.Step{}, false
		}
		k, dir := n, int8(1)
		if n > 4800 {
			k, dir = 9601-n, -1
		}
		sec := math.Acos(1-(float64(k)-0.5)/2400) / math.Pi
		if dir < 0 {
			sec = 2 - sec
		}
		if n == c.late {
			sec += 1e-3
		}
		pos := 3200 + int64(k)
		if dir < 0 {
			pos--
		}
		return trace.Step{Nanos: int64(math.Round(sec * 1e9)), Position: pos, Dir: dir}, true
	}
}

func TestSoundMotionIsVerified(t *testing.T) {
	v := Check(sound())
	require.True(t, v.OK, "%+v", v.Failed())
	assert.Equal(t, 3, v.Seam[0].Highest)
	assert.Equal(t, int64(4800), v.Steps[0].Forward)
	assert.Equal(t, int64(4800), v.Steps[0].Backward)
	// The cosine's peak speed is 30 pi mm/s, 2400 pi steps/s.
	assert.InEpsilon(t, 2400*math.Pi, v.Steps[0].Rate, 1e-3)
}

func TestEachFlawIsFound(t *testing.T) {
	flaws := []struct {
		check string
		flaw  func(*cosine)
	}{
		{"frames", func(c *cosine) { c.frames = 47 }},
		{"travel", func(c *cosine) { c.axis.Max = 99.9 }},
		{"travel", func(c *cosine) { c.axis.Min = 40.1 }},
		{"speed", func(c *cosine) { c.axis.MaxSpeed = 30*math.Pi - 0.01 }},
		{"acceleration", func(c *cosine) { c.axis.MaxAcc = 30*math.Pi*math.Pi - 0.1 }},
		{"jerk", func(c *cosine) { c.axis.MaxJerk = 30*math.Pi*math.Pi*math.Pi - 1 }},
		{"seam", func(c *cosine) { c.jump = 0.001 }},
		{"seam", func(c *cosine) { c.kick = 0.5 }},
		{"step times", func(c *cosine) { c.lose = 100 }},
		{"step times", func(c *cosine) { c.late = 2000 }},
		{"steps close", func(c *cosine) { c.lose = 9600 }},
		{"steps hold", func(c *cosine) { c.advance = exact.New(1, 8) }},
		{"step rate", func(c *cosine) { c.rate = 7000 }},
	}
	for _, f := range flaws {
		c := sound()
		f.flaw(&c)
		v := Check(c)
		require.False(t, v.OK, f.check)
		var found []string
		for _, bad := range v.Failed() {
			found = append(found, bad.Check)
		}
		assert.Contains(t, found, f.check)
	}
}

// A turn goes on where the round before ended: three rounds of 60 mm more each
// reach 220 mm, though one stays below 100.
func TestTravelIsThatOfAllRounds(t *testing.T) {
	c := sound()
	c.axis.Max, c.advance = 219, exact.Int(60)
	var text string
	for _, f := range Check(c).Failed() {
		if f.Check == "travel" {
			text = f.Text
		}
	}
	assert.Contains(t, text, "220 mm")
}

// Weights of a difference quotient of seven points must give the derivatives
// of every polynomial up to the sixth degree.
// steady goes at one speed for ever, so that it has no seam: whatever is found
// there is rounding.
type steady struct {
	cosine
	frame exact.Rat // s
	gain  exact.Rat // deg a loop
}

func (s steady) Advance(int) exact.Rat          { return s.gain }
func (s steady) Period() exact.Rat              { return s.frame.Mul(exact.Int(s.frames)) }
func (s steady) FrameSeconds(k int64) exact.Rat { return s.frame.Mul(exact.Int(k)) }
func (s steady) Position(_ int, sec float64) float64 {
	return s.gain.Float() * (sec / s.Period().Float())
}

func TestSteadyTurnsHaveNoSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := steady{cosine: sound(), frame: exact.New(1001, rapid.SampledFrom([]int64{24000, 60000, 120000, 240000}).Draw(t, "rate"))}
		s.frames = rapid.Int64Range(2, 20_000).Draw(t, "frames")
		s.gain = exact.New(rapid.Int64Range(-3600, 3600).Draw(t, "deg"), rapid.Int64Range(1, 13).Draw(t, "part"))
		speed := math.Abs(s.gain.Float()) / s.Period().Float()
		if speed > 7200 {
			t.Skip("faster than any table turns")
		}
		got := wrap{s.Period().Float(), s.gain.Float()}.measure(s, 0, peaks{lo: 0, hi: math.Abs(s.gain.Float()), speed: speed})
		assert.Equal(t, 3, got.Highest, "%+v", got)
	})
}

func TestSeamWeightsOnPolynomials(t *testing.T) {
	const h = 0.5
	for degree := 0; degree <= 6; degree++ {
		var x [stencil]float64
		for k := range x {
			x[k] = math.Pow(1+float64(k)*h, float64(degree))
		}
		want := 1.0
		for d := 0; d < 4; d++ {
			assert.InDelta(t, want, oneSided(x, h, d), 1e-9, "degree %d derivative %d", degree, d)
			want *= float64(degree - d)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	c := sound()
	for b.Loop() {
		Check(c)
	}
}
