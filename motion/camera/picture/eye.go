package picture

import (
	"context"

	"fmt"
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/light"
	"seamrail/motion/camera/optics"
	"seamrail/motion/camera/pose"
	"seamrail/motion/fade"
	"seamrail/motion/pull"
)

// eye is a scene and a motion with all that follows from them.
type eye struct {
	motion Motion
	given  scene.Scene // as it was told
	scene  scene.Scene // with what follows from it
	bounds scene.Bounds

	until   context.Context
	atMost  int64        // frames that are looked at
	frame   float64      // real s from one captured frame to the next
	retime  float64      // picture speed over real speed
	shutter scene.Number // s

	slides                  []int        // axis numbers, -1 where the move has none
	along                   []r3.Vec     // the way each slide goes
	table, pan, tilt, pull  int          // axis numbers, -1
	pitch                   scene.Number // mm
	wide, high              scene.Number // px
	focal, magnified, where scene.Number // f mm, m, and mm from the lens to the plane in focus
	focus                   float64      // where, or what stands for it
	ahead                   float64      // mm that the entrance pupil stands ahead of the lens
	image                   float64      // mm from a pinhole there to the image, at the focus above
	flat                    bool         // no distance is known: all depths count as one
	assumed                 []string
	missing                 []string // why there is no scale

	hand *pull.Course // of the focus, where a hand pulls it along marks; else nil

	courses []*fade.Course // of each lamp's level; nil where it stays
	fades   bool           // some lamp's level changes
	loop    float64        // s that are shown, and s of a round, where it does
	round   float64
	all     *lit     // the light over the loop, once it was looked at
	most    *float64 // that any frame has on any face, once it was looked for
}

// flatDistance stands for a distance nobody gave, in mm: so far that a move
// along the lens axis changes nothing.
const flatDistance = 1e9

func newEye(m Motion, s scene.Scene) (*eye, error) {
	faults := s.Faults()
	e := &eye{motion: m, given: s, scene: s, bounds: s.Bounds.Filled(), until: context.Background(), atMost: maxRows}
	e.frame = m.FrameSeconds(1).Sub(m.FrameSeconds(0)).Float()
	e.retime = m.Clock().Retime.Float()
	e.findAxes()
	faults = append(faults, e.kinds()...)
	shut := e.setShutter()
	if len(faults) == 0 {
		faults = e.setFades()
	}
	if len(faults) == 0 {
		e.setPixels()
		if faults = e.setHand(); faults == nil {
			faults = append(e.setLens(), e.pulled()...)
		}
	}
	if err := append(faults, shut...).Err(); err != nil {
		return nil, err
	}
	return e, nil
}

// ended tells whether nobody waits for what is seen any more.
func (e *eye) ended() bool { return e.until.Err() != nil }

func (e *eye) find(name string) int {
	for i := range e.motion.AxisCount() {
		if name != "" && e.motion.Axis(i).Name == name {
			return i
		}
	}
	return -1
}

func (e *eye) findAxes() {
	s := &e.scene.Stand
	var moved []scene.Slide
	for _, l := range s.Slides {
		if i := e.find(l.Axis); i >= 0 {
			moved = append(moved, l)
			e.slides = append(e.slides, i)
			e.along = append(e.along, pose.Direction(l.Heading, l.Rise))
		}
	}
	s.Slides = moved
	e.table, e.pan, e.tilt, e.pull = e.find(s.TableAxis), e.find(s.PanAxis), e.find(s.TiltAxis), e.find(s.FocusAxis)
}

// A shutter of a whole frame may be longer than it by this share: rates and
// times are typed to four digits.
const shutterSlack = 1e-3

func (e *eye) setShutter() fault.List {
	k := e.scene.Camera
	e.shutter = k.Open(e.frame)
	return TooSlow(k, e.frame)
}

// rests tells whether the rig stands still while a frame is exposed.
func (e *eye) rests() bool { return e.scene.Camera.Rests }

// moved is for how long of an exposure, in s, the rig goes on: all of it, or none.
func (e *eye) moved() float64 {
	if e.rests() {
		return 0
	}
	return e.shutter.Or(0)
}

// TooSlow is a fault where the shutter is open for longer than a captured frame
// lasts, in real s.
func TooSlow(k scene.Camera, frame float64) fault.List {
	if !k.Shutter.Given || k.Shutter.Value <= frame*(1+shutterSlack) {
		return nil
	}
	return fault.List{{Quantity: "camera.shutter", Value: light.ShutterText(k.Shutter.Value),
		Bound: "must be no longer than a captured frame, " + light.ShutterText(frame),
		Fit:   "half of it is " + light.ShutterText(frame/2)}}
}

func (e *eye) setPixels() {
	k := e.scene.Camera
	e.pitch, e.wide, e.high = k.Pitch, k.PixelsWide, k.PixelsHigh
	switch {
	case e.pitch.Given:
	case k.SensorWidth.Given && e.wide.Given:
		e.pitch = scene.Is(k.SensorWidth.Value / e.wide.Value)
	case k.SensorHeight.Given && e.high.Given:
		e.pitch = scene.Is(k.SensorHeight.Value / e.high.Value)
	default:
		e.missing = append(e.missing, "pixel pitch, or sensor width and pixels wide")
	}
	if !e.wide.Given && e.pitch.Given && k.SensorWidth.Given {
		e.wide = scene.Is(math.Round(k.SensorWidth.Value / e.pitch.Value))
	}
	if !e.high.Given && e.pitch.Given && k.SensorHeight.Given {
		e.high = scene.Is(math.Round(k.SensorHeight.Value / e.pitch.Value))
	}
}

// setLens finds focal length, magnification, focus and distance from those
// that are given, and sets what takes the place of the rest.
func (e *eye) setLens() fault.List {
	l := e.scene.Lens
	e.focal, e.magnified, e.where = l.FocalLength, l.Magnification, l.Focus
	switch {
	case e.byHand():
		e.where, e.magnified = e.handAtSeam(), scene.Number{}
	case e.pull >= 0 && !e.where.Given:
		e.where = scene.Is(e.motion.State(e.pull, 0).Pos)
	}
	e.third()
	if !e.scene.Stand.Distance.Given && e.where.Given {
		e.placeInFocus()
	}
	if !e.where.Given && e.scene.Stand.Distance.Given {
		if faults := e.focusOnFace(); faults != nil {
			return faults
		}
		e.third()
	}
	if !e.scene.Stand.Distance.Given {
		e.flat = true
		e.scene.Stand.Distance = scene.Is(flatDistance)
		e.pan, e.tilt = -1, -1 // what they do depends on how far things are
	}
	e.setImage()
	return nil
}

// third finds the third of focal length, magnification and focus from two.
func (e *eye) third() {
	l := scene.Lens{FocalLength: e.focal, Magnification: e.magnified, Focus: e.where}.Third()
	e.focal, e.magnified, e.where = l.FocalLength, l.Magnification, l.Focus
}

func (e *eye) setImage() {
	switch {
	case e.magnified.Given && e.where.Given:
		e.focus = e.where.Value
		e.ahead = optics.EntrancePupil(e.focal.Value, e.pupils())
		e.image = optics.Extension(e.focal.Value, e.magnified.Value, e.pupils())
	case e.magnified.Given:
		e.focus = flatDistance
		e.image = e.magnified.Value * flatDistance
	default:
		e.missing = append(e.missing, "magnification, or focal length and distance")
	}
}

// faceDepth is how deep the product's near face lies in frame 0, or the
// table's axis where there is no product.
func (e *eye) faceDepth() float64 {
	q := e.at(0)
	p := e.pose(q)
	at, ok := e.scene.Product.Face(q.table, p.At)
	if !ok {
		at = e.scene.Product.Middle(q.table)
	}
	_, _, depth := p.See(at)
	return depth
}

// focusOnFace takes the lens to be focused on the near face in frame 0.
func (e *eye) focusOnFace() fault.List {
	depth, least := e.faceDepth(), e.focal.Or(0)
	if depth <= least {
		return fault.List{{Quantity: "scene.distance", Value: unit.Format(e.scene.Stand.Distance.Value, unit.Length),
			Bound: "must leave the product's near face beyond the focal length in frame 0, and it is " + unit.Format(depth, unit.Length) + " from the lens",
			Fit:   unit.Format(math.Ceil(e.scene.Stand.Distance.Value+2*least-depth), unit.Length) + " would show it at 1:1"}}
	}
	if closest := e.scene.Lens.Closest(); depth < closest*(1-scene.TwiceSaid) {
		return fault.List{{Quantity: "scene.distance", Value: unit.Format(e.scene.Stand.Distance.Value, unit.Length),
			Bound: "must leave the product's near face at the nearest focus of the lens or beyond, " + unit.Format(closest, unit.Length) +
				", and it is " + unit.Format(depth, unit.Length) + " from the lens in frame 0",
			Fit: unit.Format(math.Ceil(e.scene.Stand.Distance.Value+closest-depth), unit.Length) + " would do, or rings between camera and lens: camera.extension"}}
	}
	e.where = scene.Is(depth)
	e.assumed = append(e.assumed, fmt.Sprintf("the lens is focused on the product's near face in frame 0, %s from it",
		unit.Format(depth, unit.Length)))
	return nil
}

// placeInFocus takes the camera to stand where the near face is in focus in
// frame 0. The face the lens sees changes a little as it moves back, so it
// takes a few steps; each leaves a fraction of the error before it.
func (e *eye) placeInFocus() {
	d := &e.scene.Stand.Distance
	*d = scene.Is(e.where.Value)
	slope := math.Cos(e.scene.Stand.Pan.Or(0)*math.Pi/180) * math.Cos(e.scene.Stand.Tilt.Or(0)*math.Pi/180)
	for range 20 {
		off := e.where.Value - e.faceDepth()
		if math.Abs(off) < 1e-9*e.where.Value || slope < 0.1 {
			break
		}
		d.Value += off / slope
	}
	if !(d.Value > 0 && d.Value <= scene.MaxLength) {
		*d = scene.Number{}
		return
	}
	e.assumed = append(e.assumed, fmt.Sprintf("the product's near face is in focus in frame 0, so its axis is %s from the lens "+
		"when the slides are at their zero", unit.Format(d.Value, unit.Length)))
}

// scaled tells whether places in the picture can be told in pixels.
func (e *eye) scaled() bool { return len(e.missing) == 0 }

// imageAt is the extension of the lens with the focus pulled to u mm. A focus within the focal length gives no picture: NaN.
func (e *eye) imageAt(u float64) float64 {
	if !e.pulls() || !e.focal.Given {
		return e.image
	}
	if u <= e.focal.Value {
		return math.NaN()
	}
	if b := e.scene.Lens.Breathing; b.Given {
		size := func(u float64) float64 {
			return optics.Breathing(b.Value, e.focal.Value, e.scene.Lens.Closest(), u)
		}
		return e.image * size(u) / size(e.where.Value)
	}
	return optics.Extension(e.focal.Value, optics.Magnification(e.focal.Value, u), e.pupils())
}

// pupils is the lens' pupil ratio.
func (e *eye) pupils() float64 { return e.scene.Lens.PupilRatio.Or(1) }

// stop is the f-number that the marked one stands for.
func (e *eye) stop() float64 { return light.ExactAperture(e.scene.Lens.Aperture.Value) }

// moment is an instant as a person finds it: by frame, and on the timeline.
func (e *eye) moment(sec float64) *Moment {
	return &Moment{Frame: int64(math.Floor(sec/e.frame + 1e-6)), Seconds: sec, OnScreen: sec / e.retime}
}
