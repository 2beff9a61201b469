package virtual_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
)

// machineOf is a board of one axis whose machine is as given, at rest at 100.
func machineOf(m virtual.Mechanics) *virtual.Rig {
	a := virtual.Axis{Letter: 'X', StepsPerUnit: 80, Acceleration: 3000, Speed: 400, Max: 400, Switches: true, Low: -2, High: 402, Mechanics: m, Place: 100}
	return virtual.New(virtual.Options{
		Axes: []virtual.Axis{a}, ReceiveBuffer: 128, LineLength: 80, Blocks: 16, JunctionDeviation: 0.01,
		Timer: virtual.SixteenMHz, HomeLine: "$H", UnlockLine: "$X", Baud: 0,
	})
}

// obeys sends lines and lets all of it happen.
func obeys(t *testing.T, r *virtual.Rig, lines string) float64 {
	t.Helper()
	_, err := r.Write([]byte(lines))
	require.NoError(t, err)
	r.Advance(20 * time.Second)
	return r.Place()[0]
}

func TestATrueScale(t *testing.T) {
	r := machineOf(virtual.Mechanics{Scale: 1.05})
	assert.InDelta(t, 100+1.05*40, obeys(t, r, "G91 G1 X40 F6000\n"), 1e-9)
	assert.InDelta(t, 100, obeys(t, r, "G91 G1 X-40 F6000\n"), 1e-9, "a loop closes whatever the scale")
}

func TestPlayIsTakenUp(t *testing.T) {
	r := machineOf(virtual.Mechanics{Play: 0.2})
	assert.InDelta(t, 109.9, obeys(t, r, "G91 G1 X10 F6000\n"), 1e-9, "half of it from the middle")
	assert.InDelta(t, 109.9, obeys(t, r, "G91 G1 X-0.15 F6000\n"), 1e-9, "within it nothing moves")
	assert.InDelta(t, 105.1, obeys(t, r, "G91 G1 X-4.85 F6000\n"), 1e-9)
	assert.InDelta(t, 109.9, obeys(t, r, "G91 G1 X5 F6000\n"), 1e-9)
}

// Both sides of the speed and of the acceleration that a motor follows. What it loses is
// whole cycles of four full steps, which are 0.8 mm here.
func TestAMotorFallsOutOfStep(t *testing.T) {
	const cycle = 64. / 80
	for name, c := range map[string]struct {
		m    virtual.Mechanics
		line string
		ok   bool
	}{
		"speed below":        {virtual.Mechanics{Speed: 201}, "G91 G1 X200 F12000\n", true},
		"speed above":        {virtual.Mechanics{Speed: 190}, "G91 G1 X200 F12000\n", false},
		"acceleration below": {virtual.Mechanics{Acceleration: 3050}, "G91 G1 X200 F20000\n", true},
		"acceleration above": {virtual.Mechanics{Acceleration: 2700}, "G91 G1 X200 F20000\n", false},
		"a short burst":      {virtual.Mechanics{Acceleration: 1500}, "G91 G1 X20 F1200\n", true},
	} {
		at := obeys(t, machineOf(c.m), c.line)
		told := map[bool]float64{true: 200, false: 20}[name != "a short burst"]
		lost := 100 + told - at
		if c.ok {
			assert.InDelta(t, 0, lost, 1e-9, name)
			continue
		}
		assert.Greater(t, lost, cycle/2, name)
		assert.InDelta(t, 0, lost/cycle-math.Round(lost/cycle), 1e-9, name)
	}
}

// A machine that has lost steps is where it should be again once it has homed.
func TestHomingMendsWhatWasLost(t *testing.T) {
	r := machineOf(virtual.Mechanics{Speed: 190})
	obeys(t, r, "$H\n")
	assert.Less(t, obeys(t, r, "G90 G1 X300 F18000\n"), 299.)
	obeys(t, r, "$H\n")
	assert.InDelta(t, 150, obeys(t, r, "G90 G1 X150 F6000\n"), 1e-9)
}
