package toppath

import (
	"errors"
	"math"
)

// ErrStuck is a path along which limits so small that nothing moves.
var ErrStuck = errors.New("the axes' limits let nothing move along the path")

// row says that a z + b y <= most, for the squares z and y of the pace at the
// start and at the end of a cell.
type row struct{ a, b, most float64 }

// rows returns what acceleration allows in cell i. Within a cell dv/dt is
// constant, (y-z)/2h, and each limit is kept at both its ends.
func (g *grid) rows(i int, into []row) []row {
	into = append(into[:0], row{0, -1, 0})
	for at := range 2 {
		for _, s := range g.node(i + at) {
			m := s.push / (2 * g.h)
			r := row{-m, m, 1}
			if at == 0 {
				r.a += s.bend
			} else {
				r.b += s.bend
			}
			into = append(into, r, row{-r.a, -r.b, 1})
		}
	}
	return into
}

// start returns the greatest z up to bound for which some y obeys all rows. Each
// row above y and each below it leave room for y while
// z (a1 b2 - a2 b1) <= most1 b2 - most2 b1 (Fourier's elimination: A. Schrijver,
// Theory of Linear and Integer Programming, Wiley 1986, section 12.2,
// ISBN 978-0-471-98232-6).
func start(rows []row, bound float64) float64 {
	z := bound
	for _, low := range rows {
		if low.b == 0 && low.a > 0 {
			z = min(z, low.most/low.a)
		}
		if low.b >= 0 {
			continue
		}
		for _, high := range rows {
			if c := low.a*high.b - high.a*low.b; high.b > 0 && c > 0 {
				z = min(z, (low.most*high.b-high.most*low.b)/c)
			}
		}
	}
	return z
}

// end returns the greatest y for z.
func end(rows []row, z float64) float64 {
	y := math.Inf(1)
	for _, r := range rows {
		if r.b > 0 {
			y = min(y, (r.most-r.a*z)/r.b)
		}
	}
	return max(0, y)
}

const (
	// maxRounds is how often a closed path is gone round until its seam
	// agrees. One round in which the pace is limited anywhere settles it.
	maxRounds = 16
	// sameSeam is the share by which the seam may disagree.
	sameSeam = 1e-12
)

// fastest returns the square of the greatest pace at every node.
//
// Backwards along the path it finds from what pace each node can still be
// followed by what comes; forwards it goes as fast as that and acceleration
// allow. That is the optimum to the width of a cell, as pace is then at one of
// its limits everywhere (J. E. Bobrow, S. Dubowsky and J. S. Gibson, Int.
// J. Robotics Research 4(3):3-17, 1985, DOI 10.1177/027836498500400301;
// H. Pham and Q.-C. Pham, IEEE Trans. Robotics 34(3):645-659, 2018,
// DOI 10.1109/TRO.2018.2819195).
func (g *grid) fastest() ([]float64, error) {
	z := append([]float64(nil), g.bound...)
	g.rounds(z, func(rows []row) {
		for i := g.n - 1; i >= 0; i-- {
			rows = append(g.rows(i, rows), row{0, 1, z[i+1]})
			z[i] = start(rows, z[i])
		}
	}, g.n, 0)
	g.rounds(z, func(rows []row) {
		for i := range g.n {
			rows = g.rows(i, rows)
			z[i+1] = min(z[i+1], end(rows, z[i]))
		}
	}, 0, g.n)
	for i := range g.n {
		if !(z[i]+z[i+1] > 0) || math.IsInf(z[i]+z[i+1], 0) {
			return nil, ErrStuck
		}
	}
	return z, nil
}

// rounds goes along the path once or, if it is closed, until the node it comes
// to is no slower than the one it began from, which is the same place.
func (g *grid) rounds(z []float64, along func([]row), from, to int) {
	rows := make([]row, 0, 4*g.axes+2)
	if !g.closed {
		along(rows)
		return
	}
	for range maxRounds {
		z[from] = min(z[from], z[to])
		along(rows)
		if z[to] >= z[from]*(1-sameSeam) {
			break
		}
	}
	z[from] = min(z[from], z[to])
	z[to] = z[from]
}
