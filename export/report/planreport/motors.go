package planreport

import (
	"fmt"
	"math"

	"seamrail/export/report"
	"seamrail/motion/drivetrain/motor"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
)

// motors tells whether the motors do it, and what the load does without them.
func (p *page) motors() {
	p.Section("MOTORS")
	for _, a := range torque.Examine(p.pl) {
		p.motor(a)
		p.Field("power off", releaseWords(a))
	}
}

// weak tells of the motors that have not the torque.
func (p *page) weak() {
	for _, a := range torque.Examine(p.pl) {
		if a.Level == torque.Short {
			p.motor(a)
		}
	}
}

var motorTones = map[torque.Level]report.Tone{
	torque.Enough: report.Good, torque.Tight: report.Fair, torque.Short: report.Poor, torque.Unknown: report.Dim,
}

// motor tells what is asked of a motor, when, and what would do.
func (p *page) motor(a torque.Axis) {
	p.Toned(motorTones[a.Level], a.Name, motorWords(a))
	worst := "in the " + a.Worst.Phase
	if a.Worst.Phase == "loop" {
		worst = report.When(p.pl.Loop.Clock, a.Worst.Seconds)
	}
	p.Field("", "worst "+worst)
	for _, c := range MotorCures(a) {
		p.Bullets(report.Good, "+", "axis "+a.Name+": "+c)
	}
}

// motorWords says what is needed and what there is.
func motorWords(a torque.Axis) string {
	w := a.Worst
	speed := "at " + digits(w.Speed) + " turns/s"
	held := a.Drive.Motor.Holding
	switch {
	case a.Level == torque.Unknown:
		return fmt.Sprintf("needs %s %s; what the motor has, the rig does not say", newtonMetres(w.Needs), speed)
	case math.IsInf(w.Needs, 1):
		return "no motor does it: the speed jumps"
	case held > 0 && held < a.Standing:
		return fmt.Sprintf("cannot hold its load: that turns it with %s at rest, and it holds %s", newtonMetres(a.Standing), newtonMetres(held))
	case w.Has == 0:
		return fmt.Sprintf("needs %s %s, beyond the last speed of its torque table", newtonMetres(w.Needs), speed)
	case math.IsInf(a.Margin, 1):
		return "nothing is asked of the motor"
	}
	words := fmt.Sprintf("needs %s of the %s it has %s: %s times over", newtonMetres(w.Needs), newtonMetres(w.Has), speed, digits(a.Margin))
	switch a.Level {
	case torque.Short:
		return words + ", it loses steps"
	case torque.Tight:
		return words + ", less than the " + digits(a.Reserve) + " times that are wanted"
	}
	return words
}

// MotorCures says what would do instead, a longer move first.
func MotorCures(a torque.Axis) []string {
	out := []string{}
	if s := a.Cures.Slower; s > 1 {
		out = append(out, "would do with the whole move, dwells included, "+digits(s)+" times as long")
	}
	if m := a.Cures.Lighter; m > 0 && m < 1 {
		mass := " kg"
		if a.Drive.Rotary {
			mass = " kg mm2"
		}
		out = append(out, "would do with a load of "+digits(a.Drive.Load.Mass*m)+mass)
	}
	if t := a.Cures.Torque; t > 0 && a.Drive.Motor.At(a.Worst.Speed) < t {
		out = append(out, fmt.Sprintf("would do with a motor that has %s at %s turns/s", newtonMetres(t), digits(a.Worst.Speed)))
	}
	return out
}

func newtonMetres(v float64) string { return digits(v) + " N m" }

// digits prints a number to three digits: curves are read off a printed page.
func digits(v float64) string { return toDigits(v, 3) }

func toDigits(v float64, n int) string {
	if math.IsInf(v, 0) {
		return "unbounded"
	}
	return report.Digits(v, n)
}

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
	return report.Each(torque.Examine(p), func(a torque.Axis) Motor { return motorOf(p, a) })
}

func motorOf(p *plan.Plan, a torque.Axis) Motor {
	w, r := a.Worst, a.Release
	m := Motor{
		Axis: a.Name, Level: a.Level.String(), Words: motorWords(a), Needs: foretold.OrNull(w.Needs),
		Reserve: a.Reserve, Turns: foretold.Of(w.Speed), Phase: w.Phase,
		When: instant(p, w.Seconds), Standing: foretold.Of(a.Standing), Cures: MotorCures(a),
		PowerOff: PowerOff{
			Falls: r.Keeper == motor.Nothing, Words: releaseWords(a), Spare: foretold.OrNull(r.Spare),
			Acc: foretold.Of(r.Acc), Reaches: foretold.OrNull(a.Reaches),
		},
	}
	if a.Level != torque.Unknown {
		m.Has, m.Margin = foretold.OrNull(w.Has), foretold.OrNull(a.Margin)
	}
	if math.IsInf(w.Needs, 1) {
		m.Margin = nil
	}
	return m
}
