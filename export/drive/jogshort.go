package drive

import (
	"math"
	"time"
)

// Where a board has no jog of its own it is moved by short moves, each of which ends by
// itself: the next is sent once it rests. So it has never more than one, whatever becomes
// of this program, the wire or the board's own clock, and begins to brake soon after it
// got it.

const (
	// shortPeak is when a short move begins to brake, in s: with the line on the wire
	// before it, within lookSoon.
	shortPeak = 0.016
	// shortGap is how long it takes at least from the end of one to the next, in s: an
	// answer and a line on a wire of 115200 baud and an adapter of 1 ms.
	shortGap = 0.004
)

// shortMoves moves an axis by moves that each end by themselves.
func (t *lineController) shortMoves(j *jogging) error {
	t.bound = append(t.bound[:0], t.at...)
	for _, mode := range []string{"G21 G91", "G94"} {
		if err := t.prompt(mode); err != nil {
			return err
		}
	}
	a := t.axes[j.axis]
	perUnit := math.Pow(10, float64(t.controller.Decimals))
	least := math.Ceil(max(1, perUnit/a.StepsPerUnit.Float()))
	j.began = t.now
	for gap := shortGap; !j.over(t.now); {
		began := t.now
		speed := max(j.ramp.speed(began.Sub(j.began).Seconds()+shortPeak), j.ramp.creep/2)
		peak := shortSpeed(speed, acceleration(a), gap)
		grains := min(max(math.Floor(peak*shortPeak*perUnit), least), math.Floor((j.most-j.fed)*perUnit))
		if grains < 1 {
			break // at the end
		}
		by := grains / perUnit
		if t.sure(j.axis) {
			t.bound[j.axis] += by * j.way
		}
		takes := shortPeak + peak/acceleration(a)
		if err := t.shortMove("G1 "+a.Letter+t.number(by*j.way)+" F"+t.pace(a, max(peak, by/shortPeak)), seconds(takes)); err != nil {
			return err
		}
		j.fed += by
		t.tellJog(j, true)
		gap = max(t.now.Sub(began).Seconds()-takes, shortGap)
		if err := t.rests(j, began.Add(seconds(by/speed))); err != nil {
			return err
		}
	}
	return t.shortEnd(j)
}

// shortSpeed is the speed that a short move comes up to so that all of them, with the
// gaps between, are as fast as they should be.
func shortSpeed(speed, acceleration, gap float64) float64 {
	most := acceleration * shortPeak
	if left := shortPeak - speed/acceleration; left > 0 {
		return min(speed*(shortPeak+gap)/left, most)
	}
	return most
}

// shortMove makes one, and waits until it rests.
func (t *lineController) shortMove(move string, takes time.Duration) error {
	if err := t.exchange(move, patience+takes); err != nil {
		return err
	}
	return t.exchange(syncLine, patience+takes)
}

// rests waits until the next is due, if it is held as long.
func (t *lineController) rests(j *jogging, until time.Time) error {
	for t.now.Before(until) && !j.over(t.now) {
		if err := t.wait(earlier(until, j.until)); err != nil {
			return err
		}
		if t.stops > 0 {
			return errStopped
		}
	}
	return nil
}

// shortEnd leaves the modes as other moves want them, and takes in where the axis is.
func (t *lineController) shortEnd(j *jogging) error {
	if err := t.prompt("G90"); err != nil {
		return err
	}
	if !t.sure(j.axis) {
		return nil
	}
	to := t.at[j.axis] + j.fed*j.way
	if t.shift != nil {
		if err := t.fresh(); err != nil {
			return err
		}
	}
	return t.glided(j.axis, to, false)
}
