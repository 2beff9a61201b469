package track

import "math"

// Sight is a point as a lens on a straight rail sees it, in mm.
//
// Headings are those of package pose: seen from above, counter-clockwise, 0
// square to the rail towards the point's side. Greater positions of the rail
// are to the right of a camera that looks that way, so a lens that has gone
// past the point looks back at it under a heading above 0.
type Sight struct {
	Along float64 // position of the rail at which the point is straight ahead
	Away  float64 // from the lens's way to the point, square to the rail; above 0
	Up    float64 // of the point over the lens
}

const degreesPerRadian = 180 / math.Pi

// Pan returns the heading of the point in degrees, and its derivatives by the
// rail's position x in mm: atan((x - Along)/Away).
func (s Sight) Pan(x float64) Jet {
	w, d := x-s.Along, s.Away
	q := w*w + d*d
	k := degreesPerRadian
	return Jet{math.Atan2(w, d) * k, k * d / q, -2 * k * w * d / (q * q), 2 * k * d * (3*w*w - d*d) / (q * q * q)}
}

// Tilt returns how far above the level the point is seen, in degrees, and its
// derivatives by x: atan(Up/level), level being the distance on the flat.
func (s Sight) Tilt(x float64) Jet {
	level, u := hypot(x-s.Along, s.Away), s.Up
	r := level[0]
	q := r*r + u*u
	k := degreesPerRadian
	rise := Jet{math.Atan2(u, r) * k, -k * u / q, 2 * k * u * r / (q * q), 2 * k * u * (u*u - 3*r*r) / (q * q * q)}
	return rise.after(level)
}

// Distance returns how far the point is from the lens, in mm, and its
// derivatives by x.
func (s Sight) Distance(x float64) Jet { return hypot(x-s.Along, math.Hypot(s.Away, s.Up)) }

// hypot returns sqrt(w^2 + d^2) and its derivatives by w.
func hypot(w, d float64) Jet {
	r := math.Hypot(w, d)
	cube := r * r * r
	return Jet{r, w / r, d * d / cube, -3 * d * d * w / (cube * r * r)}
}

// Arc returns where on the rail the point has a heading in degrees, in mm, and
// the derivatives by the heading: Along + Away tan(heading). With a pan that
// keeps the point centred the view goes round it by that angle.
func (s Sight) Arc(heading float64) Jet {
	k := 1 / degreesPerRadian
	t := math.Tan(heading * k)
	square := 1 + t*t
	return Jet{
		s.Along + s.Away*t, s.Away * square * k,
		s.Away * 2 * t * square * k * k, s.Away * 2 * square * (1 + 3*t*t) * k * k * k,
	}
}

// FocusRing is what focuses a lens: how its place goes with the distance it is sharp
// at. The place is Zero + PerMM times the extension f^2/(u-f), how much further
// from the sensor a thin lens of focal length f must be for a distance u than
// for infinity (Hecht, Optics, the Newtonian lens equation).
type FocusRing struct {
	Focal       float64 // mm
	Zero, PerMM float64 // units; units a mm of extension
}

// extension returns f^2/(u-f) and its derivatives by u.
func (r FocusRing) extension(u float64) Jet {
	f2, g := r.Focal*r.Focal, u-r.Focal
	return Jet{f2 / g, -f2 / (g * g), 2 * f2 / (g * g * g), -6 * f2 / (g * g * g * g)}
}

// Mark is a place of the focus axis, in its units, found sharp at a distance in
// mm from the lens.
type Mark struct{ Distance, Place float64 }

// RingThrough returns the ring of a lens that two marks were found with. They
// must be at two distances beyond the focal length.
func RingThrough(focal float64, a, b Mark) FocusRing {
	r := FocusRing{Focal: focal}
	ea, eb := r.extension(a.Distance)[0], r.extension(b.Distance)[0]
	r.PerMM = (b.Place - a.Place) / (eb - ea)
	r.Zero = a.Place - r.PerMM*ea
	return r
}

// Place returns where the focus axis is for a point seen from x, and its
// derivatives by x.
func (r FocusRing) Place(s Sight, x float64) Jet {
	u := s.Distance(x)
	p := r.extension(u[0]).after(u)
	for i := range p {
		p[i] *= r.PerMM
	}
	p[0] += r.Zero
	return p
}
