package pace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/plan/sample/many"
)

// fern is the plan of the tests: a table with the lantern of six panes goes on by a half turn in
// two moves, and rests after each.
func fern(rounds int) (against.Plan, scene) {
	at, loop := round(leg{60, 100, mustLaw("3-4-5")}, leg{12, 100, nil}, leg{56, 180, mustLaw("3-4-5")}, leg{16, 180, nil})
	p := planOf(loop, rounds)
	p.Axes = append(p.Axes, axisOf("table", true, once(at, p)))
	d := newDrawing(3)
	return p, scene{plan: p, product: newProduct(d.Rand, 2), frames: 60 + rounds*int(loop), zero: 24.37, noise: 0.001, seed: 5}
}

func lay(t testing.TB, s scene) Result {
	r, err := Lay(s.film(t), nil, s.plan)
	require.NoError(t, err)
	return r
}

// The uncertainty that is stated of frame 0 is what it scatters by, within a factor of a half more:
// over noise, where frame 0 lies between frames, and how the product looks.
func TestTheUncertaintyHolds(t *testing.T) {
	many.Long(t)
	n := many.Times(1, 40)
	sum, stated := 0.0, 0.0
	for i := range n {
		_, s := fern(1)
		d := newDrawing(uint64(i))
		s.product, s.seed, s.zero, s.noise = newProduct(d.Rand, 2), uint64(i), 20+d.between(0, 5), 0.002
		r := lay(t, s)
		off := r.Frame0.Value - s.zero
		sum, stated = sum+off*off, stated+r.Frame0.Sure*r.Frame0.Sure
		assert.Less(t, math.Abs(off), 5*r.Frame0.Sure)
	}
	times := math.Sqrt(sum / stated)
	t.Logf("%d takes: off by %.4f, stated %.4f, times %.2f", n, math.Sqrt(sum/float64(n)), math.Sqrt(stated/float64(n)), times)
	if many.Asked() { // few takes scatter by more than that of themselves
		assert.Less(t, times, 1.5)
		assert.Greater(t, times, 1/1.5)
	}
}

// A round that runs late from a frame on is told so, by how much and from where.
func TestALateRoundIsTold(t *testing.T) {
	p, s := fern(2)
	stopped := float64(p.Loop) + 100 // in the second move of the second round
	s.time = func(j float64) float64 { return j - min(max(j-stopped, 0), 3) }
	r := lay(t, s)
	require.Len(t, r.Rounds, 1)
	assert.Equal(t, Differs, r.Verdict.Kind, r.Verdict.Text)
	assert.InDelta(t, 3, r.Rounds[0].Ends.Value, 0.1)
	assert.InDelta(t, s.zero+stopped, r.Rounds[0].From, 14, "a twelfth of a round")

	if !many.Asked() {
		return
	}
	s.time = func(j float64) float64 { return j - min(max(j-float64(p.Loop)+8, 0), 0.7) } // late in the rest between
	r = lay(t, s)
	assert.InDelta(t, 0.7, r.Rounds[0].Late.Value, 0.05)
	assert.InDelta(t, 0.7/24*1000, r.Rounds[0].MS.Value, 2)
	assert.Less(t, math.Abs(r.Rounds[0].Late.Value-0.7), 5*r.Rounds[0].Late.Sure)
	assert.Equal(t, Differs, r.Verdict.Kind, r.Verdict.Text)
}

// A take that shows a part of the plan twice over, with nothing before and after, may lie in
// several places, and they are told.
func TestWhatMayLieElsewhereIsTold(t *testing.T) {
	p, s := fern(4)
	s.zero = -float64(p.Loop) - 8 // it begins in the rest of the second round and shows two rounds
	s.frames = 2 * int(p.Loop)
	r := lay(t, s)
	assert.False(t, r.Frame0.Known)
	assert.NotEmpty(t, r.Frame0.Others)
	assert.Equal(t, ByTimes, r.Verdict.Kind, r.Verdict.Text)
	assert.Contains(t, r.Verdict.Text, "which round it shows nobody can tell: frame 0 may be at frame")
	for _, o := range r.Frame0.Others {
		rounds := (o.Value - s.zero) / float64(p.Loop)
		assert.InDelta(t, math.Round(rounds), rounds, 0.01)
	}
	assert.Contains(t, r.Verdict.Unproven, "8 beginnings and ends of rests that were not filmed")
}

// What turns steadily all through the recording has no frame 0.
func TestASteadySpinTellsNothing(t *testing.T) {
	p := planOf(120, 3)
	p.RunUp, p.RunOut = 24, 24
	p.Axes = append(p.Axes, axisOf("table", true, func(j float64) float64 { return 3 * j }))
	d := newDrawing(1)
	s := scene{plan: p, product: newProduct(d.Rand, 6), frames: 300, zero: -30, noise: 0.001, seed: 1}
	r := lay(t, s)
	assert.Equal(t, NotKnown, r.Verdict.Kind, r.Verdict.Text)
	assert.False(t, r.Frame0.Known)
}

// A table that runs up, turns steadily through the seam and runs out is laid by its run-up.
func TestASpinWithRunUp(t *testing.T) {
	p := planOf(120, 2)
	p.RunUp, p.RunOut = 30, 30
	p.Axes = append(p.Axes, axisOf("table", true, spun(240, 30)))
	d := newDrawing(2)
	s := scene{plan: p, product: newProduct(d.Rand, 6), frames: 380, zero: 55.3, noise: 0.001, seed: 2}
	r := lay(t, s)
	assert.InDelta(t, s.zero, r.Frame0.Value, 0.2, r.Verdict.Text)
	assert.True(t, r.Frame0.Known)
}

// spun turns 3 degrees a frame, runs up before frame 0 and out after the last as a square.
func spun(end, ramp float64) func(float64) float64 {
	return func(j float64) float64 {
		at := 3 * min(max(j, 0), end)
		if u := ramp + j; j < 0 {
			return 3 * (u*u/2/ramp - ramp/2)
		}
		if u := j - end; u > 0 {
			at += 3 * (u - u*u/2/ramp)
		}
		return at
	}
}

// A rail before a stand that turns by itself, as fast in the picture: the plan has the rail alone.
// Nothing is said that is not so.
func TestAStandThatThePlanDoesNotHave(t *testing.T) {
	at, loop := round(leg{60, 140, mustLaw("3-4-5")}, leg{12, 140, nil}, leg{60, 0, mustLaw("3-4-5")}, leg{12, 0, nil})
	p := planOf(loop, 1)
	p.Axes = append(p.Axes, axisOf("rail", false, once(at, p)))
	d := newDrawing(4)
	s := scene{plan: p, product: newProduct(d.Rand, 6), frames: 190, zero: 20.6, noise: 0.001, seed: 3, stand: 0.5}
	r := lay(t, s)
	assert.False(t, r.Frame0.Known && math.Abs(r.Frame0.Value-s.zero) > 1, "%v", r.Frame0)
	assert.NotEqual(t, Differs, r.Verdict.Kind, r.Verdict.Text)
}

// What nobody can lay is refused by name.
func TestWhatCannotBeLaid(t *testing.T) {
	p, s := fern(1)
	short := s
	short.frames = leastFrames - 1
	sketches := s.film(t)
	still := p
	still.Axes = []against.Axis{axisOf("table", true, func(float64) float64 { return 4 })}
	long := p
	long.Rounds = 50_000
	none := p
	none.Axes = nil
	for want, try := range map[string]struct {
		s *alike.Sketches
		f []footage.Frame
		p against.Plan
	}{
		"fewer than 24 frames": {short.film(t), nil, p},
		"were measured":        {sketches, make([]footage.Frame, 3), p},
		"no axis of the plan":  {sketches, nil, still},
		"can be laid":          {sketches, nil, long},
		"has no axis":          {sketches, nil, none},
		"a take of fewer":      {nil, nil, p},
	} {
		_, err := Lay(try.s, try.f, try.p)
		assert.ErrorContains(t, err, want)
	}
}

// A black film and a film of noise say nothing, and nothing breaks.
func TestNothingToSee(t *testing.T) {
	p, s := fern(1)
	for _, noise := range []float64{0, 0.01} {
		var c alike.Collector
		r := newDrawing(9)
		for range s.frames {
			g := footage.NewGray(wide, high)
			for i := range g.Pix {
				g.Pix[i] = float32(noise * math.Abs(r.NormFloat64()))
			}
			require.NoError(t, c.Add(g))
		}
		got, err := Lay(c.Sketches(), nil, p)
		require.NoError(t, err)
		assert.Equal(t, NotKnown, got.Verdict.Kind, got.Verdict.Text)
	}
}

// The sentences say the verdict first, and never that a take is its plan.
func TestSentences(t *testing.T) {
	_, s := fern(2)
	r := lay(t, s)
	said := r.Sentences()
	assert.Equal(t, ByTimes, r.Verdict.Kind, r.Verdict.Text)
	assert.Equal(t, r.Verdict.Text, said[0])
	assert.Contains(t, said[0], "not proven: how far and which way table goes")
	assert.Greater(t, len(said), 3)
	for _, line := range said {
		assert.NotContains(t, line, "is the plan,")
		t.Log(line)
	}
}

func BenchmarkLay(b *testing.B) {
	_, s := fern(3)
	sketches := s.film(b)
	for range b.N {
		_, err := Lay(sketches, nil, s.plan)
		require.NoError(b, err)
	}
}
