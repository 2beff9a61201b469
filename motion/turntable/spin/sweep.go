package spin

import "seamrail/motion/base/clock"

// Point is a loop on a curve of closing errors.
type Point struct {
	Screen float64 // s on screen
	Off    float64 // size of the error in turns, of the product that is worst in shares of its bound
	Share  float64 // the same in shares of the bound
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
// short curve has every loop; a long one has, of each of so many bins, the nearest
// loop and the furthest, so that a bin in which one closes shows one that does.
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
	lo, hi := g.span(q.From, q.To)
	size := max(1, (hi-lo+1)/int64(bins)) // loops a bin
	var out, bin []Point
	q.scan(g, speeds, func(c candidate) {
		bin = append(bin, Point{
			Screen: g.seconds(c.at), Frames: c.at * g.captured,
			Off: c.turns, Share: c.share, Best: c.nearest(), Closes: c.closes,
		})
		if int64(len(bin)) >= size {
			out, bin = thin(out, bin), bin[:0]
		}
	})
	return thin(out, bin)
}

// thin adds the nearest and the furthest of a bin to out, in order.
func thin(out, bin []Point) []Point {
	near, far := 0, 0
	for i := range bin {
		if bin[i].Share < bin[near].Share {
			near = i
		}
		if bin[i].Share > bin[far].Share {
			far = i
		}
	}
	for i, p := range bin {
		if i == near || i == far {
			out = append(out, p)
		}
	}
	return out
}
