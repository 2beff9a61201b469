package job

import (
	"math"

	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/edit/passes"
)

// scaleLooks is at how many instants of a loop its picture is looked at for the scale:
// a law's speed is within a thousandth of its peak somewhere among so many.
const scaleLooks = 120

// Scale is what the motion of the job is in the picture, at the worst of the instants that
// are looked at. What turns by itself is not in it: no log tells of that.
func (j *Job) Scale() (passes.Scale, error) {
	var out passes.Scale
	scene, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		return out, nil
	}
	motion := lensview.Motion(j.Trajectory)
	for n := range scaleLooks {
		sec := j.Trajectory.Shown().Float() * float64(n) / scaleLooks
		per, err := picture.PerUnit(motion, scene, sec)
		if err != nil || per == nil {
			return passes.Scale{}, lensview.Located(err, j.Shot)
		}
		if out.PerUnit == nil {
			out.PerUnit = map[string]float64{}
		}
		speed := 0.0
		for i := range j.Trajectory.AxisCount() {
			name := j.Trajectory.Axis(i).Name
			out.PerUnit[name] = max(out.PerUnit[name], per[name])
			speed += math.Abs(j.Trajectory.State(i, sec).Vel) * per[name]
		}
		out.PerSecond = max(out.PerSecond, speed)
	}
	return out, nil
}
