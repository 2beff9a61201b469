package hands

import (
	"math"

	"seamrail/motion/footage"
	"seamrail/motion/footage/alike"
)

// Rounds is where the rounds of a take are in its film: a take that goes round shows everything
// again, however deep the scene is and whatever turns in it, so that a frame is held against the
// same of other rounds.
type Rounds struct {
	Zero  float64 // the frame at which the first begins
	Each  float64 // frames of one
	Count int
}

// again is a film of which each frame is held against others in which the camera stood there too.
type again struct {
	sketched
	rounds      Rounds
	free        []bool // no hand was to act about a frame
	left, doubt []float32
}

// Again is Sketched held against the same frames of other rounds or, where there are none, against
// the one in which the camera stood nearest to where it stands, as on its way back: of those in
// which no cue is near, so that what is left is there as long as a hand is. Frames of which there
// is no other are not known.
func Again(s *alike.Sketches, frames []footage.Frame, px float64, r Rounds, rate float64, cues []Cue) Film {
	free := make([]bool, s.Len())
	for n := range free {
		free[n] = !about(n, rate, cues)
	}
	cells := s.Width * s.Height
	return &again{sketched{sketches: s, frames: frames, px: px}, r, free, make([]float32, cells), make([]float32, cells)}
}

// Moved is nothing: whatever the camera did, it did in the other frame too.
func (a *again) Moved(int) float64 { return 0 }

// Left is what a sketch has beyond those of the nearest two other rounds: the lesser of both.
func (a *again) Left(n int, left, doubt []float32) bool {
	const most = 2
	found := 0
	for apart := 1; apart < a.rounds.Count && found < most; apart++ {
		for _, by := range []int{-apart, apart} {
			m, ok := a.other(n, by)
			if !ok || found == most {
				continue
			}
			p, ok := a.on(n, m)
			if !ok {
				continue
			}
			if found++; found == 1 {
				a.beyond(n, m, p, left, doubt)
				continue
			}
			a.beyond(n, m, p, a.left, a.doubt)
			a.lesser(left, doubt)
		}
	}
	if found > 0 {
		return true
	}
	m, ok := a.nearest(n)
	if !ok {
		return false
	}
	p, _ := a.on(n, m)
	a.beyond(n, m, p, left, doubt)
	return true
}

// nearest is the free frame in which the camera stood nearest, so near that all that is deep in the
// picture lies as it does there.
func (a *again) nearest(n int) (m int, ok bool) {
	const near = 0.1 // cells: what stands ten times as near as most is then a cell off
	least := near
	from := a.frames[n].FromFirst
	if !from.Known {
		return 0, false
	}
	for k := range a.Len() {
		p := a.frames[k].FromFirst
		if !a.free[k] || !p.Known {
			continue
		}
		if d := a.moved(from.After(p.Inverse())); d < least {
			m, least, ok = k, d, true
		}
	}
	return m, ok
}

// other is the same frame so many rounds later, where that is one.
func (a *again) other(n, by int) (m int, ok bool) {
	r := a.rounds
	m = int(math.Round(float64(n) + float64(by)*r.Each))
	inside := func(k int) bool {
		return k >= 0 && k < a.Len() && float64(k) > r.Zero-1 && float64(k) < r.Zero+float64(r.Count)*r.Each
	}
	return m, inside(n) && inside(m) && a.free[m]
}

// astray is how far two rounds may lie apart and still be believed to be the same, in cells: beyond
// half of one the camera was moved, or one of both is not where it is said to be.
const astray = 0.5

// on is how a frame lies on the same of another round. Where nobody knows how either lies on the
// first, as where all of the picture turns, they are taken to lie as they are.
func (a *again) on(n, m int) (footage.Pose, bool) {
	p := a.frames[n].FromFirst.After(a.frames[m].FromFirst.Inverse())
	if !p.Known {
		return footage.Same(), true
	}
	return p, a.moved(p) < astray
}

// lesser keeps what is less of two, cell by cell; what one of them does not show, the other tells.
func (a *again) lesser(left, doubt []float32) {
	for c := range left {
		if math.IsInf(float64(doubt[c]), 0) || !math.IsInf(float64(a.doubt[c]), 0) && abs(a.left[c]) < abs(left[c]) {
			left[c], doubt[c] = a.left[c], a.doubt[c]
		}
	}
}
