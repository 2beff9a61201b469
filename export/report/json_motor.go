package report

import (
	"math"

	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
)

// Motor is whether the motor of an axis does the move, and what its load does
// when the current is cut. Torques are in N m at the motor's shaft.
type Motor struct {
	Axis     string   `json:"axis"`
	Level    string   `json:"level"` // "enough", "tight", "short", "unknown"
	Words    string   `json:"words"`
	Needs    *float64 `json:"needs"` // null where the speed jumps
	Has      *float64 `json:"has"`   // null where the rig states no torque
	Margin   *float64 `json:"margin"`
	Reserve  float64  `json:"reserve"`
	Turns    float64  `json:"turns_per_second"`
	Phase    string   `json:"phase"`
	When     When     `json:"when"`
	Standing float64  `json:"standing"` // what the load turns the motor with at rest
	Cures    []string `json:"cures"`
	PowerOff PowerOff `json:"power_off"`
}

// PowerOff is what the load does when the current is cut.
type PowerOff struct {
	Falls   bool     `json:"falls"`
	Words   string   `json:"words"`
	Spare   *float64 `json:"held_times_over"` // null where nothing pulls, or a train takes all
	Acc     float64  `json:"acceleration"`
	Reaches *float64 `json:"speed_at_the_end"`
}

func motorsOf(p *plan.Plan) []Motor {
	var out []Motor
	for _, a := range torque.Examine(p) {
		out = append(out, motorOf(p, a))
	}
	return out
}

func motorOf(p *plan.Plan, a torque.Axis) Motor {
	w, r := a.Worst, a.Release
	m := Motor{
		Axis: a.Name, Level: a.Level.String(), Words: motorWords(a), Needs: told(w.Needs),
		Reserve: a.Reserve, Turns: rounded(w.Speed, expectedDigits), Phase: w.Phase,
		When: instant(p.Loop.Clock, w.Seconds), Standing: rounded(a.Standing, expectedDigits),
		Cures: append([]string{}, cureWords(a)...),
		PowerOff: PowerOff{
			Falls: r.Keeper == motor.Nothing, Words: releaseWords(a), Spare: told(r.Spare),
			Acc: rounded(r.Acc, expectedDigits), Reaches: told(a.Reaches),
		},
	}
	if a.Level != torque.Unknown {
		m.Has, m.Margin = told(w.Has), told(a.Margin)
	}
	if math.IsInf(w.Needs, 1) {
		m.Margin = nil
	}
	return m
}

// told is a number as JSON holds it, to the digits that are foretold; null where
// there is none.
func told(v float64) *float64 {
	if finite(v) == nil {
		return nil
	}
	v = rounded(v, expectedDigits)
	return &v
}
