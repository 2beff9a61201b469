package preview

import (
	"fmt"
	"math"

	"seamrail/motion/scene"

	"seamrail/motion/base/unit"
)

// What stands for numbers nobody gave. They are told with the picture, never
// used to judge it.
const (
	usualPixels = 1920.0
	usualWidth  = 36.0  // mm of sensor: the widest in common use
	usualFocal  = 50.0  // mm: common practice
	usualRadius = 30.0  // mm of a product
	usualShape  = 1.5   // height over width of a product
	usualFill   = 0.6   // share of the picture's height that a product takes
	usualOpen   = 180.0 // degrees of shutter: the half circle, common practice
)

// aspect is height over width of a picture nobody described: 16 to 9.
const aspect = 9.0 / 16

// filled returns the scene with stand-ins for what it takes to draw it, and
// says what they are.
func filled(s scene.Scene) (scene.Scene, []string) {
	f := filler{scene: s}
	f.product()
	f.sensor()
	f.lens()
	f.exposure()
	return f.scene, f.said
}

type filler struct {
	scene scene.Scene
	said  []string
}

func (f *filler) say(format string, args ...any) {
	f.said = append(f.said, fmt.Sprintf(format, args...))
}

func length(mm float64) string { return unit.Format(math.Round(mm*10)/10, unit.Length) }

// product gives the product a shape and a size.
func (f *filler) product() {
	p := &f.scene.Product
	if p.Shape == scene.NoShape {
		p.Shape = scene.Cylinder
		f.say("what the product looks like is not known: a cylinder stands for it")
	}
	across := f.across(p)
	if !p.Height.Given {
		p.Height = scene.Is(usualShape * across)
		f.say("the product's height is not known: drawn %s high", length(p.Height.Value))
	}
}

// across gives the product its size from above and returns its width.
func (f *filler) across(p *scene.Product) float64 {
	_, known := p.Outline()
	switch {
	case p.Shape == scene.Box && !known:
		side := p.Width.Or(p.Depth.Or(2 * usualRadius))
		p.Width, p.Depth = scene.Is(p.Width.Or(side)), scene.Is(p.Depth.Or(side))
		f.say("the product's size is not known: drawn %s wide and %s deep", length(p.Width.Value), length(p.Depth.Value))
	case !known:
		p.Radius = scene.Is(p.Radius.Or(usualRadius))
		if p.Shape == scene.Prism {
			p.Sides = max(p.Sides, 3)
		}
		f.say("the product's size is not known: drawn with a radius of %s", length(p.Radius.Value))
	}
	if p.Shape == scene.Box {
		return p.Width.Value
	}
	return 2 * p.Radius.Value
}

// sensor gives the picture a size in pixels, and the pixels a pitch.
func (f *filler) sensor() {
	c := &f.scene.Camera
	f.pixels(c)
	if !c.Pitch.Given && !c.SensorWidth.Given && !c.SensorHeight.Given {
		c.SensorWidth = scene.Is(usualWidth)
		f.say("the sensor is not known: %s wide", length(usualWidth))
	}
}

// pixels fills in what the pitch and the sensor do not tell.
func (f *filler) pixels(c *scene.Camera) {
	wide := c.PixelsWide.Given || c.Pitch.Given && c.SensorWidth.Given
	high := c.PixelsHigh.Given || c.Pitch.Given && c.SensorHeight.Given
	ratio := aspect
	if c.SensorWidth.Given && c.SensorHeight.Given {
		ratio = c.SensorHeight.Value / c.SensorWidth.Value
	}
	switch {
	case wide && high:
		return
	case wide:
		c.PixelsHigh = scene.Is(math.Round(f.width(c) * ratio))
	case high:
		c.PixelsWide = scene.Is(math.Round(f.height(c) / ratio))
	default:
		c.PixelsWide, c.PixelsHigh = scene.Is(usualPixels), scene.Is(math.Round(usualPixels*ratio))
	}
	f.say("the size of the picture is not known: %.0f by %.0f px", f.width(c), f.height(c))
}

func (f *filler) width(c *scene.Camera) float64 {
	return c.PixelsWide.Or(math.Round(c.SensorWidth.Value / c.Pitch.Or(1)))
}

func (f *filler) height(c *scene.Camera) float64 {
	return c.PixelsHigh.Or(math.Round(c.SensorHeight.Value / c.Pitch.Or(1)))
}

// lens gives the lens what it takes to place and to scale the product: two of
// focal length, magnification and how far off it is focused or stands.
func (f *filler) lens() {
	l := &f.scene.Lens
	far := l.Focus.Given || l.Pull != nil || f.scene.Stand.Distance.Given || f.scene.Stand.FocusAxis != ""
	if !l.Magnification.Given && (!l.FocalLength.Given || !far) {
		l.Magnification = scene.Is(f.fitting())
		f.say("how large things come out is not known: the product fills %.0f %% of the picture's height", 100*usualFill)
	}
	if !l.FocalLength.Given && !far {
		l.FocalLength = scene.Is(usualFocal)
		f.say("the focal length is not known: %s", length(usualFocal))
	}
}

// fitting is the magnification at which the product fills its share.
func (f *filler) fitting() float64 {
	c := &f.scene.Camera
	pitch := c.Pitch.Value
	switch {
	case c.Pitch.Given:
	case c.SensorWidth.Given:
		pitch = c.SensorWidth.Value / f.width(c)
	default:
		pitch = c.SensorHeight.Value / f.height(c)
	}
	return usualFill * f.height(c) * pitch / f.scene.Product.Height.Value
}

// exposure says how long a frame is exposed, and that an unknown aperture blurs
// nothing.
func (f *filler) exposure() {
	c := &f.scene.Camera
	if !c.Shutter.Given && !c.ShutterAngle.Given {
		c.ShutterAngle = scene.Is(usualOpen)
		f.say("the shutter is not known: open for half of each frame")
	}
	if !f.scene.Lens.Aperture.Given {
		f.say("the aperture is not known: everything is drawn sharp")
	}
}
