package sequence

import "math"

// Momentum is what the picture's motion does across a cut.
type Momentum int

// From best to worst for the eye that follows it.
const (
	Unknown    Momentum = iota
	Continuous          // no cut: the next frame of the same shot
	Rests               // still on both sides
	Carries             // goes on the same way, about as fast
	Faster              // goes on the same way, faster
	Slower              // goes on the same way, slower
	SetsOff             // still before, moving after
	Stops               // moving before, still after
	Turns               // goes off sideways
	Reverses            // goes back the way it came
)

var momentumNames = [...]string{"not known", "goes on", "rests", "carries", "carries, faster", "carries, slower",
	"sets off", "stops", "turns aside", "reverses"}

// String names it: "carries", "reverses".
func (m Momentum) String() string { return momentumNames[m] }

const (
	// stillPicture is the flow below which a picture stands still, in widths per
	// on-screen second: a thing would take over three minutes to cross it, and
	// moves less than half a pixel of 1920 from frame to frame at 24 a second.
	stillPicture = 1.0 / 200
	// stillAxis does for an axis alone, in mm or degrees per on-screen second:
	// where no camera is known, a tenth of either passes for none.
	stillAxis = 0.1
	// samePace is how much faster or slower motion may go on and still seem the
	// same: a guess at what an eye sees.
	samePace = 1.5
	// sameWay and backWay part going on, going aside and going back, in degrees:
	// nearer to the same way, nearer to square, nearer to the way back.
	sameWay = 45.0
	backWay = 135.0
)

// judged is what motion does from a speed before a cut to one after it, both in
// the same directions. Angle is the degrees between the two, pace the second
// over the first; both are 0 where one of them is still.
func judged(before, after []float64, still float64) (m Momentum, angle, pace float64) {
	a, b := norm(before), norm(after)
	switch {
	case a < still && b < still:
		return Rests, 0, 0
	case a < still:
		return SetsOff, 0, 0
	case b < still:
		return Stops, 0, 0
	}
	angle, pace = between(before, after), b/a
	switch {
	case angle > backWay:
		m = Reverses
	case angle > sameWay:
		m = Turns
	case pace > samePace:
		m = Faster
	case pace < 1/samePace:
		m = Slower
	default:
		m = Carries
	}
	return m, angle, pace
}

func norm(v []float64) float64 {
	var sum float64
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum)
}

// between is the angle from one direction to another, in degrees, by the
// half-angle form that keeps its digits near 0 and 180 (W. Kahan, "How Futile are
// Mindless Assessments of Roundoff in Floating-Point Computation?", lecture
// notes, Berkeley 2006).
func between(a, b []float64) float64 {
	na, nb := norm(a), norm(b)
	var apart, along float64
	for i := range a {
		d, s := a[i]/na-b[i]/nb, a[i]/na+b[i]/nb
		apart, along = apart+d*d, along+s*s
	}
	return 2 * math.Atan2(math.Sqrt(apart), math.Sqrt(along)) * 180 / math.Pi
}
