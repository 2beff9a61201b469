package intact_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/footage"
	"seamrail/motion/footage/intact"
	"seamrail/motion/plan/sample/many"
)

const (
	width, height = 32, 18
	reach         = height / 2.0
)

// take is what a camera sees frame by frame: where things are, in px, and how bright.
type take struct {
	at      []float64 // of each frame that was recorded
	light   []float64 // a gain; nil is 1
	scene   []int     // which pictures are seen; nil is the first
	noise   float64
	posed   bool // whether poses are told
	repeats map[int]bool
	lit     bool // what is repeated has the light of its own time
	seed    uint64
}

// scenery are a few lights of sizes, which go by from the right to the left without end.
func scenery(scene int, at float64, g footage.Gray) {
	r := rand.New(rand.NewPCG(uint64(scene), 77))
	for i := range g.Pix {
		g.Pix[i] = 0.1
	}
	for range 7 {
		x0, y0 := r.Float64()*width, r.Float64()*height
		size, light := 2.5+2*r.Float64(), 0.2+0.4*r.Float64()
		x := math.Mod(math.Mod(x0-at, width)+width, width)
		var across [width]float32
		for u := range across {
			dx := math.Remainder(float64(u)-x, width) / size
			across[u] = float32(light * math.Exp(-dx*dx/2))
		}
		for v := range height {
			dy := (float64(v) - y0) / size
			down := float32(math.Exp(-dy * dy / 2))
			row := g.Row(v)
			for u, a := range across {
				row[u] += a * down
			}
		}
	}
}

// frames draws the take and measures it.
func (k take) frames() []footage.Frame {
	r := rand.New(rand.NewPCG(k.seed, 5))
	out := make([]footage.Frame, len(k.at))
	last, g := footage.NewGray(width, height), footage.NewGray(width, height)
	for i, at := range k.at {
		last, g = g, last
		if k.repeats[i] {
			gain := float32(1)
			if k.lit {
				gain = float32(k.light[i] / k.light[i-1])
			}
			for p, v := range last.Pix { // as an encoder repeats it
				g.Pix[p] = gain*v + float32(0.05*k.noise*r.NormFloat64())
			}
		} else {
			k.draw(i, g, r)
		}
		out[i] = measured(g, last)
		if k.posed && i > 0 {
			same := k.scene == nil || k.scene[i] == k.scene[i-1]
			out[i].FromBefore = footage.Pose{X: k.at[i-1] - at + 0.02*r.NormFloat64(), Scale: 1, Known: same, Shared: 0.95, Doubt: footage.Doubt{X: 0.02, Y: 0.02}}
			out[i].FromFirst = footage.Pose{X: k.at[0] - at, Scale: 1, Known: true, Shared: 0.99, Doubt: footage.Doubt{X: 0.02, Y: 0.02}}
		}
	}
	return out
}

func (k take) draw(i int, g footage.Gray, r *rand.Rand) {
	scene, gain := 0, 1.0
	if k.scene != nil {
		scene = k.scene[i]
	}
	if k.light != nil {
		gain = k.light[i]
	}
	scenery(scene, k.at[i], g)
	for p, v := range g.Pix {
		g.Pix[p] = min(1, max(0, float32(gain)*v+float32(k.noise*r.NormFloat64())))
	}
}

func measured(g, last footage.Gray) (f footage.Frame) {
	n := float64(len(g.Pix))
	var other, gg, gl, ll float64
	for p, v := range g.Pix {
		other += float64(last.Pix[p]) / n
		f.Mean += float64(v) / n
	}
	for p, v := range g.Pix {
		d := float64(v - last.Pix[p])
		a, b := float64(v)-f.Mean, float64(last.Pix[p])-other
		gg, gl, ll = gg+a*a/n, gl+a*b/n, ll+b*b/n
		f.Changed += d * d / n
		if v < 0.02 {
			f.Black += 1 / n
		}
		if v > 0.98 {
			f.White += 1 / n
		}
	}
	f.Changed = math.Sqrt(f.Changed)
	f.Otherwise = math.Sqrt(max(0, gg-gl*gl/max(ll, 1e-12)))
	return f
}

// eased goes there and back by a law whose speed has no corner, with rests at the ends.
func eased(frames int, far float64) []float64 {
	out := make([]float64, frames)
	for k := range out {
		u := 2 * float64(k) / float64(frames-1)
		if u > 1 {
			u = 2 - u
		}
		u = min(1, max(0, 1.2*u-0.1))
		out[k] = far * u * u * u * (10 - 15*u + 6*u*u)
	}
	return out
}

func even(frames int, speed float64) []float64 {
	out := make([]float64, frames)
	for k := range out {
		out[k] = speed * float64(k)
	}
	return out
}

// without leaves frames out, and repeated puts the one before in their place.
func without(at []float64, frames ...int) []float64 {
	var out []float64
	for k, v := range at {
		if !contains(frames, k) {
			out = append(out, v)
		}
	}
	return out
}

func contains(all []int, v int) bool {
	for _, x := range all {
		if x == v {
			return true
		}
	}
	return false
}

func repeated(at []float64, frames ...int) ([]float64, map[int]bool) {
	out, held := append([]float64(nil), at...), map[int]bool{}
	for _, k := range frames {
		out[k], held[k] = out[k-1], true
	}
	return out, held
}

func TestDoubledFrames(t *testing.T) {
	for _, posed := range []bool{false, true} {
		for _, noise := range []float64{0, 0.01, 0.03} {
			at, held := repeated(even(100, 0.8), 30, 31, 70)
			f := intact.Check(take{at: at, repeats: held, noise: noise, posed: posed}.frames(), reach)
			require.Len(t, f.Doubled, 2, "noise %g", noise)
			assert.Equal(t, []int{30, 2, 70, 1}, []int{f.Doubled[0].Frame, f.Doubled[0].Times, f.Doubled[1].Frame, f.Doubled[1].Times})
			assert.Empty(t, f.Cuts)
			assert.Zero(t, f.Every)
			assert.False(t, f.Whole())
			if posed { // the frames after are ahead by those that are missing
				require.Len(t, f.Dropped, 2)
				assert.Equal(t, intact.Dropped{Frame: 32, Missing: 2, Step: f.Dropped[0].Step, Expected: f.Dropped[0].Expected, Filled: true}, f.Dropped[0])
				assert.Equal(t, 1, f.Dropped[1].Missing)
			}
		}
	}
}

// Every second frame is the one before: 24 a second in a file of 48.
func TestARhythmIsTold(t *testing.T) {
	for _, every := range []int{2, 5} {
		var frames []int
		for k := 3; k < 100; k += every {
			frames = append(frames, k)
		}
		at, held := repeated(even(100, 0.6), frames...)
		f := intact.Check(take{at: at, repeats: held, noise: 0.01}.frames(), reach)
		assert.Equal(t, every, f.Every)
		assert.InDelta(t, len(frames), len(f.Doubled), 2, "the ends do not tell")
	}
}

func TestDroppedFrames(t *testing.T) {
	for _, posed := range []bool{false, true} {
		at := without(eased(220, 60), 60, 150, 151)
		f := intact.Check(take{at: at, noise: 0.005, posed: posed}.frames(), reach)
		require.NotEmpty(t, f.Dropped)
		assert.Equal(t, 60, f.Dropped[0].Frame)
		assert.Equal(t, 1, f.Dropped[0].Missing)
		assert.False(t, f.Dropped[0].Filled)
		assert.Empty(t, f.Doubled)
		assert.Empty(t, f.Cuts)
		if posed {
			require.Len(t, f.Dropped, 2)
			assert.Equal(t, 149, f.Dropped[1].Frame)
			assert.Equal(t, 2, f.Dropped[1].Missing)
		}
	}
}

func TestCuts(t *testing.T) {
	scene := make([]int, 80)
	for k := 33; k < 80; k++ {
		scene[k] = 4
	}
	for _, posed := range []bool{false, true} {
		for _, speed := range []float64{0, 0.3} {
			f := intact.Check(take{at: even(80, speed), scene: scene, noise: 0.01, posed: posed}.frames(), reach)
			assert.Equal(t, []int{33}, f.Cuts)
			assert.Empty(t, f.Dropped)
			assert.Empty(t, f.Doubled)
		}
	}
}

// A flash, a step of the exposure and a jerk are no cuts.
func TestWhatIsNoCut(t *testing.T) {
	flash, step := make([]float64, 80), make([]float64, 80)
	for k := range flash {
		flash[k], step[k] = 1, 1
		if k >= 40 {
			step[k] = 1.4
		}
	}
	flash[40] = 1.6
	jerk := even(80, 0.2)
	for k := 40; k < 80; k++ {
		jerk[k] += 3 * math.Exp(-float64(k-40)/3) * math.Cos(float64(k-40))
	}
	for _, posed := range []bool{false, true} {
		for name, k := range map[string]take{
			"flash": {at: even(80, 0.2), light: flash}, "step": {at: even(80, 0.2), light: step}, "jerk": {at: jerk},
		} {
			k.noise, k.posed = 0.01, posed
			assert.Empty(t, intact.Check(k.frames(), reach).Cuts, "%s, posed: %t", name, posed)
		}
	}
}

func TestBlackAndWhite(t *testing.T) {
	light := make([]float64, 60)
	for k := range light {
		light[k] = 1
	}
	light[20], light[21], light[50] = 0, 0, 20
	f := intact.Check(take{at: even(60, 0.3), light: light}.frames(), reach)
	assert.Equal(t, []intact.Span{{From: 20, To: 21}}, f.Black)
	assert.Equal(t, []intact.Span{{From: 50, To: 50}}, f.White)
	all := intact.Check(take{at: even(30, 0), light: make([]float64, 30)}.frames(), reach)
	assert.Equal(t, []intact.Span{{From: 0, To: 29}}, all.Black, "the take as a whole")
}

func TestStill(t *testing.T) {
	f := intact.Check(take{at: even(60, 0), noise: 0.01, posed: true}.frames(), reach)
	assert.True(t, f.CameraStill)
	assert.True(t, f.AllStill)
	assert.True(t, f.Whole())
	moving := intact.Check(take{at: even(60, 0.02), noise: 0.01, posed: true}.frames(), reach)
	assert.False(t, moving.CameraStill)
	assert.False(t, moving.AllStill)
	assert.False(t, intact.Check(take{at: even(60, 0), noise: 0.01}.frames(), reach).CameraStill, "nobody knows")
	assert.True(t, intact.Check(take{at: even(60, 0)}.frames(), reach).AllStill, "one picture")
	assert.True(t, intact.Check(nil, reach).Whole())
	assert.False(t, intact.Check(make([]footage.Frame, 1), reach).AllStill)
}

// Whole takes of all sorts, eased, even, shaken, flickering: nothing is amiss.
func TestWholeTakesAreWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for i := range many.Times(200, 2000) {
		frames := 40 + r.IntN(80)
		k := take{noise: 0.03 * r.Float64(), posed: r.IntN(2) == 0, seed: r.Uint64()}
		switch r.IntN(3) {
		case 0:
			k.at = even(frames, 0.05+r.Float64())
		case 1:
			k.at = eased(frames, 40*r.Float64())
		default:
			k.at = even(frames, 0.3)
			for j := range k.at {
				k.at[j] += 2 * math.Sin(0.4*float64(j)+r.Float64()*0.1)
			}
		}
		k.light = make([]float64, frames)
		flicker := 0.05 * r.Float64()
		for j := range k.light {
			k.light[j] = 1 + flicker*math.Sin(1.3*float64(j))
		}
		f := intact.Check(k.frames(), reach)
		assert.True(t, f.Whole(), "take %d: %+v, posed %t, noise %g", i, f, k.posed, k.noise)
	}
}

// One fault a take, anywhere in a move that goes on: found, and nothing else.
func TestFaultsAreFound(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	for i := range many.Times(60, 1000) {
		k := take{noise: 0.02 * r.Float64(), posed: r.IntN(2) == 0, seed: r.Uint64()}
		frames, at := 60+r.IntN(60), 10+r.IntN(40)
		k.at = even(frames, 0.4+0.6*r.Float64())
		if !k.posed {
			k.noise /= 4 // what is known of a step without poses drowns in more
		}
		kind := r.IntN(3)
		switch kind {
		case 0:
			k.at = without(k.at, at)
		case 1:
			k.at, k.repeats = repeated(k.at, at)
		default:
			k.scene = make([]int, frames)
			for j := at; j < frames; j++ {
				k.scene[j] = 3
			}
		}
		f := intact.Check(k.frames(), reach)
		told := [3]int{len(f.Dropped), len(f.Doubled), len(f.Cuts)}
		if kind == 1 { // the next goes twice as far: that is told or not, and is no other fault
			told[0] = 0
		}
		want := [3]int{}
		want[kind] = 1
		require.Equal(t, want, told, "take %d: frame %d, %+v, posed %t, noise %g", i, at, f, k.posed, k.noise)
		switch kind {
		case 0:
			assert.Equal(t, at, f.Dropped[0].Frame)
			assert.Equal(t, 1, f.Dropped[0].Missing)
		case 1:
			assert.Equal(t, at, f.Doubled[0].Frame)
		default:
			assert.Equal(t, at, f.Cuts[0])
		}
	}
}

func TestRates(t *testing.T) {
	slowed := exact.New(24000, 1001)
	c, err := clock.New(exact.Int(120), exact.Int(24), exact.Int(1))
	require.NoError(t, err)
	for _, want := range []intact.Rates{
		{Container: exact.Int(120), Capture: true, Nearest: exact.Int(120), Times: exact.Int(1)},
		{Container: exact.Int(24), Playback: true, Nearest: exact.Int(24), Times: exact.Int(1)},
		// 1000 frames last a frame longer at 24000/1001 than at 24.
		{Container: slowed, Kin: true, Nearest: exact.Int(24), Drift: exact.Int(1), DriftSeconds: exact.New(1, 24)},
		{Container: exact.Int(48), Nearest: exact.Int(24), Times: exact.Int(2), Drift: exact.Int(-500), DriftSeconds: exact.New(-500, 24)},
		{Container: exact.Int(25), Nearest: exact.Int(24), Drift: exact.Int(-40), DriftSeconds: exact.New(-40, 24)},
	} {
		got, err := intact.Compare(want.Container, c, 1000)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err = intact.Compare(exact.Rat{}, c, 10)
	assert.ErrorContains(t, err, "above 0")
}

func BenchmarkCheck15000Frames(b *testing.B) {
	one := take{at: eased(500, 60), noise: 0.01, posed: true}.frames()
	var all []footage.Frame
	for range 30 {
		all = append(all, one...)
	}
	for b.Loop() {
		intact.Check(all, reach)
	}
}

// A light that flickers hides no frame that is there twice, whether it flickers in both alike or goes
// on in the second: what differs is a gain, and the grain is the same.
func TestDoubledUnderFlicker(t *testing.T) {
	r := rand.New(rand.NewPCG(81, 82))
	for i := range many.Times(60, 1000) {
		k := take{at: even(100, 0.5+0.4*r.Float64()), noise: 0.005 + 0.02*r.Float64(), posed: r.IntN(2) == 0, seed: r.Uint64(), light: make([]float64, 100)}
		flicker := 0.02 + 0.06*r.Float64()
		for j := range k.light {
			k.light[j] = 1 + flicker*math.Sin(2.1*float64(j))
		}
		k.at, k.repeats = repeated(k.at, 30, 31, 70)
		k.lit = r.IntN(2) == 0
		f := intact.Check(k.frames(), reach)
		require.Len(t, f.Doubled, 2, "take %d, posed %t, noise %g, flicker %g", i, k.posed, k.noise, flicker)
		assert.Equal(t, []int{30, 2, 70, 1}, []int{f.Doubled[0].Frame, f.Doubled[0].Times, f.Doubled[1].Frame, f.Doubled[1].Times})
		assert.Zero(t, f.Unclear)
	}
}

// Of a still camera an encoder repeats what little changes, now and then: nobody knows whether such
// a frame was filmed. A sensor never gives the same grain twice.
func TestTheSameFrameOfAStillCamera(t *testing.T) {
	still := take{at: even(90, 0), noise: 0.01, posed: true}.frames()
	raw := append([]footage.Frame(nil), still...)
	raw[40].Changed, raw[40].Otherwise = 0, 0
	f := intact.Check(raw, reach)
	require.Len(t, f.Doubled, 1)
	assert.Equal(t, 40, f.Doubled[0].Frame)

	r := rand.New(rand.NewPCG(91, 92))
	for range many.Times(50, 500) {
		encoded := append([]footage.Frame(nil), still...)
		for k := range encoded {
			encoded[k].Otherwise *= r.Float64() // from picture to picture
			if r.IntN(8) == 0 {
				encoded[k].Changed, encoded[k].Otherwise = 0, 0
			}
		}
		f := intact.Check(encoded, reach)
		assert.Empty(t, f.Doubled)
		assert.Positive(t, f.Unclear)
		assert.True(t, f.Whole())
	}
}
