// Package matchmove is a move as a program needs it that adds to the picture: where
// the lens is and how far the product has turned, as keys on the frame times.
package matchmove

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
)

// Key is how the lens looks at one instant.
type Key struct {
	Frame exact.Rat // captured frames from frame 0
	picture.Sight
}

// Shot is a move and the lens that looks at it.
type Shot struct {
	motion     picture.Motion
	viewer     picture.Viewer
	Wide, High float64 // px of the delivered picture
}

// New returns the shot of a move. It returns an error that names what is
// missing where it is not known where the lens is or how wide it looks, and a
// fault.List where the scene contradicts itself.
func New(m picture.Motion, s scene.Scene) (Shot, error) {
	v, err := picture.NewViewer(m, s)
	if err != nil {
		return Shot{}, err
	}
	if missing := v.Missing(); len(missing) > 0 {
		return Shot{}, fmt.Errorf("where the lens is and how wide it looks is not known; it takes %s", strings.Join(missing, ", and "))
	}
	wide, high := v.Size()
	return Shot{m, v, wide.Value, high.Value}, nil
}

// Frames is how many captured frames the loop has.
func (s Shot) Frames() int64 { return s.motion.Captured() }

// At is the key at a captured frame, whole or not, within 0 and Frames.
func (s Shot) At(frame exact.Rat) Key {
	whole := frame.Floor().Whole()
	begin, end := s.motion.FrameSeconds(whole), s.motion.FrameSeconds(whole+1)
	sec := begin.Add(end.Sub(begin).Mul(frame.Frac()))
	return Key{frame, s.viewer.At(sec.Float())}
}

// finest is how often an interval is halved at most: a product that needs keys
// a thousandth of a frame apart turns more than a hundred times a frame.
const finest = 10

// Keys are the keys of a loop: one at each captured frame from 0 to Frames, the
// last being frame 0 of the next round, and more between two frames where lens
// or product turn by more than so many degrees between them, above 0, so that
// who goes from key to key by the short way goes the right way. It returns an
// error where no number of keys between would do.
func (s Shot) Keys(most float64) ([]Key, error) {
	last := s.At(exact.Int(0))
	keys := []Key{last}
	for k := range s.Frames() {
		next := s.At(exact.Int(k + 1))
		var err error
		if keys, err = s.between(keys, last, next, most, finest); err != nil {
			return nil, err
		}
		last = next
	}
	return keys, nil
}

// between appends the keys after a up to b.
func (s Shot) between(keys []Key, a, b Key, most float64, left int) ([]Key, error) {
	if turned(a, b) <= most {
		return append(keys, b), nil
	}
	if left == 0 {
		return nil, fmt.Errorf("at frame %s it turns by more than keys can follow", a.Frame.Decimal(3))
	}
	middle := s.At(a.Frame.Add(b.Frame).Quo(exact.Int(2)))
	keys, err := s.between(keys, a, middle, most, left-1)
	if err != nil {
		return nil, err
	}
	return s.between(keys, middle, b, most, left-1)
}

// turned is by how many degrees product or lens turn, whichever does more. Of
// the lens only the nearest way is known, which it takes: nobody pans by half a
// turn within a frame.
func turned(a, b Key) float64 {
	return math.Max(math.Abs(b.Table-a.Table), math.Acos(cosine(a, b))*180/math.Pi)
}

// cosine is that of the angle by which the lens turns: the trace of the turn is
// 1 + 2 cos (Euler's theorem: H. Goldstein, C. Poole and J. Safko, Classical
// Mechanics, 3rd ed., Addison-Wesley 2002, section 4.6,
// ISBN 978-0-201-65702-9).
func cosine(a, b Key) float64 {
	p, q := a.Pose, b.Pose
	trace := r3.Dot(p.Right, q.Right) + r3.Dot(p.Up, q.Up) + r3.Dot(p.Forward, q.Forward)
	return math.Min(1, math.Max(-1, (trace-1)/2))
}

// View is the angle of the picture in degrees from foot to head, at a key.
func (s Shot) View(k Key) float64 { return 2 * math.Atan(s.High/2/k.Scale) * 180 / math.Pi }

// Breathes tells whether the angle of view changes within the loop by so much
// that it shows: half a pixel at the head of the picture.
func (s Shot) Breathes(keys []Key) bool {
	for _, k := range keys {
		if math.Abs(k.Scale/keys[0].Scale-1)*s.High/2 > visible {
			return true
		}
	}
	return false
}

// visible is what an eye may see of a picture that grows, in px: below half a
// pixel nothing lands on another pixel.
const visible = 0.5
