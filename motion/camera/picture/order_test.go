package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
)

func ordered(t *testing.T, m fake, s scene.Scene, from, to []float64) picture.Order {
	t.Helper()
	o, err := picture.InOrder(m, s, from, to)
	require.NoError(t, err)
	return o
}

// Across and then in is clear where in and then across strikes: the order is found, and
// on the way out it is the other one.
func TestTheOrderIsFound(t *testing.T) {
	m := at(t, 120, 24).with("push", steady(0, 0)).with("across", steady(0, 0))
	home, beside := []float64{0, 0}, []float64{420, -200}
	in := ordered(t, m, bench(), home, beside)
	assert.Equal(t, []int{1, 0}, in.Axes)
	assert.InDelta(t, math.Hypot(200-30, distance-420)-radius, in.Room, 1e-6, "the front, 60 mm wide, beside the cylinder")
	out := ordered(t, m, bench(), beside, home)
	assert.Equal(t, []int{0, 1}, out.Axes)
	assert.InDelta(t, in.Room, out.Room, 1e-6, "the same way back")
}

// The order of the rig is kept where it has room enough, and axes that stay are in none.
func TestTheOrderOfTheRigIsKept(t *testing.T) {
	m := at(t, 120, 24).with("push", steady(0, 0)).with("across", steady(0, 0)).with("table", steady(0, 0))
	o := ordered(t, m, bench(), []float64{0, 0, 5}, []float64{300, 10, 5})
	assert.Equal(t, []int{0, 1}, o.Axes)
	assert.InDelta(t, distance-300-radius, o.Room, 0.2)
	assert.Empty(t, ordered(t, m, bench(), []float64{1, 2, 3}, []float64{1, 2, 3}).Axes)
}

// Both sides of where it strikes: 440 mm from the axis, less the cylinder's 40.
func TestNoOrderIsClear(t *testing.T) {
	m := at(t, 120, 24).with("push", steady(0, 0)).with("table", steady(0, 0))
	for to, clear := range map[float64]bool{399.9: true, 400.1: false} {
		o := ordered(t, m, bench(), []float64{0, 0}, []float64{to, 90})
		assert.InDelta(t, distance-radius-to, o.Room, 1e-6)
		assert.Equal(t, clear, o.Room > 0)
	}
}

// A hole is passed along its middle alone, with what is left of it all round, and what
// is not known is named.
func TestTheOrderThroughAHole(t *testing.T) {
	s := bench()
	s.Holes = hole(70)
	m := at(t, 120, 24).with("across", steady(0, 0)).with("push", steady(0, 0))
	o := ordered(t, m, s, []float64{0, 0}, []float64{0, 200})
	assert.InDelta(t, 5, o.Room, 1e-6)
	o = ordered(t, m, s, []float64{3, 0}, []float64{0, 200})
	assert.InDelta(t, 5, o.Room, 1e-6, "to the middle first")
	o = ordered(t, m, s, []float64{0, 0}, []float64{6, 200})
	assert.InDelta(t, 1, o.Room, 1e-6, "in along the middle, and to the side where the thinner barrel is within the board")
	assert.Equal(t, []int{1, 0}, o.Axes)
	s.Holes[0].Diameter = scene.Number{}
	o = ordered(t, m, s, []float64{0, 0}, []float64{0, 200})
	assert.Len(t, o.Missing, 1)
	assert.Equal(t, []int{1}, o.Axes)
	s = bench()
	s.Product = scene.Product{}
	assert.Contains(t, ordered(t, m, s, []float64{0, 0}, []float64{1, 1}).Missing, "shape and size of the product")
}

// The order found leaves no less room than any other: all are tried by hand.
func TestNoOrderLeavesMoreRoom(t *testing.T) {
	names := []string{"push", "across", "pan", "table"}
	m := at(t, 120, 24)
	for _, n := range names {
		m = m.with(n, steady(0, 0))
	}
	from, to := []float64{20, -60, 0, 0}, []float64{395, 90, 12, 40}
	best := ordered(t, m, bench(), from, to)
	most := math.Inf(-1)
	for _, p := range permutations(len(names)) {
		room, now := math.Inf(1), append([]float64(nil), from...)
		for _, i := range p { // one axis a time has one order only
			next := append([]float64(nil), now...)
			next[i] = to[i]
			room = math.Min(room, ordered(t, m, bench(), now, next).Room)
			now = next
		}
		most = math.Max(most, room)
	}
	assert.InDelta(t, most, best.Room, 1e-9)
}

func permutations(n int) [][]int {
	if n == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for _, p := range permutations(n - 1) {
		for at := 0; at <= len(p); at++ {
			q := append(append(append([]int(nil), p[:at]...), n-1), p[at:]...)
			out = append(out, q)
		}
	}
	return out
}
