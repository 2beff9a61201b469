package calibrate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Drive is how an axis is driven, as its rig file has it; what is 0 is not said.
type Drive struct {
	MotorSteps, Microsteps float64
	Pitch, Teeth           float64 // of a belt, mm
	Lead                   float64 // of a screw, mm
	Gear                   float64 // turns of the motor to one of what it drives
	Rotary                 bool
}

// Steps is how many steps a mm or a degree that makes.
func (d Drive) Steps() float64 {
	turn := d.MotorSteps * d.Microsteps * d.Gear
	switch {
	case d.Rotary:
		return turn / fullTurn
	case d.Lead > 0:
		return turn / d.Lead
	}
	return turn / (d.Pitch * d.Teeth)
}

// What is usually bought (common practice).
var (
	usualMicrosteps = []float64{1, 2, 4, 8, 16, 32, 64, 128, 256}
	usualPitches    = []float64{2, 2.5, 3, 5}
	usualLeads      = []float64{1, 1.25, 1.5, 2, 3, 4, 5, 8, 10, 12, 16, 20}
	fewestTeeth     = 10.0
	mostTeeth       = 60.0
	mostGear        = 200.0
)

// Usual is a drive that is often built, and what of it is not as the rig file says.
type Usual struct {
	Drive   Drive
	Words   string
	changes int
}

// UsualNear lists drives within the bound of the steps that were measured, those first
// that differ least from what the rig file says: by one thing, then by two. Which it is,
// is a guess; where one number is met by several, each is listed once by its steps.
func UsualNear(now Drive, steps Estimate) []Usual {
	var out []Usual
	bound := steps.Bound()
	for _, d := range now.others() {
		if math.Abs(d.Steps()-steps.Value) <= bound {
			out = append(out, Usual{d, d.words(), now.differs(d)})
		}
	}
	slices.SortStableFunc(out, func(a, b Usual) int {
		return cmp.Or(cmp.Compare(a.changes, b.changes),
			cmp.Compare(math.Abs(a.Drive.Steps()-steps.Value), math.Abs(b.Drive.Steps()-steps.Value)),
			// A driver is set otherwise more often than a part is another.
			-cmp.Compare(math.Abs(a.Drive.Microsteps-now.Microsteps), math.Abs(b.Drive.Microsteps-now.Microsteps)))
	})
	seen := map[string]bool{}
	return slices.DeleteFunc(out, func(u Usual) bool {
		key := fmt.Sprintf("%.6g", u.Drive.Steps())
		known := seen[key]
		seen[key] = true
		return known
	})
}

// others are usual drives with the motor's full steps of this one.
func (d Drive) others() (out []Drive) {
	for _, micro := range usualMicrosteps {
		o := d
		o.Microsteps = micro
		switch {
		case d.Rotary:
			for gear := 1.0; gear <= mostGear; gear++ {
				o.Gear = gear
				out = append(out, o)
			}
		case d.Lead > 0:
			for _, o.Lead = range usualLeads {
				out = append(out, o)
			}
		case d.Pitch > 0:
			for _, o.Pitch = range usualPitches {
				for o.Teeth = fewestTeeth; o.Teeth <= mostTeeth; o.Teeth++ {
					out = append(out, o)
				}
			}
		}
	}
	return out
}

func (d Drive) differs(o Drive) (n int) {
	for _, pair := range [][2]float64{{d.Microsteps, o.Microsteps}, {d.Pitch, o.Pitch}, {d.Teeth, o.Teeth}, {d.Lead, o.Lead}, {d.Gear, o.Gear}} {
		if pair[0] != pair[1] {
			n++
		}
	}
	return n
}

func (d Drive) words() string {
	motor := fmt.Sprintf("%g steps x %g microsteps", d.MotorSteps, d.Microsteps)
	switch {
	case d.Rotary:
		return fmt.Sprintf("gear %g:1, %s", d.Gear, motor)
	case d.Lead > 0:
		return fmt.Sprintf("screw of %g mm lead, %s", d.Lead, motor)
	}
	return fmt.Sprintf("belt %g mm x %g teeth, %s", d.Pitch, d.Teeth, motor)
}
