package rig_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Worked examples of belts, screws and worms as builders' guides to homemade
// machines print them (common practice; the first as quoted on such pages, the
// others from memory: all by one rule, motor steps x microsteps over the way
// of a turn).
func TestWorkedExamplesOfMechanics(t *testing.T) {
	const line, round = `["0 mm", "10 mm"]`, `"endless"`
	for _, c := range []struct {
		name, travel, speed, steps, want string
	}{
		{"belt of 2 mm, 20 teeth, 16 microsteps", line, `"5 mm/s"`,
			"belt = { pitch = \"2 mm\", teeth = 20 }\nmotor-steps = 200\nmicrosteps = 16", "80"},
		{"belt of 2 mm, 16 teeth, 16 microsteps", line, `"5 mm/s"`,
			"belt = { pitch = \"2 mm\", teeth = 16 }\nmotor-steps = 200\nmicrosteps = 16", "100"},
		{"belt of 2 mm, 20 teeth, 32 microsteps", line, `"5 mm/s"`,
			"belt = { pitch = \"2 mm\", teeth = 20 }\nmotor-steps = 200\nmicrosteps = 32", "160"},
		{"screw of 8 mm lead, 16 microsteps", line, `"5 mm/s"`,
			"screw = { lead = \"8 mm\" }\nmotor-steps = 200\nmicrosteps = 16", "400"},
		{"turntable straight on the motor", round, `"5 deg/s"`, "motor-steps = 200\nmicrosteps = 16", "80/9"},
		{"turntable behind a worm of 90:1", round, `"5 deg/s"`,
			"gear = \"90:1\"\nmotor-steps = 200\nmicrosteps = 16", "800"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, _ := decode(t, one(c.travel, c.speed, c.steps))
			assert.Equal(t, c.want, r.Axes[0].StepsPerUnit.String())
		})
	}
}
