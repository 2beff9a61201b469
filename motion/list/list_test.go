package list_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/list"
)

func TestMap(t *testing.T) {
	assert.Equal(t, []string{"3", "1", "2"}, list.Map([]int{3, 1, 2}, func(n int) string { return fmt.Sprint(n) }))
	assert.Nil(t, list.Map([]int{}, func(n int) int { return n }))
}

// What is kept and what is left out are all, in order, and their sums add up.
func TestFilterAndSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOf(rapid.IntRange(-99, 99)).Draw(t, "all")
		even := func(n int) bool { return n%2 == 0 }
		self := func(n int) int { return n }
		kept := list.Filter(all, even)
		left := list.Filter(all, func(n int) bool { return !even(n) })
		assert.Equal(t, list.Sum(all, self), list.Sum(kept, self)+list.Sum(left, self))
		assert.Len(t, all, len(kept)+len(left))
		k := 0
		for _, n := range all {
			if even(n) {
				assert.Equal(t, n, kept[k])
				k++
			}
		}
	})
}
