package timeline

import "seamrail/motion/base/exact"

// At is a frame of a shot that is seen.
type At struct {
	Piece    int
	Captured int64 // of an endless loop of the shot, whose rounds have as many frames as its take's
}

// At tells what a frame of the clip shows and, while one event dissolves into another, what
// comes in and to which share. It panics outside the clip.
func (t Timeline) At(frame int64) (now, into At, share float64) {
	i := 0
	for t.Events[i].End() <= frame {
		i++
	}
	if j := t.Joins[i]; j.Length() > 0 && frame >= j.Frame-j.In && i+1 < len(t.Events) {
		return t.seen(i, frame), t.seen(i+1, frame), j.share(frame)
	}
	if i > 0 {
		if j := t.Joins[i-1]; j.Length() > 0 && frame < j.Frame+j.Out {
			return t.seen(i-1, frame), t.seen(i, frame), j.share(frame)
		}
	}
	return t.seen(i, frame), At{}, 0
}

// share of what comes in: even steps, none of the frames being all of one.
func (j Join) share(frame int64) float64 {
	return float64(frame-j.Frame+j.In+1) / float64(j.Length()+1)
}

// seen is what an event shows at a frame of the clip, its handles included. A loop that
// goes on at its seam has as many frames as a round of its take, and of one that is cut
// back what comes after its end is the way back.
func (t Timeline) seen(i int, frame int64) At {
	e := t.Events[i]
	on := exact.Int(e.From + frame - e.Start)
	return At{e.Piece, on.Mul(t.Piece(e).Shot.Clock.PerScreen()).Floor().Whole()}
}
