package footage

import "math"

// Same is how a frame lies on itself.
func Same() Pose { return Pose{Scale: 1, Shared: 1, Known: true} }

// linear are the entries a, b of the matrix (a -b; b a) that turns and scales.
func (p Pose) linear() (a, b float64) {
	sin, cos := math.Sincos(p.Turn * math.Pi / 180)
	return p.Scale * cos, p.Scale * sin
}

// At is where the point (u, v) of the other frame is found, both from the middle.
func (p Pose) At(u, v float64) (x, y float64) {
	a, b := p.linear()
	return p.X + a*u - b*v, p.Y + b*u + a*v
}

// Linear is the Pose with a shift and the matrix (a -b; b a).
func Linear(x, y, a, b float64) Pose {
	return Pose{X: x, Y: y, Turn: math.Atan2(b, a) * 180 / math.Pi, Scale: math.Hypot(a, b), Shared: 1, Known: true}
}

// After is how a frame lies on a third, of which q tells how the second lies on it. What is in
// doubt of the two adds up in squares: they are taken as of separate measurements. Turns are
// told between -180 and 180 degrees.
func (p Pose) After(q Pose) Pose {
	x, y := p.At(q.X, q.Y)
	a, b := p.linear()
	c, d := q.linear()
	out := Linear(x, y, a*c-b*d, a*d+b*c)
	lever := math.Hypot(q.X, q.Y)
	turned := math.Hypot(p.Scale*lever*p.Doubt.Turn*math.Pi/180, lever*p.Doubt.Scale)
	out.Doubt = Doubt{
		X:     norm(p.Doubt.X, p.Scale*math.Max(q.Doubt.X, q.Doubt.Y), turned),
		Y:     norm(p.Doubt.Y, p.Scale*math.Max(q.Doubt.X, q.Doubt.Y), turned),
		Turn:  norm(p.Doubt.Turn, q.Doubt.Turn),
		Scale: norm(q.Scale*p.Doubt.Scale, p.Scale*q.Doubt.Scale),
	}
	out.Shared, out.Known = math.Min(p.Shared, q.Shared), p.Known && q.Known
	return out
}

// Inverse is how the other frame lies on this one.
func (p Pose) Inverse() Pose {
	a, b := p.linear()
	n := a*a + b*b
	a, b = a/n, -b/n
	out := Linear(-(a*p.X - b*p.Y), -(b*p.X + a*p.Y), a, b)
	lever := math.Hypot(p.X, p.Y) / p.Scale
	turned := math.Hypot(lever*p.Doubt.Turn*math.Pi/180, lever*p.Doubt.Scale/p.Scale)
	most := math.Max(p.Doubt.X, p.Doubt.Y) / p.Scale
	out.Doubt = Doubt{X: norm(most, turned), Y: norm(most, turned), Turn: p.Doubt.Turn, Scale: p.Doubt.Scale / (p.Scale * p.Scale)}
	out.Shared, out.Known = p.Shared, p.Known
	return out
}

// Magnified is the Pose in pixels of which k make one.
func (p Pose) Magnified(k float64) Pose {
	p.X, p.Y, p.Doubt.X, p.Doubt.Y = k*p.X, k*p.Y, k*p.Doubt.X, k*p.Doubt.Y
	return p
}

func norm(of ...float64) float64 {
	sum := 0.0
	for _, x := range of {
		sum += x * x
	}
	return math.Sqrt(sum)
}
