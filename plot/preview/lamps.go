package preview

import (
	"math"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/camera/light"
	"seamrail/motion/camera/pose"
)

// lamp lights a surface by the cosine of the angle at which it comes (Lambert).
type lamp struct {
	way   r3.Vec // unit vector to it
	share float64
}

// The drawing is exposed by itself: whatever the lamps give, the brightest side
// that the lens may see comes out at brightest, and what no lamp reaches at
// dimmest. Whether there is light enough the report tells.
const (
	brightest = 1.0
	dimmest   = 0.34
)

// usualLamps stand for lamps nobody gave: one from the upper left, and a weaker
// one from the right.
func usualLamps() []lamp {
	return []lamp{{pose.Direction(180-40, 40), 1}, {pose.Direction(180+60, 15), 0.35}}
}

// lamps returns the lamps of the scene by what they give, and what was assumed.
func lamps(s scene.Scene) (out []lamp, said []string) {
	out, said = shining(s.Lamps)
	scaled(out, exposed(out))
	return out, said
}

// shining are lamps by what they give, and what was assumed.
func shining(of []scene.Lamp) (out []lamp, said []string) {
	even := false
	for _, l := range of {
		one := lamp{way: pose.Direction(180+l.Bearing, l.Rise), share: 1}
		if _, missing := l.Lux(); missing != nil {
			even = true
		} else {
			one.share = light.Illuminance(l.Level.Or(1)*light.Intensity(l.Lumens.Value, l.Beam.Value), l.Distance.Value, 0)
		}
		out = append(out, one)
	}
	switch {
	case len(out) == 0:
		out, said = usualLamps(), []string{"no lamps are known: lit from the upper left"}
	case even:
		for i := range out {
			out[i].share = 1
			if of[i].Fade != nil {
				out[i].share = of[i].Level.Or(1)
			}
		}
		said = []string{"not all lamps are known: each lights as much as the other"}
	}
	return out, said
}

// exposed is what scales lamps so that the brightest side turned towards the lens comes
// out at brightest.
func exposed(lamps []lamp) float64 {
	if most := bestSide(lamps); most > 0 {
		return (brightest - dimmest) / most
	}
	return 1
}

// bestSide is the most that falls on a side turned towards the lens, give or take a right
// angle.
func bestSide(lamps []lamp) float64 {
	most := 0.0
	for heading := 90.0; heading <= 270; heading++ {
		most = math.Max(most, falling(lamps, pose.Direction(heading, 0)))
	}
	return most
}

func scaled(lamps []lamp, by float64) {
	for i := range lamps {
		lamps[i].share *= by
	}
}

func falling(lamps []lamp, normal r3.Vec) (sum float64) {
	for _, l := range lamps {
		sum += l.share * math.Max(0, r3.Dot(l.way, normal))
	}
	return sum
}

// lit is how much light a surface with that normal sends out, of what it would
// if it were as bright as the brightest.
func (s *stage) lit(normal r3.Vec) float64 { return dimmest*s.room + falling(s.lamps, normal) }
