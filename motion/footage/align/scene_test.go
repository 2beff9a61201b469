package align_test

import (
	"math"
	"math/rand/v2"

	"seamrail/motion/footage"
)

// blob is a round spot of the scene, from the middle of the picture.
type blob struct{ x, y, size, light float64 }

// scene are spots over more than the picture, so that what comes in has something in it.
func scene(seed uint64, width, height float64, count int) []blob {
	r := rand.New(rand.NewPCG(seed, 1))
	var out []blob
	for range count {
		out = append(out, blob{(r.Float64() - 0.5) * 3 * width, (r.Float64() - 0.5) * 3 * height, 3 + 12*r.Float64()*r.Float64(), 0.6 * (r.Float64() - 0.3)})
	}
	return out
}

// seen is the scene as a frame that lies so: each spot is where the pose puts it, in closed form.
func seen(scene []blob, width, height int, p footage.Pose) footage.Gray {
	g := footage.NewGray(width, height)
	for n := range g.Pix {
		g.Pix[n] = 0.35
	}
	mx, my := float64(width-1)/2, float64(height-1)/2
	for _, b := range scene {
		x, y := p.At(b.x, b.y)
		x, y = x+mx, y+my
		size := b.size * p.Scale
		far := 4 * size
		for v := max(int(y-far), 0); v <= min(int(y+far)+1, height-1); v++ {
			row := g.Row(v)
			down := math.Exp(-(float64(v) - y) * (float64(v) - y) / (2 * size * size))
			for u := max(int(x-far), 0); u <= min(int(x+far)+1, width-1); u++ {
				row[u] += float32(b.light * down * math.Exp(-(float64(u)-x)*(float64(u)-x)/(2*size*size)))
			}
		}
	}
	return g
}

// grainy has noise, and is told in steps of 8 bits.
func grainy(g footage.Gray, sigma float64, seed uint64) footage.Gray {
	r := rand.New(rand.NewPCG(seed, 2))
	for n, v := range g.Pix {
		g.Pix[n] = float32(math.Round(math.Min(math.Max(float64(v)+sigma*r.NormFloat64(), 0), 1)*255) / 255)
	}
	return g
}
