package align

import (
	"math"

	"seamrail/motion/footage"
)

// lowest and greatest are the values from which on a pixel is black or white: two steps of 8 bits
// from the end, within which grain and encoders spread what was cut off.
const lowest, greatest = 2.0 / 255, 253.0 / 255

// lightOf is how bright a frame is.
func lightOf(g footage.Gray) footage.Frame {
	var sum float64
	black, white := 0, 0
	for y := range g.Height {
		var line float32
		for _, v := range g.Row(y) {
			line += v
			if v <= lowest {
				black++
			}
			if v >= greatest {
				white++
			}
		}
		sum += float64(line)
	}
	n := float64(len(g.Pix))
	return footage.Frame{Mean: sum / n, Black: float64(black) / n, White: float64(white) / n}
}

// changed is how far a picture is from another, root mean square, without the finest grain; and how
// far from the nearest that a gain and an offset make of the other, as light that flickers does.
func changed(a, b *Picture) (all, otherwise float64) {
	g := a.levels[1]
	var sum, sa, sb, saa, sab, sbb float64
	for y := range g.Height {
		other := b.levels[1].Row(y)
		for x, v := range g.Row(y) {
			p, q := float64(v), float64(other[x])
			sum += (p - q) * (p - q)
			sa, sb, saa, sab, sbb = sa+p, sb+q, saa+p*p, sab+p*q, sbb+q*q
		}
	}
	n := float64(len(g.Pix))
	saa, sab, sbb = saa-sa*sa/n, sab-sa*sb/n, sbb-sb*sb/n
	left := saa
	if sbb > 0 {
		left -= sab * sab / sbb
	}
	return math.Sqrt(sum / n), math.Sqrt(min(math.Max(left, 0), sum) / n)
}

// fineOf is how much of a picture lies in waves of some four to eight pixels, root mean square:
// what a blur takes first, and grain hardly adds to. Only takes of one scene compare.
func fineOf(p *Picture) float64 {
	g, smooth := p.levels[1], soft(p.levels[1])
	var sum float64
	for n, v := range g.Pix {
		d := float64(v - smooth.Pix[n])
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(g.Pix)))
}
