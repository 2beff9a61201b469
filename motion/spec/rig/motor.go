package rig

import (
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
)

// motor returns the steps of one turn of what the motor drives.
func (b axisBuilder) motor() (exact.Rat, string) {
	full, micro := defaultMotorSteps, 1
	wholeOr(b.report, b.raw.MotorSteps, b.path+"motor-steps", 1, maxMotorSteps, &full, "1.8 degrees a full step, as most steppers have")
	if !b.raw.Microsteps.Set {
		b.report.Missing(b.raw.Place, b.path+"microsteps", "16")
	} else if n, ok := b.report.Whole(b.raw.Microsteps, b.path+"microsteps", 1, maxMicrosteps); ok {
		micro = int(n)
	}
	words := fmt.Sprintf("%d x %d microsteps", full, micro)
	gear := b.gear()
	if !gear.Equal(exact.Int(1)) {
		words = "gear " + gear.Num().String() + ":" + gear.Den().String() + ", " + words
	}
	return exact.Int(int64(full) * int64(micro)).Mul(gear), words
}

func (b axisBuilder) gear() exact.Rat {
	t, path := b.raw.Gear, b.path+"gear"
	if !t.Set {
		b.report.Default(path, "1:1", "no gear is stated")
		return exact.Int(1)
	}
	top, bottom, ok := strings.Cut(t.Text, ":")
	n, err := exact.Parse(top)
	d, err2 := exact.Parse(bottom)
	if !ok || err != nil || err2 != nil || n.Sign() <= 0 || d.Sign() <= 0 {
		b.report.Wrong(t, path, "must be two numbers above 0 with a colon between", `such as "90:1": ninety turns of the motor for one`)
		return exact.Int(1)
	}
	ratio := n.Quo(d)
	if high := exact.Int(maxGear); high.Less(ratio) || ratio.Less(high.Inv()) {
		b.report.Wrong(t, path, fmt.Sprintf("must be from 1:%d to %d:1", maxGear, maxGear), "")
		return exact.Int(1)
	}
	return ratio
}
