package picture

import (
	"math"

	"seamrail/motion/scene"
)

// Beginning is what the picture shows of how a take begins, and what a twitch of one axis
// before it does. What is not known is NaN.
type Beginning struct {
	// Moved is how many captured frames after setting out the near face has moved by
	// ShowsFrom; 0 where it never does, or where that is not known.
	Moved int64
	// Seam is how far the near face goes in a captured frame at the seam, px.
	Seam float64
	// Twitch is how far the near face moves in a twitch, px; Gap is what is left then
	// between the lens and all that the product may turn through, mm, and Still the same
	// without it.
	Twitch, Gap, Still float64
	Missing            []string // what it would take to tell the px
}

// ShowsFrom is what an eye takes for motion when it looks for frame 0, px: that much is
// seen when two frames are laid over each other.
const ShowsFrom = 1.0

// BeginningOf tells how a take begins, with a twitch of one axis by so many mm or degrees;
// axis is -1 for none. The error, a fault.List, is that of Examine.
func BeginningOf(m Motion, s scene.Scene, axis int, by float64) (Beginning, error) {
	nan := math.NaN()
	e, err := newEye(m, s)
	if err != nil {
		return Beginning{}, err
	}
	out := Beginning{Seam: nan, Twitch: nan, Missing: e.missing}
	up, _ := m.RampFrames()
	begins := -float64(up) * e.frame
	rest, there := e.inTake(begins), e.settingOf(func(i int) float64 {
		pos := m.TakeState(i, 1, begins).Pos
		if i == axis {
			pos += by
		}
		return pos
	})
	out.Still, out.Gap = e.sweptGapAt(rest), e.sweptGapAt(there)
	if !e.scaled() {
		return out, nil
	}
	seen := e.nearSpots(rest)
	out.Twitch = e.apart(seen, rest, there)
	for k := int64(1); k <= up+m.Captured(); k++ {
		if e.apart(seen, rest, e.inTake(begins+float64(k)*e.frame)) >= ShowsFrom {
			out.Moved = k
			break
		}
	}
	out.Seam = e.apart(e.nearSpots(e.at(0)), e.moving(0, -e.frame/2), e.moving(0, e.frame/2))
	return out, nil
}

// nearSpots are the points of the product that are followed.
func (e *eye) nearSpots(q setting) []spot { return e.productSpots(q, e.view(q)) }

// apart is how far the point of them that goes farthest is in one setting from where it is
// in another, px.
func (e *eye) apart(spots []spot, a, b setting) float64 {
	va, vb, most := e.view(a), e.view(b), 0.0
	for _, s := range spots {
		p, _ := va.see(s)
		q, _ := vb.see(s)
		most = math.Max(most, p.to(q))
	}
	return most
}
