package ontime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestWhatABlockIsLateByGoesToTheNext: 1 mm at 10 mm/s, but begun at 5 mm/s and picked up
// at 100 mm/s2, takes (1 + 5*5/200)/10 = 0.1125 s, which is 12.5 ms late. The block after
// it has that less; the last of a ring hands it to the first, as its round follows on
// itself, and the last of a row to the one before. Handed to the wrong one, every round
// would be late where it is and early where it is not.
func TestWhatABlockIsLateByGoesToTheNext(t *testing.T) {
	targets := func(late int, ring bool) []float64 {
		c := chain{ring: ring, leave: math.Inf(1), after: math.Inf(1)}
		for range 3 {
			c.links = append(c.links, link{length: 4, acc: 100, target: 0.2, cap: 1000, enter: math.Inf(1)})
		}
		c.links[late] = link{length: 1, acc: 100, target: 0.1, cap: 1000, enter: 5, speed: 10}
		c.carry(late)
		var out []float64
		for _, l := range c.links {
			out = append(out, math.Round(l.target*1e9)/1e9)
		}
		return out
	}
	assert.Equal(t, []float64{0.1875, 0.2, 0.1}, targets(2, true), "round the seam of a ring")
	assert.Equal(t, []float64{0.2, 0.1875, 0.1}, targets(2, false), "nothing comes after a row")
	assert.Equal(t, []float64{0.2, 0.1, 0.1875}, targets(1, true))
	assert.Equal(t, []float64{0.2, 0.1, 0.1875}, targets(1, false))
}

// TestWhatIsLateGoesToNoneThatIsFound: a speed that has been found stays, a dwell has
// none to change, and no block is asked to be twice as quick.
func TestWhatIsLateGoesToNoneThatIsFound(t *testing.T) {
	row := func(next link) chain {
		late := link{length: 1, acc: 100, target: 0.1, cap: 1000, enter: 5, speed: 10}
		return chain{leave: math.Inf(1), after: math.Inf(1), links: []link{
			{length: 4, acc: 100, target: 0.2, cap: 1000, enter: math.Inf(1)}, late, next,
		}}
	}
	found := row(link{length: 4, acc: 100, target: 0.2, cap: 1000, enter: math.Inf(1), speed: 20})
	found.carry(1)
	assert.Equal(t, 0.2, found.links[2].target)
	assert.InDelta(t, 0.1875, found.links[0].target, 1e-12, "the one before has it")

	dwell := row(link{target: 0.2, acc: 100, enter: math.Inf(1)})
	dwell.carry(1) // it has to stop at the dwell too: (1 + (25 + 100)/200)/10 s, 62.5 ms late
	assert.Equal(t, 0.2, dwell.links[2].target)
	assert.InDelta(t, 0.2-0.0625, dwell.links[0].target, 1e-12)

	short := row(link{length: 0.1, acc: 100, target: 0.02, cap: 1000, enter: math.Inf(1)})
	short.carry(1)
	assert.InDelta(t, 0.01, short.links[2].target, 1e-12, "half of its time at the least")
}
