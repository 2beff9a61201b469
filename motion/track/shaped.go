package track

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/exact"
)

// Impulse is a share of a movement that comes with a delay.
type Impulse struct {
	Delay exact.Rat // s, less than a period either way
	Share float64   // the shares of a row sum to 1
}

// shareSlack is how far from 1 the shares may sum: a few roundings.
const shareSlack = 1e-12

// maxImpulses bounds a row, far above any shaper.
const maxImpulses = 16

// Shaped returns the sum of delayed shares of a track: its convolution, all
// round the loop, with a row of impulses. It has the period and the advance of
// the track, closes as the track does, and goes nowhere that the track does
// not go.
//
// It fails if there is no impulse or too many, if a delay is a whole
// loop or more either way, or if the shares are not finite and above 0 or do not sum to 1.
func Shaped(t *Track, row []Impulse) (*Track, error) {
	if err := checkImpulses(t.period, row); err != nil {
		return nil, err
	}
	copies := make([]delayed, len(row))
	for i, p := range row {
		copies[i] = newDelayed(t, p)
	}
	return summed(copies), nil
}

// summed adds up tracks of one period, the first of which has the advance of the sum.
func summed(copies []delayed) *Track {
	t := copies[0].track
	edges := []float64{0, t.seconds}
	for _, c := range copies {
		edges = append(edges, c.edges()...)
	}
	slices.Sort(edges)
	edges = slices.CompactFunc(edges, func(a, b float64) bool { return math.Abs(b-a) <= breakSlack*t.seconds })
	edges[len(edges)-1] = t.seconds
	out := &Track{period: t.period, advance: t.advance, seconds: t.seconds, gain: t.gain}
	for i := 0; i+1 < len(edges); i++ {
		out.pieces = append(out.pieces, blended(copies, edges[i], edges[i+1]))
	}
	return out
}

func checkImpulses(period exact.Rat, row []Impulse) error {
	if n := len(row); n < 1 || n > maxImpulses {
		return fmt.Errorf("%d impulses; there must be from 1 to %d", n, maxImpulses)
	}
	sum := 0.0
	for _, p := range row {
		switch {
		case !p.Delay.Abs().Less(period):
			return fmt.Errorf("a delay of %s s must be less than the loop, %s s", seconds(p.Delay), seconds(period))
		case !(p.Share > 0) || !finite(p.Share):
			return fmt.Errorf("a share of %g must be above 0", p.Share)
		}
		sum += p.Share
	}
	if math.Abs(sum-1) > shareSlack {
		return errors.New("the shares of a row of impulses must sum to 1")
	}
	return nil
}

// delayed is a track that comes later, with its share.
type delayed struct {
	track *Track
	delay float64
	share float64
}

func newDelayed(t *Track, p Impulse) delayed { return delayed{t, p.Delay.Float(), p.Share} }

// edges are the times, in the loop, at which its formula changes.
func (d delayed) edges() []float64 {
	var out []float64
	for _, b := range d.track.Breaks() {
		at, _ := d.track.wrap(b + d.delay)
		out = append(out, at)
	}
	return out
}

// part is the piece of the delayed track that covers [from, to], which has no
// edge inside.
func (d delayed) part(from, to float64) part {
	local, rounds := d.track.wrap((from+to)/2 - d.delay)
	p := &d.track.pieces[d.track.after(local)]
	return part{
		piece: p, share: d.share, shift: rounds * d.track.gain,
		late: d.delay + rounds*d.track.seconds,
	}
}
