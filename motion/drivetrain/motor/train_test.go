package motor

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestPowerScrew is the worked example of a double square thread in Shigley's
// Mechanical Engineering Design, chapter 8 (the numbers from memory: the formulas
// give them): major diameter 32 mm, pitch 4 mm, friction 0.08, a load of 6.4 kN.
// Without its collar it takes 15.94 N m to raise the load and -0.466 N m to lower
// it: the load drives the screw, which is held back with as much.
func TestPowerScrew(t *testing.T) {
	const printed = 5e-4 // relative: four digits
	screw := Thread{Lead: 8, Diameter: 30, Friction: 0.08}
	d := Drive{PerTurn: screw.Lead, Train: screw.Train(), Load: Load{Mass: 1, Pull: 6400}}
	assert.InEpsilon(t, 15.94, d.Torque(1, 0), printed)
	assert.InEpsilon(t, 0.466, d.Torque(-1, 0), 2*printed)
	assert.InEpsilon(t, 0.466, d.Standing(), 2*printed)
	assert.False(t, d.Train.HoldsItself())
	// The book's efficiency is that of the screw with its collar, 26.18 N m.
	assert.InEpsilon(t, 0.311, 6400*0.008/(2*math.Pi*(d.Torque(1, 0)+10.24)), 2e-3)
}

// A square thread holds itself where its friction is above the tangent of its
// lead angle (Shigley's Mechanical Engineering Design, chapter 8), and a flank
// makes the friction count more.
func TestSelfLocking(t *testing.T) {
	slope := 8 / (math.Pi * 7)
	assert.False(t, Thread{Lead: 8, Diameter: 7, Friction: slope * 0.99}.Train().HoldsItself())
	assert.True(t, Thread{Lead: 8, Diameter: 7, Friction: slope * 1.01}.Train().HoldsItself())
	assert.True(t, Thread{Lead: 8, Diameter: 7, Friction: slope * 0.99, Flank: 15}.Train().HoldsItself())
}

// The efficiency of a square screw at its edge of holding itself is
// (1 - tan^2)/2, below one half (textbook identity).
func TestEfficiencyAtTheEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slope := rapid.Float64Range(0.01, 0.9).Draw(t, "slope")
		screw := Thread{Lead: slope * math.Pi, Diameter: 1, Friction: slope}.Train()
		require.InDelta(t, (1-slope*slope)/2, screw.Efficiency(), 1e-12)
		require.InDelta(t, 0, screw.Driven, 1e-12)
	})
}

// For a shallow thread, 2 - 1/e is what a screw lets through.
func TestEfficientIsAShallowScrew(t *testing.T) {
	screw := Thread{Lead: 0.01 * math.Pi, Diameter: 1, Friction: 0.004}.Train()
	e := Efficient(screw.Efficiency())
	assert.InDelta(t, screw.Driven, e.Driven, 1e-3)
	assert.InDelta(t, screw.Driving, e.Driving, 1e-12)
	assert.Equal(t, Ideal(), Efficient(1))
}

func TestThreadsThatNobodyCanTurn(t *testing.T) {
	for name, s := range map[string]Thread{
		"no lead": {Diameter: 7, Friction: 0.1}, "no diameter": {Lead: 8},
		"friction below 0": {Lead: 8, Diameter: 7, Friction: -0.1}, "flank": {Lead: 8, Diameter: 7, Flank: 90},
		"not a number": {Lead: math.NaN(), Diameter: 7}, "jams": {Lead: 8, Diameter: 7, Friction: 3},
	} {
		require.Error(t, s.Check(), name)
		assert.Panics(t, func() { s.Train() }, name)
	}
}
