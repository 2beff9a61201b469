package law

// sevenSegment is trapezoidal velocity with the corners taken off: each ramp
// has acceleration rising evenly for tj, held, and falling evenly for tj (the
// double S of Biagiotti and Melchiorri; see Fastest).
type sevenSegment struct {
	tj, tf, ramp float64 // breaks: end of rise, start of fall, end of ramp
	v, a, j      float64 // peaks
}

// SevenSegment returns the jerk-limited law of seven segments. ramp is the
// share of the time spent accelerating, and again slowing; jerkShare is the
// share of each ramp in which acceleration rises, and again falls. Both are in
// (0, 1/2]; at 1/2 the stretch between the two has no length.
func SevenSegment(ramp, jerkShare float64) (Law, error) {
	if err := checkShare("ramp", ramp, "the time"); err != nil {
		return nil, err
	}
	if err := checkShare("jerk share", jerkShare, "the ramp"); err != nil {
		return nil, err
	}
	return newSevenSegment(ramp, jerkShare), nil
}

// newSevenSegment finds the peaks from the areas: the speed curve encloses
// v(1-ramp) = 1, the acceleration curve a(ramp-tj) = v.
func newSevenSegment(ramp, jerkShare float64) sevenSegment {
	l := sevenSegment{ramp: mirrorable(ramp), tj: mirrorable(ramp * jerkShare)}
	l.tf = max(l.ramp-l.tj, l.tj)
	l.v = 1 / (1 - l.ramp)
	l.a = l.v / (l.ramp - l.tj)
	l.j = l.a / l.tj
	return l
}

func (sevenSegment) Name() string { return "seven-segment" }

func (sevenSegment) Takes() []Takes { return []Takes{{RampKey, 0.5}, {JerkShareKey, 0.5}} }

func (sevenSegment) Make(s Spec) (Law, error) { return SevenSegment(s.Ramp, s.JerkShare) }

func (l sevenSegment) At(u float64) Point {
	w, far := fold(u)
	switch {
	case before(w, l.tj, far):
		return unfold(Point{S: l.j / 6 * w * w * w, V: l.j / 2 * w * w, A: l.j * w, J: l.j}, far)
	case before(w, l.tf, far):
		x := w - l.tj/2 // speed is that of a ramp begun half the rise later
		return unfold(Point{S: l.a * (x*x/2 + l.tj*l.tj/24), V: l.a * x, A: l.a}, far)
	case before(w, l.ramp, far):
		x := l.ramp - w // back from the top of the ramp
		return unfold(Point{
			S: l.v*(w-l.ramp/2) + l.j/6*x*x*x,
			V: l.v - l.j/2*x*x,
			A: l.j * x,
			J: -l.j,
		}, far)
	}
	return unfold(Point{S: l.v * (w - l.ramp/2), V: l.v}, far)
}

func (l sevenSegment) Peaks() Peaks {
	return Peaks{
		V: l.v, AtV: l.ramp,
		A: l.a, AtA: l.tj,
		J: l.j, AtJ: 0,
	}
}

// Breaks returns where one segment gives way to the next.
func (l sevenSegment) Breaks() []float64 { return mirrored(l.tj, l.tf, l.ramp) }
