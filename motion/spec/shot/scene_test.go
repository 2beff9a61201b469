package shot_test

import (
	"strings"
	"testing"

	"seamrail/motion/scene"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/spec/shot"
)

// seenAll is the base shot with every key that a picture is made with.
const seenAll = base + `[axis.table]
turns = "1/6"
symmetry = 6
[axis.pan]
at = "0 deg"
[axis.focus]
at = "40 cm"
[camera]
sensor-width = "36 mm"
sensor-height = "20.25 mm"
pixels-wide = 1920
pixels-high = 1080
pitch = "18.75 um"
shutter = "1/250 s"
iso = 1600
confusion = "0.03 mm"
focal-length = "100 mm"
magnification = "1:3"
focus = "0.4 m"
aperture = "f/8"
pupil-ratio = "1.2"
neutral-density = "ND 0.9"
front-ahead = "40 mm"
front-diameter = "77 mm"
front-length = "20 mm"
barrel-diameter = "70 mm"
barrel-length = "150 mm"
[scene]
distance = "460 mm"
aside = "-5 mm"
height = "60 mm"
pan = "2 deg"
tilt = "-3 deg"
pivot-behind = "90 mm"
mains = "50 Hz"
light = "3000 lx"
[scene.product]
shape = "prism"
sides = 6
radius = "45 mm"
height = "120 mm"
base = "10 mm"
offset = ["3 mm", "-4 mm"]
facing = "30 deg"
symmetry = 6
[scene.axis.rail]
role = "slide"
heading = "right"
rise = "5 deg"
measured-at = "40 mm"
[scene.axis.table]
role = "table"
[[scene.lamps]]
name = "key"
lumens = "4500 lm"
beam = "60 deg"
distance = "600 mm"
bearing = "45 deg"
rise = "30 deg"
level = "90 %"
ripple = 0.05
ripple-rate = "100 Hz"
kelvin = "5600 K"
[[scene.lamps]]
lumens = 800
[[scene.holes]]
name = "board"
centre = ["0 mm", "-300 mm", "60 mm"]
diameter = "90 mm"
thickness = "6 mm"
heading = "1 deg"
board = "400 mm"
[scene.dark]
centre = ["0 mm", "200 mm", "60 mm"]
width = "300 mm"
height = "200 mm"
[picture]
soft-smear = "6 px"
clearance = "25 mm"
flicker = "2 %"
least-angle = "100 deg"
`

func TestSceneDecodes(t *testing.T) {
	s, err := shot.Decode("f", []byte(seenAll), nil)
	require.NoError(t, err)
	require.NotNil(t, s.Scene)
	is := scene.Is
	want := scene.Scene{
		Camera: scene.Camera{
			SensorWidth: is(36), SensorHeight: is(20.25), PixelsWide: is(1920), PixelsHigh: is(1080), Pitch: is(0.01875),
			Shutter: is(1.0 / 250), ISO: is(1600), Confusion: is(0.03),
		},
		Lens: scene.Lens{
			FocalLength: is(100), Magnification: is(1.0 / 3), Focus: is(400), Aperture: is(8), PupilRatio: is(1.2), Density: is(0.9),
			FrontAhead: is(40), FrontDiameter: is(77), FrontLength: is(20), BarrelDiameter: is(70), BarrelLength: is(150),
		},
		Stand: scene.Stand{
			Distance: is(460), Aside: is(-5), Height: is(60), Pan: is(2), Tilt: is(-3), PivotBehind: is(90),
			Slides:    []scene.Slide{{Axis: "rail", Heading: -90, Rise: 5, Zero: 40}},
			TableAxis: "table", PanAxis: "pan", FocusAxis: "focus",
		},
		Product: scene.Product{
			Shape: scene.Prism, Sides: 6, Radius: is(45), Height: is(120), Base: 10, Offset: r2.Vec{X: 3, Y: -4}, Facing: 30, Alike: 6,
		},
		Lamps: []scene.Lamp{
			{
				Name: "key", Lumens: is(4500), Beam: is(60), Distance: is(600), Bearing: 45, Rise: 30, Level: is(0.9),
				Ripple: is(0.05), RippleHz: exact.Int(100), Kelvin: is(5600),
			},
			{Name: "lamp 2", Lumens: is(800)},
		},
		Metered: is(3000),
		Mains:   exact.Int(50),
		Holes: []scene.Hole{
			{Name: "board", Centre: r3.Vec{Y: -300, Z: 60}, Heading: 1, Diameter: is(90), Thickness: 6, Board: 400},
		},
		Dark:   &scene.Dark{Centre: r3.Vec{Y: 200, Z: 60}, Width: is(300), Height: is(200)},
		Bounds: scene.Bounds{SoftSmear: 6, Clearance: 25, Flicker: 0.02, LeastAngle: 100},
	}
	assert.Equal(t, want, *s.Scene)
	assert.Empty(t, s.Scene.Faults())
}

func TestNoSceneWithoutItsTables(t *testing.T) {
	s, err := shot.Decode("f", []byte(base), nil)
	require.NoError(t, err)
	assert.Nil(t, s.Scene)
}

// What the tables leave out is told from names, moves and keys, and said.
func TestSceneFillsIn(t *testing.T) {
	text := base + "[axis.table]\nturns = \"1/6\"\nsymmetry = 6\n[axis.tilt]\nat = \"0 deg\"\n[axis.focus]\nat = \"9 deg\"\n[axis.arm]\nat = \"9 deg\"\n" +
		"[camera]\nshutter = \"180 deg\"\n[scene.product]\nradius = \"40 mm\"\n"
	s, err := shot.Decode("f", []byte(text), nil)
	require.NoError(t, err)
	assert.Equal(t, scene.Is(180), s.Scene.Camera.ShutterAngle)
	assert.Equal(t, scene.Stand{Slides: []scene.Slide{{Axis: "rail"}}, TableAxis: "table", TiltAxis: "tilt"}, s.Scene.Stand)
	assert.Equal(t, scene.Cylinder, s.Scene.Product.Shape)
	assert.Equal(t, 6, s.Scene.Product.Alike, "as the axis says that turns it")
	said := map[string]string{}
	for _, d := range s.Defaults {
		said[d.Key] = d.Value
	}
	for key, value := range map[string]string{
		"scene.axis.rail.role": "slide", "scene.axis.rail.heading": "push-in", "scene.axis.rail.measured-at": "0 mm",
		"scene.axis.table.role": "table", "scene.axis.tilt.role": "tilt", "scene.axis.focus.role": "none", "scene.axis.arm.role": "none",
		"scene.product.shape": "cylinder",
	} {
		assert.Equal(t, value, said[key], key)
	}
}

// Lines put behind the base shot, each with one thing wrong.
func TestFaultsOfTheScene(t *testing.T) {
	for lines, want := range map[string]string{
		"[camera]\naperture = \"f8\"":                                        `f:13:12: camera.aperture "f8" does not begin with a number`,
		"[camera]\naperture = 0":                                             `f:13:12: camera.aperture 0 must be from 0.5 to 1000`,
		"[camera]\nmagnification = \"1:0\"":                                  `f:13:17: camera.magnification "1/0" divides by zero`,
		"[camera]\nshutter = 250":                                            `f:13:11: camera.shutter "250" needs a unit, such as "250 s" or "250 deg"`,
		"[camera]\nshutter = \"400 deg\"":                                    `f:13:11: camera.shutter 400 deg must be above 0 and at most 360`,
		"[camera]\nfocal-lenght = \"50 mm\"":                                 `f:13:1: camera.focal-lenght is not a key that means anything here; did you mean "focal-length"?`,
		"[camera]\nfocal-length = \"50 mm\"\nfocus = \"40 mm\"":              `f:14:9: camera.focus 40 mm must be beyond the focal length, 50 mm`,
		"[camera]\nsensor-width = 36":                                        `f:13:16: camera.sensor-width "36" needs a unit, such as "36 mm"`,
		"[scene]\nmains = \"0 Hz\"":                                          `f:13:9: scene.mains "0 Hz" must be above 0 Hz`,
		"[scene]\nmains = \"50 hz\"":                                         `f:13:9: scene.mains "50 hz" has the unit "hz"; write "Hz"`,
		"[scene]\ndistance = \"-4 mm\"":                                      `f:13:12: scene.distance -4 mm must be above 0`,
		"[scene]\ndistance = \"30 mm\"\n[scene.product]\nradius = \"40 mm\"": `f:13:12: scene.distance 30 mm must leave the front of the lens outside the product`,
		"[scene.product]\nshape = \"ball\"":                                  `f:13:9: scene.product.shape "ball" must be one of cylinder, prism, box`,
		"[scene.product]\nshape = \"box\"\nradius = \"4 mm\"":                `f:14:10: scene.product.radius "4 mm" does not belong to a box; its keys are width, depth`,
		"[scene.product]\nshape = \"prism\"\nradius = \"4 mm\"":              `f:12:8: scene.product.sides is missing; give it, such as sides = 6`,
		"[scene.product]\nsides = 2\nradius = \"4 mm\"":                      `f:13:9: scene.product.sides 2 must be from 3 to 360`,
		"[scene.product]\noffset = \"4 mm\"":                                 `f:13:10: scene.product.offset must be a list: right and away; such as ["10 mm", "0 mm"]`,
		"[scene.axis.rail]\nrole = \"table\"":                                `f:13:8: axis rail: role "table" does not suit an axis in mm`,
		"[scene.axis.rail]\nheading = \"up\"":                                `f:13:11: axis rail: heading "up" must be one of left, pull-back, push-in, right, or an angle`,
		"[scene.axis.rail]\nheading = \"700 deg\"":                           `f:13:11: axis rail: heading 700 deg must be from -360 to 360`,
		"[scene.axis.rail]\nrole = \"none\"\nrise = \"4 deg\"":               `f:14:8: axis rail: rise "4 deg" is for an axis that carries the camera`,
		"[scene.axis.rail]\nrole = \"slid\"\nheading = \"in\"":               `f:13:8: axis rail: role "slid" must be one of slide, table, pan, tilt, focus, none; did you mean "slide"?`,
		"[scene.axis.crane]\nrole = \"slide\"":                               `f:12:13: scene.axis.crane is no axis of this shot; it has rail`,
		"[[scene.lamps]]\nlevel = \"190 %\"":                                 `f:13:9: scene.lamps[1].level 1.9 must be from 0 to 1`,
		"[[scene.lamps]]\n[[scene.lamps]]\nbeam = \"0 deg\"":                 `f:14:8: scene.lamps[2].beam 0 deg must be from 0.1 to 360`,
		"[[scene.holes]]\ndiameter = \"90 mm\"":                              `f:12:9: scene.holes[1].centre is missing; give it, such as centre = ["0 mm", "-300 mm", "60 mm"]`,
		"[picture]\nsoft-smear = -1":                                         `f:13:14: picture.soft-smear "-1" must be above 0`,
		"[picture]\nsoft-smear = \"6 mm/s\"":                                 `f:13:14: picture.soft-smear "6 mm/s" is a speed`,
		"[picture]\nsmear = 1":                                               `f:13:1: picture.smear is not a key that means anything here`,
		"[scene.product]\nsymmetry = 4\nradius = \"4 mm\"\n[axis.table]\nturns = \"1/6\"\nsymmetry = 6": `f:13:12: scene.product.symmetry must be what axis table says; 6`,
	} {
		t.Run(lines, func(t *testing.T) {
			_, err := shot.Decode("f", []byte(base+lines+"\n"), nil)
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			assert.True(t, strings.HasPrefix(err.Error(), want), err.Error())
		})
	}
}

// Every bound has a key, and every key is a bound.
func TestEveryBoundCanBeSet(t *testing.T) {
	var b strings.Builder
	b.WriteString(base + "[picture]\n")
	for _, i := range scene.BoundList() {
		b.WriteString(i.Key + " = 7\n")
	}
	s, err := shot.Decode("f", []byte(b.String()), nil)
	require.NoError(t, err)
	for _, i := range scene.BoundList() {
		assert.InDelta(t, 7, *i.At(&s.Scene.Bounds), 0, i.Key)
	}
}

// A fault that only the move shows gets the line of its key.
func TestLocated(t *testing.T) {
	s, err := shot.Decode("f", []byte(seenAll), nil)
	require.NoError(t, err)
	out := s.Located(fault.List{{Quantity: "camera.shutter", Value: "1/5 s", Bound: "is long"}, {Axis: "focus", Quantity: "focus", Bound: "is short", Where: "at frame 2"}})
	assert.Equal(t, "f:17:7: axis focus: focus is short at frame 2\nf:25:11: camera.shutter 1/5 s is long", out.Error())
}

// A stand's product is as the camera and the scene say: 1:3 over a pitch of
// 0.02 mm is 16.67 px a mm where it is in focus.
func TestStandsTakeTheCamerasWord(t *testing.T) {
	const camera = "[camera]\nmagnification = \"1:3\"\npitch = \"20 um\"\nfocal-length = \"100 mm\"\n" +
		"[scene.product]\nsides = 6\nradius = \"45 mm\"\n"
	s, err := shot.Decode("f", []byte(base+camera+"[spin.display]\nwithin = \"2 px\"\n"), nil)
	require.NoError(t, err)
	assert.Equal(t, "16.6667", s.Spins[0].Scale.Decimal(4))
	assert.Equal(t, "45", s.Spins[0].Radius.String())
	assert.EqualValues(t, 6, s.Spins[0].Symmetry)

	s, err = shot.Decode("f", []byte(base+camera+"[spin.display]\npixels-per-mm = \"16.5\"\nradius = \"4.5 cm\"\n"), nil)
	require.NoError(t, err, "a part in fifty is a ruler's")
	assert.Equal(t, "16.6667", s.Spins[0].Scale.Decimal(4))

	_, err = shot.Decode("f", []byte(base+camera+"[spin.display]\npixels-per-mm = 12\nradius = \"30 mm\"\n"), nil)
	require.Error(t, err)
	assert.Equal(t, "f:20:17: spin.display.pixels-per-mm \"12\" must be 16.6667, as [camera] has it, on the near face in frame 0; leave it out\n"+
		"f:21:10: spin.display.radius \"30 mm\" must be 45 mm, as [scene.product] has it; leave it out", err.Error())

	// The scene's product stands on one of them only.
	const three = "[spin.fan]\nradius = \"30 mm\"\nsymmetry = 4\n[spin.display]\n[spin.bowl]\n"
	s, err = shot.Decode("f", []byte(base+camera+"on = \"display\"\n"+three), nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"30", "45", "0"}, []string{s.Spins[0].Radius.String(), s.Spins[1].Radius.String(), s.Spins[2].Radius.String()})
	assert.Equal(t, []int64{4, 6, 1}, []int64{s.Spins[0].Symmetry, s.Spins[1].Symmetry, s.Spins[2].Symmetry})

	// Other faults do not make the stand complain of what it would have had.
	_, err = shot.Decode("f", []byte(strings.Replace(base, "144 frames", "0 frames", 1)+camera+"[spin.display]\nwithin = \"2 px\"\n"), nil)
	var list fault.List
	require.ErrorAs(t, err, &list)
	assert.Len(t, list, 1)
}

// An axis that aims has the part in the picture that its move says.
func TestAimsHaveTheirRoles(t *testing.T) {
	s, err := shot.Decode("f", []byte(base+"[axis.head]\nmove = \"aim\"\nfollow = \"rail\"\nas = \"pan\"\npoint = [\"70 mm\", \"400 mm\"]\n[camera]\niso = 800\n"), nil)
	require.NoError(t, err)
	assert.Equal(t, "head", s.Scene.Stand.PanAxis)
}
