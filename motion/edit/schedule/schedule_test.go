package schedule_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/edit/schedule"
)

var each = schedule.Costs{Rig: 1, Light: 1}

func costOf(way []int, work []schedule.Setup, c schedule.Costs) int64 {
	var sum int64
	for i := 1; i < len(way); i++ {
		sum += c.Between(work[way[i-1]], work[way[i]])
	}
	return sum
}

// permutations calls see with every order of n things.
func permutations(n int, see func([]int)) {
	way := make([]int, n)
	for i := range way {
		way[i] = i
	}
	var place func(int)
	place = func(k int) {
		if k == n {
			see(way)
			return
		}
		for i := k; i < n; i++ {
			way[k], way[i] = way[i], way[k]
			place(k + 1)
			way[k], way[i] = way[i], way[k]
		}
	}
	place(0)
}

func drawn(t *rapid.T, most int) ([]schedule.Setup, schedule.Costs) {
	n := rapid.IntRange(0, most).Draw(t, "work")
	work := make([]schedule.Setup, n)
	for i := range work {
		work[i] = schedule.Setup{
			Rig:   fmt.Sprint(rapid.IntRange(0, 3).Draw(t, "rig")),
			Light: fmt.Sprint(rapid.IntRange(0, 3).Draw(t, "light")),
		}
	}
	return work, schedule.Costs{Rig: rapid.Int64Range(0, 5).Draw(t, "r"), Light: rapid.Int64Range(0, 5).Draw(t, "l")}
}

// Every order of all the work, set-ups together or not, is tried by hand.
func TestNoOrderCostsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		work, c := drawn(t, 6)
		a := schedule.Find(work, c)
		least := int64(math.MaxInt64)
		permutations(len(work), func(way []int) { least = min(least, costOf(way, work, c)) })
		assert.Equal(t, least, a.Cost)
		assert.True(t, a.Least)
		checkAnswer(t, a, work, c)
	})
}

// checkAnswer checks what holds of every answer.
func checkAnswer(t *rapid.T, a schedule.Answer, work []schedule.Setup, c schedule.Costs) {
	assert.Equal(t, costOf(a.Order, work, c), a.Cost)
	assert.Equal(t, int64(a.RigChanges)*c.Rig+int64(a.LightChanges)*c.Light, a.Cost)
	sorted := slices.Sorted(slices.Values(a.Order))
	for i, k := range sorted {
		assert.Equal(t, i, k, "every piece of work once")
	}
	assert.Len(t, sorted, len(work))
}

// Of orders that cost the same the first is taken: found here by trying all
// orders of the different set-ups in turn, the earliest first.
func TestTheOrderKeepsNearTheClip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drawn, c := drawn(t, 6)
		var work []schedule.Setup // each set-up once
		for _, s := range drawn {
			if !slices.Contains(work, s) {
				work = append(work, s)
			}
		}
		a := schedule.Find(work, c)
		permutations(len(work), func(way []int) {
			if costOf(way, work, c) == a.Cost {
				assert.LessOrEqual(t, slices.Compare(a.Order, way), 0)
			}
		})
	})
}

func TestWorkOfOneSetupIsDoneTogether(t *testing.T) {
	side, top := schedule.Setup{Rig: "side", Light: "key"}, schedule.Setup{Rig: "top", Light: "key"}
	a := schedule.Find([]schedule.Setup{side, top, side, top, side}, each)
	assert.Equal(t, schedule.Answer{Order: []int{0, 2, 4, 1, 3}, Cost: 1, RigChanges: 1, Least: true}, a)
}

// A change that takes longer is made less often. With a rig of half an hour and
// a light of a minute, one rig change and three of light; the other way round,
// one of light and three of rig.
func TestCostsDecide(t *testing.T) {
	var work []schedule.Setup
	for _, r := range []string{"a", "b"} {
		for _, l := range []string{"day", "dusk"} {
			work = append(work, schedule.Setup{Rig: r, Light: l})
		}
	}
	a := schedule.Find(work, schedule.Costs{Rig: 30, Light: 1})
	assert.Equal(t, []int{1, 2}, []int{a.RigChanges, a.LightChanges})
	a = schedule.Find(work, schedule.Costs{Rig: 1, Light: 30})
	assert.Equal(t, []int{2, 1}, []int{a.RigChanges, a.LightChanges})
}

// A grid of rigs and lights has a way that changes one thing at a time, to and
// fro; with more set-ups than are ordered exactly it is still found, and known
// to be the least by what the set-ups alone ask for.
func TestBeyondTheExact(t *testing.T) {
	var work []schedule.Setup
	for i := range 24 {
		k := i * 7 % 24
		work = append(work, schedule.Setup{Rig: fmt.Sprint(k / 6), Light: fmt.Sprint(k % 6)})
	}
	a := schedule.Find(work, each)
	assert.EqualValues(t, 23, a.Cost)
	assert.True(t, a.Least)

	// Nothing in common: whatever the order, all changes.
	work = nil
	for i := range 20 {
		work = append(work, schedule.Setup{Rig: fmt.Sprint(i), Light: fmt.Sprint(i)})
	}
	a = schedule.Find(work, each)
	assert.EqualValues(t, 38, a.Cost)
	assert.True(t, a.Least)
	assert.True(t, slices.IsSorted(a.Order))
}

func TestTheSearchIsAWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(16, 22).Draw(t, "n")
		work := make([]schedule.Setup, n)
		for i := range work {
			work[i] = schedule.Setup{Rig: fmt.Sprint(i), Light: fmt.Sprint(rapid.IntRange(0, 6).Draw(t, "light"))}
		}
		a := schedule.Find(work, each)
		checkAnswer(t, a, work, each)
		// The rigs all differ, so the least is each light once, known to be so.
		lights := map[string]bool{}
		for _, s := range work {
			lights[s.Light] = true
		}
		assert.Equal(t, len(lights)-1, a.LightChanges)
		assert.Equal(t, n-1, a.RigChanges)
	})
}

func BenchmarkFind(b *testing.B) {
	for _, n := range []int{8, schedule.MaxExact, 40, 100} {
		var work []schedule.Setup
		for i := range n {
			work = append(work, schedule.Setup{Rig: fmt.Sprint(i % 5), Light: fmt.Sprint(i * i)})
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				schedule.Find(work, each)
			}
		})
	}
}
