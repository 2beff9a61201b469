package scene

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/clearance"
	"seamrail/motion/camera/optics"
	"seamrail/motion/camera/pose"
)

// TwiceSaid is the share by which two sayings of one thing may differ: sensors and lenses
// are described to two or three digits.
const TwiceSaid = 0.02

// MaxLength is what lengths may be, in mm: a kilometre is no tabletop.
const MaxLength = 1e6

// Faults returns what is wrong with the scene's numbers by themselves, nil if
// nothing. The Quantity of each is the value's key in the shot file.
func (s Scene) Faults() fault.List {
	c := checker{}
	c.camera(s.Camera)
	c.lens(s.Lens)
	c.stand(s)
	c.product(s.Product)
	for i, l := range s.Lamps {
		c.lamp(i, l)
	}
	if s.Mains.Sign() < 0 {
		c.add("scene.mains", s.Mains.Decimal(3)+" Hz", "must be above 0", "50 or 60")
	}
	for axis, b := range s.Backlash {
		c.within("scene.backlash."+axis, Is(b), 0, MaxLength, unit.Number)
	}
	c.above("scene.light", s.Metered, unit.Illuminance, "3000 lx")
	c.openings(s)
	c.bounds(s.Bounds)
	if len(c.list) == 0 {
		c.apart(s)
	}
	return c.list.Sorted()
}

type checker struct{ list fault.List }

func (c *checker) add(key, value, bound, fit string) {
	c.list = append(c.list, fault.Fault{Quantity: key, Value: value, Bound: bound, Fit: fit})
}

// above wants a number over 0, where it is given.
func (c *checker) above(key string, n Number, dim unit.Dimension, fit string) {
	if n.Given && !(n.Value > 0 && n.Value <= MaxLength) {
		c.add(key, unit.Format(n.Value, dim), "must be above 0 and at most 1000000", fit)
	}
}

// count wants a whole number over 0, where it is given.
func (c *checker) count(key string, n Number, fit string) {
	if n.Given && n.Value > 0 && n.Value != math.Trunc(n.Value) {
		c.add(key, unit.Format(n.Value, unit.Number), "must be a whole number", fit)
		return
	}
	c.above(key, n, unit.Number, fit)
}

// within wants a number from lo to hi, where it is given.
func (c *checker) within(key string, n Number, lo, hi float64, dim unit.Dimension) {
	if n.Given && !(lo <= n.Value && n.Value <= hi) {
		c.add(key, unit.Format(n.Value, dim), "must be from "+plainly(lo, 12)+" to "+plainly(hi, 12), "")
	}
}

// bounds wants each bound above 0; 0 itself stands for the default.
func (c *checker) bounds(b Bounds) {
	defaults := DefaultBounds()
	for _, i := range BoundList() {
		if v := *i.At(&b); !(v >= 0 && v <= MaxLength) {
			c.add("picture."+i.Key, unit.Format(v, unit.Number)+" "+i.Unit, "must be above 0",
				plainly(*i.At(&defaults), 3)+" is usual")
		}
	}
}

// maxLag is longer than any camera takes that is awake and has its focus, s.
const maxLag = 5

func (c *checker) camera(k Camera) {
	c.above("camera.sensor-width", k.SensorWidth, unit.Length, "36 mm")
	c.above("camera.sensor-height", k.SensorHeight, unit.Length, "24 mm")
	c.count("camera.pixels-wide", k.PixelsWide, "3840")
	c.count("camera.pixels-high", k.PixelsHigh, "2160")
	c.above("camera.pitch", k.Pitch, unit.Length, "0.006 mm")
	c.above("camera.shutter", k.Shutter, unit.Time, "1/250 s")
	if a := k.ShutterAngle; a.Given && !(a.Value > 0 && a.Value <= 360) {
		c.add("camera.shutter-angle", unit.Format(a.Value, unit.Angle), "must be above 0 and at most 360 deg", "180 deg, the half circle")
	}
	if l := k.ShutterLag; l.Given && !(l.Value >= 0 && l.Value <= maxLag) {
		c.add("camera.shutter-lag", unit.Format(l.Value, unit.Time), "must be from 0 s to 5 s", `"0.06 s" is usual`)
	}
	c.above("camera.iso", k.ISO, unit.Number, "800")
	c.above("camera.confusion", k.Confusion, unit.Length, "0.01 mm")
	if k.Shutter.Given && k.ShutterAngle.Given {
		c.add("camera.shutter-angle", unit.Format(k.ShutterAngle.Value, unit.Angle), "says already what camera.shutter says", "keep one of the two")
	}
	if k.Pitch.Given && k.SensorWidth.Given && k.PixelsWide.Given {
		said := k.SensorWidth.Value / k.PixelsWide.Value
		c.twice("camera.pitch", k.Pitch.Value, said, "what sensor-width and pixels-wide make it")
	}
}

// twice wants two sayings of one length to agree.
func (c *checker) twice(key string, a, b float64, what string) {
	if math.Abs(a-b) > TwiceSaid*math.Abs(b) {
		c.add(key, fmt.Sprintf("%.4g mm", a), fmt.Sprintf("must be %s, %.4g mm", what, b), "leave it out")
	}
}

func (c *checker) lens(l Lens) {
	c.above("camera.focal-length", l.FocalLength, unit.Length, "100 mm")
	c.within("camera.magnification", l.Magnification, 1e-6, 1000, unit.Number)
	c.above("camera.focus", l.Focus, unit.Length, "400 mm")
	c.within("camera.aperture", l.Aperture, 0.5, 1000, unit.Number)
	c.within("camera.pupil-ratio", l.PupilRatio, 0.1, 10, unit.Number)
	c.within("camera.neutral-density", l.Density, 0, 10, unit.Number)
	c.marks(l)
	c.within("camera.front-ahead", l.FrontAhead, -MaxLength, MaxLength, unit.Length)
	c.within("camera.front-length", l.FrontLength, 0, MaxLength, unit.Length)
	c.above("camera.front-diameter", l.FrontDiameter, unit.Length, "77 mm")
	c.above("camera.barrel-diameter", l.BarrelDiameter, unit.Length, "70 mm")
	c.above("camera.barrel-length", l.BarrelLength, unit.Length, "150 mm")
	if !l.Focus.Given || !l.FocalLength.Given || l.FocalLength.Value <= 0 {
		return
	}
	f, u := l.FocalLength.Value, l.Focus.Value
	if c.forms(l); u > f && l.Magnification.Given && l.Magnification.Value > 0 {
		c.twice("camera.focus", u, optics.FocusAt(f, l.Magnification.Value), "where this focal length magnifies so")
	}
}

// forms wants the plane in focus where a picture of it forms.
func (c *checker) forms(l Lens) {
	if f, u := l.FocalLength, l.Focus.Value; f.Given && u <= f.Value {
		c.add("camera.focus", unit.Format(u, unit.Length), "must be beyond the focal length, "+unit.Format(f.Value, unit.Length),
			"no picture forms nearer; at 1:1 it is "+unit.Format(2*f.Value, unit.Length))
	}
}

func (c *checker) stand(s Scene) {
	c.above("scene.distance", s.Stand.Distance, unit.Length, "400 mm")
	c.within("scene.aside", s.Stand.Aside, -MaxLength, MaxLength, unit.Length)
	c.within("scene.height", s.Stand.Height, -MaxLength, MaxLength, unit.Length)
	c.within("scene.pivot-behind", s.Stand.PivotBehind, -MaxLength, MaxLength, unit.Length)
	c.within("scene.pan", s.Stand.Pan, -180, 180, unit.Angle)
	c.within("scene.tilt", s.Stand.Tilt, -90, 90, unit.Angle)
	for _, l := range s.Stand.Slides {
		c.within("scene.axis."+l.Axis+".heading", Is(l.Heading), -360, 360, unit.Angle)
		c.within("scene.axis."+l.Axis+".rise", Is(l.Rise), -90, 90, unit.Angle)
		c.within("scene.axis."+l.Axis+".measured-at", Is(l.Zero), -MaxLength, MaxLength, unit.Length)
	}
}

// The most sides a prism may have: beyond it is a cylinder to any lens.
const maxSides = 360

func (c *checker) product(p Product) {
	c.above("scene.product.radius", p.Radius, unit.Length, "40 mm")
	c.above("scene.product.width", p.Width, unit.Length, "80 mm")
	c.above("scene.product.depth", p.Depth, unit.Length, "80 mm")
	c.above("scene.product.height", p.Height, unit.Length, "120 mm")
	for _, n := range []struct {
		key string
		v   float64
		dim unit.Dimension
	}{{"base", p.Base, unit.Length}, {"offset", p.Offset.X, unit.Length}, {"offset", p.Offset.Y, unit.Length}, {"facing", p.Facing, unit.Angle}} {
		c.within("scene.product."+n.key, Is(n.v), -MaxLength, MaxLength, n.dim)
	}
	if p.Shape == Prism {
		c.within("scene.product.sides", Is(float64(p.Sides)), 3, maxSides, unit.Number)
	}
	c.within("scene.product.symmetry", Is(float64(p.Alike)), 0, maxSides, unit.Number)
}

func (c *checker) lamp(i int, l Lamp) {
	key := func(name string) string { return fmt.Sprintf("scene.lamps[%d].%s", i+1, name) }
	c.above(key("lumens"), l.Lumens, unit.LightFlow, "3900 lm")
	c.within(key("beam"), l.Beam, 0.1, 360, unit.Angle)
	c.above(key("distance"), l.Distance, unit.Length, "600 mm")
	c.within(key("bearing"), Is(l.Bearing), -360, 360, unit.Angle)
	c.within(key("rise"), Is(l.Rise), -90, 90, unit.Angle)
	c.within(key("level"), l.Level, 0, 1, unit.Number)
	c.within(key("ripple"), l.Ripple, 0, 1, unit.Number)
	c.within(key("kelvin"), l.Kelvin, 500, 50_000, unit.Temperature)
	if l.RippleHz.Sign() < 0 {
		c.add(key("ripple-rate"), l.RippleHz.Decimal(3)+" Hz", "must be above 0", "twice the mains, 100 or 120")
	}
}

// openings checks the holes and the dark.
func (c *checker) openings(s Scene) {
	if d := s.Dark; d != nil {
		c.above("scene.dark.width", d.Width, unit.Length, "200 mm")
		c.above("scene.dark.height", d.Height, unit.Length, "200 mm")
	}
	for i, h := range s.Holes {
		c.hole(i, h)
	}
}

func (c *checker) hole(i int, h Hole) {
	key := func(name string) string { return fmt.Sprintf("scene.holes[%d].%s", i+1, name) }
	c.above(key("diameter"), h.Diameter, unit.Length, "90 mm")
	c.within(key("thickness"), Is(h.Thickness), 0, MaxLength, unit.Length)
	c.within(key("heading"), Is(h.Heading), -360, 360, unit.Angle)
	c.within(key("board"), Is(h.Board), 0, MaxLength, unit.Length)
	for _, v := range []float64{h.Centre.X, h.Centre.Y, h.Centre.Z} {
		c.within(key("centre"), Is(v), -MaxLength, MaxLength, unit.Length)
	}
}

// apart refuses a product that holds the lens where the stand was measured.
func (c *checker) apart(s Scene) {
	o, ok := s.Product.Outline()
	if !ok || !s.Stand.Distance.Given {
		return
	}
	at := s.Stand.LensAt(s.LensHeight())
	front := pose.NewPose(at, s.Stand.Pan.Or(0), s.Stand.Tilt.Or(0)).Point(0, 0, s.Lens.FrontAhead.Or(0))
	if s.Product.Height.Given && (front.Z < s.Product.Base || front.Z > s.Product.Base+s.Product.Height.Value) {
		return
	}
	if gap := distanceTo(o, front); gap < 0 {
		c.add("scene.distance", unit.Format(s.Stand.Distance.Value, unit.Length),
			"must leave the front of the lens outside the product",
			unit.Format(math.Ceil(s.Stand.Distance.Value-gap), unit.Length)+" or more, or a slide's zero where the camera is clear")
	}
}

func distanceTo(o clearance.Outline, p r3.Vec) float64 {
	return clearance.Distance(o, clearance.Disc(r2.Vec{X: p.X, Y: p.Y}, 0))
}

// plainly prints a number to so many digits, without an exponent.
func plainly(v float64, digits int) string {
	f, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil {
		return strconv.FormatFloat(v, 'g', digits, 64)
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}
