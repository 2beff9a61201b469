package shot

import (
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawCamera is the [camera] table: the camera and the lens on it. All of it may
// be left out; what cannot be told then, the report names.
type RawCamera struct {
	Place source.Place `toml:"-"`

	SensorWidth  source.Text `toml:"sensor-width" jsonschema:"example=36 mm" jsonschema_description:"Width of the part of the sensor that is filmed with."`
	SensorHeight source.Text `toml:"sensor-height" jsonschema:"example=20.25 mm" jsonschema_description:"Height of that part."`
	PixelsWide   source.Text `toml:"pixels-wide" jsonschema:"example=3840" jsonschema_description:"Pixels of the delivered picture from left to right."`
	PixelsHigh   source.Text `toml:"pixels-high" jsonschema:"example=2160" jsonschema_description:"Pixels of the delivered picture from top to bottom."`
	Pitch        source.Text `toml:"pitch" jsonschema:"example=9.4 um" jsonschema_description:"On the sensor, from one pixel of the delivered picture to the next; left out, the sensor's width over its pixels."`
	Shutter      source.Text `toml:"shutter" jsonschema:"example=1/250 s,example=180 deg" jsonschema_description:"How long each frame is exposed, or what part of a captured frame as an angle."`
	ISO          source.Text `toml:"iso" jsonschema:"example=1600" jsonschema_description:"Sensitivity, as ISO marks it."`
	Confusion    source.Text `toml:"confusion" jsonschema:"example=0.02 mm" jsonschema_description:"Widest spot on the sensor that still counts as sharp; left out, two pixels."`

	FocalLength   source.Text `toml:"focal-length" jsonschema:"example=100 mm" jsonschema_description:"Focal length of the lens."`
	Magnification source.Text `toml:"magnification" jsonschema:"example=1:3,example=0.5" jsonschema_description:"Marked on the lens where it is focused: image over object."`
	Focus         source.Text `toml:"focus" jsonschema:"example=400 mm" jsonschema_description:"From the lens to the plane in focus."`
	Aperture      source.Text `toml:"aperture" jsonschema:"example=f/8,example=8" jsonschema_description:"The f-number that is set."`
	PupilRatio    source.Text `toml:"pupil-ratio" jsonschema:"example=1" jsonschema_description:"Exit pupil over entrance pupil of the lens; left out, 1."`
	Density       source.Text `toml:"neutral-density" jsonschema:"example=0.9" jsonschema_description:"Optical density of a neutral filter on the lens, as filters are marked: each 0.3 takes a stop of light; left out, 0."`

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
	c.ISO = l.number(raw.ISO, "iso", unit.Number)
	c.Confusion = l.number(raw.Confusion, "confusion", unit.Length)
	l.shutter(raw.Shutter)
	l.lens(raw)
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
	aperture := raw.Aperture
	aperture.Text = strings.TrimPrefix(aperture.Text, "f/")
	n.Aperture = l.number(aperture, "aperture", unit.Number)
	n.PupilRatio = l.number(raw.PupilRatio, "pupil-ratio", unit.Number)
	density := raw.Density
	density.Text = strings.TrimSpace(strings.TrimPrefix(density.Text, "ND"))
	n.Density = l.number(density, "neutral-density", unit.Number)
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
