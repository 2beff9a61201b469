package shot

import (
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawCamera is the [camera] table: the camera and the lens on it, and how both are
// set. All of it may be left out; what cannot be told then, the report names.
type RawCamera struct {
	Place   source.Place   `toml:"-"`
	Use     source.Text    `toml:"use" shelf:"camera" jsonschema:"example=shelf/camera.toml" jsonschema_description:"A camera file, as seen from this one, that says what this table leaves out."`
	Lens    source.Text    `toml:"lens" shelf:"lens" jsonschema:"example=shelf/lens-100.toml" jsonschema_description:"A lens file, as seen from this one, that says what this table leaves out."`
	Without source.Without `toml:"without" jsonschema_description:"What set-ups say of this table is taken out: all of it (true), or some of its keys (a list)."`

	RawBody
	RawGlass

	Shutter       source.Text `toml:"shutter" jsonschema:"example=1/250 s,example=180 deg" jsonschema_description:"How long each frame is exposed, or what part of a captured frame as an angle."`
	ISO           source.Text `toml:"iso" jsonschema:"example=1600" jsonschema_description:"Sensitivity, as ISO marks it."`
	Confusion     source.Text `toml:"confusion" jsonschema:"example=0.02 mm" jsonschema_description:"Widest spot on the sensor that still counts as sharp; left out, two pixels."`
	Magnification source.Text `toml:"magnification" instead:"focus,pull" jsonschema:"example=1:3,example=0.5" jsonschema_description:"Marked on the lens where it is focused: image over object."`
	Focus         source.Text `toml:"focus" instead:"magnification,pull" jsonschema:"example=400 mm" jsonschema_description:"From the lens to the plane in focus."`
	Aperture      source.Text `toml:"aperture" jsonschema:"example=f/8,example=8" jsonschema_description:"The f-number that is set."`
	Density       source.Text `toml:"neutral-density" jsonschema:"example=0.9" jsonschema_description:"Optical density of a neutral filter on the lens, as filters are marked: each 0.3 takes a stop of light; left out, 0."`
	Extension     source.Text `toml:"extension" jsonschema:"example=20 mm" jsonschema_description:"Rings between camera and lens, for greater magnifications than the lens has by itself; left out, 0."`
	Pull          *RawPull    `toml:"pull" instead:"focus,magnification" jsonschema_description:"How a hand turns the focus ring over the loop, in place of one focus."`
}

// RawBody is what a camera is, however it is set.
type RawBody struct {
	SensorWidth  source.Text `toml:"sensor-width" jsonschema:"example=36 mm" jsonschema_description:"Width of the part of the sensor that is filmed with."`
	SensorHeight source.Text `toml:"sensor-height" jsonschema:"example=20.25 mm" jsonschema_description:"Height of that part."`
	PixelsWide   source.Text `toml:"pixels-wide" jsonschema:"example=3840" jsonschema_description:"Pixels of the delivered picture from left to right."`
	PixelsHigh   source.Text `toml:"pixels-high" jsonschema:"example=2160" jsonschema_description:"Pixels of the delivered picture from top to bottom."`
	ShutterLag   source.Text `toml:"shutter-lag" jsonschema:"example=0.06 s" jsonschema_description:"How long after its release the camera begins its first exposure, or its first frame; for marks that release it."`
	Pitch        source.Text `toml:"pitch" jsonschema:"example=9.4 um" jsonschema_description:"On the sensor, from one pixel of the delivered picture to the next; left out, the sensor's width over its pixels."`
}

// RawGlass is what a lens is, however it is set.
type RawGlass struct {
	FocalLength source.Text  `toml:"focal-length" jsonschema:"example=100 mm" jsonschema_description:"Focal length of the lens."`
	PupilRatio  source.Text  `toml:"pupil-ratio" jsonschema:"example=1" jsonschema_description:"Exit pupil over entrance pupil of the lens; left out, 1."`
	Apertures   source.Texts `toml:"apertures" jsonschema_description:"The widest and the smallest f-number that it has: f/2.8 and f/32, say."`
	Greatest    source.Text  `toml:"greatest-magnification" jsonschema:"example=1:1,example=0.5" jsonschema_description:"The greatest magnification that it has by itself: image over object, at its nearest focus."`
	Nearest     source.Text  `toml:"nearest-focus" jsonschema:"example=200 mm" jsonschema_description:"The nearest plane that it focuses on by itself, from the lens, as focus is."`

	Breathing source.Text `toml:"breathing" jsonschema:"example=4 %,example=-2 %" jsonschema_description:"How much larger one and the same thing is in the picture with the lens at its nearest focus than focused far away; below 0, smaller. Left out, as a thin lens has it."`

	Scale      []RawTick   `toml:"scale" jsonschema:"minItems=2" jsonschema_description:"Where the focus ring stands for distances that are engraved on it, in order round the ring."`
	RingAround source.Text `toml:"ring-around" jsonschema:"example=220 mm" jsonschema_description:"How far round the focus ring it is, for a tape of marks, where the scale is in degrees."`

	FrontAhead     source.Text `toml:"front-ahead" jsonschema:"example=40 mm" jsonschema_description:"How far the front of the lens stands before the point that distances are measured from."`
	FrontDiameter  source.Text `toml:"front-diameter" jsonschema:"example=77 mm" jsonschema_description:"Across the front of the lens, with what is screwed on."`
	FrontLength    source.Text `toml:"front-length" jsonschema:"example=20 mm" jsonschema_description:"How much of the lens is as wide as its front."`
	BarrelDiameter source.Text `toml:"barrel-diameter" jsonschema:"example=70 mm" jsonschema_description:"Across the barrel of the lens."`
	BarrelLength   source.Text `toml:"barrel-length" jsonschema:"example=150 mm" jsonschema_description:"From the front of the lens to the camera."`
}

// camera reads [camera].
func (l *sceneReader) camera(raw RawCamera) {
	l.path = "camera."
	c := &l.scene.Camera
	c.SensorWidth = l.number(raw.SensorWidth, "sensor-width", unit.Length)
	c.SensorHeight = l.number(raw.SensorHeight, "sensor-height", unit.Length)
	c.PixelsWide = l.number(raw.PixelsWide, "pixels-wide", unit.Number)
	c.PixelsHigh = l.number(raw.PixelsHigh, "pixels-high", unit.Number)
	c.Pitch = l.number(raw.Pitch, "pitch", unit.Length)
	c.ShutterLag = l.number(raw.ShutterLag, "shutter-lag", unit.Time)
	c.ISO = l.number(raw.ISO, "iso", unit.Number)
	c.Confusion = l.number(raw.Confusion, "confusion", unit.Length)
	l.shutter(raw.Shutter)
	l.lens(raw)
	l.marks(raw)
	l.ring(raw)
	l.pull(raw)
	l.body(raw)
}

// shutter reads a time or an angle.
func (l *sceneReader) shutter(t source.Text) {
	q, ok := l.quantity(t, "shutter", unit.Time, unit.Angle)
	switch {
	case !ok:
	case q.Dim == unit.Angle:
		l.scene.Camera.ShutterAngle = scene.Is(q.Float())
		l.mark("shutter-angle", t)
	default:
		l.scene.Camera.Shutter = scene.Is(q.Float())
	}
}

func (l *sceneReader) lens(raw RawCamera) {
	n := &l.scene.Lens
	n.FocalLength = l.number(raw.FocalLength, "focal-length", unit.Length)
	n.Magnification = l.number(overOne(raw.Magnification), "magnification", unit.Number)
	n.Focus = l.number(raw.Focus, "focus", unit.Length)
	n.Aperture = l.number(fNumber(raw.Aperture), "aperture", unit.Number)
	n.PupilRatio = l.number(raw.PupilRatio, "pupil-ratio", unit.Number)
	density := raw.Density
	density.Text = strings.TrimSpace(strings.TrimPrefix(density.Text, "ND"))
	n.Density = l.number(density, "neutral-density", unit.Number)
}

// fNumber is an aperture without the f/ before it.
func fNumber(t source.Text) source.Text {
	t.Text = strings.TrimPrefix(t.Text, "f/")
	return t
}

// marks reads how far the lens goes.
func (l *sceneReader) marks(raw RawCamera) {
	n := &l.scene.Lens
	n.Greatest = l.number(overOne(raw.Greatest), "greatest-magnification", unit.Number)
	n.Nearest = l.number(raw.Nearest, "nearest-focus", unit.Length)
	n.Extension = l.number(raw.Extension, "extension", unit.Length)
	n.Breathing = l.number(raw.Breathing, "breathing", unit.Number)
	a := raw.Apertures
	if !a.Set {
		return
	}
	l.places[l.path+"apertures"] = a.Place()
	if a.Single || len(a.Items) != 2 {
		l.Add(a.Place(), l.path+"apertures", "", "must be the widest and the smallest", `such as ["f/2.8", "f/32"]`)
		return
	}
	n.Widest = l.number(fNumber(a.Items[0]), "apertures[1]", unit.Number)
	n.Smallest = l.number(fNumber(a.Items[1]), "apertures[2]", unit.Number)
}

// overOne writes a ratio such as 1:3 as the fraction it is.
func overOne(t source.Text) source.Text {
	t.Text = strings.Replace(t.Text, ":", "/", 1)
	return t
}

func (l *sceneReader) body(raw RawCamera) {
	n := &l.scene.Lens
	n.FrontAhead = l.number(raw.FrontAhead, "front-ahead", unit.Length)
	n.FrontDiameter = l.number(raw.FrontDiameter, "front-diameter", unit.Length)
	n.FrontLength = l.number(raw.FrontLength, "front-length", unit.Length)
	n.BarrelDiameter = l.number(raw.BarrelDiameter, "barrel-diameter", unit.Length)
	n.BarrelLength = l.number(raw.BarrelLength, "barrel-length", unit.Length)
}
