package picture_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/light"
	"seamrail/motion/camera/optics"
	"seamrail/motion/camera/picture"
	"seamrail/motion/law"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/pull"
	"seamrail/motion/scene"
	"seamrail/motion/track"
)

func harmonic(t testing.TB) law.Law {
	l, err := law.Named("harmonic")
	require.NoError(t, err)
	return l
}

// byHand is the bench with its focus pulled from 400 to 395 mm and back in 2 s, as the
// carriage of pushed goes: both as a cosine.
func byHand(t testing.TB) scene.Scene {
	s := bench()
	s.Lens.Pull = &pull.Pull{Hand: "right", Beats: 3, Loop: exact.Int(2), Between: harmonic(t),
		Marks: []track.Key{{Pos: 400}, {Time: exact.Int(1), Pos: 395}}}
	return s
}

func pushed(t testing.TB) fake { return at(t, 120, 240).with("push", swing(0, 5, 2)) }

// What a hand pulls is what an axis would pull, in every frame: sharpness, magnification
// and breathing.
func TestAHandPullsAsAnAxisDoes(t *testing.T) {
	hand := examine(t, pushed(t), byHand(t))
	axis := examine(t, pushed(t).with("pull", swing(400, 395, 2)), bench())
	follows := byHand(t)
	follows.Lens.Pull = &pull.Pull{Hand: "right", Product: true, Loop: exact.Int(2)}
	product := examine(t, pushed(t), follows)
	require.Len(t, hand.Rows, len(axis.Rows))
	for i, r := range axis.Rows {
		for _, got := range []picture.Row{hand.Rows[i], product.Rows[i]} {
			assert.InDelta(t, r.Focus, got.Focus, 1e-8)
			assert.InDelta(t, r.Blur, got.Blur, 1e-7)
			assert.InDelta(t, r.Magnification, got.Magnification, 1e-9)
			assert.InDelta(t, r.Smear.Focus, got.Smear.Focus, 1e-6)
			assert.InDelta(t, r.Near, got.Near, 1e-7)
		}
	}
	assert.Positive(t, hand.Rows[60].Smear.Focus)
	want, _ := axis.Find("diffraction")
	got, _ := hand.Find("diffraction")
	assert.InDelta(t, figure(t, want, "effective aperture"), figure(t, got, "effective aperture"), 1e-9, "of the nearest focus")
}

// What a lens is told to breathe takes the place of a thin lens: the same at the seam, and
// as told elsewhere; told what a thin lens does, it is one. None at all leaves the picture
// as large as it was.
func TestWhatALensBreathes(t *testing.T) {
	told := func(share float64) picture.Report {
		s := byHand(t)
		s.Lens.Nearest, s.Lens.Breathing = scene.Is(200), scene.Is(share)
		return examine(t, pushed(t), s)
	}
	thin := examine(t, pushed(t), byHand(t))
	same, none, less := told(focal/(200-focal)), told(0), told(-0.1)
	for i, r := range thin.Rows {
		assert.InDelta(t, r.Magnification, same.Rows[i].Magnification, 1e-9)
	}
	of := func(r picture.Report) float64 {
		v, _ := r.Find("field of view")
		return figure(t, v, "breathing")
	}
	m := func(u float64) float64 { return focal / (u - focal) }
	nearest, farthest := thin.Rows[0].Focus, thin.Rows[0].Focus
	for _, r := range thin.Rows {
		nearest, farthest = math.Min(nearest, r.Focus), math.Max(farthest, r.Focus)
	}
	assert.InDelta(t, 100*((1+m(nearest))/(1+m(farthest))-1), of(thin), 1e-6)
	assert.Zero(t, of(none))
	assert.InDelta(t, 100*((1-0.1*m(nearest)/m(200))/(1-0.1*m(farthest)/m(200))-1), of(less), 1e-6)
	v, _ := less.Find("field of view")
	assert.Contains(t, v.Text, "smaller where its focus is nearest than where it is farthest, by the breathing that is stated")
	v, _ = thin.Find("field of view")
	assert.Contains(t, v.Text, "if the lens is a thin one, which few are")
}

// missed is the worst spot, in px, of a near face at z(t) = 400 - 2.5(1 - cos pi t) with the
// focus where it was so much earlier. The two are at most 5 sin(pi late/2) apart, which is
// the greatest speed times late for a little of it.
func missed(late float64) float64 {
	z := func(t float64) float64 { return 400 - 2.5*(1-math.Cos(math.Pi*t)) }
	worst := 0.0
	for k := range 240 {
		now := (float64(k) + 120*open/2) / 120
		u := z(now - late)
		worst = math.Max(worst, focal/8*focal*math.Abs(z(now)-u)/(z(now)*(u-focal))/pitch)
	}
	return worst
}

func TestALateHand(t *testing.T) {
	v := find(t, examine(t, pushed(t), byHand(t)), "focus")
	assert.InDelta(t, 0, figure(t, v, "blur"), 1e-6)
	assert.InEpsilon(t, missed(0.1), figure(t, v, "blur if late"), 1e-9)
	assert.InEpsilon(t, missed(-0.1), figure(t, v, "blur if early"), 1e-9)
	const speed = 2.5 * math.Pi // mm/s
	assert.InEpsilon(t, focal/8/3*speed*0.1/397.5/pitch, missed(0.1), 0.03, "v dt, at a third of life size or so")
	assert.Equal(t, picture.Good, v.Level)
	assert.Contains(t, v.Text, "with the pull 0.1 s late")

	// Both sides of where it is sharp no more.
	edge := 0.1
	for math.Max(missed(edge), missed(-edge)) < 2 {
		edge += 1e-6
	}
	s := byHand(t)
	s.Bounds.HandLate = edge - 2e-6
	assert.Equal(t, picture.Good, find(t, examine(t, pushed(t), s), "focus").Level)
	s.Bounds.HandLate = edge + 2e-6
	v = find(t, examine(t, pushed(t), s), "focus")
	assert.Equal(t, picture.Fair, v.Level)
	assert.Contains(t, v.Text, "sharp only with a hand on time")
	assert.InDelta(t, 0, figure(t, v, "blur"), 1e-6)
	require.NotNil(t, v.When)
}

// From 400 to 395 mm in a second. The ring goes with f/(u-f), and at 395 mm what is sharp
// within 0.01 mm reaches as far as Greenleaf's limits.
func TestWhetherAHandCanFollow(t *testing.T) {
	way := focal/(395-focal) - focal/(400-focal)
	bits := 0.0
	for _, to := range []float64{395, 400} { // there and back: the harder counts
		near, far := optics.Depth(focal, 8, 1, 0.01, to)
		bits = math.Max(bits, math.Log2(2*way/(focal/(near-focal)-focal/(far-focal))))
	}
	require.Greater(t, bits, 0.0)
	s := byHand(t)
	s.Bounds.HandBits = bits * 1.0001 // a second is just enough
	v := find(t, examine(t, pushed(t), s), "pull by hand")
	assert.Equal(t, picture.Good, v.Level, v.Text)
	assert.InDelta(t, 1, figure(t, v, "time for a pull"), 1e-9)
	s.Bounds.HandBits = bits * 0.9999
	v = find(t, examine(t, pushed(t), s), "pull by hand")
	assert.Equal(t, picture.Poor, v.Level, v.Text)
	assert.Contains(t, v.Text, "no hand follows")
	assert.Contains(t, strings.Join(v.Advice, "\n"), "slowed less: a retime of 1/4 in place of 1/5")
	s.Bounds = scene.Bounds{}
	v = find(t, examine(t, pushed(t), s), "pull by hand")
	assert.InDelta(t, bits/10, figure(t, v, "a hand needs"), 1e-6)

	// Where the ring is known, how fast it goes: half a turn from 500 to 480 mm of what is
	// engraved is some way of what the lens is drawn out.
	s.Lens.Ring = pull.Ring{Degrees: true, Ticks: []pull.Tick{{Focus: 420, At: 0}, {Focus: 390, At: 90}}}
	r := func(u float64) float64 {
		return 90 * (focal/(u-focal) - focal/(420-focal)) / (focal/(390-focal) - focal/(420-focal))
	}
	v = find(t, examine(t, pushed(t), s), "pull by hand")
	peak := math.Pi / 2 * (r(395) - r(400)) // of a harmonic way in a second
	assert.InEpsilon(t, peak, figure(t, v, "ring speed"), 0.02)
	assert.Equal(t, picture.Good, v.Level)
	got := figure(t, v, "ring speed")
	s.Bounds.RingSpeed = got * 1.0001
	assert.Equal(t, picture.Good, find(t, examine(t, pushed(t), s), "pull by hand").Level)
	s.Bounds.RingSpeed = got * 0.9999
	v = find(t, examine(t, pushed(t), s), "pull by hand")
	assert.Equal(t, picture.Fair, v.Level)
	assert.Contains(t, v.Text, "faster than a hand turns it evenly")
}

// A loop of another length leaves a pull where it was, and a hand as late as it was.
func TestThePaceDecidesOnAPull(t *testing.T) {
	s := byHand(t)
	assert.True(t, find(t, examine(t, pushed(t), s), "focus").Paced)
	s.Lens.Pull, s.Lens.Focus = nil, scene.Is(400)
	assert.False(t, find(t, examine(t, pushed(t), s), "focus").Paced)
}

func TestPullsThatCannotBe(t *testing.T) {
	s := byHand(t)
	_, err := picture.Examine(pushed(t).with("pull", swing(400, 395, 2)), s)
	assert.ErrorContains(t, err, "camera.pull pulls the focus, and so does axis pull")
	s.Lens.Pull.Marks[1].Pos = 100
	_, err = picture.Examine(pushed(t), s)
	assert.ErrorContains(t, err, "camera.pull.keys[2].focus 100 mm must be beyond the focal length, 100 mm")
	s.Lens.Pull.Marks[1].Pos = 100.1
	_, err = picture.Examine(pushed(t), s)
	assert.NoError(t, err)
	s.Lens.Pull.Marks[1].Time = exact.Int(2)
	_, err = picture.Examine(pushed(t), s)
	assert.ErrorContains(t, err, "camera.pull")
	still := byHand(t)
	still.Lens.Pull.Marks = still.Lens.Pull.Marks[:1]
	r := examine(t, at(t, 120, 240), still)
	assert.Contains(t, find(t, r, "pull by hand").Text, "there is nothing to pull")
	assert.Empty(t, r.Pulls)
	unknown := byHand(t)
	unknown.Lens.Aperture = scene.Number{}
	assert.Equal(t, picture.Unknown, find(t, examine(t, pushed(t), unknown), "pull by hand").Level)
	without := bench()
	_, there := examine(t, pushed(t), without).Find("pull by hand")
	assert.False(t, there)
}

// A lens that is focused at an eighth of its hyperfocal distance is sharp from 8/9 to 8/7 of
// where it is focused (the FAQ on photographic lenses of rec.photo, question 11): between
// 800 and 1028.57 mm that is at 900.
func TestOneFocusForTwoLimits(t *testing.T) {
	s := bench()
	s.Lens.Magnification, s.Stand.Distance = scene.Number{}, scene.Is(1068.571)
	s.Lens.Aperture, s.Camera.Confusion, s.Bounds.SharpSpot = scene.Is(45), scene.Is(0.1), 50
	s.Lens.Focus = scene.Is(900)
	v := find(t, examine(t, at(t, 120, 240).with("push", swing(0, 228.571, 2)), s), "focus")
	require.Equal(t, picture.Good, v.Level, v.Text)
	assert.InDelta(t, 900, figure(t, v, "with focus at"), 1e-9)
	// The spot of 800 and 1028.57 mm at 900 mm is 100 mm by 1/N of an eighth of 1/8.
	need := focal * focal / 8 / (900 - focal) / 0.1
	wide := figure(t, v, "wide enough")
	assert.GreaterOrEqual(t, light.ExactAperture(wide), need*(1-1e-3))
	assert.LessOrEqual(t, optics.Stops(need, light.ExactAperture(wide)), 1./3+1e-6, "the next of the thirds of a stop")
}

// With a needlessly small aperture the wider one is told with what it gains, from a whole
// stop on.
func TestLightToGain(t *testing.T) {
	m := at(t, 120, 240).with("push", swing(0, 1, 2))
	text := func(aperture float64) picture.Verdict {
		s := bench()
		s.Lens.Aperture = scene.Is(aperture)
		return find(t, examine(t, m, s), "focus")
	}
	v := text(16)
	require.Equal(t, picture.Good, v.Level, v.Text)
	wide := figure(t, v, "wide enough")
	assert.InDelta(t, 399.5, figure(t, v, "with focus at"), 0.51)
	assert.Contains(t, v.Text, "would do, ")
	assert.InDelta(t, optics.Stops(light.ExactAperture(wide), 16), figure(t, v, "light to gain"), 1e-9)
	for _, n := range light.Apertures() {
		gain := optics.Stops(light.ExactAperture(wide), light.ExactAperture(n))
		if n < wide || n > 22 || text(n).Level != picture.Good {
			continue
		}
		_, told := text(n).Figure("light to gain")
		assert.Equal(t, gain > 0.99, told, "f/%g against f/%g", n, wide)
	}
}

// What is told is the best there is: no other focus, to a tenth of a mm, does with a wider
// aperture, and the one told does in every frame.
func TestSettledIsTheBest(t *testing.T) {
	many.Check(t, 30, func(t *rapid.T) {
		s := bench()
		s.Lens.PupilRatio = scene.Is(rapid.Float64Range(0.7, 1.5).Draw(t, "pupils"))
		s.Lens.Aperture = scene.Is(45)
		s.Camera.Confusion = scene.Is(rapid.Float64Range(0.01, 0.2).Draw(t, "confusion"))
		travel := rapid.Float64Range(0.5, 30).Draw(t, "travel")
		m := at2(120, 48).with("push", swing(0, travel, 0.4))
		r, err := picture.Examine(m, s)
		require.NoError(t, err)
		v, _ := r.Find("focus")
		wide, told := v.Figure("wide enough")
		if v.Level != picture.Good || !told {
			t.Skip("nothing to gain")
		}
		focus, _ := v.Figure("with focus at")
		worst := func(u, n float64) float64 {
			most := 0.0
			for _, row := range r.Rows {
				most = math.Max(most, optics.Blur(focal, light.ExactAperture(n), s.Lens.PupilRatio.Value, u, row.Focus+row.Drift))
			}
			return most
		}
		limit := s.Camera.Confusion.Value * (1 + 1e-9)
		assert.LessOrEqual(t, worst(focus, wide), limit)
		wider := 0.0
		for _, n := range light.Apertures() {
			if n < wide {
				wider = n
			}
		}
		if wider == 0 {
			return
		}
		for u := 400 - travel; u <= 400; u += 0.1 {
			grid := math.Round(u*10) / 10
			assert.Greater(t, worst(grid, wider), limit, "f/%g at %g mm would do, and f/%g at %g was told", wider, grid, wide, focus)
		}
	})
}

// at2 is at for tests of many.
func at2(capture, frames int64) fake { return at(new(testing.T), capture, frames) }

// A pull that a fixed focus would spare is told so.
func TestAPullThatIsNotNeeded(t *testing.T) {
	s := byHand(t)
	s.Lens.Aperture = scene.Is(22)
	s.Camera.Confusion = scene.Is(0.05)
	v := find(t, examine(t, pushed(t), s), "focus")
	assert.Contains(t, v.Text, "would do without any pull")
	s.Lens.Aperture, s.Camera.Confusion = scene.Is(2.8), scene.Is(0.01)
	assert.NotContains(t, find(t, examine(t, pushed(t), s), "focus").Text, "without any pull")
	// And where the pull is off, a focus that is set once is tried as a cure.
	s = byHand(t)
	s.Lens.Pull.Marks[1].Pos = 380
	v = find(t, examine(t, pushed(t), s), "focus")
	require.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, strings.Join(append(v.Cures.Words(), v.Failed...), "\n"), ", and no pull")
}
