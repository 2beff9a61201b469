package track

// Curve is a track over one span, for those who ask for many times in order.
// At returns units, units/s and units/s2 at sec seconds.
type Curve interface {
	At(sec float64) (pos, vel, acc float64)
}
