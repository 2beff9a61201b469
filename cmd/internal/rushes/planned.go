package rushes

import (
	"math"

	"seamrail/cmd/internal/job"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/footage/against"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// scaleShare is by what share the scale of the picture may be out where a shot tells it: a ring
// of magnifications is set by hand to a few hundredths.
const scaleShare = 0.05

// PlanOf is what a take of a job was to do, seen in frames so many pixels wide.
func PlanOf(j *job.Job, width int) against.Plan {
	t := j.Trajectory
	up, out := t.RampFrames()
	p := against.Plan{
		CaptureRate: t.Clock().Capture, Loop: t.RoundFrames(), Rounds: int(t.Rounds()), RunUp: up, RunOut: out,
		PerScreen: t.Clock().PerScreen(), PxPerMM: scaleIn(j, width), PxShare: scaleShare, Bends: true,
	}
	lens, foretold := sightlineOf(j)
	for i := range t.AxisCount() {
		a, at := t.Axis(i), later(alongTake(t, i), halfOpen(j))
		axis := against.Axis{Name: a.Name, Turning: a.Kind == rig.Rotary, At: at, Gain: across(j, a.Name, p.PxPerMM)}
		if foretold {
			axis.Seen = lens.asSeen(j, i, at)
		}
		p.Axes = append(p.Axes, axis)
	}
	return p
}

// later is where an axis is so many seconds after it is asked for.
func later(at func(seconds float64) float64, by float64) func(seconds float64) float64 {
	return func(seconds float64) float64 { return at(seconds + by) }
}

// halfOpen is how long after a frame begins the middle of its exposure is, s: what a picture shows
// of what moves is where it is then. 0 where the shot tells of no shutter.
func halfOpen(j *job.Job) float64 {
	s, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		return 0
	}
	t := j.Trajectory
	if open := s.Camera.Open(t.FrameSeconds(1).Sub(t.FrameSeconds(0)).Float()); open.Given {
		return open.Value / 2
	}
	return 0
}

// mostlyAcross is the sine of the least angle between the way of a slide and the view under which
// what it does in the picture is told: growth adds a hundredth to what goes across.
const mostlyAcross = 0.99

// across is how a slide that goes across the view shows, nil for any other axis and where the
// lens can be turned: what the lens passes goes the other way.
func across(j *job.Job, axis string, perMM float64) *against.Gain {
	s, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok || perMM == 0 || s.Stand.PanAxis != "" || s.Stand.TiltAxis != "" {
		return nil
	}
	for _, l := range s.Stand.Slides {
		heading, rise := l.Heading*math.Pi/180, l.Rise*math.Pi/180
		if x, y := math.Sin(heading)*math.Cos(rise), math.Sin(rise); l.Axis == axis && math.Hypot(x, y) > mostlyAcross {
			return &against.Gain{X: perMM * x, Y: perMM * y, Share: scaleShare}
		}
	}
	return nil
}

// alongTake is where an axis is in a take of all rounds, in its unit, so many seconds after frame 0.
func alongTake(t *trajectory.Trajectory, i int) func(seconds float64) float64 {
	period, rounds := t.Period().Float(), float64(t.Rounds())
	up, out := t.Ramps(i)
	gained := t.Advance(i).Float()
	return func(seconds float64) float64 {
		switch last := period * rounds; {
		case seconds < 0 && up != nil:
			return up.At(math.Max(seconds+up.Length(), 0)).Pos
		case seconds < 0:
			return t.Position(i, 0)
		case seconds >= last && out != nil:
			return gained*(rounds-1) + out.At(math.Min(seconds-last, out.Length())).Pos
		case seconds >= last:
			return gained*(rounds-1) + t.Position(i, period)
		default:
			round := float64(int(seconds / period))
			return gained*round + t.Position(i, seconds-round*period)
		}
	}
}

// scaleIn is the scale of the picture where the product is, px a mm, in frames so many pixels
// wide; 0 where the shot does not tell it.
func scaleIn(j *job.Job, width int) float64 {
	s, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok || !s.Camera.PixelsWide.Given {
		return 0
	}
	return lensview.PixelsPerMM(j.Shot, j.Rig, j.Trajectory) * float64(width) / s.Camera.PixelsWide.Value
}
