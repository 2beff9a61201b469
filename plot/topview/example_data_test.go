package topview

import (
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

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
func lantern(heading float64) scene.Scene {
	return scene.Scene{
		Camera: scene.Camera{Pitch: scene.Is(0.005), PixelsWide: scene.Is(4000), PixelsHigh: scene.Is(2000)},
		Lens: scene.Lens{FocalLength: scene.Is(100), Magnification: scene.Is(1.0 / 3), Aperture: scene.Is(11),
			FrontAhead: scene.Is(30), FrontDiameter: scene.Is(70), FrontLength: scene.Is(12),
			BarrelDiameter: scene.Is(62), BarrelLength: scene.Is(120)},
		Stand:   scene.Stand{Slides: []scene.Slide{{Axis: "rail", Heading: heading, Zero: 40}}, TableAxis: "table"},
		Product: scene.Product{Shape: scene.Prism, Sides: 6, Radius: scene.Is(45), Height: scene.Is(120)},
		Lamps: []scene.Lamp{
			{Name: "key", Lumens: scene.Is(4500), Beam: scene.Is(40), Distance: scene.Is(500), Bearing: 40, Rise: 35},
			{Name: "rim", Lumens: scene.Is(1500), Beam: scene.Is(25), Distance: scene.Is(350), Bearing: -140, Rise: 20},
		},
	}
}

// walled is the lantern behind a board with a hole, a dark behind it.
func walled(heading float64) scene.Scene {
	s := lantern(heading)
	s.Holes = []scene.Hole{{Centre: r3.Vec{Y: -300, Z: 60}, Diameter: scene.Is(90), Thickness: 6, Board: 300}}
	s.Dark = &scene.Dark{Centre: r3.Vec{Y: 90, Z: 60}, Width: scene.Is(200), Height: scene.Is(160)}
	return s
}

// tester is a test, a benchmark or a drawn case.
type tester interface {
	require.TestingT
	Helper()
}

func seen(t tester, tr *trajectory.Trajectory, s scene.Scene) Data {
	t.Helper()
	d, err := From(tr, s)
	require.NoError(t, err)
	d.Title, d.Foot = tr.Plan().Title, "Plan "+tr.Plan().Hash()
	return d
}
