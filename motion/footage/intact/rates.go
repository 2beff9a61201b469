package intact

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

// Rates is a file's rate beside those of a shot.
type Rates struct {
	Container exact.Rat // frames a second of the file
	Capture   bool      // it is the rate at which the shot is captured
	Playback  bool      // it is the rate at which it is played
	Nearest   exact.Rat // the nearer of those two
	// Kin tells that it misses that by a thousand in a thousand and one, either way: 24 and
	// 24000/1001.
	Kin bool
	// Times is the file's rate over the nearest, where one is a whole multiple of the other;
	// else 0. Of 2, each frame is there twice, or the camera took twice as many.
	Times exact.Rat
	// Drift is by how many frames of the nearest rate the two are apart at the end of the
	// take, above 0 where the file lasts longer, and DriftSeconds how long that is.
	Drift, DriftSeconds exact.Rat
}

// kin is the ratio of a colour television rate to its whole neighbour (SMPTE ST 12-1).
func kin() exact.Rat { return exact.New(1000, 1001) }

// Compare holds the rate of a file of so many frames against a shot's clock, exactly. It fails
// if the rate is not above 0, as it is of a file that tells none.
func Compare(container exact.Rat, c clock.Clock, frames int64) (Rates, error) {
	if container.Sign() <= 0 {
		return Rates{}, fmt.Errorf("a file of %s frames a second has no rate; it must be above 0, such as the %s that the shot is captured at", container, c.Capture)
	}
	r := Rates{Container: container, Capture: container.Equal(c.Capture), Playback: container.Equal(c.Playback), Nearest: c.Capture}
	if apart(container, c.Playback).Less(apart(container, c.Capture)) {
		r.Nearest = c.Playback
	}
	share := container.Quo(r.Nearest)
	r.Kin = share.Equal(kin()) || share.Inv().Equal(kin())
	if share.IsInt() || share.Inv().IsInt() {
		r.Times = share
	}
	// The frames last frames/container; at the nearest rate that is so many frames.
	r.Drift = exact.Int(frames).Quo(share).Sub(exact.Int(frames))
	r.DriftSeconds = r.Drift.Quo(r.Nearest)
	return r, nil
}

// apart is the ratio of two rates, the greater over the less.
func apart(a, b exact.Rat) exact.Rat {
	if a.Less(b) {
		a, b = b, a
	}
	return a.Quo(b)
}
