// Package scene is what stands before the camera and around it, as values: camera,
// lens, stand, product, lamps, holes and a dark, and what makes a good picture of them.
//
// Every number of a scene may be left out. Conventions of place and turn are those of
// package pose: mm and degrees, x right and y away as the camera looks, z up,
// counter-clockwise from above. Times are real seconds.
package scene

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
