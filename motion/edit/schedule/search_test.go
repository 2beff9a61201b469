package schedule

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// setups are n different ones of a few rigs and lights.
func setups(n int, draw func(most int) int) []Setup {
	var out []Setup
	for len(out) < n {
		s := Setup{Rig: fmt.Sprint(draw(4)), Light: fmt.Sprint(draw(5))}
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// No stretch of what the search finds can be turned round, and no short one put
// elsewhere, to any profit.
func TestNoSingleMoveSavesAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := setups(rapid.IntRange(2, 10).Draw(t, "n"), func(most int) int { return rapid.IntRange(0, most).Draw(t, "of") })
		c := tableOf(list, Costs{Rig: rapid.Int64Range(1, 5).Draw(t, "rig"), Light: rapid.Int64Range(1, 5).Draw(t, "light")})
		way := search(c)
		least := c.cost(way)
		for i := range way {
			for j := i + 1; j <= len(way); j++ {
				turned := slices.Concat(way[:i], reversed(way[i:j]), way[j:])
				assert.GreaterOrEqual(t, c.cost(turned), least)
				if j-i > 3 {
					continue
				}
				rest := slices.Concat(way[:i], way[j:])
				for k := range len(rest) + 1 {
					assert.GreaterOrEqual(t, c.cost(slices.Concat(rest[:k], way[i:j], rest[k:])), least)
				}
			}
		}
	})
}

func reversed(list []int) []int {
	out := slices.Clone(list)
	slices.Reverse(out)
	return out
}

// The search is held against the exact order where both can be had: twelve
// set-ups of five rigs and six lights, drawn a hundred times over.
func TestTheSearchAgainstTheExact(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	found := 0
	for range 100 {
		list := setups(12, func(most int) int { return random.IntN(most + 1) })
		c := tableOf(list, Costs{Rig: 3, Light: 1})
		exact, got := c.cost(solve(c)), c.cost(search(c))
		assert.GreaterOrEqual(t, got, exact)
		assert.LessOrEqual(t, got, exact+3, "a rig change too many at the most")
		if got == exact {
			found++
		}
	}
	assert.GreaterOrEqual(t, found, minFound)
}

// minFound is how many of the hundred the search must order exactly; it does
// 96.
const minFound = 90
