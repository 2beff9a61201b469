package rig

import (
	"fmt"
	"regexp"
	"strings"
	"sync"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Bounds that no tabletop mechanism comes near: beyond them it is a slip.
const (
	maxTeeth      = 10_000
	maxMotorSteps = 100_000
	maxMicrosteps = 4_096
	maxGear       = 1_000_000

	defaultMotorSteps = 200
)

// maxStepsPerUnit is a thousand steps a nanometre; minStepsPerUnit is a step a
// metre.
var maxStepsPerUnit, minStepsPerUnit = exact.Int(1_000_000_000), exact.New(1, 1000)

// mechanics returns the exact steps of a millimetre or a degree, and where
// they come from in words. It returns 1 step if it cannot tell, so that later
// checks have something to go on.
func (b axisBuilder) mechanics(k Kind) (exact.Rat, string) {
	given := b.given()
	var steps exact.Rat
	var words string
	switch {
	case b.raw.Steps.Set && len(given) > 0:
		b.report.Wrong(b.raw.Steps, b.path+"steps", "says already what "+strings.Join(given, ", ")+" would say", "keep one of the two")
	case b.raw.Steps.Set:
		steps, words = b.stepsPer(k)
	case k == Rotary:
		steps, words = b.rotary()
	default:
		steps, words = b.linear()
	}
	if steps.Sign() <= 0 {
		return exact.Int(1), words
	}
	if steps.Less(minStepsPerUnit) || maxStepsPerUnit.Less(steps) {
		b.report.Add(b.raw.Place, b.path+"steps", steps.Decimal(6)+" steps a unit",
			fmt.Sprintf("must be from %s to %s", minStepsPerUnit, maxStepsPerUnit), "")
		return exact.Int(1), words
	}
	return steps, words
}

// given lists the keys of the long way round that are set.
func (b axisBuilder) given() []string {
	var keys []string
	for _, k := range []struct {
		key string
		set bool
	}{
		{"belt", b.raw.Belt != nil}, {"screw", b.raw.Screw != nil}, {"gear", b.raw.Gear.Set},
		{"motor-steps", b.raw.MotorSteps.Set}, {"microsteps", b.raw.Microsteps.Set},
	} {
		if k.set {
			keys = append(keys, k.key)
		}
	}
	return keys
}

var stepsPer = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\s*([0-9./ ]*[0-9.])\s*(?:steps?\s*)?(?:per|/)\s*(mm|deg|degree|turn)\s*$`)
})

func (b axisBuilder) stepsPer(k Kind) (exact.Rat, string) {
	t, path := b.raw.Steps, b.path+"steps"
	example, units := "80 per mm", "mm"
	if k == Rotary {
		example, units = "3200 per turn", "deg, degree or turn"
	}
	m := stepsPer().FindStringSubmatch(t.Text)
	if m == nil || (k == Rotary) == (m[2] == "mm") {
		b.report.Wrong(t, path, "must be a number above 0 per "+units, fmt.Sprintf("such as %q", example))
		return exact.Rat{}, ""
	}
	n, err := exact.Parse(m[1])
	switch {
	case err != nil:
		b.report.Fail(t, path, err)
		return exact.Rat{}, ""
	case n.Sign() == 0:
		b.report.Wrong(t, path, "must be above 0", fmt.Sprintf("such as %q", example))
	}
	if m[2] == "turn" {
		return n.Quo(exact.Int(degreesPerTurn)), n.Decimal(6) + " steps a turn"
	}
	return n, n.Decimal(6) + " steps per " + m[2]
}

// linear reads a belt or a screw: steps/mm = motor steps x microsteps x gear
// over what one turn of pulley or screw moves.
func (b axisBuilder) linear() (exact.Rat, string) {
	var perTurn exact.Rat // mm
	var words string
	switch {
	case b.raw.Belt != nil && b.raw.Screw != nil:
		b.report.Add(b.raw.Screw.Place, b.path+"screw", "", "cannot drive the axis as well as a belt", "keep one of the two")
	case b.raw.Belt != nil:
		perTurn, words = b.belt()
	case b.raw.Screw != nil:
		perTurn, words = b.screw()
	default:
		b.report.Add(b.raw.Place, b.path+"belt", "", "is missing, and so are screw and steps",
			`give one, such as belt = { pitch = "2 mm", teeth = 20 } or steps = "80 per mm"`)
	}
	motor, motorWords := b.motor()
	if perTurn.Sign() <= 0 {
		return exact.Rat{}, ""
	}
	return motor.Quo(perTurn), words + motorWords
}

func (b axisBuilder) belt() (exact.Rat, string) {
	belt, path := b.raw.Belt, b.path+"belt"
	pitch := b.pitch(belt.Place, belt.Pitch, path+".pitch", `"2 mm"`)
	if !belt.Teeth.Set {
		b.report.Missing(belt.Place, path+".teeth", "20")
		return exact.Rat{}, ""
	}
	teeth, ok := b.report.Whole(belt.Teeth, path+".teeth", 1, maxTeeth)
	if !ok {
		return exact.Rat{}, ""
	}
	return pitch.Mul(exact.Int(teeth)), fmt.Sprintf("belt %s mm x %d teeth, ", pitch.Decimal(4), teeth)
}

func (b axisBuilder) screw() (exact.Rat, string) {
	lead := b.pitch(b.raw.Screw.Place, b.raw.Screw.Lead, b.path+"screw.lead", `"8 mm"`)
	return lead, fmt.Sprintf("screw of %s mm lead, ", lead.Decimal(4))
}

// pitch reads a length above 0.
func (b axisBuilder) pitch(at source.Place, t source.Text, path, example string) exact.Rat {
	if !t.Set {
		b.report.Missing(at, path, example)
		return exact.Rat{}
	}
	q, ok := b.report.Quantity(t, path, unit.Length)
	if ok && q.Value.Sign() <= 0 {
		b.report.Wrong(t, path, "must be above 0 mm", "such as "+example)
	}
	return q.Value
}

func (b axisBuilder) rotary() (exact.Rat, string) {
	if b.raw.Belt != nil {
		b.report.Add(b.raw.Belt.Place, b.path+"belt", "", "must be on a linear axis, and this one is rotary", `write the ratio of its pulleys, such as gear = "3:1"`)
	}
	if b.raw.Screw != nil {
		b.report.Add(b.raw.Screw.Place, b.path+"screw", "", "must be on a linear axis, and this one is rotary", `write gear = "90:1"`)
	}
	motor, words := b.motor()
	return motor.Quo(exact.Int(degreesPerTurn)), words
}
