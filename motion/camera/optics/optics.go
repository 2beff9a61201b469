// Package optics is a lens in numbers: magnification, pupils, effective aperture,
// depth of field, diffraction and angles of view. It is a thin lens with pupils
// that need not be at the lens: two principal planes and an opening.
//
// Lengths are mm, wavelengths nm, angles degrees. Distances to things in front of the
// lens are measured from the lens (the front principal plane) along its axis. A pupil
// ratio p is exit over entrance pupil: 1 of a symmetrical lens. Thin lens, pupils and
// diffraction are those of E. Hecht, Optics, 5th ed., Pearson 2017, chapters 5 and 10,
// ISBN 978-0-13-397722-6. Arguments must be finite; what a function needs beyond that it
// says.
package optics

import "math"

// Magnification returns image size over object size of a lens of focal length
// f focused on a plane u away: f/(u-f). It is +Inf at u = f and negative
// within, where no real image forms.
// Source: the thin lens equation, 1/f = 1/u + 1/v (Hecht, Optics,
// section 5.2).
func Magnification(f, u float64) float64 { return f / (u - f) }

// FocusAt returns the distance u at which a lens of focal length f has
// magnification m > 0: f(1 + 1/m).
func FocusAt(f, m float64) float64 { return f * (1 + 1/m) }

// EntrancePupil returns how far the entrance pupil stands ahead of the lens,
// f(1 - 1/p); below 0 it is behind. The lens sees from there: it is where the rays
// through the middle of the opening cross.
// Source: the pupils are images of each other, magnified p times, so that by
// Newton's equation they stand f/p behind the front focal point and p f before the
// rear one (Hecht, Optics, section 5.2).
func EntrancePupil(f, p float64) float64 { return f * (1 - 1/p) }

// Extension returns how far from a pinhole at the entrance pupil a picture of the
// same size would form, f(1 + m/p), for a lens focused where it magnifies m times.
// A point at an angle to the axis comes tan(angle) times that off its middle: by
// the pupils' angular magnification 1/p over f(m + p) from the exit pupil to the
// sensor.
func Extension(f, m, p float64) float64 { return f * (1 + m/p) }

// Breathing returns how many times as large as with it focused far away the picture of
// one and the same thing is, with a lens of focal length f focused on a plane u away, of
// which it is told that the picture is larger by share at its nearest focus. In between
// it grows with the magnification of the plane in focus: so a lens does that focuses by
// moving away from the sensor, whose share is its greatest magnification over the pupil
// ratio (Extension). Of a lens with parts that move within that is a guess between two
// ends that are known.
func Breathing(share, f, nearest, u float64) float64 {
	return 1 + share*Magnification(f, u)/Magnification(f, nearest)
}

// Effective returns the aperture the light sees: N(1 + m/p) for an f-number N and
// the magnification m of the plane in focus.
// Source: J. Greivenkamp, Field Guide to Geometrical Optics, SPIE FG01, 2004,
// p. 29.
func Effective(n, m, p float64) float64 { return n * (1 + m/p) }

// Stops returns how many stops of light lie between two f-numbers, above 0
// where b is the smaller opening: 2 log2(b/a).
func Stops(a, b float64) float64 { return 2 * math.Log2(b/a) }

// Depth returns the nearest and the farthest distance that are sharp within a
// circle of confusion c when a lens is focused at u > f; far is +Inf from the
// hyperfocal distance on.
// Source: Blur solved for z. At p = 1 it is Greenleaf's (Photographic Optics,
// Macmillan 1950), with H = f²/(Nc) + f: near = u(H-f)/(H+u-2f), far = u(H-f)/(H-u).
func Depth(f, n, p, c, u float64) (near, far float64) {
	a := EntrancePupil(f, p)
	wide := f * f / (n * (u - f)) // the spot of a point at no distance, or infinitely far
	near = a + (u-a)*wide/(wide+c)
	if wide <= c {
		return near, math.Inf(1)
	}
	return near, a + (u-a)*wide/(wide-c)
}

// DepthAt is Depth for a lens known by its magnification m > 0 alone, as
// distances from the plane in focus: how far towards the lens and how far away
// from it stays sharp. Exact for a given focal length f; with f = 0 it is the
// form for close work, c N (1+m/p)/m² either way, which the other tends to as f
// grows.
func DepthAt(f, m, n, p, c float64) (nearer, farther float64) {
	if f <= 0 {
		d := c * Effective(n, m, p) / (m * m)
		return d, d
	}
	u := FocusAt(f, m)
	near, far := Depth(f, n, p, c, u)
	return u - near, far - u
}

// Blur returns the diameter on the sensor of the spot that a point at z becomes when
// the lens is focused at u > f: m f/N |z-u|/(z-a), from similar triangles before the
// entrance pupil, of diameter f/N and a ahead of the lens: the cone from the point
// is that wide in the plane in focus, which comes out m times as large. z > a.
func Blur(f, n, p, u, z float64) float64 {
	return f * f / n * math.Abs(z-u) / ((z - EntrancePupil(f, p)) * (u - f))
}

// Green is the wavelength taken for white light, in nm: near the greatest
// sensitivity of the eye, 555 nm (CIE 1924 luminous efficiency; CIE S 017).
const Green = 550.0

// Airy returns the diameter, in mm, of the first dark ring of the spot that a
// round opening makes of a point: 2.44 lambda N, for the effective f-number N
// and a wavelength in nm.
// Source: G. B. Airy, Trans. Camb. Phil. Soc. 5:283, 1835; the factor is twice
// the first zero of J1, 3.8317, over pi (Hecht, Optics, section 10.2).
func Airy(n, wavelength float64) float64 { return airyFactor * wavelength * 1e-6 * n }

// airyFactor is 2 j/pi, j the first zero of the Bessel function J1.
const airyFactor = 2 * 3.8317059702075123156 / math.Pi

// AngleOfView returns the full angle, in degrees, that a width of sensor sees
// at an extension v: 2 atan(w/2v).
func AngleOfView(width, v float64) float64 {
	return 2 * math.Atan(width/(2*v)) * 180 / math.Pi
}
