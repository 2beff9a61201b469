package loopsearch_test

import (
	"context"
	"math"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/loopsearch"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

const (
	pitch   = 0.005
	shutter = 1.0 / 250
	scale   = 1.0 / 3 / pitch // px a mm
	travel  = 12
)

// question is a carriage that goes 12 mm sideways and back at 120 frames a
// second, shown at 24, before a lens that magnifies by a third.
func question(t testing.TB, frames int64) loopsearch.Question {
	t.Helper()
	c, err := clock.New(exact.Int(120), exact.Int(24), exact.Rat{})
	require.NoError(t, err)
	loop, err := c.LoopFrames(frames)
	require.NoError(t, err)
	labels, err := clock.NewTimecode(c.Playback, false)
	require.NoError(t, err)
	rail := sample.Rail(t, "3-4-5", travel)
	rail = sample.Ways(rail, func(w *move.Ways) { w.DwellFar = exact.Rat{} })
	r := sample.Bench(rig.InverseTime)
	r.Axes[0].StepsPerUnit, r.Controller.StepRate = exact.Int(800), 1e6
	return loopsearch.Question{
		Shot: shot.Shot{Title: "Fernhollow lantern", Clock: c, Loop: loop, Axes: []shot.AxisMove{rail}, Rounds: 1, Timecode: labels},
		Rig:  r,
		Scene: scene.Scene{
			Camera: scene.Camera{Pitch: scene.Is(pitch), PixelsWide: scene.Is(4000), PixelsHigh: scene.Is(2000), Shutter: scene.Is(shutter)},
			Lens:   scene.Lens{FocalLength: scene.Is(100), Magnification: scene.Is(1.0 / 3)},
			Stand:  scene.Stand{Slides: []scene.Slide{{Axis: "rail", Heading: 90, Zero: 40}}},
		},
	}
}

func ask(t *testing.T, q loopsearch.Question) loopsearch.Answer {
	t.Helper()
	a, err := loopsearch.Search(context.Background(), q)
	require.NoError(t, err)
	return a
}

func only(t *testing.T, names ...string) []law.Law {
	t.Helper()
	var out []law.Law
	for _, n := range names {
		l, err := law.Named(n)
		require.NoError(t, err)
		out = append(out, l)
	}
	return out
}

// The peak of smear has a closed form, Cv D/T over an exposure: the quickest
// loop is the shortest whole one above it.
func TestQuickestAgainstTheClosedForm(t *testing.T) {
	q := question(t, 96)
	q.Laws = only(t, "3-4-5")
	a := ask(t, q)
	require.NotNil(t, a.Quickest, "%+v", a.Kept)
	const cv = 15.0 / 8
	half := cv * travel * shutter * scale / scene.DefaultBounds().SoftSmear // real s of the way out
	want := math.Ceil(2 * half * 5 * 24)
	// Frames are taken at the middle of exposures, which may miss the very peak.
	assert.InDelta(t, want, float64(a.Quickest.Frames()), 1)
	assert.Equal(t, "3-4-5", a.Quickest.Law)
	v, _ := a.Quickest.Report.Find("smear")
	assert.Equal(t, picture.Good, v.Level)
	assert.Positive(t, a.Kept["smear"])
	assert.GreaterOrEqual(t, a.Gentlest.Frames(), a.Quickest.Frames())
	assert.LessOrEqual(t, a.Gentlest.Strain, a.Quickest.Strain)
}

// Against trying every loop there is.
func TestQuickestAgainstTryingAll(t *testing.T) {
	q := question(t, 60)
	q.Laws = only(t, "cycloidal")
	q.From, q.To = 40, 100
	told := 0
	q.Tell = func(n int) { told = n }
	q.Scene.Bounds = scene.Bounds{SoftSmear: 30, BriskSpeed: 1, StepsExposed: 0.2}
	a := ask(t, q)
	require.NotNil(t, a.Quickest, "%+v", a.Kept)
	var holds []int64
	for n := q.From; n <= q.To; n++ {
		if keeps(t, q, n) {
			holds = append(holds, n)
		}
	}
	require.NotEmpty(t, holds)
	assert.Greater(t, holds[0], q.From, "the range must cut the answer off neither way")
	assert.Equal(t, holds[0], a.Quickest.Frames())
	assert.Equal(t, holds[len(holds)-1], a.Gentlest.Frames())
	assert.Less(t, a.Tried, 40)
	assert.Equal(t, a.Tried, told)
}

func keeps(t *testing.T, q loopsearch.Question, n int64) bool {
	t.Helper()
	s := q.Shot
	var err error
	s.Loop, err = s.Clock.LoopFrames(n)
	require.NoError(t, err)
	s.Axes = []shot.AxisMove{s.Axes[0].WithLaw(q.Laws[0])}
	p, err := plan.Build(s, q.Rig)
	require.NoError(t, err)
	r, err := picture.Examine(trajectory.New(p), q.Scene)
	require.NoError(t, err)
	for _, v := range r.Verdicts {
		if v.Paced && v.Level > picture.Fair {
			return false
		}
	}
	return len(p.Breaches()) == 0 && verify.Check(trajectory.New(p)).OK
}

// A loop that only just fails in a frame that was not glanced at is found out
// by the last look, and the next is taken.
func TestTheLastLookDecides(t *testing.T) {
	const frames, many = 271, 240
	q := question(t, frames)
	q.Laws, q.From, q.To = only(t, "3-4-5"), 250, 300
	s := q.Shot
	s.Axes = []shot.AxisMove{s.Axes[0].WithLaw(q.Laws[0])}
	p, err := plan.Build(s, q.Rig)
	require.NoError(t, err)
	all, err := picture.Examine(trajectory.New(p), q.Scene)
	require.NoError(t, err)
	some, err := picture.Glance(trajectory.New(p), q.Scene, many)
	require.NoError(t, err)
	assert.LessOrEqual(t, len(some.Rows), many)
	full, glanced := together(t, all), together(t, some)
	require.Less(t, glanced, full)
	q.Scene.Bounds.SoftSmear = (full + glanced) / 2
	a := ask(t, q)
	require.NotNil(t, a.Quickest)
	assert.Equal(t, int64(frames+1), a.Quickest.Frames())
}

func together(t *testing.T, r picture.Report) float64 {
	t.Helper()
	v, ok := r.Find("smear")
	require.True(t, ok)
	px, ok := v.Figure("together")
	require.True(t, ok)
	return px
}

func TestEveryLawIsTried(t *testing.T) {
	a := ask(t, question(t, 96))
	require.NotNil(t, a.Quickest)
	assert.Equal(t, "seven-segment", a.Quickest.Law, "of the laws whose jerk has a bound, the one of least peak speed")
	assert.Positive(t, a.Kept["limits"], "laws of unbounded jerk")
	assert.Contains(t, a.Gentlest.Text(), "% of the rig's limits")
}

// What no pace changes is told apart; what holds loops back is counted.
func TestNothingFound(t *testing.T) {
	q := question(t, 24)
	q.From, q.To = 12, 24
	q.Rig.Axes[0].MaxJerk, q.Rig.Axes[0].MaxAcc, q.Rig.Axes[0].MaxSpeed = 0, 1e6, 1e4
	q.Scene.Lens.Aperture, q.Scene.Camera.ISO = scene.Is(22), scene.Is(100)
	q.Scene.Lamps = []scene.Lamp{{Lumens: scene.Is(100), Beam: scene.Is(90), Distance: scene.Is(1000)}}
	a := ask(t, q)
	assert.Nil(t, a.Quickest)
	assert.Nil(t, a.Gentlest)
	assert.Positive(t, a.Kept["smear"])
	require.Len(t, a.Standing, 2)
	assert.Equal(t, "diffraction", a.Standing[0].Check)
	assert.Equal(t, "light", a.Standing[1].Check)
}

// What is not known holds no loop back, and is named.
func TestUnknownIsNamed(t *testing.T) {
	q := question(t, 96)
	q.Scene.Camera.Shutter = scene.Number{}
	q.Laws = only(t, "3-4-5")
	a := ask(t, q)
	require.NotNil(t, a.Quickest)
	var names []string
	for _, v := range a.Unknown {
		names = append(names, v.Check)
	}
	assert.Equal(t, []string{"smear", "steps of rail"}, names)
}

func TestACollisionIsNotSearched(t *testing.T) {
	q := question(t, 96)
	q.Scene.Product = scene.Product{Shape: scene.Cylinder, Radius: scene.Is(40)}
	q.Scene.Stand.Slides[0].Heading = 0
	q.Scene.Lens.FrontAhead, q.Scene.Lens.FrontDiameter = scene.Is(395), scene.Is(60)
	a := ask(t, q)
	assert.Zero(t, a.Tried)
	require.NotEmpty(t, a.Standing)
	assert.Equal(t, picture.Block, a.Standing[0].Level)
}

func TestErrors(t *testing.T) {
	q := question(t, 96)
	q.From, q.To = 20, 10
	_, err := loopsearch.Search(context.Background(), q)
	assert.ErrorIs(t, err, loopsearch.ErrRange)
	q = question(t, 96)
	q.Scene.Lens.Aperture = scene.Is(0)
	_, err = loopsearch.Search(context.Background(), q)
	assert.ErrorContains(t, err, "camera.aperture")
	stopped, stop := context.WithCancel(context.Background())
	stop()
	_, err = loopsearch.Search(stopped, question(t, 96))
	assert.ErrorIs(t, err, context.Canceled)
}

func BenchmarkSearch(b *testing.B) {
	q := question(b, 96)
	for b.Loop() {
		_, _ = loopsearch.Search(context.Background(), q)
	}
}

// A controller that reads five moves a second smears any curve into chords.
func TestTheControllerHoldsLoopsBack(t *testing.T) {
	q := question(t, 96)
	q.From, q.To, q.Laws = 90, 240, only(t, "3-4-5")
	q.Rig.Controller.SegmentRate = 5
	q.Rig.Controller.Blocks = 2
	a := ask(t, q)
	assert.Nil(t, a.Quickest)
	assert.Positive(t, a.Kept["controller"])
}

// A motor that can do what the shot's own 96 frames ask, and no more, holds
// back every quicker loop: acceleration goes with the square of the pace.
func TestTheMotorsHoldLoopsBack(t *testing.T) {
	q := question(t, 96)
	q.From, q.To, q.Laws = 60, 150, only(t, "3-4-5")
	q.Scene.Bounds = scene.Bounds{SoftSmear: 1e3, BriskSpeed: 10, CalmSpeed: 10}
	const perTurn, kilos = 40.0, 2.0
	half := 96.0 / 24 / 5 / 2                                       // real s of the way out
	peak := 10 / math.Sqrt(3) * travel / 1000 / (half * half)       // m/s2
	torque := kilos * peak * perTurn / 1000 / (2 * math.Pi) * 1.001 // N m
	q.Rig.Axes[0].Drive = &motor.Drive{PerTurn: perTurn, Load: motor.Load{Mass: kilos}, Train: motor.Ideal(),
		Motor: motor.Motor{Reserve: 1, Curve: []motor.Point{{Torque: torque}, {Speed: 1e4, Torque: torque}}}}
	a := ask(t, q)
	require.NotNil(t, a.Quickest, "%+v", a.Kept)
	assert.EqualValues(t, 96, a.Quickest.Frames())
	assert.Positive(t, a.Kept["motors"])
}
