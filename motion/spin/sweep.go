package spin

import (
	"seamrail/motion/clock"
	"seamrail/motion/exact"
)

// Point is a loop on a curve of closing errors.
type Point struct {
	Screen float64 // s on screen
	Off    float64 // size of the error in turns, of the product that is worst in shares of its bound
	Best   bool    // nearer to the match than its neighbours on either side
	Closes bool
	Frames int64 // captured
}

// Curve is the closing error over the range, at one capture rate and one speed a
// stand.
type Curve struct {
	Clock  clock.Clock
	Speeds []Speed // one for each product
	Points []Point
}

// Curves returns the curves of a query without faults, as floats, for drawing. A
// long curve keeps of each bin the nearest loop, the furthest and those that close,
// and a short one everything.
func Curves(q Query, bins int) []Curve {
	var out []Curve
	for _, c := range q.clocks() {
		for _, speeds := range q.combinations() {
			if points := q.sweep(grainOf(c), speeds, bins); len(points) > 0 {
				out = append(out, Curve{c, speeds, points})
			}
		}
	}
	return out
}

func (q Query) sweep(g grain, speeds []Speed, bins int) []Point {
	if g.per == 0 {
		return nil
	}
	lo, hi := g.span(q.From, q.To)
	hi = min(hi, g.limit())
	residues := make([]*residue, len(speeds))
	for k, p := range q.Products {
		residues[k] = newResidue(g, p, speeds[k], lo)
	}
	every := make([]Point, 0, max(0, hi-lo+1))
	for i := lo; i <= hi; i++ {
		every = append(every, point(residues))
		p := &every[len(every)-1]
		p.Screen, p.Frames = exact.Int(i*g.per).Float()/g.clock.Playback.Float(), i*g.captured
	}
	for i := range every {
		every[i].Best = (i == 0 || every[i].Off <= every[i-1].Off) && (i == len(every)-1 || every[i].Off < every[i+1].Off)
	}
	return thin(every, bins)
}

// point takes the error of the worst residue, and goes on to the next loop.
func point(residues []*residue) Point {
	p, worst := Point{Closes: true}, -1.0
	for _, r := range residues {
		p.Closes = p.Closes && r.closes()
		off, _ := r.off.Float64()
		if share := off * r.perBound; share > worst {
			worst, p.Off = share, off*r.perTurn
		}
		r.next()
	}
	return p
}

// thin keeps the nearest and the furthest of each bin, in order.
func thin(points []Point, bins int) []Point {
	if len(points) <= 2*bins {
		return points
	}
	out := make([]Point, 0, 2*bins)
	for b := range bins {
		bin := points[b*len(points)/bins : (b+1)*len(points)/bins]
		near, far := 0, 0
		for i := range bin {
			if bin[i].Off < bin[near].Off {
				near = i
			}
			if bin[i].Off > bin[far].Off {
				far = i
			}
		}
		for i := range bin {
			if i == near || i == far || bin[i].Closes {
				out = append(out, bin[i])
			}
		}
	}
	return out
}
