package list_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/base/list"
)

func TestMap(t *testing.T) {
	assert.Equal(t, []string{"3", "1", "2"}, list.Map([]int{3, 1, 2}, func(n int) string { return fmt.Sprint(n) }))
	assert.Nil(t, list.Map([]int{}, func(n int) int { return n }))
}

// What is counted and what is not are all, and their sums add up.
func TestCountAndSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOf(rapid.IntRange(-99, 99)).Draw(t, "all")
		even := func(n int) bool { return n%2 == 0 }
		n, sum := 0, 0.0
		for _, x := range all {
			sum += float64(x) / 3
			if even(x) {
				n++
			}
		}
		assert.Equal(t, n, list.Count(all, even))
		assert.Equal(t, len(all)-n, list.Count(all, func(n int) bool { return !even(n) }))
		assert.Equal(t, sum, list.Sum(all, func(n int) float64 { return float64(n) / 3 }), "in order, to the last bit")
	})
}
