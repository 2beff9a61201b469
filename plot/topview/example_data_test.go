package topview

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// travelled is a rail that goes so many mm there and back.
func travelled(t testing.TB, mm int64) *trajectory.Trajectory {
	return sample.Make(t, 240, sample.Bench(rig.InverseTime), sample.Rail(t, "3-4-5", mm))
}

// lantern is the six-sided lantern before a lens of 100 mm, in focus on its
// near face, a rail that goes towards heading, and two lamps.
func lantern(heading float64) picture.Scene {
	return picture.Scene{
		Camera: picture.Camera{Pitch: picture.Is(0.005), PixelsWide: picture.Is(4000), PixelsHigh: picture.Is(2000)},
		Lens: picture.Lens{FocalLength: picture.Is(100), Magnification: picture.Is(1.0 / 3), Aperture: picture.Is(11),
			FrontAhead: picture.Is(30), FrontDiameter: picture.Is(70), FrontLength: picture.Is(12),
			BarrelDiameter: picture.Is(62), BarrelLength: picture.Is(120)},
		Stand:   picture.Stand{Slides: []picture.Slide{{Axis: "rail", Heading: heading, Zero: 40}}, TableAxis: "table"},
		Product: picture.Product{Shape: picture.Prism, Sides: 6, Radius: picture.Is(45), Height: picture.Is(120)},
		Lamps: []picture.Lamp{
			{Name: "key", Lumens: picture.Is(4500), Beam: picture.Is(40), Distance: picture.Is(500), Bearing: 40, Rise: 35},
			{Name: "rim", Lumens: picture.Is(1500), Beam: picture.Is(25), Distance: picture.Is(350), Bearing: -140, Rise: 20},
		},
	}
}

// walled is the lantern behind a board with a hole, a dark behind it.
func walled(heading float64) picture.Scene {
	s := lantern(heading)
	s.Holes = []picture.Hole{{Centre: r3.Vec{Y: -300, Z: 60}, Diameter: picture.Is(90), Thickness: 6, Board: 300}}
	s.Dark = &picture.Dark{Centre: r3.Vec{Y: 90, Z: 60}, Width: picture.Is(200), Height: picture.Is(160)}
	return s
}

// tester is a test, a benchmark or a drawn case.
type tester interface {
	require.TestingT
	Helper()
}

func seen(t tester, tr *trajectory.Trajectory, s picture.Scene) Data {
	t.Helper()
	d, err := From(tr, s)
	require.NoError(t, err)
	d.Title, d.Foot = tr.Plan().Title, "Plan "+tr.Plan().Hash()
	return d
}
