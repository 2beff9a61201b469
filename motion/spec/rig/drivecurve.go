package rig

import (
	"fmt"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/drivetrain/motor"
)

// maxPoints bounds a torque curve: more were never measured.
const maxPoints = 100

const pointExample = `"0.40 N m at 5 turn/s"`

// curve reads running torques against speed.
func (d driveBuilder) curve() []motor.Point {
	t, path := d.motor.Torque, d.path+"motor.torque"
	if !t.Set {
		return nil
	}
	if len(t.Items) == 0 || len(t.Items) > maxPoints {
		d.report.Add(t.Place(), path, "", fmt.Sprintf("must have from 1 to %d points", maxPoints), "such as "+pointExample)
		return nil
	}
	var out []motor.Point
	for i, item := range t.Items {
		p, ok := d.point(item, fmt.Sprintf("%s[%d]", path, i+1))
		if !ok {
			return nil
		}
		if n := len(out); n > 0 && p.Speed <= out[n-1].Speed {
			d.report.Wrong(item, fmt.Sprintf("%s[%d]", path, i+1), "must be at a higher speed than the one before it", "list them from slow to fast")
			return nil
		}
		out = append(out, p)
	}
	return out
}

// point reads "0.40 N m at 5 turn/s".
func (d driveBuilder) point(t source.Text, path string) (motor.Point, bool) {
	left, right, found := strings.Cut(t.Text, " at ")
	torque, err := unit.ParseAs(left, unit.Torque)
	if found && err == nil {
		var speed unit.Quantity
		speed, err = unit.ParseAs(right, unit.AngularSpeed)
		if err == nil && torque.Value.Sign() >= 0 && speed.Value.Sign() >= 0 {
			return motor.Point{Speed: speed.Float() / degreesPerTurn, Torque: torque.Float()}, true
		}
	}
	d.report.Wrong(t, path, "must be a torque of 0 or more at a speed of 0 or more", "such as "+pointExample)
	return motor.Point{}, false
}
