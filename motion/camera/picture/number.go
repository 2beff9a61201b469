// Package picture tells what a move does to the picture: smear, screen speed,
// visible steps, focus, light, flicker, clearance, framing and the seam.
//
// Every number of a scene may be left out. What can be told without it is
// told; the verdicts it would take name it. Conventions of place and turn are
// those of package pose: mm and degrees, x right and y away as the camera
// looks, z up, counter-clockwise from above. Times are real seconds.
package picture

// Number is a number that may not be known.
type Number struct {
	Value float64
	Given bool
}

// Is returns a known number.
func Is(v float64) Number { return Number{v, true} }

// Or returns the number, or v where it is not known.
func (n Number) Or(v float64) float64 {
	if n.Given {
		return n.Value
	}
	return v
}
