package against

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/floats"
)

// finely is into how many parts a step of the spectrum is cut where a hum is looked for.
const finely = 20

// hums are a swing that goes on through the whole take, as a motor or a fan makes one. It is
// looked for whatever the noise seems to be, since a fast one looks like noise between neighbours.
func (l *laid) hums() []candidate {
	w := window{}
	for i, weight := range l.weights {
		if weight > 0 {
			w.frames = append(w.frames, i)
		}
	}
	along := l.look([]window{w})
	wins := []window{w}
	l.fill(wins, along)
	row := make([]float64, l.n)
	mean := floats.Sum(wins[0].values) / float64(max(1, len(w.frames)))
	for k, i := range w.frames {
		row[i] = wins[0].values[k] - mean
	}
	f := peak(row)
	cos, sin := make([]float64, l.n), make([]float64, l.n)
	for i := range cos {
		sin[i], cos[i] = math.Sincos(2 * math.Pi * f * float64(i))
	}
	about := label{cause: Hum, hertz: f * l.rate, frame: l.planned(0)}
	return []candidate{{label: about, unknowns: 1 + ways - 1, searched: float64(l.n) / 2,
		make: func(*laid) [][ways][]float64 { return [][ways][]float64{spread(cos, along), spread(sin, along)} }}}
}

// peak is the frequency, in swings a frame, of which a row has most: the greatest of its
// periodogram (A. Schuster, Terrestrial Magnetism 3:13-41, 1898, DOI 10.1029/TM003i001p00013),
// looked at more finely beside it.
func peak(row []float64) float64 {
	n := len(row)
	best, most := 1, 0.0
	for k, c := range fourier.NewFFT(n).Coefficients(nil, row) {
		if p := real(c)*real(c) + imag(c)*imag(c); k > 0 && p > most {
			best, most = k, p
		}
	}
	at, most := float64(best)/float64(n), 0.0
	for d := -finely; d <= finely; d++ {
		f := (float64(best) + float64(d)/finely) / float64(n)
		var a, b float64
		for i, v := range row {
			sin, cos := math.Sincos(2 * math.Pi * f * float64(i))
			a, b = a+v*cos, b+v*sin
		}
		if p := a*a + b*b; p > most {
			at, most = f, p
		}
	}
	return at
}
