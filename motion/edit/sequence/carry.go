package sequence

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
)

// Carry is how the picture goes on from one frame to another that follows it on the
// timeline: by how much it is off what the motion before would have made of it one
// frame later. Pixels are those of the picture before.
type Carry struct {
	Jump  float64 // px that the product is away from where it would have gone; 0 where it is not in both pictures
	Grows float64 // px by which the picture's sides are off, for the product came back larger or smaller
	Kick  float64 // px/frame by which the motion changes: right, up and growing together
	Turn  float64 // degrees between the two motions; 0 where one is still
}

// forgiven is in how many frames a change of motion makes good a jump of place that is worth
// as much to us: two seconds at 24. Between shots a jump is what one expects of a cut, and
// a motion that breaks off is not. Our choice.
const forgiven = 48

// Cost is what a search for a cut makes least, in px/frame: the change of motion, and a
// forty-eighth of the jump of place and size.
func (c Carry) Cost() float64 { return c.Kick + math.Hypot(c.Jump, c.Grows)/forgiven }

// Shows tells whether it would be seen: by the bounds of a seam, beyond what the motion does
// from frame to frame beside it anyway.
func (c Carry) Shows(b scene.Bounds, usual Carry) bool {
	place := func(c Carry) float64 { return math.Hypot(c.Jump, c.Grows) }
	return place(c) > b.SeamJump+steadiness*place(usual) || c.Kick > b.SeamKick+steadiness*usual.Kick
}

// steadiness is how much more than beside it a seam may do and still be part of the motion:
// a smooth motion changes from frame to frame, and the frames beside are not the seam's.
const steadiness = 1.5

// carried is how the picture goes on from one flow to another, a frame of the timeline
// later, in px of a picture so wide.
func carried(a, b picture.Flow, playback exact.Rat, wide float64) Carry {
	frame := 1 / playback.Float()
	x, y := vector(a), vector(b)
	out := Carry{Kick: norm([]float64{y[0] - x[0], y[1] - x[1], y[2] - x[2]}) * frame * wide}
	if norm(x) >= stillPicture && norm(y) >= stillPicture {
		out.Turn = between(x, y)
	}
	if a.Followed == picture.Middle || b.Followed == picture.Middle {
		return out
	}
	out.Jump = math.Hypot(b.X-a.X-a.Right*frame, b.Y-a.Y-a.Up*frame) * wide
	if a.Size > 0 && b.Size > 0 {
		out.Grows = math.Abs((b.Size/a.Size-1)/2-a.Toward*frame) * wide
	}
	return out
}

// wide is how many px the delivered picture of a piece is wide, 0 where that is not known.
func (p Piece) wide() float64 {
	s, ok := lensview.Scene(p.Shot, p.Trajectory.Rig())
	if !ok {
		return 0
	}
	v, err := picture.NewViewer(lensview.Motion(p.Trajectory), s)
	if err != nil {
		return 0
	}
	w, _ := v.Size()
	return w.Or(0)
}

// Carries tells how the picture goes on from frame out of a piece to frame in of another,
// both counted as From and Last are, and whether that is known.
func (p Piece) Carries(out int64, next Piece, in int64) (c Carry, known bool, err error) {
	a, _, err := p.flows([]float64{p.seconds(out)})
	if err != nil || a == nil {
		return Carry{}, false, err
	}
	b, _, err := next.flows([]float64{next.seconds(in)})
	if err != nil || b == nil {
		return Carry{}, false, err
	}
	return carried(a[0], b[0], p.Shot.Clock.Playback, p.wide()), true, nil
}

// Usual is what the motion does from frame to frame beside a seam from frame out to frame
// in of another piece, the more of both sides; nothing where that is not known.
func (p Piece) Usual(out int64, next Piece, in int64) (Carry, error) {
	before, _, err := p.Carries(out-1, p, out)
	if err != nil {
		return Carry{}, err
	}
	after, _, err := next.Carries(in, next, in+1)
	return Carry{Jump: max(before.Jump, after.Jump), Grows: max(before.Grows, after.Grows), Kick: max(before.Kick, after.Kick)}, err
}

// Bounds are those of a piece's picture, as its shot has them or as usual.
func (p Piece) Bounds() scene.Bounds {
	s, ok := lensview.Scene(p.Shot, p.Trajectory.Rig())
	if !ok {
		return scene.DefaultBounds()
	}
	return s.Bounds.Filled()
}

// Closed tells whether the loop of the shot goes on at its seam, so that what follows
// its last frame in a take is its first.
func (p Piece) Closed() bool { return !p.cutBack() }

// Loop is how many frames of the timeline its shot's loop has.
func (p Piece) Loop() int64 { return p.loop() }

// PerUnit is how far the picture of a frame moves, in px, for each mm or degree that an
// axis is off; nil where that is not known.
func (p Piece) PerUnit(frame int64) (map[string]float64, error) {
	s, ok := lensview.Scene(p.Shot, p.Trajectory.Rig())
	if !ok {
		return nil, nil
	}
	m, err := picture.PerUnit(lensview.Motion(p.Trajectory), s, p.seconds(frame))
	return m, lensview.Located(err, p.Shot)
}
