package align_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/footage"
	"seamrail/motion/footage/align"
)

// thing is a part of a picture that goes its own way: what of a scene lies between two columns of the
// first frame, and goes before what was drawn earlier.
type thing struct {
	scene    []blob
	from, to float64 // columns from the middle
	at       func(n int) footage.Pose
}

// deep is a take of things before each other, in pixels of a picture half as wide as it was recorded.
func deep(frames int, things ...thing) []footage.Frame {
	tracker := align.NewTracker(2)
	for n := range frames {
		g := footage.NewGray(small, small*9/16)
		for _, th := range things {
			p := th.at(n).Magnified(0.5)
			other := seen(th.scene, small, g.Height, p)
			back := p.Inverse()
			for y := range g.Height {
				for x := range small {
					if u, _ := back.At(float64(x)-(small-1)/2.0, float64(y)-float64(g.Height-1)/2); u >= th.from && u < th.to {
						g.Row(y)[x] = other.Row(y)[x]
					}
				}
			}
		}
		tracker.Add(grainy(g, 0.01, uint64(n)))
	}
	return tracker.Frames()
}

// everywhere is beyond every column.
const everywhere = 1e9

// beyondDoubt is how many of its own uncertainties the worst frame is off, each way. A fiftieth of a
// pixel, of which the tracker sees halves, is what pictures between pixels leave.
func beyondDoubt(t *testing.T, frames []footage.Frame, at func(n int) footage.Pose) (most float64) {
	t.Helper()
	const between = 0.04
	for n, f := range frames {
		require.True(t, f.FromFirst.Known, "frame %d", n)
		w, p := at(n), f.FromFirst
		most = math.Max(most, math.Abs(p.X-w.X)/math.Hypot(p.Doubt.X, between))
		most = math.Max(most, math.Abs(p.Y-w.Y)/math.Hypot(p.Doubt.Y, between))
		most = math.Max(most, math.Abs(p.Scale-w.Scale)/math.Hypot(p.Doubt.Scale, 2*between/small))
	}
	return most
}

// A picture of two depths that go by each other, or grow by different shares, as in a push-in: the
// pose lies on the one that has more of the picture in every frame, from the first that hardly moves
// on, and there and back.
func TestAPoseStaysOnOneDepth(t *testing.T) {
	swing := func(n int) float64 { return (1 - math.Cos(2*math.Pi*float64(n)/40)) / 2 }
	for name, way := range map[string]func(n int, share float64) footage.Pose{
		"sideways": func(n int, share float64) footage.Pose { return footage.Linear(60*share*swing(n), 0, 1, 0) },
		"up":       func(n int, share float64) footage.Pose { return footage.Linear(0, 40*share*swing(n), 1, 0) },
		"in":       func(n int, share float64) footage.Pose { return footage.Linear(0, 0, 1+0.17*share*swing(n), 0) },
	} {
		near := func(n int) footage.Pose { return way(n, 1) }
		far := func(n int) footage.Pose { return way(n, 0.55) }
		wall := thing{scene(31, small, small*9/16, 700), -everywhere, everywhere, far}
		for _, most := range []struct {
			from, to float64
			at       func(n int) footage.Pose
		}{{-90, 130, near}, {-45, 45, far}} {
			product := thing{scene(32, small, small*9/16, 700), most.from, most.to, near}
			got := deep(41, wall, product)
			assert.Less(t, beyondDoubt(t, got, most.at), 4.5, "%s, %g to %g", name, most.from, most.to)
		}
	}
}

// A product that turns beside a wall that stands takes nothing over, nor does a thing before it that
// comes in and stays, nor a hand that covers three fifths of the picture for a while.
func TestWhatElseMovesTakesNothingOver(t *testing.T) {
	still := func(int) footage.Pose { return footage.Same() }
	slide := func(n int) footage.Pose { return footage.Linear(0.6*float64(n), 0, 1, 0) }
	wall := thing{scene(41, small, small*9/16, 700), -everywhere, everywhere, nil}
	other := scene(42, small, small*9/16, 700)
	for name, c := range map[string]struct{ wall, thing func(n int) footage.Pose }{
		"turns": {still, func(n int) footage.Pose {
			return footage.Linear(0, 0, math.Cos(0.01*float64(n)), math.Sin(0.01*float64(n)))
		}},
		"edge": {slide, func(n int) footage.Pose { return footage.Linear(-300+4*float64(n), 0, 1, 0) }},
		"hand": {slide, func(n int) footage.Pose {
			return footage.Linear(600-20*float64(n), 3*math.Sin(float64(n)/3), 1, 0)
		}},
	} {
		wall.at = c.wall
		wide := map[string]float64{"turns": 55, "edge": 50, "hand": 96}[name]
		got := deep(61, wall, thing{other, -wide, wide, c.thing})
		assert.Less(t, beyondDoubt(t, got, c.wall), 4.5, name)
	}
}

// Where blocks were looked for in another form than they have, they are found where their structure
// lies, and what that does to a growth and a turn is taken out.
func TestAFormThatWasNotExpectedMovesNothing(t *testing.T) {
	sc, reference := first(9)
	for _, want := range []footage.Pose{footage.Linear(1, -2, 1.02, 0), footage.Linear(0, 0, 1, 0.02)} {
		frame := align.Prepare(grainy(seen(sc, width, height, want), 0.01, 3))
		right := align.On(reference, frame, &want)
		wrong := footage.Linear(want.X, want.Y, 1, 0)
		got := align.On(reference, frame, &wrong)
		assertFound(t, want, right)
		assert.InDelta(t, right.X, got.X, 2*right.Doubt.X)
		assert.InDelta(t, right.Scale, got.Scale, 2*right.Doubt.Scale)
		assert.InDelta(t, right.Turn, got.Turn, 2*right.Doubt.Turn)
	}
}
