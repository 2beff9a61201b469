package laid

import (
	"seamrail/cmd/internal/job"
	"seamrail/export/report/footagereport"
	"seamrail/motion/base/exact"
)

// lampsOf are the ripples of a shot's lamps that say theirs.
func lampsOf(j *job.Job) (out []exact.Rat) {
	if j == nil || j.Shot.Scene == nil {
		return nil
	}
	for _, l := range j.Shot.Scene.Lamps {
		if l.RippleHz.Sign() > 0 {
			out = append(out, l.RippleHz)
		}
	}
	return out
}

// foretold is how the plan said that lamps would flicker; nil where it could not.
func foretold(j *job.Job) *footagereport.Foretold {
	if j == nil || j.Picture == nil {
		return nil
	}
	v, _ := j.Picture.Find("flicker")
	depth, known := v.Figure("depth")
	beat, _ := v.Figure("beat") // on screen
	if !known {
		return nil
	}
	return &footagereport.Foretold{Depth: depth, Beat: beat / j.Trajectory.Clock().Retime.Float()}
}
