// Package unit reads and prints quantities with their units: lengths in mm,
// angles in degrees, times in seconds, their rates, and what light and loads
// are measured in.
package unit

// Dimension says what a Quantity measures, and so the unit its value is in.
type Dimension int

// The dimensions, each with the unit that values are held in.
const (
	Number              Dimension = iota // no unit
	Length                               // mm
	Angle                                // degrees
	Time                                 // s
	Frames                               // frames of the timeline
	Turns                                // whole turns, 360 degrees each
	Speed                                // mm/s
	AngularSpeed                         // deg/s
	Acceleration                         // mm/s^2
	AngularAcceleration                  // deg/s^2
	Jerk                                 // mm/s^3
	AngularJerk                          // deg/s^3
	StepRate                             // motor steps/s
	Frequency                            // Hz
	LightFlow                            // lm, what a lamp gives in all
	Illuminance                          // lx, what falls on a surface
	Temperature                          // K
	Mass                                 // kg
	Force                                // N
	Torque                               // N m
	Inertia                              // kg mm^2, of what turns
)

type facts struct{ name, unit, accepted, example string }

var dimensions = [...]facts{
	Number:              {"a plain number", "", "no unit", "3"},
	Length:              {"a length", "mm", "mm, cm, m, in or ft", "240 mm"},
	Angle:               {"an angle", "deg", "deg or turn", "90 deg"},
	Time:                {"a time", "s", "s, ms or min", "6 s"},
	Frames:              {"a count of frames", "frames", "frames", "144 frames"},
	Turns:               {"a number of turns", "turns", "turn or deg", "1/6 turn"},
	Speed:               {"a speed", "mm/s", "mm/s, cm/s, m/s or mm/min", "200 mm/s"},
	AngularSpeed:        {"a turning speed", "deg/s", "deg/s, turn/s or turn/min", "90 deg/s"},
	Acceleration:        {"an acceleration", "mm/s2", "mm/s2 or m/s2", "800 mm/s2"},
	AngularAcceleration: {"a turning acceleration", "deg/s2", "deg/s2 or turn/s2", "720 deg/s2"},
	Jerk:                {"a jerk", "mm/s3", "mm/s3 or m/s3", "20000 mm/s3"},
	AngularJerk:         {"a turning jerk", "deg/s3", "deg/s3 or turn/s3", "20000 deg/s3"},
	StepRate:            {"a step rate", "steps/s", "steps/s", "40000 steps/s"},
	Frequency:           {"a frequency", "Hz", "Hz", "50 Hz"},
	LightFlow:           {"an amount of light", "lm", "lm", "3900 lm"},
	Illuminance:         {"a brightness on a surface", "lx", "lx", "3000 lx"},
	Temperature:         {"a temperature", "K", "K", "5600 K"},
	Mass:                {"a mass", "kg", "kg or g", "2.4 kg"},
	Force:               {"a force", "N", "N", "3 N"},
	Torque:              {"a torque", "N m", "N m, N cm or mN m", "0.4 N m"},
	Inertia:             {"a moment of inertia", "kg mm2", "kg mm2, kg m2 or g cm2", "5.4 kg mm2"},
}

func (d Dimension) facts() facts {
	if d < 0 || int(d) >= len(dimensions) {
		return facts{name: "an unknown dimension", accepted: "no unit"}
	}
	return dimensions[d]
}

// String names the dimension with its article: "a length", "a turning speed".
func (d Dimension) String() string { return d.facts().name }

// Unit returns the unit that values of d are held and printed in: "mm",
// "deg/s"; empty for Number.
func (d Dimension) Unit() string { return d.facts().unit }

// Example returns a value of d as a person would write it: "240 mm".
func (d Dimension) Example() string { return d.facts().example }
