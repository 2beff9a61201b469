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

// changed is how far a picture is from another, root mean square, without the finest grain.
func changed(a, b *Picture) float64 {
	var sum float64
	for y := range a.levels[1].Height {
		var line float32
		other := b.levels[1].Row(y)
		for x, v := range a.levels[1].Row(y) {
			d := v - other[x]
			line += d * d
		}
		sum += float64(line)
	}
	return math.Sqrt(sum / float64(len(a.levels[1].Pix)))
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
