package scene

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/exact"
	"seamrail/motion/fade"
	"seamrail/motion/pull"
)

// Scene is all that is known about what stands before and around the camera.
type Scene struct {
	Camera   Camera
	Lens     Lens
	Stand    Stand
	Product  Product
	Lamps    []Lamp
	Metered  Number    // lx measured on the product, in place of what the lamps give
	Mains    exact.Rat // Hz, 0 = not known
	Holes    []Hole
	Dark     *Dark
	MayLeave bool               // the product may come and go in the picture
	Backlash map[string]float64 // mm or degrees by axis
	Bounds   Bounds             // a bound of 0 is that of DefaultBounds
}

// Camera is the camera's body and how it is set.
type Camera struct {
	SensorWidth, SensorHeight Number // mm
	PixelsWide, PixelsHigh    Number // of the delivered picture
	Pitch                     Number // mm from pixel to pixel
	Shutter                   Number // s
	ShutterAngle              Number // degrees of a captured frame; instead of Shutter
	ShutterLag                Number // s from its release to the beginning of its first exposure
	ISO                       Number
	Confusion                 Number // mm on the sensor that still count as sharp
	Rests                     bool   // the rig stands still while a frame is exposed
}

// Lens is the lens and how it is set. Two of focal length, magnification and
// focus give the third.
type Lens struct {
	FocalLength   Number // mm
	Magnification Number // marked, image over object, where it is focused
	Focus         Number // mm from the lens to the plane in focus
	Aperture      Number // the marked f-number
	PupilRatio    Number // exit over entrance pupil; 1 when not known
	Extension     Number // mm of rings between camera and lens; 0
	Density       Number // optical density of a neutral filter on it: the light is 10^density less; 0

	// How far it goes by itself.
	Widest, Smallest Number     // marked f-numbers
	Greatest         Number     // magnification, at its nearest focus
	Nearest          Number     // mm from the lens to the nearest plane it focuses on
	Breathing        Number     // how much larger a thing is seen with it focused nearest than far; as a thin lens has it
	Pull             *pull.Pull // how a hand pulls its focus; nil where Focus stays
	Ring             pull.Ring  // where its ring stands for a focus, as far as it is known

	FrontAhead     Number // mm from the principal point to the front of the lens; 0
	FrontDiameter  Number // mm over all, with what is screwed on
	FrontLength    Number // mm of the lens that is as wide as its front; 0
	BarrelDiameter Number // mm
	BarrelLength   Number // mm from the front of the lens to the camera
}

// Slide is a linear axis that carries the camera.
type Slide struct {
	Axis    string
	Heading float64 // degrees: 0 pushes in, 90 goes to the left, -90 to the right
	Rise    float64 // degrees above the level
	Zero    float64 // mm: the axis' position at which the Stand was measured
}

// Stand is where the camera stands when its slides are at their Zero and its
// pan, tilt at 0.
type Stand struct {
	Distance Number // mm from the lens to the table's axis, along y
	Aside    Number // mm that the lens stands right of the table's axis; 0
	Height   Number // mm of the lens over the table's top; the product's middle when not known
	Pan      Number // degrees that the camera is turned to the left; 0
	Tilt     Number // degrees that it looks up; 0
	// PivotBehind is how far, in mm, the pan and tilt turn behind the lens; 0.
	PivotBehind Number

	// Loose is set where nobody knows how the table stands at frame 0: it may be
	// turned any way when the lens is near.
	Loose bool

	Slides                                  []Slide
	TableAxis, PanAxis, TiltAxis, FocusAxis string // "" = none; focus in mm from the lens
}

// Shape is the product's outline from above.
type Shape int

// The shapes.
const (
	NoShape Shape = iota
	Cylinder
	Prism // upright, of equal sides; at 0 degrees a face looks at the camera
	Box
)

// Product is what stands on the table.
type Product struct {
	Shape  Shape
	Radius Number  // mm; of a prism to its corners
	Sides  int     // of a prism, 3 or more
	Width  Number  // mm of a box along x when the table is at 0
	Depth  Number  // mm of a box along y
	Height Number  // mm
	Base   float64 // mm of its foot over the table's top
	Offset r2.Vec  // mm of its middle from the table's axis, table at 0
	Facing float64 // degrees it is turned by, table at 0
	// Alike is how many times in a turn it looks the same; 0 takes it from the
	// shape: the sides of a prism, 2 or 4 for a box, 1 for a cylinder.
	Alike int
}

// Lamp is a light aimed at the product.
type Lamp struct {
	Name     string
	Lumens   Number
	Beam     Number    // full angle, degrees
	Distance Number    // mm to the product
	Bearing  float64   // degrees right of the line from product to camera, seen from the camera; 180 is behind
	Rise     float64   // degrees that it hangs over the product
	Level    Number    // 0..1 of full; 1
	Ripple   Number    // (max - min)/(max + min) of its light, 0..1
	RippleHz exact.Rat // 0 = twice the mains
	Kelvin   Number    // at full

	Fade     *fade.Fade // over the loop; nil where Level stays
	Curve    fade.Curve // what its dimmer makes of the dial
	Filament bool       // it glows redder as it dims
	Hand     string     // who fades it, where a hand does; "" for none
	Beats    int64      // that are counted to each of the hand's ways
}

// Hole is a round hole in a board that the lens looks or passes through.
type Hole struct {
	Name      string // "" of the only one
	Centre    r3.Vec
	Heading   float64 // degrees of the line through it; 0 = along y
	Diameter  Number  // mm
	Thickness float64 // mm of the board
	Board     float64 // mm, how wide the board is, for the view from above
}

// Dark is a black surface square to y that hides the seam when it fills the
// picture.
type Dark struct {
	Centre        r3.Vec
	Width, Height Number // mm
}

// LensHeight is that of the lens over the table: as given, else level with the
// product's middle.
func (s Scene) LensHeight() float64 {
	return s.Stand.Height.Or(s.Product.Base + s.Product.Height.Or(0)/2)
}

// LensAt is where the lens is with every axis at its zero.
func (s Stand) LensAt(height float64) r3.Vec {
	return r3.Vec{X: s.Aside.Or(0), Y: -s.Distance.Or(0), Z: height}
}
