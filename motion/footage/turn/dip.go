package turn

import (
	"errors"
	"fmt"
	"math"
)

const (
	// leastContrast is how much less than any two frames two neighbours must differ, as a
	// share: what noise alone makes of it is below a hundredth.
	leastContrast = 0.03
	// leastTypical is the mean squared distance of frames below which it is rounding of single
	// precision, hundred times over: their squares are 1.
	leastTypical = 1e-11
	// away and back are shares of the way from the likest lag to the typical one: once it has
	// been more than away, a picture that is less than back has come again. The second is
	// what six panes that differ a little keep below, and what neighbours of a dip exceed.
	away, back = 0.5, 0.25
	// leastReach is how many frames to both sides of a dip are fitted at least: five values
	// are what a polynomial of degree 4 needs.
	leastReach = 2
	// sides is how many lags are looked at on each side of a dip; more of a wide dip say no
	// more.
	sides = 4
)

// dip is where the picture comes again, and how wide it is about there.
type dip struct {
	at float64
	window
}

// window is what of a dip is fitted.
type window struct {
	reach  int // frames to both sides
	stride int // every how manieth of them
	skip   int // every how manieth frame to begin with
}

func newWindow(reach int) window {
	stride := max(1, reach/sides)
	return window{reach / stride * stride, stride, 1}
}

var (
	errStill  = errors.New("nothing moves in the footage: its frames differ by noise alone")
	errNoTurn = errors.New("the picture never comes again; film one turn and a half or more")
)

// firstDip is the first lag at which the picture comes again after having been another.
func (c course) firstDip(least int) (dip, error) {
	if len(c.unlike) < 3 || c.typical < leastTypical || c.typical-c.unlike[1] < leastContrast*c.typical {
		return dip{}, errStill
	}
	begin := c.leave(least)
	floor := math.Inf(1)
	for _, v := range c.unlike[min(begin, len(c.unlike)):] {
		floor = min(floor, v)
	}
	if !(c.typical-floor >= leastContrast*c.typical) || floor > c.share(c.unlike[1], back) {
		return dip{}, errNoTurn
	}
	bar := c.share(floor, back)
	for lag := begin; lag < len(c.unlike); lag++ {
		if c.unlike[lag] < bar {
			return c.dipFrom(lag, bar)
		}
	}
	return dip{}, errNoTurn
}

// share is so far on the way from low to the typical.
func (c course) share(low, share float64) float64 { return low + share*(c.typical-low) }

// leave is the first lag from which on a picture may be said to come again.
func (c course) leave(least int) int {
	bar := c.share(c.unlike[1], away)
	for lag := 1; lag < len(c.unlike); lag++ {
		if c.unlike[lag] > bar {
			return max(lag, least)
		}
	}
	return len(c.unlike)
}

// dipFrom is the dip that begins at a lag.
func (c course) dipFrom(from int, bar float64) (dip, error) {
	to, best := from, from
	for to+1 < len(c.unlike) && c.unlike[to+1] < bar {
		to++
		if c.unlike[to] < c.unlike[best] {
			best = to
		}
	}
	if to+1 == len(c.unlike) && best == to {
		return dip{}, fmt.Errorf("the footage ends before the picture has come again; it must go on for half a turn more than %d frames", best)
	}
	reach := max(leastReach, (to-from+1)/2)
	return dip{float64(best), newWindow(reach)}, nil
}
