package segment

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/trajectory"
)

// DefaultSeconds is the greatest duration of a block unless told otherwise. A
// straight block of dt seconds leaves a path of acceleration a by a*dt²/8
// (linear interpolation: R. L. Burden and J. D. Faires, Numerical Analysis,
// 9th ed., 2010, section 3.1, ISBN 978-0-538-73351-9): 0.012 mm at 20 ms and
// 240 mm/s². Shorter blocks use up the look-ahead of small controllers, longer
// ones show.
var DefaultSeconds = exact.New(1, 50)

// MaxBlocks bounds the blocks of one round: a round of more than a day at 10
// blocks a second, and a bound on memory.
const MaxBlocks = 1_000_000

// EqualTime cuts each stretch between reversals into blocks of equal duration,
// at most Seconds each; 0 means DefaultSeconds. Blocks begin and end exactly
// at the seam, at each reversal and at both ends of each dwell of every axis.
// A stretch in which nothing moves is one block, however long.
type EqualTime struct{ Seconds exact.Rat }

// Cut returns the take of t. It returns an error if Seconds is negative or so
// short that a round would have more than a million blocks.
func (e EqualTime) Cut(t *trajectory.Trajectory) (Take, error) {
	longest := e.Seconds
	if longest.Sign() == 0 {
		longest = DefaultSeconds
	}
	period := t.Period()
	if longest.Sign() < 0 {
		return Take{}, fmt.Errorf("block duration %s s must be above 0; %s s is the default",
			longest.Decimal(6), DefaultSeconds.Decimal(6))
	}
	if n := period.Quo(longest); exact.Int(MaxBlocks).Less(n) {
		return Take{}, fmt.Errorf("block duration %s s cuts a round of %s s into more than %d blocks; %s s would do",
			longest.Decimal(9), period.Decimal(3), MaxBlocks,
			period.Quo(exact.Int(MaxBlocks)).Mul(exact.Int(1000)).Ceil().Quo(exact.Int(1000)).Decimal(3))
	}
	return Cutter{T: t, Longest: longest}.Take(), nil
}

// Cutter cuts as EqualTime does.
type Cutter struct {
	T       *trajectory.Trajectory
	Longest exact.Rat // s, the greatest duration of a block
	Even    bool      // ramps at constant acceleration where that ends alike
}

// Take returns the take of T.
func (c Cutter) Take() Take {
	period := c.T.Period()
	up, out := c.T.RampTimes()
	k := Take{Rest: c.takeAt(up.Neg())}
	k.RunUp = c.blocks(c.rampCuts(up.Neg(), up, false), c.takeAt)
	k.Round = c.blocks(c.roundCuts(), c.roundAt)
	k.RunOut = c.blocks(c.rampCuts(period, out, true), c.takeAt)
	close(k)
	return k
}

// takeAt returns every axis at sec of a take of a single round.
func (c Cutter) takeAt(sec exact.Rat) []float64 {
	out := make([]float64, c.T.AxisCount())
	for i := range out {
		out[i] = c.Ramped(i, sec.Float())
	}
	return out
}

// roundAt returns every axis at sec of a round, at its end where it ends.
func (c Cutter) roundAt(sec exact.Rat) []float64 {
	out := make([]float64, c.T.AxisCount())
	for i := range out {
		out[i] = c.T.Position(i, sec.Float())
	}
	return out
}

// blocks fills the stretches between cuts.
func (c Cutter) blocks(cuts []cut, at func(exact.Rat) []float64) []Block {
	var out []Block
	for i := 0; i+1 < len(cuts); i++ {
		from, length := cuts[i].at, cuts[i+1].at.Sub(cuts[i].at)
		n := length.Quo(c.Longest).Ceil().Whole()
		if cuts[i].rest {
			n = 1
		}
		each := length.Quo(exact.Int(n))
		for k := int64(1); k <= n; k++ {
			end := from.Add(each.Mul(exact.Int(k)))
			out = append(out, Block{Seconds: each, Nominal: each, End: at(end), Rest: cuts[i].rest})
		}
	}
	return out
}

// seamGrain is how far, in mm or degrees, a round may end from frame 0 by the
// rounding of the arithmetic. A real jump is far greater and stays.
const seamGrain = 1e-9

// close makes a round without advance end on the very number that it starts with
// where nothing comes before it, so that both round alike when written.
func close(k Take) {
	if len(k.RunUp) == 0 {
		last := k.Round[len(k.Round)-1].End
		for i, start := range k.Rest {
			if math.Abs(last[i]-start) < seamGrain {
				last[i] = start
			}
		}
	}
}
