package scene

import (
	"cmp"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/light"
	"seamrail/motion/camera/pose"
)

// Toward is the way from the product to the lamp: bearing 0 is where the
// camera stands, 90 to its right.
func (l Lamp) Toward() r3.Vec { return pose.Direction(180+l.Bearing, l.Rise) }

// Lux returns what the lamp gives on a face turned to the camera, and false
// with what is missing where it cannot be told.
func (l Lamp) Lux() (lux float64, missing []string) { return l.LuxOn(pose.Direction(180, 0)) }

// LuxOn returns what the lamp gives on a face turned along a unit vector.
func (l Lamp) LuxOn(normal r3.Vec) (lux float64, missing []string) {
	for _, n := range []struct {
		name string
		is   Number
	}{{"lumens", l.Lumens}, {"beam", l.Beam}, {"distance", l.Distance}} {
		if !n.is.Given {
			missing = append(missing, n.name+" of "+cmp.Or(l.Name, "a lamp"))
		}
	}
	if missing != nil {
		return 0, missing
	}
	cos := math.Max(-1, math.Min(1, r3.Dot(normal, l.Toward())))
	incidence := math.Acos(cos) * 180 / math.Pi
	return light.Illuminance(l.Level.Or(1)*light.Intensity(l.Lumens.Value, l.Beam.Value), l.Distance.Value, incidence), nil
}

// Lights names what a lamp lights most.
func (l Lamp) Lights() string {
	switch facing := r3.Dot(l.Toward(), pose.Direction(180, 0)); {
	case facing < 0:
		return "in the edges, steam and pours that it lights from behind"
	case l.Name != "":
		return "on what faces " + l.Name
	}
	return "on what faces it"
}
