package alike_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
)

// collect makes sketches of frames that are drawn one after the other.
func collect(t require.TestingT, width, height, frames int, draw func(k int, g footage.Gray)) *alike.Sketches {
	var c alike.Collector
	g := footage.NewGray(width, height)
	for k := range frames {
		draw(k, g)
		require.NoError(t, c.Add(g))
	}
	return c.Sketches()
}

// blob lights the picture around a point, which may be beyond its edges.
func blob(g footage.Gray, x, y, radius, light float64) {
	across := make([]float32, g.Width)
	for u := range across {
		d := (float64(u) - x) / radius
		across[u] = float32(light * math.Exp(-d*d/2))
	}
	for v := range g.Height {
		d := (float64(v) - y) / radius
		down, row := float32(math.Exp(-d*d/2)), g.Row(v)
		for u, a := range across {
			row[u] += a * down
		}
	}
}

// lantern draws a product of a few lights that go round a middle: turned is how far, in turns.
func lantern(g footage.Gray, turned float64, lights []float64) {
	for i := range g.Pix {
		g.Pix[i] = 0.1
	}
	w, h := float64(g.Width), float64(g.Height)
	for k, light := range lights {
		sin, cos := math.Sincos(2 * math.Pi * (turned + float64(k)/float64(len(lights))))
		blob(g, w/2+w/3*cos, h/2+h/6*sin, w/16*(1+0.4*sin), light*(0.7+0.3*sin))
	}
}

// grain adds normal noise.
func grain(g footage.Gray, r *rand.Rand, sigma float64) {
	for i := range g.Pix {
		g.Pix[i] += float32(sigma * r.NormFloat64())
	}
}

// brute is what Best is to find, from the sketches alone and pair by pair.
type brute struct {
	s *alike.Sketches
	r alike.Range
}

// diffs are the differences of frame j to frame i, nil where there is none.
func (b brute) diffs(i, j int) []float32 {
	if i < 0 || j >= b.s.Len() {
		return nil
	}
	x, y := b.s.At(i), b.s.At(j)
	out := make([]float32, len(x))
	for k := range x {
		out[k] = y[k] - x[k]
	}
	return out
}

// squares is the mean of the squared differences.
func squares(x, y []float32) (sum float64) {
	for k := range x {
		e := float64(x[k] - y[k])
		sum += e * e
	}
	return sum / float64(len(x))
}

// score is the squared score by the words beside alike.Seam.
func (b brute) score(i, j int) float64 {
	here, before, after := b.diffs(i, j), b.diffs(i-1, j-1), b.diffs(i+1, j+1)
	var motion, sides float64
	for _, other := range [][]float32{before, after} {
		if other != nil {
			motion, sides = motion+squares(here, other), sides+1
		}
	}
	light := b.s.Means[i] - b.s.Means[j]
	return squares(here, make([]float32, len(here))) + 3*light*light + motion/max(1, sides)/2
}

type scored struct {
	first, length int
	score         float64
}

func (b brute) all() (out []scored) {
	for length := b.r.Min; length <= min(b.r.Max, b.s.Len()-1); length++ {
		if b.r.Multiple > 1 && length%b.r.Multiple != 0 {
			continue
		}
		for i := 0; i+length < b.s.Len(); i++ {
			out = append(out, scored{i, length, b.score(i, i+length)})
		}
	}
	slices.SortStableFunc(out, func(p, q scored) int {
		switch {
		case p.score < q.score, p.score == q.score && (p.first < q.first || p.first == q.first && p.length < q.length):
			return -1
		}
		return 1
	})
	return out
}

type bruteRun struct{ first, length, from, to int }

// runs takes pairs best first; of each run all that is near is struck out.
func (b brute) runs(bound float64) (out []bruteRun) {
	for _, p := range b.all() {
		near := func(r bruteRun) bool {
			return max(p.length-r.length, r.length-p.length) <= b.r.Apart && p.first >= r.from-b.r.Apart && p.first <= r.to+b.r.Apart
		}
		if slices.ContainsFunc(out, near) {
			continue
		}
		bar := max(bound*bound, p.score*1.1*1.1)
		r := bruteRun{p.first, p.length, p.first, p.first}
		for r.from > 0 && b.score(r.from-1, r.from-1+p.length) <= bar {
			r.from--
		}
		for r.to+1+p.length < b.s.Len() && b.score(r.to+1, r.to+1+p.length) <= bar {
			r.to++
		}
		if out = append(out, r); len(out) == b.r.Top {
			break
		}
	}
	return out
}

func found(f alike.Found) (out []bruteRun) {
	for _, r := range f.Runs {
		out = append(out, bruteRun{r.First, r.Length, r.From, r.To})
	}
	return out
}

// steps rounds a picture to 64 levels, of which all sums here are exact in double precision:
// only so are ties ties.
func steps(g footage.Gray) {
	for i, v := range g.Pix {
		g.Pix[i] = float32(math.Round(float64(min(max(v, 0), 1))*64) / 64)
	}
}

// The best loops of any take are those that are found pair by pair, ties and all.
func TestBestIsThatOfEveryPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, height := rapid.IntRange(1, 20).Draw(t, "width"), rapid.IntRange(1, 12).Draw(t, "height")
		frames := rapid.IntRange(2, 90).Draw(t, "frames")
		period := rapid.IntRange(1, 40).Draw(t, "period")
		noise := rapid.SampledFrom([]float64{0, 0, 0.01, 0.1, 0.5}).Draw(t, "noise")
		flat := rapid.IntRange(0, 3).Draw(t, "flat") == 0
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		s := collect(t, width, height, frames, func(k int, g footage.Gray) {
			lantern(g, float64(k)/float64(period), []float64{0.8, 0.4})
			if flat {
				for i := range g.Pix {
					g.Pix[i] = float32(k%period%3) / 4
				}
			}
			grain(g, r, noise)
			steps(g)
		})
		least := rapid.IntRange(1, frames-1).Draw(t, "least")
		asked := alike.Range{
			Min: least, Max: rapid.IntRange(least, frames+5).Draw(t, "most"),
			Multiple: rapid.IntRange(0, 2).Draw(t, "multiple"), Top: rapid.IntRange(1, 12).Draw(t, "top"),
			Apart: rapid.IntRange(0, 3).Draw(t, "apart"),
		}
		got, err := alike.Best(t.Context(), s, asked)
		want := brute{s, asked}
		if len(want.all()) == 0 {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		require.Equal(t, want.runs(got.Bound.Score), found(got))
		for _, x := range got.Runs {
			require.InDelta(t, math.Sqrt(want.score(x.First, x.Last())), x.Score, 1e-12)
		}
	})
}

// No pair is nearer than a coarse level says, of pictures of any values.
func TestWhatIsLeftOutIsNotAmongTheBest(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for _, level := range []float64{1e-7, 1e-4, 1} {
		s := collect(t, 64, 36, 80, func(_ int, g footage.Gray) {
			for i := range g.Pix {
				g.Pix[i] = float32(0.5 + level*(r.Float64()-0.5))
			}
		})
		asked := alike.Range{Min: 1, Max: 79, Top: 5}
		got, err := alike.Best(t.Context(), s, asked)
		require.NoError(t, err)
		all := brute{s, asked}.all()
		assert.InEpsilon(t, all[0].score, got.Runs[0].Score*got.Runs[0].Score, 1e-7, "%g", level)
		assert.Equal(t, [2]int{all[0].first, all[0].length}, [2]int{got.Runs[0].First, got.Runs[0].Length}, "%g", level)
	}
}

// A product that turns in 100 frames: every loop of 100 and of 200 is as good as any other.
func TestLoopsOfATurningProduct(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	s := collect(t, 96, 54, 330, func(k int, g footage.Gray) {
		lantern(g, float64(k)/100, []float64{0.8, 0.6, 0.4, 0.2})
		grain(g, r, 0.02)
	})
	f, err := alike.Best(t.Context(), s, alike.Range{Min: 50, Max: 320, Top: 3, Apart: 8})
	require.NoError(t, err)
	require.True(t, f.Any())
	lengths := []int{f.Runs[0].Length, f.Runs[1].Length, f.Runs[2].Length}
	slices.Sort(lengths)
	assert.Equal(t, []int{100, 200, 300}, lengths)
	for _, x := range f.Runs {
		assert.Zero(t, x.From)
		assert.Equal(t, 329-x.Length, x.To, "the whole diagonal")
		assert.True(t, x.Unseen)
		assert.Zero(t, x.Dissolve)
		assert.InDelta(t, 0, x.Brightness, 1)
	}
	assert.Less(t, f.Exact, f.Pairs/2, "most is left out unseen")
}

// A take that never comes back has no loop; the dissolve that would hide its best is told.
func TestNoLoopIsSaidAsSuch(t *testing.T) {
	s := collect(t, 96, 54, 200, func(k int, g footage.Gray) {
		lantern(g, float64(k)/500, []float64{0.8, 0.4, 0.3})
	})
	f, err := alike.Best(t.Context(), s, alike.Range{Min: 60, Max: 180})
	require.NoError(t, err)
	assert.False(t, f.Any())
	best := f.Runs[0]
	assert.Greater(t, best.Score, f.Bound.Score)
	assert.Equal(t, int(math.Ceil(best.Score/f.Bound.Score)), best.Dissolve)
	assert.LessOrEqual(t, best.Score/float64(best.Dissolve), f.Bound.Score)
}

// One jump at a time: of brightness, of motion.
func TestJumpsAreToldApart(t *testing.T) {
	flash := func(k int, g footage.Gray) {
		lantern(g, float64(k)/40, []float64{0.6})
		for i := range g.Pix {
			if k >= 40 {
				g.Pix[i] += 0.02
			}
		}
	}
	f, err := alike.Best(t.Context(), collect(t, 96, 54, 80, flash), alike.Range{Min: 40, Max: 40, Top: 1})
	require.NoError(t, err)
	assert.InDelta(t, 0.02, f.Runs[0].Picture, 1e-6)
	assert.InDelta(t, 0, f.Runs[0].Equalised, 1e-6)
	assert.Less(t, f.Runs[0].Brightness, -8.0, "the first is the darker")

	// There and back: frame 5 and its mirror show one picture, moving the other way.
	swing := func(k int, g footage.Gray) { lantern(g, 0.1*math.Sin(2*math.Pi*float64(k)/40), []float64{0.6}) }
	s := collect(t, 96, 54, 100, swing)
	back, err := alike.Best(t.Context(), s, alike.Range{Min: 10, Max: 60, Top: 1})
	require.NoError(t, err)
	assert.Equal(t, 40, back.Runs[0].Length, "not a mirrored one")
	assert.InDelta(t, 0, back.Runs[0].Motion, 1e-6)
}

func TestRangesThatAreNone(t *testing.T) {
	s := collect(t, 16, 9, 20, func(k int, g footage.Gray) { lantern(g, float64(k)/7, []float64{0.5}) })
	for want, r := range map[string]alike.Range{
		"the least must be 1 or more": {Min: 0, Max: 5},
		"no more than the greatest":   {Min: 6, Max: 5},
		"at most 19 fits":             {Min: 20, Max: 40},
		"is a multiple of 13":         {Min: 2, Max: 12, Multiple: 13},
		"1 to 200 can":                {Min: 2, Max: 12, Top: 201},
		"apart; 0 or more":            {Min: 2, Max: 12, Apart: -1},
	} {
		_, err := alike.Best(t.Context(), s, r)
		assert.ErrorContains(t, err, want)
	}
	_, err := alike.Best(t.Context(), new(alike.Collector).Sketches(), alike.Range{Min: 1, Max: 2})
	assert.ErrorContains(t, err, "footage of 0 frames")
	stopped, stop := context.WithCancel(t.Context())
	stop()
	_, err = alike.Best(stopped, s, alike.Range{Min: 1, Max: 10})
	assert.ErrorIs(t, err, context.Canceled)
}

func TestSharesGrowToOne(t *testing.T) {
	s := collect(t, 16, 9, 200, func(k int, g footage.Gray) { lantern(g, float64(k)/7, []float64{0.5}) })
	var told []float64
	_, err := alike.Best(t.Context(), s, alike.Range{Min: 1, Max: 199, Tell: func(v float64) { told = append(told, v) }})
	require.NoError(t, err)
	assert.True(t, slices.IsSorted(told))
	assert.Equal(t, 1.0, told[len(told)-1])
}

func TestLikeness(t *testing.T) {
	s := collect(t, 48, 27, 120, func(k int, g footage.Gray) { lantern(g, float64(k)/30, []float64{0.8, 0.2}) })
	f, err := alike.Best(t.Context(), s, alike.Range{Min: 20, Max: 40, Top: 1})
	require.NoError(t, err)
	m, err := s.Likeness(t.Context(), 120, f)
	require.NoError(t, err)
	for y := range 120 {
		assert.Equal(t, float32(1), m.Values[y*120+y])
		if y+30 < 120 {
			assert.InDelta(t, 1, m.Values[y*120+y+30], 1e-3, "a turn on")
			assert.Equal(t, m.Values[y*120+y+30], m.Values[(y+30)*120+y])
		}
	}
	assert.InDelta(t, 0, slices.Min(m.Values), 1e-9)
	assert.Equal(t, []alike.Mark{{FromX: 30, FromY: 0, ToX: 119, ToY: 89}}, m.Marks)

	small, err := s.Likeness(t.Context(), 40, f)
	require.NoError(t, err)
	// Of nine pairs the most alike is left; the scale is that of the least alike of those.
	most, least := make([]float32, 1600), float32(1)
	for i := range most {
		for k := range 9 {
			most[i] = max(most[i], m.Values[(3*(i/40)+k/3)*120+3*(i%40)+k%3])
		}
		least = min(least, most[i])
	}
	for i, v := range small.Values {
		assert.InDelta(t, (1-most[i])/(1-least), 1-v, 1e-4)
	}
	_, err = s.Likeness(t.Context(), 0, f)
	assert.ErrorContains(t, err, "1 to 2000")
}

func TestFramesThatAreNone(t *testing.T) {
	var c alike.Collector
	assert.ErrorContains(t, c.Add(footage.Gray{}), "at least one")
	require.NoError(t, c.Add(footage.NewGray(100, 50)))
	assert.ErrorContains(t, c.Add(footage.NewGray(50, 100)), "one size")
	broken := footage.NewGray(100, 50)
	broken.Pix[7] = float32(math.NaN())
	assert.ErrorContains(t, c.Add(broken), "no numbers")
	assert.Equal(t, 1, c.Sketches().Len())
}

// Sketches have nearly the shape of the frame and never more cells than they may.
func TestSizes(t *testing.T) {
	for in, want := range map[[2]int][2]int{{1920, 1080}: {48, 27}, {1080, 1920}: {27, 48}, {10, 5}: {10, 5}, {5000, 1}: {1296, 1}, {1, 5000}: {1, 1296}} {
		w, h := alike.Size(in[0], in[1])
		assert.Equal(t, want, [2]int{w, h}, "%v", in)
	}
}

// takeOf is a long take of a stand that turns in 251.3 frames, with grain as it comes out of
// averaging the pixels of a cell.
func takeOf(b *testing.B, frames int) *alike.Sketches {
	r := rand.New(rand.NewPCG(3, 4))
	return collect(b, 48, 27, frames, func(k int, g footage.Gray) {
		lantern(g, float64(k)/251.3, []float64{0.8, 0.6, 0.4, 0.2, 0.3, 0.7})
		grain(g, r, 0.002)
	})
}

func benchmark(b *testing.B, frames int, r alike.Range) {
	s := takeOf(b, frames)
	for b.Loop() {
		f, err := alike.Best(b.Context(), s, r)
		require.NoError(b, err)
		b.ReportMetric(float64(f.Exact)/float64(f.Pairs), "exact/pair")
	}
}

func BenchmarkBest15000Frames(b *testing.B) {
	benchmark(b, 15000, alike.Range{Min: 48, Max: 480, Apart: 6})
}

func BenchmarkBestAllPairsOf3000(b *testing.B) {
	benchmark(b, 3000, alike.Range{Min: 1, Max: 2999, Apart: 6})
}

// Nothing moves and all is noise: nothing can be left out.
func BenchmarkBestOfNothingButNoise(b *testing.B) {
	r := rand.New(rand.NewPCG(3, 4))
	s := collect(b, 48, 27, 15000, func(k int, g footage.Gray) {
		clear(g.Pix)
		grain(g, r, 0.01)
	})
	for b.Loop() {
		_, err := alike.Best(b.Context(), s, alike.Range{Min: 48, Max: 480, Apart: 6})
		require.NoError(b, err)
	}
}
