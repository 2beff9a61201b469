package calibrate

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Approaches are readings of one and the same place, in mm or degrees: come to upward,
// and come to downward.
type Approaches struct {
	Up, Down []float64
	Division float64 // of the gauge, ruler or picture
}

// fewestApproaches from each side say what they scatter by.
const fewestApproaches = 2

// Play is the play of an axis. Told says whether it can be told from nothing: its bound
// does not reach there.
type Play struct {
	Estimate
	Told bool
}

// Play is the difference of the two means. A gauge may count either way, so its sign says
// nothing. It fails with fewer than two readings a side, and where the readings of one
// side differ by more than both sides do, and by more than the gauge's division: then
// something else moves, and no play is told.
func (a Approaches) Play() (Play, error) {
	if len(a.Up) < fewestApproaches || len(a.Down) < fewestApproaches {
		return Play{}, fmt.Errorf("play needs %d readings from each side, and there are %d and %d", fewestApproaches, len(a.Up), len(a.Down))
	}
	apart := math.Abs(stat.Mean(a.Up, nil) - stat.Mean(a.Down, nil))
	for _, side := range [][]float64{a.Up, a.Down} {
		if span := slices.Max(side) - slices.Min(side); span > max(apart, twoDivisions*a.Division) {
			return Play{}, fmt.Errorf("the readings contradict each other: those from one side differ by %.3g, and the two sides by %.3g", span, apart)
		}
	}
	// A resolution is in each reading; scatter shows it, but for readings that agree.
	read := even(a.Division / 2)
	one := func(side []float64) part { return larger(read, scatter(side)) }
	p := Play{Estimate: joined(apart, one(a.Up), one(a.Down))}
	p.Told = p.Value > p.Bound()
	return p, nil
}

// twoDivisions is how far two readings of one place may be apart where each is read to
// the nearest division and the place repeats within one.
const twoDivisions = 2
